package report

import (
	"io"
	"math"
	"strings"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

// SizeAnswer is how little of one or two quantities does it, and the case that it is about.
type SizeAnswer struct {
	Name     string // of the case
	Invented bool
	Layout   *pipe.Layout // as it is
	Weather  *weather.Series
	Warnings []sim.Warning     // on the case
	Sized    *answers.Sized    // of one quantity
	Two      *answers.SizedTwo // of two; Sized is nil then
}

// keep is what was to be kept.
func (a *SizeAnswer) keep() answers.Keep {
	if a.Sized != nil {
		return a.Sized.Keep
	}
	return a.Two.Keep
}

// SizeScreen prints the answer, the curve behind it, what it takes and the caution.
func SizeScreen(w io.Writer, a *SizeAnswer, o Options) error {
	blocks := []block{{"House", o.packed(o.caseName(a.Name, a.Layout.Title), datesOf(a.Weather.Start, a.Weather.Time), weatherWords(o))},
		{"How sure", guessCount(a.Layout.Guesses)}}
	if a.Sized != nil {
		blocks = append(blocks, a.oneBlocks(o.System)...)
	} else {
		blocks = append(blocks, block{"Mind", append(warningSentences(a.Warnings), twoMind(a)...)}, block{"", []string{""}}, block{"Both", twoTable(a, o.System)})
	}
	blocks = append(blocks, block{"", []string{""}}, block{"Next", optional(o.Next)}, block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return writeSize(w, a, o, blocks)
}

// SizeBrief prints the answer, where the results are and the caution.
func SizeBrief(w io.Writer, a *SizeAnswer, o Options) error {
	return writeSize(w, a, o, []block{{"Mind", warningSentences(a.Warnings)}, {"Results", optional(o.Results)}, {"Caution", []string{caution}}})
}

func writeSize(w io.Writer, a *SizeAnswer, o Options, blocks []block) error {
	p := o.sheet()
	p.line(sizeHeadline(a, o.System))
	p.blocks(blocks...)
	return p.print(w)
}

// oneBlocks tell of one quantity.
func (a *SizeAnswer) oneBlocks(s System) []block {
	return []block{
		{"Mind", append(warningSentences(a.Warnings), sizeMind(a, s)...)},
		{"", []string{""}},
		{"As it is", nowWords(a, s)},
		{"Tried", curveTable(a, s)},
		{"Takes", takesOf(a.change())},
		{"New risks", risksOf(a.change())},
		{"Write it", editWords(editsOf(a.change()))},
	}
}

// change is the answer as a change to the layout; nil: there is none, or no foam is needed.
func (a *SizeAnswer) change() *answers.Tried {
	if z := a.Sized; z.Least != nil && (z.Vary.Quantity != answers.ByInsulation || z.Least.Value > 0) {
		return z.Least
	}
	return nil
}

func takesOf(t *answers.Tried) []string {
	if t == nil {
		return nil
	}
	return []string{takesWords([]answers.Change{t.Change})}
}

func risksOf(t *answers.Tried) []string {
	if t == nil {
		return nil
	}
	return paragraph(riskWords(answers.Remedy{Changes: []answers.Change{t.Change}}, US))
}

// editsOf are those that make the answer.
func editsOf(t *answers.Tried) []pipe.Edit {
	if t == nil {
		return nil
	}
	return t.Change.Edits
}

// editWords are the values that a person writes into layout.toml to make edits.
func editWords(edits []pipe.Edit) (lines []string) {
	for _, e := range edits {
		if e.Value == "" {
			lines = append(lines, "take out "+e.Path)
			continue
		}
		lines = append(lines, e.Path+" = "+quoted(e.Value))
	}
	return lines
}

// quoted puts a value that is a plain text into quotes, as layout.toml takes it.
func quoted(value string) string {
	if strings.HasPrefix(value, "[") || strings.HasPrefix(value, "{") || value == "true" || value == "false" {
		return value
	}
	return `"` + value + `"`
}

// curveTable lists what was tried, a value a line.
func curveTable(a *SizeAnswer, s System) []string {
	var table [][]string
	for _, t := range a.Sized.Curve {
		row := []string{sizeValue(a.Sized.Vary.Quantity, t.Value, s)}
		switch {
		case t.Change.Barred != answers.BarNone:
			row = append(row, "not possible here")
		case t.Survives:
			row = append(row, "does it", marginOf(t, s))
		default:
			row = append(row, "does not", marginOf(t, s))
		}
		table = append(table, row)
	}
	return rowsOf(table)
}

func marginOf(t answers.Tried, s System) string {
	if t.Margin == nil {
		return ""
	}
	return marginLeftWords(*t.Margin, s)
}

// twoTable lists the least of the second quantity beside each value of the first.
func twoTable(a *SizeAnswer, s System) []string {
	table := [][]string{{a.Two.First.Quantity.String(), "least " + a.Two.Second.Quantity.String()}}
	for _, v := range a.Two.Values {
		row := []string{sizeValue(a.Two.First.Quantity, v.Value, s), ""}
		switch {
		case v.Second == nil:
			row[1] = "not possible here"
		case v.Second.Least == nil:
			row[1] = "none that was tried does it"
		default:
			row[1] = sizeValue(a.Two.Second.Quantity, v.Second.Least.Value, s)
			if !v.Second.Monotone {
				row[1] += "; more is not always better"
			}
		}
		table = append(table, row)
	}
	return rowsOf(table)
}

// sizeValue prints a value of a quantity in both units.
func sizeValue(q answers.Quantity, v float64, s System) string {
	switch {
	case math.IsNaN(v):
		return "none"
	case q == answers.BySlope:
		return s.bothSlopes(v)
	case q == answers.ByPocket:
		return s.bothPits(v)
	case q == answers.ByCover:
		return s.bothDepths(v)
	case q == answers.ByInsulation:
		return s.bothThin(v)
	}
	return s.bothLengths(v)
}
