package report

import (
	"fmt"
	"slices"

	"winterline/sim"
	"winterline/sim/answers"
)

// titledTable is a table of the screen.
type titledTable struct {
	title string
	rows  [][]string
	notes []string
}

// tables are those of the screen, with something in them.
func (c *Comparison) tables(s System) []titledTable {
	var all []titledTable
	if c.Single != nil {
		all = []titledTable{c.happenedTable(s), c.eventTable(), c.waterTable(s), c.costTable()}
	} else {
		all = []titledTable{c.countTable(s), c.oftenTable(), c.waterTable(s), c.costTable(), c.winterTable(s)}
	}
	return slices.DeleteFunc(all, func(t titledTable) bool { return len(t.rows) < 2 || len(t.rows[0]) < 2 })
}

// layouts are the indices of all layouts, the rows of most tables.
func (c *Comparison) layouts() []int {
	all := make([]int, len(c.About.Layouts))
	for i := range all {
		all[i] = i
	}
	return all
}

var keyColumn = shown[int]{"", rivalKey}

// happenedTable says what became of each layout in the one winter.
func (c *Comparison) happenedTable(s System) titledTable {
	when := func(t *float64) string {
		if t == nil {
			return ""
		}
		return shortTime(c.Single[0], *t)
	}
	margin := func(of func(answers.Margin) answers.Bound) func(int) string {
		return func(i int) string { return marginShort(c.Outcomes[i].Margin, of, s) }
	}
	return titledTable{"What became of them", filledTable(c.layouts(), []shown[int]{
		keyColumn,
		{"outcome", func(i int) string { return stateWords[c.Outcomes[i].State] }},
		{"first ice", func(i int) string { return when(c.Outcomes[i].FirstIce) }},
		{"froze shut", func(i int) string { return when(c.Outcomes[i].Shut) }},
		{"shut for", func(i int) string { return positive(c.Outcomes[i].ShutFor, spokenDuration) }},
		{"relief ran", func(i int) string {
			return positive(float64(c.Outcomes[i].ReliefRuns), func(n float64) string { return plural(n, "time") })
		}},
		{"open to", margin(openBound)},
		{"dry to", margin(dryBound)},
	}), c.tableNotes()}
}

// tableNotes explain the words of a table.
func (c *Comparison) tableNotes() (notes []string) {
	for i := range c.About.Layouts {
		for _, note := range outcomeNotes(&c.WintersAnswer, i) {
			if !slices.Contains(notes, note) {
				notes = append(notes, note)
			}
		}
	}
	return notes
}

// shortTime prints a time without its weekday, "Jan 19 04:20".
func shortTime(r *sim.Result, t float64) string { return stamp(r.Start, t).Format("Jan 2 15:04") }

// mostTimes is how many layouts have room for times of day side by side.
const mostTimes = 5

// eventTable says when each kind of event first came with each layout.
func (c *Comparison) eventTable() titledTable {
	table := [][]string{{"first"}}
	for i := range c.Single {
		table[0] = append(table[0], rivalKey(i))
	}
	for _, kind := range markedKinds {
		row, any := []string{kind.words}, false
		for _, r := range c.Single {
			text := "-"
			if first, n := eventsOf(r, kind.kind); n > 0 {
				text, any = c.eventTime(r, first), true
			}
			row = append(row, text)
		}
		if any {
			table = append(table, row)
		}
	}
	row, any := []string{"open for good"}, false
	for _, r := range c.Single {
		text := "-"
		if t := r.Verdict.Reopened; t != nil {
			text, any = c.eventTime(r, *t), true
		}
		row = append(row, text)
	}
	if any {
		table = append(table, row)
	}
	return titledTable{"When it first happened", table, nil}
}

// eventTime prints when something happened, as closely as there is room.
func (c *Comparison) eventTime(r *sim.Result, t float64) string {
	if len(c.Single) > mostTimes {
		return stamp(r.Start, t).Format("Jan 2")
	}
	return shortTime(r, t)
}

// eventsOf is when an event of a kind first came [s], and how many did.
func eventsOf(r *sim.Result, kind sim.EventKind) (first float64, n int) {
	for _, e := range r.Events {
		if e.Kind != kind {
			continue
		}
		if n == 0 {
			first = e.Time
		}
		n++
	}
	return first, n
}

// waterTable says which way the water went with each layout; of many winters in the average one.
func (c *Comparison) waterTable(s System) titledTable {
	columns := []shown[int]{keyColumn}
	for _, path := range comparePaths {
		columns = append(columns, shown[int]{path.words, func(i int) string { return positive(c.meanPath(i, path.of), s.volume) }})
	}
	title := "Which way the water went"
	if c.Single == nil {
		title += ", in the average winter"
	} else {
		ledger := func(of func(sim.Ledger) float64) func(int) string {
			return func(i int) string { return positive(of(c.Single[i].Ledger), s.volume) }
		}
		columns = append(columns, shown[int]{"own line", ledger(func(l sim.Ledger) float64 { return l.Backup })},
			shown[int]{"still held", ledger(func(l sim.Ledger) float64 { return l.HeldLine + l.HeldPocket + l.HeldBasin })})
	}
	return titledTable{title, filledTable(c.layouts(), columns), nil}
}

// comparePaths are the ways of water that are compared.
var comparePaths = []struct {
	words string
	of    func(o answers.WinterOutcome) float64 // [m³]
}{
	{"pumped", func(o answers.WinterOutcome) float64 { return o.Pumped }},
	{"far end", func(o answers.WinterOutcome) float64 { return o.Outlet }},
	{"into soil", func(o answers.WinterOutcome) float64 { return o.ToSoil }},
	{"relief", func(o answers.WinterOutcome) float64 { return o.Relief }},
	{"by house", func(o answers.WinterOutcome) float64 { return o.Rim }},
	{"floor", func(o answers.WinterOutcome) float64 { return o.OnFloor }},
	{"not taken", func(o answers.WinterOutcome) float64 { return o.Refused }},
}

// meanPath is how much water went one way in the average winter [m³].
func (c *Comparison) meanPath(layout int, of func(answers.WinterOutcome) float64) float64 {
	all := c.Of(layout)
	sum := 0.0
	for _, o := range all {
		sum += of(o)
	}
	return sum / float64(len(all))
}

// countTable says in how many winters what happened with each layout.
func (c *Comparison) countTable(s System) titledTable {
	count := func(of func(answers.WintersCount) int) func(int) string {
		return func(i int) string { return fmt.Sprint(of(c.CountOf(i))) }
	}
	some := func(of func(answers.WintersCount) int) func(int) string {
		for i := range c.About.Layouts {
			if of(c.CountOf(i)) > 0 {
				return count(of)
			}
		}
		return func(int) string { return "" }
	}
	margin := func(of func(answers.Margin) answers.Bound) func(int) string {
		return func(i int) string {
			if m, ok := c.LeastMargin(i); ok {
				return marginShort(&m, of, s)
			}
			return ""
		}
	}
	t := titledTable{fmt.Sprintf("In how many of %d winters", len(c.About.Winters)), filledTable(c.layouts(), []shown[int]{
		keyColumn,
		{"ice", some(func(n answers.WintersCount) int { return n.Iced })},
		{"froze shut", count(func(n answers.WintersCount) int { return n.Shut })},
		{"relief ran", some(func(n answers.WintersCount) int { return n.Relief })},
		{"by house", some(func(n answers.WintersCount) int { return n.Spilled })},
		{"floor wet", count(func(n answers.WintersCount) int { return n.Flooded })},
		{"not taken", some(func(n answers.WintersCount) int { return n.Refused })},
		{"open to", margin(openBound)},
		{"dry to", margin(dryBound)},
	}), nil}
	if c.About.Margins {
		t.notes = []string{"open to, dry to: those of the winter that came nearest to failing, or failed most"}
	}
	return t
}

// oftenTable says how often each layout fails.
func (c *Comparison) oftenTable() titledTable {
	return titledTable{"How often", filledTable(c.layouts(), []shown[int]{
		keyColumn,
		{"the line freezes shut", func(i int) string { return oftenShort(c.Summarize(i).Shut) }},
		{"water beside the house or on the floor", func(i int) string { return oftenShort(c.Summarize(i).Wet) }},
	}), nil}
}

// costTable says what each layout costs, in the layouts' currency.
func (c *Comparison) costTable() titledTable {
	year := "a year (90 in 100: from, to)"
	if c.Single != nil {
		year = "failures, this winter"
	}
	t := titledTable{"Costs, in the layouts' currency", filledTable(c.layouts(), []shown[int]{
		keyColumn,
		{"installed", func(i int) string {
			if !c.Priced(i) {
				return ""
			}
			return number(c.About.Layouts[i].Cost.Installed, 0)
		}},
		{year, c.lossWords},
		{"against A", func(i int) string {
			if p, ok := c.PayBack(i); ok {
				return p.String()
			}
			return ""
		}},
	}), nil}
	if unpriced, _ := c.split(func(i int) bool { return c.About.Layouts[i].Cost != nil && !c.Priced(i) }); len(unpriced) > 0 {
		t.notes = []string{"What it costs to install " + keysOf(unpriced) + " is not known: \"cost.installed=…\" in --set says it."}
	}
	if c.Single != nil {
		t.notes = append(t.notes, "One winter does not say how often: years to pay back take a long record (--weather).")
	}
	return t
}

// lossWords say what failures cost with a layout.
func (c *Comparison) lossWords(i int) string {
	if cost, ok := c.WinterCost(i); ok {
		return number(cost, 0)
	}
	l := c.Summarize(i).Loss
	if l == nil || c.Single != nil {
		return ""
	}
	return fmt.Sprintf("%s (%s to %s)", number(l.Best, 0), number(l.Low, 0), number(l.High, 0))
}

// mostMargins is how many layouts have room for margins side by side in a table of winters.
const mostMargins = 4

// winterTable is a line a winter with what became of each layout.
func (c *Comparison) winterTable(s System) titledTable {
	columns := []shown[int]{
		{"", func(w int) string { return c.About.Winters[w] }},
		{"coldest", func(w int) string { return s.temperature(c.outcome(w, 0).Lowest) }},
	}
	for i := range c.About.Layouts {
		columns = append(columns, shown[int]{rivalKey(i), func(w int) string {
			o := c.outcome(w, i)
			words := stateWords[o.State]
			if len(c.About.Layouts) <= mostMargins && o.Margin != nil {
				words += " " + marginShort(o.Margin, openBound, s)
			}
			return words
		}})
	}
	winters := make([]int, len(c.About.Winters))
	for w := range winters {
		winters[w] = w
	}
	return titledTable{"Winter by winter", filledTable(winters, columns), c.tableNotes()}
}

// outcome is what became of a layout in a winter, both by index.
func (c *Comparison) outcome(winter, layout int) answers.WinterOutcome {
	return c.Outcomes[winter*len(c.About.Layouts)+layout]
}
