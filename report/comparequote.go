package report

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"winterline/sim"
)

// quoteWords are a paragraph that a person may paste into a quote: what was simulated under which weather, what came of
// it, on which guesses, and how far that goes.
func quoteWords(c *Comparison, o Options) string {
	parts := []string{c.quoteBasis(o)}
	if c.Single != nil {
		for i := range c.Single {
			parts = append(parts, c.quoteLayout(i, o.System))
		}
		parts = append(parts, "This is one record; it does not say how often such a winter comes.")
	} else {
		parts = append(parts, c.quoteCounts()...)
	}
	return strings.Join(append(parts, c.quoteGuesses(),
		"This is a simulation built on those inputs, not an inspection or a promise; another winter may be colder. Local codes and licensed practice come first."), " ")
}

// quoteBasis says what was simulated, over which weather.
func (c *Comparison) quoteBasis(o Options) string {
	file := "one record"
	if o.Weather != "" {
		file = filepath.Base(o.Weather)
	}
	span := ""
	if c.Single != nil {
		span = datesOf(c.Single[0].Start, c.Single[0].Hourly.Time)
	} else {
		n := len(c.About.Winters)
		span = fmt.Sprintf("%d winters, %s to %s", n, c.About.Winters[0], c.About.Winters[n-1])
	}
	words := fmt.Sprintf("the discharge line was simulated in %d layouts over the same weather (%s: %s; winterline %s).", len(c.About.Layouts), file, span, c.About.Version)
	if c.About.Layouts[0].Invented {
		words = "An invented house: " + words
	}
	for i := range c.About.Layouts {
		words += " " + rivalKey(i) + ": " + c.shortName(i) + "."
	}
	return capital(words)
}

// quoteLayout says what came of a layout in the one winter.
func (c *Comparison) quoteLayout(i int, s System) string {
	r := c.Single[i]
	table := newWaterTable(r, s)
	words := "With " + rivalKey(i) + " " + quoteLine(r, &table)
	if m := c.Outcomes[i].Margin; m != nil {
		words += " (" + lineCloseWords(m.Open, s) + ")"
	}
	return words + "; " + quoteBasement(r, &table) + "."
}

// quoteLine says what became of the line, and what the relief openings did.
func quoteLine(r *sim.Result, table *waterTable) string {
	v := r.Verdict
	words := "the line stayed open"
	if v.Closed != nil {
		words = "the line froze shut on " + spokenTime(r.Start, *v.Closed) + ", for " + spokenDuration(v.ShutFor) + " in all"
	}
	if r.Ledger.Relief > 0 {
		words += ", and the " + reliefWords(r) + " let " + table.amount(pathRelief) + " out"
	}
	return words
}

// quoteBasement says what became of the basement.
func quoteBasement(r *sim.Result, table *waterTable) string {
	switch {
	case r.Verdict.State == sim.Flooded:
		return "the basement floor got wet"
	case r.Layout.Basin == nil && refusedVolume(r) > 1e-6:
		return table.system.volume(refusedVolume(r)) + " were not taken by the line"
	case r.Verdict.State == sim.Spilled:
		return "the basement stayed dry, but water ran out beside the house"
	}
	return "the basement stayed dry"
}

// quoteCounts say what came of the layouts in many winters.
func (c *Comparison) quoteCounts() []string {
	lines := []string{"The line froze shut " + c.inWinters(c.shut) + "."}
	if c.total(c.spilled) > 0 {
		lines = append(lines, "Water came out beside the house "+c.inWinters(c.spilled)+".")
	}
	if c.total(c.refused) > 0 {
		lines = append(lines, "The line did not take all of the water "+c.inWinters(c.refused)+".")
	}
	lines = append(lines, "The basement floor got wet "+c.inWinters(c.flooded)+".")
	for i := range c.About.Layouts {
		f := c.Summarize(i).Shut
		if _, fitted := f.Period(); fitted {
			lines = append(lines, "With "+rivalKey(i)+" the line is expected to freeze shut "+f.String()+".")
		}
		if p, ok := c.PayBack(i); ok {
			lines = append(lines, "Against A, "+rivalKey(i)+" "+p.String()+".")
		}
	}
	return lines
}

// quoteGuesses name the inputs that nobody measured, of all layouts; the same thing at several places is told once.
func (c *Comparison) quoteGuesses() string {
	var names []string
	for _, l := range c.About.Layouts {
		for _, g := range l.Guesses {
			names = append(names, cmp.Or(plainGuess(g.Key), g.Key))
		}
	}
	if len(names) == 0 {
		return "No input was left to a guess."
	}
	slices.Sort(names)
	return "Guessed, because nobody measured them: " + list(slices.Compact(names)) + "."
}
