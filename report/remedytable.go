package report

import (
	"strings"

	"winterline/pipe"
	"winterline/sim/answers"
)

// changeRow is one line of the table of changes.
type changeRow struct {
	Change string // what is done, in words
	Line   string // what becomes of the line
	Beside string // water that left beside the house or onto the floor
	Close  string // how close the line was then
	Takes  string
	Effect string
}

// changeRowOf is the row of one remedy; l is the layout as it is.
func changeRowOf(r answers.Remedy, l *pipe.Layout, s System) changeRow {
	var what []string
	for _, c := range r.Changes {
		what = append(what, changeWords(c, l, s))
	}
	row := changeRow{Change: strings.Join(what, " AND "), Line: lineEffectWords(r.Toll), Beside: besideWords(r.Toll, s.volume), Close: "-",
		Takes: takesWords(r.Changes), Effect: effectWords(r)}
	if r.Margin != nil {
		row.Close = marginLeftWords(r.Margin.Open, s)
	}
	return row
}

// besideWords says how much water did not leave at the line's end, and where; volume prints it.
func besideWords(t answers.Toll, volume func(m3 float64) string) string {
	var parts []string
	for _, x := range []struct {
		volume float64
		where  string
	}{{t.Floor, "on the floor"}, {t.Beside, "out of the top"}, {t.Relief, "relief"}, {t.Refused, "not taken"}} {
		if x.volume > 1e-6 {
			parts = append(parts, volume(x.volume)+" "+x.where)
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, ", ")
}
