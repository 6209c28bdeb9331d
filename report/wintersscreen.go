package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather/chance"
)

// WintersScreen prints how often it happened, every winter in a line, and the caution.
func WintersScreen(w io.Writer, a *answers.WintersAnswer, o Options) error {
	p := newSheet(o.Window)
	p.winterHeadlines(a)
	p.blocks(block{"Weather", wintersWords(a, o)}, block{"Left out", leftOutWords(a)})
	for i, l := range a.About.Layouts {
		p.gap()
		p.blocks(
			block{"House", []string{layoutName(l, o)}},
			block{"How sure", guessCount(l.Guesses)},
			block{"Mind", mindWords(a, i)},
			block{"How often", oftenWords(a.Summarize(i))},
			block{"How likely", likelyWords(a, i)},
		)
		p.gap()
		p.rows(outcomeTable(a, i, o.System))
		p.blocks(block{"", outcomeNotes(a, i)})
	}
	p.gap()
	p.blocks(block{"Next", optional(o.Next)}, block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// WintersBrief prints how often it happened, where the results are ("" for nowhere) and the caution.
func WintersBrief(w io.Writer, a *answers.WintersAnswer, o Options) error {
	p := newSheet(o.Window)
	p.winterHeadlines(a)
	p.blocks(block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// winterHeadlines adds one sentence a layout.
func (p *sheet) winterHeadlines(a *answers.WintersAnswer) {
	for i := range a.About.Layouts {
		p.line(wintersHeadline(a, i))
	}
}

// wintersHeadline says of a layout in how many winters what happened.
func wintersHeadline(a *answers.WintersAnswer, layout int) string {
	c := a.CountOf(layout)
	of := func(n int) string { return fmt.Sprintf("in %d of %d winters", n, c.Winters) }
	text := "THE BASEMENT STAYED DRY " + strings.ToUpper(of(c.Winters)) + "."
	switch {
	case c.Flooded > 0:
		text = "THE BASEMENT GOT WET " + strings.ToUpper(of(c.Flooded)) + "."
	case c.Refused > 0:
		text = "THE LINE DID NOT TAKE ALL THE WATER " + strings.ToUpper(of(c.Refused)) + "."
	}
	text += " The line froze shut " + of(c.Shut)
	if c.Relief > 0 {
		text += "; a relief opening ran in " + fmt.Sprint(c.Relief)
	}
	if c.Spilled > 0 {
		text += "; water came out beside the house in " + fmt.Sprint(c.Spilled)
	}
	l := a.About.Layouts[layout]
	if len(a.About.Layouts) > 1 {
		text = l.Name + ": " + text
	}
	if l.Invented {
		text = "An invented house: " + text
	}
	return text + "."
}

// oftenWords say how often the line fails and what that costs.
func oftenWords(s answers.WintersSummary) []string {
	of := func(f chance.Frequency) string {
		if _, fitted := f.Period(); fitted {
			return f.String()
		}
		return f.String() + ", so " + f.Chance.String()
	}
	lines := []string{"the line freezes shut: " + of(s.Shut), "water beside the house or on the floor: " + of(s.Wet)}
	if l := s.Loss; l != nil {
		lines = append(lines, fmt.Sprintf("expected cost a year, service calls and flooded basements: %s (%s to %s), in the layout's currency",
			number(l.Best, 0), number(l.Low, 0), number(l.High, 0)))
	}
	return lines
}

func layoutName(l answers.LayoutAbout, o Options) string {
	return o.caseName(l.Name, l.Title)
}

// wintersWords says of which record the winters are.
func wintersWords(a *answers.WintersAnswer, o Options) []string {
	n := len(a.About.Winters)
	facts := []string{fmt.Sprintf("%d winters, %s to %s", n, a.About.Winters[0], a.About.Winters[n-1])}
	if o.Weather != "" {
		facts = append(facts, o.Weather)
	}
	if a.About.Spans > 1 {
		facts = append(facts, plural(float64(a.About.Spans), "span")+" between long gaps")
	}
	return o.packed(facts...)
}

// leftOutWords names the winters that were left out, and why.
func leftOutWords(a *answers.WintersAnswer) (lines []string) {
	for _, why := range []struct{ key, words string }{
		{answers.WhyWeather, "the record lacks some of November to March"},
		{answers.WhyWater, "the log of pump or inflow lacks some of December to February"},
	} {
		var names []string
		for _, l := range a.About.LeftOut {
			if l.Why == why.key {
				names = append(names, l.Winter)
			}
		}
		if len(names) > 0 {
			lines = append(lines, list(names)+": "+why.words)
		}
	}
	return lines
}

// mindWords are warnings of the inputs, and of snow that nobody recorded.
func mindWords(a *answers.WintersAnswer, layout int) []string {
	lines := warningSentences(a.About.Layouts[layout].Warnings)
	for _, d := range a.About.Doubts {
		lines = append(lines, "Weather: "+d+".")
	}
	for _, o := range a.Of(layout) {
		if o.Snow == "none" {
			return append(lines, "No snow depth in the weather: relief assumed free of snow (unsafe side), ground assumed bare for frost (safe side).")
		}
	}
	return lines
}

// stateWords says in a table what became of the line and the water in a winter.
var stateWords = map[string]string{
	sim.Clear.String(): "no ice", sim.Iced.String(): "ice", sim.ShutRelieved.String(): "shut",
	sim.Spilled.String(): "spilled", sim.Flooded.String(): "floor wet",
}

// outcomeTable is a line a winter, with the columns in which anything happened.
func outcomeTable(a *answers.WintersAnswer, layout int, s System) [][]string {
	all, drawn := a.Of(layout), drawnShort(a, layout)
	return filledTable(all, []shown[answers.WinterOutcome]{
		{"", func(o answers.WinterOutcome) string { return o.Winter }},
		{"coldest", func(o answers.WinterOutcome) string { return s.temperature(o.Lowest) }},
		{"frost", func(o answers.WinterOutcome) string { return positive(o.Frost, s.depth) }},
		{"outcome", func(o answers.WinterOutcome) string { return stateWords[o.State] }},
		{"shut for", func(o answers.WinterOutcome) string { return positive(o.ShutFor, spokenDuration) }},
		{"relief", func(o answers.WinterOutcome) string { return positive(o.Relief, s.volume) }},
		{"by house", func(o answers.WinterOutcome) string { return positive(o.Rim, s.volume) }},
		{"floor", func(o answers.WinterOutcome) string { return positive(o.OnFloor, s.volume) }},
		{"not taken", func(o answers.WinterOutcome) string { return positive(o.Refused, s.volume) }},
		{"open to", func(o answers.WinterOutcome) string { return marginShort(o.Margin, openBound, s) }},
		{"dry to", func(o answers.WinterOutcome) string { return marginShort(o.Margin, dryBound, s) }},
		{"drawn shut", func(o answers.WinterOutcome) string {
			return drawn(slices.IndexFunc(all, func(x answers.WinterOutcome) bool { return x.Winter == o.Winter }))
		}},
	})
}

// positive prints what is more than nothing.
func positive(v float64, show func(float64) string) string {
	if v <= 0 {
		return ""
	}
	return show(v)
}

// marginShort prints a margin in a column: in degrees, with its sign; "close" for what is too close to call.
func marginShort(m *answers.Margin, of func(answers.Margin) answers.Bound, s System) string {
	if m == nil {
		return ""
	}
	b := of(*m)
	switch {
	case math.Abs(b.K) < tooClose:
		return "close"
	case b.Beyond && b.K > 0:
		return ">" + s.difference(b.K)
	case b.Beyond:
		return "<-" + s.difference(-b.K)
	case b.K < 0:
		return "-" + s.difference(-b.K)
	}
	return "+" + s.difference(b.K)
}

// outcomeNotes explain the table's columns.
func outcomeNotes(a *answers.WintersAnswer, layout int) []string {
	var notes []string
	if a.CountOf(layout).Shut > 0 {
		notes = append(notes, "shut: frozen shut, the water went another way; spilled: some of it beside the house")
	}
	if a.About.Draws > 0 {
		notes = append(notes, "drawn shut: in how many of the draws the line froze shut")
	}
	all := a.Of(layout)
	if len(all) == 0 || all[0].Margin == nil {
		return notes
	}
	notes = append(notes, "open to, dry to: how many degrees colder the winter could have been until the line shut, or until water came out beside the house or onto the floor; with a minus, how many degrees warmer would have been needed; close: too close to call")
	for _, o := range all {
		if !o.Margin.Open.Monotone || !o.Margin.Dry.Monotone {
			return append(notes, "in some winter a colder one did better than a milder one: its margin is the least cold that failed")
		}
	}
	return notes
}
