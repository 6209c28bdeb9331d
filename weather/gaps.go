package weather

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// maxBridge is the longest gap that is bridged [s].
const maxBridge = 6 * 3600

// RepairKind says how a gap was bridged.
type RepairKind int

// Ways to bridge a gap.
const (
	Joined   RepairKind = iota // states: joined linearly between the values on either side
	Held                       // states at an end of the record: the nearest value kept
	TakenNil                   // amounts: taken as none fallen
)

// String gives the words for results.
func (k RepairKind) String() string {
	return [...]string{"joined linearly", "nearest value held", "taken as none"}[k]
}

// usualStep returns the median time between rows [s]; 0 for a single row.
func usualStep(times []float64) float64 {
	if len(times) < 2 {
		return 0
	}
	steps := make([]float64, len(times)-1)
	for i := range steps {
		steps[i] = times[i+1] - times[i]
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}

// gaps bridges or refuses what is missing: first whole rows, then fields.
func (p *plainReader) gaps() {
	step := usualStep(p.series.Time)
	if p.whole && len(p.kept) == len(p.table.Rows) {
		p.missingRows(step) // otherwise a refused row would be told again as a gap
	}
	for i := range p.fields {
		if f := &p.fields[i]; f.soil == nil {
			p.missingFields(f, step)
		}
	}
}

// missingRows looks for jumps in time. A jump that is bridged needs no new rows: states
// are joined between the rows on either side.
func (p *plainReader) missingRows(step float64) {
	s := p.series
	for i := 1; i < len(s.Time); i++ {
		missing := s.Time[i] - s.Time[i-1] - step
		if missing < step/2 {
			continue
		}
		line := p.table.Lines[p.kept[i]]
		if missing <= maxBridge {
			s.Repairs = append(s.Repairs, Repair{Column: "time", Line: line, Hours: missing / 3600})
			continue
		}
		p.complain(line, "time", fmt.Sprintf("no rows between %s and %s (%s missing)",
			show(s.Stamp(s.Time[i-1])), show(s.Stamp(s.Time[i])), hours(missing)), "gaps of at most 6 h")
	}
}

// missingFields looks for runs of empty fields in a column.
func (p *plainReader) missingFields(f *field, step float64) {
	for from := 0; from < len(f.values); from++ {
		if !math.IsNaN(f.values[from]) {
			continue
		}
		to := from
		for to < len(f.values) && math.IsNaN(f.values[to]) {
			to++
		}
		p.bridge(f, from, to, step)
		from = to
	}
}

// bridge fills the empty rows from..to-1 of a column, or refuses them. The gap's length
// is the time between the values on either side less one usual step, so that rows
// missing beside empty fields count too.
func (p *plainReader) bridge(f *field, from, to int, step float64) {
	s, n := p.series, len(f.values)
	begin, end := s.Time[from], s.Time[to-1]+step
	if from > 0 {
		begin = s.Time[from-1] + step
	}
	if to < n {
		end = s.Time[to]
	}
	line := p.table.Lines[p.kept[from]]
	if from == 0 && to == n {
		p.complain(p.table.HeaderLine, f.name, "no value in the whole column", "values, or no such column")
		return
	}
	if end-begin > maxBridge {
		p.complain(line, f.name, fmt.Sprintf("no value from %s to %s (%s)",
			show(s.Stamp(s.Time[from])), show(s.Stamp(s.Time[to-1])), hours(end-begin)), longGapAdvice(f.quantity))
		return
	}
	kind := Joined
	switch {
	case f.quantity.amount:
		kind = TakenNil // a line drawn between two showers would invent water
	case from == 0 || to == n:
		kind = Held
	}
	for i := from; i < to; i++ {
		f.values[i] = bridged(s.Time, f.values, kind, from, to, i)
	}
	s.Repairs = append(s.Repairs, Repair{Column: f.name, Line: line, Hours: (end - begin) / 3600, Kind: kind})
}

// bridged returns the value for the empty row i of the gap from..to-1.
func bridged(times, values []float64, kind RepairKind, from, to, i int) float64 {
	switch {
	case kind == TakenNil:
		return 0
	case from == 0:
		return values[to]
	case to == len(values):
		return values[from-1]
	}
	share := (times[i] - times[from-1]) / (times[to] - times[from-1])
	return values[from-1] + share*(values[to]-values[from-1])
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

// hours words a length of time for a message.
func hours(seconds float64) string {
	return strconv.FormatFloat(math.Round(seconds/360)/10, 'f', -1, 64) + " h"
}
