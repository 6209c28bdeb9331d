package report

import (
	"io"
	"strconv"

	"winterline/sim"
)

// hourRow is one weather row of a result.
type hourRow struct {
	r *sim.Result
	i int
}

// series makes the getter of a column from the series that it shows.
func series(decimals int, pick func(*sim.Hourly) []float64) func(hourRow) string {
	return func(h hourRow) string { return fixed(at(pick(&h.r.Hourly), h.i), decimals) }
}

// total is series for running totals, which print in litres.
func total(pick func(*sim.Hourly) []float64) func(hourRow) string {
	return func(h hourRow) string { return litres(at(pick(&h.r.Hourly), h.i)) }
}

var hourlyColumns = []column[hourRow]{
	{Column{"time", "", "local standard time"},
		func(h hourRow) string { return tableTime(h.r.Start, h.r.Hourly.Time[h.i]) }},
	{Column{"hour", "h", "hours since the first weather row"},
		func(h hourRow) string { return hours(&h.r.Hourly.Time[h.i]) }},
	{Column{"air_temp_c", "°C", "outdoor air"},
		series(2, func(h *sim.Hourly) []float64 { return h.Air })},
	{Column{"wind_m_s", "m/s", "wind at the pipe"},
		series(2, func(h *sim.Hourly) []float64 { return h.Wind })},
	{Column{"snow_m", "m", "snow lying on the line; empty: no snow record"},
		series(3, func(h *sim.Hourly) []float64 { return h.SnowDepth })},
	{Column{"frost_m", "m", "depth of the lowest frozen point of the undisturbed ground; 0: none"},
		series(3, func(h *sim.Hourly) []float64 { return h.Frost })},
	{Column{"basin_m", "m", "water level above the bottom of the basin; empty: no basin"},
		series(4, func(h *sim.Hourly) []float64 { return h.Basin })},
	{Column{"standpipe_m", "m", "water level in the standpipe above the ground at the wall; empty: no standpipe"},
		series(4, func(h *sim.Hourly) []float64 { return h.Standpipe })},
	{Column{"pocket_full", "", "share of the rock pit's void that is full, 0 to 1; empty: no rock pit"},
		series(4, func(h *sim.Hourly) []float64 { return h.Pocket })},
	{Column{"draught_m_s", "m/s", "speed of outdoor air drawn through the line up to that row; empty: it is not open at both ends"},
		series(3, func(h *sim.Hourly) []float64 { return h.Draught })},
	{Column{"mound_outlet_m", "m", "thickness of the ice over the lid, or before the open end, from water let go there"},
		series(4, func(h *sim.Hourly) []float64 { return h.MoundOutlet })},
	{Column{"mound_relief_m", "m", "the same below the relief opening, of several the thickest; empty: no relief"},
		series(4, func(h *sim.Hourly) []float64 { return h.MoundRelief })},
}

var hourlyPathColumns = []column[hourRow]{
	{Column{"outlet_l", "L", "let go at the far end so far"},
		total(func(h *sim.Hourly) []float64 { return h.Outlet })},
	{Column{"relief_l", "L", "out of relief openings so far"},
		total(func(h *sim.Hourly) []float64 { return h.Relief })},
	{Column{"rim_l", "L", "out of the top of the standpipe, beside the house, so far"},
		total(func(h *sim.Hourly) []float64 { return h.Rim })},
	{Column{"to_soil_l", "L", "taken up by the soil around the rock pit so far"},
		total(func(h *sim.Hourly) []float64 { return h.ToSoil })},
	{Column{"floor_l", "L", "on the basement floor so far"},
		total(func(h *sim.Hourly) []float64 { return h.Floor })},
}

// segmentColumn is a column that every segment has in hourly.csv.
type segmentColumn struct {
	suffix, unit, meaning string
	decimals              int
	pick                  func(*sim.SegmentHourly) []float64
}

var hourlySegmentColumns = []segmentColumn{
	{"_water_c", "°C", "lowest temperature of the segment's standing water or ice; empty: none stands there", 3,
		func(s *sim.SegmentHourly) []float64 { return s.Water }},
	{"_ice_fraction", "", "share of its standing water that is ice, 0 to 1", 6,
		func(s *sim.SegmentHourly) []float64 { return s.Ice }},
	{"_fill", "", "standing water and ice over the volume of its bore, 0 to 1", 6,
		func(s *sim.SegmentHourly) []float64 { return s.Fill }},
}

func segmentDescriptions() []Column {
	out := make([]Column, len(hourlySegmentColumns))
	for i, c := range hourlySegmentColumns {
		out[i] = Column{"<segment>" + c.suffix, c.unit, c.meaning}
	}
	return out
}

func writeHourly(w io.Writer, r *sim.Result) error {
	columns := append([]column[hourRow]{}, hourlyColumns...)
	for i, stem := range segmentStems(r) {
		for _, c := range hourlySegmentColumns {
			columns = append(columns, column[hourRow]{
				Column{stem + c.suffix, c.unit, c.meaning},
				func(h hourRow) string { return fixed(at(c.pick(&h.r.Hourly.Segments[i]), h.i), c.decimals) },
			})
		}
	}
	columns = append(columns, hourlyPathColumns...)
	return writeTable(w, columns, len(r.Hourly.Time), func(i int) hourRow { return hourRow{r, i} })
}

// segmentStems gives each segment's column name stem. Names that would fall together,
// such as "yard run" and "Yard-run", get a number from the second on, and none may
// repeat a column that belongs to no segment.
func segmentStems(r *sim.Result) []string {
	taken := map[string]bool{}
	for _, c := range append(describe(hourlyColumns), describe(hourlyPathColumns)...) {
		taken[c.Name] = true
	}
	// Names that stand for themselves come first, so that "a 2" keeps "a_2" and a
	// second "a" moves on to "a_3".
	stems := make([]string, len(r.Hourly.Segments))
	var later []int
	for i := range stems {
		stem := columnName(r.Segments[i].Name)
		if !claim(taken, stem) {
			later = append(later, i)
			continue
		}
		stems[i] = stem
	}
	for _, i := range later {
		for n := 2; stems[i] == ""; n++ {
			stem := columnName(r.Segments[i].Name) + "_" + strconv.Itoa(n)
			if claim(taken, stem) {
				stems[i] = stem
			}
		}
	}
	return stems
}

// claim takes all columns of a stem, or none when one of them is taken.
func claim(taken map[string]bool, stem string) bool {
	for _, c := range hourlySegmentColumns {
		if taken[stem+c.suffix] {
			return false
		}
	}
	for _, c := range hourlySegmentColumns {
		taken[stem+c.suffix] = true
	}
	return true
}
