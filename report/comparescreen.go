package report

import (
	"io"
	"slices"
	"strings"

	"winterline/sim"
	"winterline/sim/answers"
)

// Comparison is what became of layouts under the same weather, as it is told.
type Comparison struct {
	*answers.Comparison
	Notes []string // of what was read, in sentences
}

// rivalKey is the letter by which a layout goes in tables and charts.
func rivalKey(layout int) string { return string(rune('A' + layout)) }

// CompareScreen prints layouts side by side, a paragraph for a quote, and the caution.
func CompareScreen(w io.Writer, c *Comparison, o Options) error {
	p := newSheet(o.Window)
	p.line(compareHeadline(c))
	p.blocks(c.aboutBlocks(o)...)
	for _, table := range c.tables(o.System) {
		p.gap()
		p.line(table.title)
		p.rows(table.rows)
		p.blocks(block{"", table.notes})
	}
	p.gap()
	p.blocks(
		block{"For a quote", []string{quoteWords(c, o)}},
		block{"", []string{""}},
		block{"Next", optional(o.Next)}, block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// CompareBrief prints what became of the layouts, where the results are and the caution.
func CompareBrief(w io.Writer, c *Comparison, o Options) error {
	p := newSheet(o.Window)
	p.line(compareHeadline(c))
	p.blocks(block{"Layouts", c.layoutLines()}, block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// aboutBlocks say what was compared, under which weather and on which guesses.
func (c *Comparison) aboutBlocks(o Options) []block {
	weather := block{"Weather", wintersWords(&c.WintersAnswer, o)}
	if c.Single != nil {
		r := c.Single[0]
		weather.lines = o.packed(datesOf(r.Start, r.Hourly.Time), strings.TrimPrefix(weatherWords(o), "Weather: "))
	}
	return []block{
		{"Layouts", c.layoutLines()},
		weather,
		{"Left out", leftOutWords(&c.WintersAnswer)},
		{"How sure", c.together(func(i int) []string { return guessCount(c.About.Layouts[i].Guesses) })},
		{"Mind", append(slices.Clone(c.Notes), c.together(c.warnings)...)},
	}
}

// layoutLines name the layouts, each with its letter.
func (c *Comparison) layoutLines() (lines []string) {
	for i := range c.About.Layouts {
		lines = append(lines, rivalKey(i)+": "+c.layoutName(i))
	}
	return lines
}

// layoutName is the name of a layout, with its title or with what makes it of the first.
func (c *Comparison) layoutName(i int) string {
	l := c.About.Layouts[i]
	words := WrittenChange(c.Changes[i])
	switch {
	case c.Changes[i] == nil && l.Title != "" && l.Title != l.Name:
		return l.Name + ", " + l.Title
	case c.Changes[i] == nil:
		return l.Name
	case l.Name == words:
		return "A " + words
	}
	return l.Name + ": A " + words
}

// shortName is the name of a layout where there is little room: of one that was made of the first the name of the
// change alone.
func (c *Comparison) shortName(i int) string {
	if l := c.About.Layouts[i]; c.Changes[i] != nil {
		return l.Name
	}
	return c.layoutName(i)
}

// warnings are what the reader of a layout's results must know.
func (c *Comparison) warnings(i int) []string {
	if c.Single != nil {
		return warningSentences(c.resultWarnings(i))
	}
	return append(warningSentences(c.supposed(i)), mindWords(&c.WintersAnswer, i)...)
}

// supposed is the warning on a layout of which nothing says how often its pump runs.
func (c *Comparison) supposed(i int) (warnings []sim.Warning) {
	for _, g := range c.About.Layouts[i].Guesses {
		if g.Key == "water.cycles" {
			warnings = append(warnings, SupposedCycles(sim.Supposed{Plan: g.Text}))
		}
	}
	return warnings
}

// resultWarnings are those of the one winter's result, and of its margins.
func (c *Comparison) resultWarnings(i int) []sim.Warning {
	all := append(c.supposed(i), c.Single[i].Warnings...)
	if m, ok := c.LeastMargin(i); ok {
		all = append(all, MarginWarnings(m)...)
	}
	return all
}

// together lists what is said of layouts, each sentence once, with the letters of those that it is about where it is
// not about all.
func (c *Comparison) together(of func(layout int) []string) []string {
	var said []string
	about := map[string][]int{}
	for i := range c.About.Layouts {
		for _, sentence := range of(i) {
			if about[sentence] == nil {
				said = append(said, sentence)
			}
			about[sentence] = append(about[sentence], i)
		}
	}
	for i, sentence := range said {
		if layouts := about[sentence]; len(layouts) < len(c.About.Layouts) {
			said[i] = keysOf(layouts) + ": " + sentence
		}
	}
	return said
}

// keysOf lists letters, "A, C and D".
func keysOf(layouts []int) string {
	var keys []string
	for _, i := range layouts {
		keys = append(keys, rivalKey(i))
	}
	return list(keys)
}
