package report

import (
	"io"
	"strconv"
	"time"

	"winterline/sim/answers"
)

const wintersName = "winters.csv"

// WintersTable gives winters.csv: one row for each layout and winter.
func WintersTable(a *answers.WintersAnswer) File {
	return File{wintersName, func(w io.Writer) error {
		layouts := a.About.Layouts
		drawn := make([][]answers.DrawnCount, len(layouts))
		for i := range layouts {
			drawn[i] = a.DrawnOf(i)
		}
		return writeTable(w, winterColumns, len(a.Outcomes), func(i int) winterRow {
			layout := a.Outcomes[i].Layout
			row := winterRow{a.Outcomes[i], layouts[layout].Name, nil}
			if drawn[layout] != nil {
				row.drawn = &drawn[layout][i/len(layouts)]
			}
			return row
		})
	}}
}

// winterRow is one row of winters.csv.
type winterRow struct {
	answers.WinterOutcome
	name  string
	drawn *answers.DrawnCount // nil: nothing was
}

// draws prints a count of draws; empty where nothing was drawn.
func (r winterRow) draws(of func(*answers.DrawnCount) int) string {
	if r.drawn == nil {
		return ""
	}
	return strconv.Itoa(of(r.drawn))
}

// moment prints an instant [s] of the winter; nil, which means never, is empty.
func (r winterRow) moment(t *float64) string {
	if t == nil {
		return ""
	}
	return tableTime(r.Start, *t)
}

// bound prints a margin [K] to a tenth; empty: not asked for.
func (r winterRow) bound(of func(answers.Margin) answers.Bound) string {
	if r.Margin == nil {
		return ""
	}
	return fixed(of(*r.Margin).K, 1)
}

func openBound(m answers.Margin) answers.Bound { return m.Open }
func dryBound(m answers.Margin) answers.Bound  { return m.Dry }

// hoursFor prints a length of time [s] in hours.
func hoursFor(s float64) string { return fixed(s/float64(time.Hour/time.Second), 2) }

var winterColumns = []column[winterRow]{
	{Column{"case", "", "the case"}, func(r winterRow) string { return r.name }},
	{Column{"winter", "", "July to June, 2014-15"}, func(r winterRow) string { return r.Winter }},
	{Column{"state", "", "the winter's verdict: clear, iced, shut-relieved, spilled or flooded"}, func(r winterRow) string { return r.State }},
	{Column{"coldest_c", "°C", "lowest air temperature"}, func(r winterRow) string { return fixed(r.Lowest, 1) }},
	{Column{"coldest", "", "when that was"}, func(r winterRow) string { return recordTime(r.LowestAt) }},
	{Column{"freezing_degree_days_k_d", "K d", "each day's mean air temperature below freezing, all days added up"},
		func(r winterRow) string { return fixed(r.DegreeDays, 1) }},
	{Column{"frost_m", "m", "deepest frost in the undisturbed ground; 0: none, or nothing is buried"}, func(r winterRow) string { return fixed(r.Frost, 3) }},
	{Column{"first_ice", "", "when ice first formed; empty: never"}, func(r winterRow) string { return r.moment(r.FirstIce) }},
	{Column{"shut", "", "when the line first froze shut; empty: never"}, func(r winterRow) string { return r.moment(r.Shut) }},
	{Column{"spill", "", "when water was first let go beside the house; empty: never"}, func(r winterRow) string { return r.moment(r.Spill) }},
	{Column{"floor", "", "when the basement floor first got wet; empty: never"}, func(r winterRow) string { return r.moment(r.Floor) }},
	{Column{"ice_h", "h", "longest total time with ice of any segment"}, func(r winterRow) string { return hoursFor(r.IceFor) }},
	{Column{"shut_h", "h", "total time frozen shut"}, func(r winterRow) string { return hoursFor(r.ShutFor) }},
	{Column{"still_shut", "", "1: shut when the winter's season ended, else 0"}, func(r winterRow) string { return yes(r.StillShut) }},
	{Column{"relief_runs", "", "pump cycles in which a relief opening ran"}, func(r winterRow) string { return strconv.Itoa(r.ReliefRuns) }},
	{Column{"relief_h", "h", "time that the pump ran in these"}, func(r winterRow) string { return hoursFor(r.ReliefFor) }},
	{Column{"pumped_l", "L", "pumped"}, func(r winterRow) string { return litres(r.Pumped) }},
	{Column{"outlet_l", "L", "let go at the far end"}, func(r winterRow) string { return litres(r.Outlet) }},
	{Column{"relief_l", "L", "out of relief openings"}, func(r winterRow) string { return litres(r.Relief) }},
	{Column{"rim_l", "L", "out of the top of the standpipe, beside the house"}, func(r winterRow) string { return litres(r.Rim) }},
	{Column{"pocket_to_soil_l", "L", "taken up by the soil around the rock pit"}, func(r winterRow) string { return litres(r.ToSoil) }},
	{Column{"floor_l", "L", "on the basement floor"}, func(r winterRow) string { return litres(r.OnFloor) }},
	{Column{"refused_l", "L", "not taken by the line, where no basin says where it stays"}, func(r winterRow) string { return litres(r.Refused) }},
	{Column{"margin_open_k", "K", "how much colder until the line first shuts, negative: how much warmer would have kept it open; 25 or -25: that or more; empty: not asked for"},
		func(r winterRow) string { return r.bound(openBound) }},
	{Column{"margin_dry_k", "K", "the same until water is let go beside the house or reaches the floor"},
		func(r winterRow) string { return r.bound(dryBound) }},
	{Column{"drawn_shut", "", "draws in which the line froze shut; empty: nothing was drawn"},
		func(r winterRow) string { return r.draws(func(c *answers.DrawnCount) int { return c.Shut }) }},
	{Column{"drawn_wet", "", "draws in which water came out beside the house, reached the floor or was not taken"},
		func(r winterRow) string { return r.draws(func(c *answers.DrawnCount) int { return c.Wet }) }},
	{Column{"drawn_floor", "", "draws in which the basement floor got wet"},
		func(r winterRow) string { return r.draws(func(c *answers.DrawnCount) int { return c.Flooded }) }},
}

// yes prints a truth as 1 or 0.
func yes(is bool) string {
	if is {
		return "1"
	}
	return "0"
}
