package weather

import (
	"fmt"
	"iter"
	"math"

	"winterline/pipe/units"
)

// maxBridge is the longest gap that is bridged [s].
const maxBridge = 6 * 3600

// bridger bridges or refuses what is missing in a record that is in order: first whole
// rows, then values. Measured soil keeps its gaps.
type bridger struct {
	*record
	step     float64 // usual time between rows [s]
	strict   bool    // a gap of more than 6 h is refused in lesser columns, too
	problems units.Problems
}

// bridge bridges the record's gaps and enters them in its ledger; what is too long is refused.
func (r *record) bridge(strict bool) units.Problems {
	b := &bridger{record: r, step: usualStep(r.stamp), strict: strict}
	if !r.lossy {
		b.missingRows() // otherwise a refused row would be told again as a gap
	}
	for i := range r.columns {
		if c := &r.columns[i]; c.quantity != soilTemperature {
			b.missingValues(c)
		}
	}
	return b.problems
}

// missingRows looks for jumps in time. A jump that is bridged needs no new rows: states
// are joined between the rows on either side.
func (b *bridger) missingRows() {
	for i := 1; i < len(b.stamp); i++ {
		missing := b.at(i) - b.at(i-1) - b.step
		if missing < b.step/2 {
			continue
		}
		if missing <= maxBridge {
			b.repaired(i, Repair{Column: "time", Hours: missing / 3600})
			continue
		}
		b.problems = append(b.problems, b.problem(i, "time", fmt.Sprintf("no rows between %s and %s (%s missing)",
			showTime(wall(b.stamp[i-1])), showTime(wall(b.stamp[i])), showHours(missing)), "gaps of at most 6 h"))
	}
}

// at returns when a row stands, from the first row [s].
func (r *record) at(row int) float64 { return float64(r.stamp[row] - r.stamp[0]) }

// missingValues looks for gaps in a column.
func (b *bridger) missingValues(c *recordColumn) {
	for from, to := range missingRuns(c.values) {
		b.gap(c, from, to)
	}
}

// missingRuns goes through the runs of missing values, rows from..to-1 each.
func missingRuns(values []float64) iter.Seq2[int, int] {
	return func(yield func(from, to int) bool) {
		for from := 0; from < len(values); from++ {
			if !math.IsNaN(values[from]) {
				continue
			}
			to := from
			for to < len(values) && math.IsNaN(values[to]) {
				to++
			}
			if !yield(from, to) {
				return
			}
			from = to
		}
	}
}

// gapLength returns how long the values of rows from..to-1 are missing [s]: the time
// between the values on either side less one usual step, so that rows missing beside
// empty fields count too.
func (r *record) gapLength(from, to int, step float64) float64 {
	begin, end := r.at(from), r.at(to-1)+step
	if from > 0 {
		begin = r.at(from-1) + step
	}
	if to < len(r.stamp) {
		end = r.at(to)
	}
	return end - begin
}

// gap fills the rows from..to-1 of a column, or refuses them.
func (b *bridger) gap(c *recordColumn, from, to int) {
	if from == 0 && to == len(b.stamp) {
		b.problems = append(b.problems, units.Problem{File: b.source, Line: b.headerLine, Key: c.name,
			Found: "no value in the whole column", Expected: "values, or no such column"})
		return
	}
	length := b.gapLength(from, to, b.step)
	if length > maxBridge && (b.strict || c.quantity == airTemperature) {
		b.problems = append(b.problems, b.problem(from, c.name, fmt.Sprintf("no value from %s to %s (%s)",
			showTime(wall(b.stamp[from])), showTime(wall(b.stamp[to-1])), showHours(length)), longGapAdvice(c.quantity)))
		return
	}
	kind := Joined
	switch {
	case c.quantity.amount && length > maxBridge:
		kind = LongNil
	case c.quantity.amount:
		kind = TakenNil // a line drawn between two showers would invent water
	case length > maxBridge:
		kind = LongJoined
	case from == 0 || to == len(b.stamp):
		kind = Held
	}
	b.fill(c, from, to)
	b.repaired(from, Repair{Column: c.name, Count: to - from, Hours: length / 3600, Kind: kind, of: c.quantity})
}

// fill gives the rows from..to-1 of a column values: none for amounts, otherwise the line
// between the values on either side, or the only one that there is.
func (r *record) fill(c *recordColumn, from, to int) {
	for i := from; i < to; i++ {
		switch {
		case c.quantity.amount:
			c.values[i] = 0
		case from == 0:
			c.values[i] = c.values[to]
		case to == len(c.values):
			c.values[i] = c.values[from-1]
		default:
			share := (r.at(i) - r.at(from-1)) / (r.at(to) - r.at(from-1))
			c.values[i] = c.values[from-1] + share*(c.values[to]-c.values[from-1])
		}
	}
}

func longGapAdvice(q *quantity) string {
	switch {
	case q == airTemperature:
		return "gaps of at most 6 h"
	case q.amount:
		return "gaps of at most 6 h (0 where none fell), or the column's name to begin with x_ to leave it out"
	}
	return "gaps of at most 6 h, or the column's name to begin with x_ to leave it out"
}
