package report

import (
	"io"
	"strconv"
	"strings"

	"winterline/pipe"
	"winterline/sim/answers"
)

const remediesName = "remedies.csv"

// remedyRow is one row of remedies.csv: changes that were simulated, or one that is not possible.
type remedyRow struct {
	rank   int // from 1; 0: not ranked
	kind   string
	remedy *answers.Remedy
	barred *answers.Change
	layout *pipe.Layout
}

// RemediesTable gives remedies.csv: one row for the winter as it was, then each single change in its rank, then pairs, the
// reverse test, and what is not possible.
func RemediesTable(a *WhyAnswer) File {
	rows := remedyRows(a)
	return File{remediesName, func(w io.Writer) error {
		return writeTable(w, remedyColumns, len(rows), func(i int) remedyRow { return rows[i] })
	}}
}

func remedyRows(a *WhyAnswer) []remedyRow {
	m, layout := a.Remedies, a.Result.Layout
	rows := []remedyRow{{kind: "as-it-was", remedy: &m.Base, layout: layout}}
	for i := range m.Singles {
		rows = append(rows, remedyRow{rank: i + 1, kind: "single", remedy: &m.Singles[i], layout: layout})
	}
	for i := range m.Pairs {
		rows = append(rows, remedyRow{rank: i + 1, kind: "pair", remedy: &m.Pairs[i], layout: layout})
	}
	if m.Reverse != nil {
		rows = append(rows, remedyRow{kind: "without-relief", remedy: m.Reverse, layout: layout})
	}
	for i := range m.Barred {
		rows = append(rows, remedyRow{kind: "not-possible", barred: &m.Barred[i], layout: layout})
	}
	return rows
}

// changes are those of the row.
func (r remedyRow) changes() []answers.Change {
	if r.barred != nil {
		return []answers.Change{*r.barred}
	}
	return r.remedy.Changes
}

// each joins what a function says of each change.
func (r remedyRow) each(say func(answers.Change) string) string {
	var out []string
	for _, c := range r.changes() {
		out = append(out, say(c))
	}
	return strings.Join(out, "; ")
}

// of is what a function says of a row that was simulated; else empty.
func (r remedyRow) of(say func(*answers.Remedy) string) string {
	if r.remedy == nil {
		return ""
	}
	return say(r.remedy)
}

// litres is one of the volumes of a row that was simulated.
func (r remedyRow) litres(volume func(answers.Toll) float64) string {
	return r.of(func(x *answers.Remedy) string { return litres(volume(x.Toll)) })
}

// margin is one of the margins of a row; empty where it was not looked for.
func (r remedyRow) margin(of func(answers.Margin) answers.Bound) string {
	return r.of(func(x *answers.Remedy) string {
		if x.Margin == nil {
			return ""
		}
		return fixed(of(*x.Margin).K, 1)
	})
}

var remedyColumns = []column[remedyRow]{
	{Column{"tried", "", "as-it-was, single, pair, without-relief, or not-possible"}, func(r remedyRow) string { return r.kind }},
	{Column{"rank", "", "among those of its kind, 1 does most; empty: not ranked"}, func(r remedyRow) string {
		if r.rank == 0 {
			return ""
		}
		return strconv.Itoa(r.rank)
	}},
	{Column{"key", "", "stable name of the change"}, func(r remedyRow) string { return r.each(func(c answers.Change) string { return c.Key }) }},
	{Column{"change", "", "what is done"}, func(r remedyRow) string {
		return r.each(func(c answers.Change) string { return changeWords(c, r.layout, SI) })
	}},
	{Column{"effect", "", "prevents, keeps-dry, helps, nothing or harms"}, func(r remedyRow) string {
		return r.of(func(x *answers.Remedy) string { return x.Effect.String() })
	}},
	{Column{"state", "", "the winter's verdict with it: clear, iced, shut-relieved, spilled or flooded"}, func(r remedyRow) string {
		return r.of(func(x *answers.Remedy) string { return x.Toll.State.String() })
	}},
	{Column{"shut_h", "h", "total time frozen shut"}, func(r remedyRow) string {
		return r.of(func(x *answers.Remedy) string { return hoursFor(x.Toll.ShutFor) })
	}},
	{Column{"relief_l", "L", "out of relief openings"}, func(r remedyRow) string { return r.litres(func(t answers.Toll) float64 { return t.Relief }) }},
	{Column{"rim_l", "L", "out of the top of the standpipe, beside the house"}, func(r remedyRow) string { return r.litres(func(t answers.Toll) float64 { return t.Beside }) }},
	{Column{"floor_l", "L", "on the basement floor"}, func(r remedyRow) string { return r.litres(func(t answers.Toll) float64 { return t.Floor }) }},
	{Column{"refused_l", "L", "not taken by the line, where no basin says where it stays"}, func(r remedyRow) string {
		return r.litres(func(t answers.Toll) float64 { return t.Refused })
	}},
	{Column{"margin_open_k", "K", "how much colder until the line first shuts, negative: how much warmer would have kept it open; 25 or -25: that or more; empty: not looked for"},
		func(r remedyRow) string { return r.margin(openBound) }},
	{Column{"margin_dry_k", "K", "the same until water is let go beside the house or reaches the floor"}, func(r remedyRow) string { return r.margin(dryBound) }},
	{Column{"takes", "", "what it takes"}, func(r remedyRow) string { return takesWords(r.changes()) }},
	{Column{"brings", "", "new risks"}, func(r remedyRow) string {
		return r.of(func(x *answers.Remedy) string { return strings.Join(riskWords(*x, SI), " ") })
	}},
	{Column{"not_possible", "", "why it is not possible here; empty: it is"}, func(r remedyRow) string {
		if r.barred == nil {
			return ""
		}
		return barWords(*r.barred)
	}},
	{Column{"edits", "", "what to write into layout.toml"}, func(r remedyRow) string { return strings.Join(writeWords(r.changes()), "; ") }},
}
