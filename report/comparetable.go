package report

import (
	"fmt"
	"io"

	"winterline/sim/answers"
)

const compareName = "compare.csv"

// CompareTable gives compare.csv: one row a layout.
func CompareTable(c *Comparison) File {
	return File{compareName, func(w io.Writer) error {
		return writeTable(w, compareColumns, len(c.About.Layouts), func(i int) rivalRow { return newRivalRow(c, i) })
	}}
}

// rivalRow is one row of compare.csv.
type rivalRow struct {
	c      *Comparison
	layout int
	count  answers.WintersCount
	all    answers.WintersSummary
}

func newRivalRow(c *Comparison, i int) rivalRow {
	all := c.Summarize(i)
	return rivalRow{c, i, all.Count, all}
}

// worst is the state of the worst winter.
func (r rivalRow) worst() string {
	worst := r.c.Of(r.layout)[0]
	for _, o := range r.c.Of(r.layout) {
		if o.Worse(worst) {
			worst = o
		}
	}
	return worst.State
}

func (r rivalRow) margin(of func(answers.Margin) answers.Bound) string {
	m, ok := r.c.LeastMargin(r.layout)
	if !ok {
		return ""
	}
	return fixed(of(m).K, 1)
}

// mean prints how much water went one way in an average winter.
func (r rivalRow) mean(of func(answers.WinterOutcome) float64) string {
	return litres(r.c.meanPath(r.layout, of))
}

func (r rivalRow) installed() string {
	if !r.c.Priced(r.layout) {
		return ""
	}
	return fixed(r.c.About.Layouts[r.layout].Cost.Installed, 2)
}

// loss prints what failures cost a year; of one winter, what they cost in it.
func (r rivalRow) loss() string {
	if cost, ok := r.c.WinterCost(r.layout); ok {
		return fixed(cost, 2)
	}
	if r.all.Loss == nil || r.c.Single != nil {
		return ""
	}
	return fixed(r.all.Loss.Best, 2)
}

func (r rivalRow) payback() string {
	if p, ok := r.c.PayBack(r.layout); ok {
		return p.Worth.String()
	}
	return ""
}

func (r rivalRow) years() string {
	if p, ok := r.c.PayBack(r.layout); ok && p.Years > 0 {
		return fixed(p.Years, 1)
	}
	return ""
}

var compareColumns = []column[rivalRow]{
	{Column{"layout", "", "its letter"}, func(r rivalRow) string { return rivalKey(r.layout) }},
	{Column{"case", "", "the case, or the name of the change"}, func(r rivalRow) string { return r.c.About.Layouts[r.layout].Name }},
	{Column{"change", "", "what makes the first layout into this; empty: a case of its own"}, func(r rivalRow) string { return WrittenChange(r.c.Changes[r.layout]) }},
	{Column{"winters", "", "simulated; 1 also for a record of a part of one"}, func(r rivalRow) string { return fmt.Sprint(r.count.Winters) }},
	{Column{"worst", "", "verdict of the worst: clear, iced, shut-relieved, spilled or flooded"}, rivalRow.worst},
	{Column{"iced", "", "winters with ice in the line"}, func(r rivalRow) string { return fmt.Sprint(r.count.Iced) }},
	{Column{"shut", "", "winters in which the line froze shut"}, func(r rivalRow) string { return fmt.Sprint(r.count.Shut) }},
	{Column{"relief", "", "winters in which a relief opening ran"}, func(r rivalRow) string { return fmt.Sprint(r.count.Relief) }},
	{Column{"spilled", "", "winters in which water was let go beside the house"}, func(r rivalRow) string { return fmt.Sprint(r.count.Spilled) }},
	{Column{"flooded", "", "winters in which the basement floor got wet"}, func(r rivalRow) string { return fmt.Sprint(r.count.Flooded) }},
	{Column{"refused", "", "winters in which the line did not take all the water and no basin says where it stays"}, func(r rivalRow) string { return fmt.Sprint(r.count.Refused) }},
	{Column{"pumped_l", "L", "pumped, in the average winter; likewise the columns below"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.Pumped }) }},
	{Column{"outlet_l", "L", "let go at the far end"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.Outlet }) }},
	{Column{"pocket_to_soil_l", "L", "taken up by the soil around the rock pit"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.ToSoil }) }},
	{Column{"relief_l", "L", "out of relief openings"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.Relief }) }},
	{Column{"rim_l", "L", "out of the top of the standpipe, beside the house"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.Rim }) }},
	{Column{"floor_l", "L", "on the basement floor"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.OnFloor }) }},
	{Column{"refused_l", "L", "not taken by the line, where no basin says where it stays"}, func(r rivalRow) string { return r.mean(func(o answers.WinterOutcome) float64 { return o.Refused }) }},
	{Column{"margin_open_k", "K", "least margin of all winters until the line shuts; 25 or -25: that or more; empty: not asked for"},
		func(r rivalRow) string { return r.margin(openBound) }},
	{Column{"margin_dry_k", "K", "the same until water is let go beside the house or reaches the floor"}, func(r rivalRow) string { return r.margin(dryBound) }},
	{Column{"installed", "currency", "what it costs to install; empty: not known"}, rivalRow.installed},
	{Column{"failures", "currency", "what failures cost: expected a year; with one winter, in it; empty: the layout says no costs"}, rivalRow.loss},
	{Column{"worth", "", "against the first: pays-back, at-once, never or used-up; empty: not known"}, rivalRow.payback},
	{Column{"payback_years", "years", "until it has paid for itself, or used up what it saved"}, rivalRow.years},
}
