package report

import (
	"html"
	"html/template"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"winterline/sim"
)

// water fills in where the water came from and went, in figures that add up.
func (p *page) water(r *sim.Result, s System) {
	t := newWaterTable(r, s)
	unit := " " + s.volumeUnit()
	for _, row := range t.in {
		p.Water = append(p.Water, pageFact{capital(row.words), t.number(row) + unit})
	}
	p.WaterSum = t.digits(t.total) + unit
	for _, row := range t.out {
		p.WaterTo = append(p.WaterTo, pageFact{capital(row.words), t.number(row) + unit})
	}
}

// heatRow is an entry of the heat book.
type heatRow struct{ Name, In, Out string }

func heatRows(r *sim.Result, s System) (out []heatRow) {
	for _, t := range r.Balance.Terms {
		if t.In != 0 || t.Out != 0 {
			out = append(out, heatRow{capital(t.Name), s.energy(t.In), s.energy(t.Out)})
		}
	}
	return out
}

// checkFacts say how well the books close and how much work the winter took.
func checkFacts(r *sim.Result) []pageFact {
	return []pageFact{
		{"Water book", closes(r.Balance.WaterRelative, "the water that was pumped or held")},
		{"Heat book", closes(r.Balance.HeatRelative, "the heat exchanged")},
		{"Equations", solved(r.Balance.NewtonResidual)},
		{"Steps", number(float64(r.Stats.Steps), 0) + " taken, " + number(float64(r.Stats.Rejected), 0) + " made again finer, in " +
			plural(float64(r.Stats.Cells), "cell") + " with " + number(float64(r.Stats.Nodes), 0) + " nodes"},
		{"Pump runs", number(float64(r.Stats.Cycles), 0)},
	}
}

// closes says how well a book closes, by its closing error relative to what it counts [-].
func closes(relative float64, what string) string {
	switch {
	case math.IsNaN(relative) || math.IsInf(relative, 0):
		return "how well it closes is not known"
	case relative == 0:
		return "closes exactly"
	}
	return "closes to " + powerOfTen(relative) + " of " + what
}

// solved says how well the equations of heat were solved, by the largest residual that a step was accepted with [K].
func solved(residual float64) string {
	if residual == 0 {
		return "solved exactly"
	}
	return "solved to " + powerOfTen(residual) + " °C (" + powerOfTen(1.8*residual) + " °F) or better in every layer and step"
}

// powerOfTen prints a number's size to one digit, without its sign.
func powerOfTen(v float64) string {
	digit, power, _ := strings.Cut(strconv.FormatFloat(math.Abs(v), 'e', 0, 64), "e")
	exponent, _ := strconv.Atoi(power) // digits with a sign, from FormatFloat
	return digit + " × 10" + raised(exponent)
}

// raised prints an exponent.
func raised(power int) string {
	return strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹").Replace(strconv.Itoa(power))
}

// inputFiles lists the files that went in by their digests, in order of name.
func inputFiles(sums map[string]string) (out []pageFact) {
	var names []string
	for name := range sums {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		out = append(out, pageFact{name, sums[name]})
	}
	return out
}

var (
	codeMark = regexp.MustCompile("`([^`]*)`")
	boldMark = regexp.MustCompile(`\*\*([^*]*)\*\*`)
)

// markup turns `code` and **weight** into HTML, everything else escaped.
func markup(words string) template.HTML {
	text := codeMark.ReplaceAllString(html.EscapeString(words), "<code>$1</code>")
	return template.HTML(boldMark.ReplaceAllString(text, "<strong>$1</strong>"))
}
