package weather

import (
	"math"
	"slices"
	"time"
)

// Bridged is how much of a record was missing and bridged, quantity by quantity.
type Bridged struct {
	Rows    float64         // of which the record has no row at all [h]
	Columns []BridgedColumn // those that miss more than these; air temperature, which stands first, where it misses any
	Others  bool            // the record has other columns, which miss no more than Rows
}

// BridgedColumn is how much of one quantity was bridged.
type BridgedColumn struct {
	Name  string  // the quantity's word, such as "air temperature"
	Hours float64 // in all: without a row, and in rows without its value [h]
}

// Bridged sums up the gaps of the record. Measured soil, which keeps its gaps, is not in it.
func (s *Series) Bridged() Bridged {
	rows := s.rowGaps()
	b := Bridged{Rows: rows.hours()}
	for i, c := range columns {
		if *c.quantity.slot(s) == nil || i > 0 && columns[i-1].quantity == c.quantity {
			continue
		}
		own := rows.beside(s, c.quantity)
		switch {
		case own > 0, b.Rows > 0 && c.quantity == airTemperature:
			b.Columns = append(b.Columns, BridgedColumn{c.quantity.word, b.Rows + own})
		default:
			b.Others = true
		}
	}
	return b
}

// timeSpan is from one instant up to another.
type timeSpan struct{ from, to time.Time }

// rowGaps are the times of which a record has no rows, in order.
type rowGaps []timeSpan

// rowGaps finds them in the ledger, where an entry stands at the row after the gap.
func (s *Series) rowGaps() (gaps rowGaps) {
	for _, e := range s.Repairs {
		if e.Kind.Gap() && e.Column == "time" {
			gaps = append(gaps, timeSpan{e.Time.Add(-inHours(e.Hours)), e.Time})
		}
	}
	return gaps
}

// hours is how long they are together.
func (g rowGaps) hours() (sum float64) {
	for _, gap := range g {
		sum += gap.to.Sub(gap.from).Hours()
	}
	return sum
}

// beside sums the gaps of a quantity [h] in rows that are there: what of them has no row is
// left out.
func (g rowGaps) beside(s *Series, q *quantity) (sum float64) {
	for _, e := range s.Repairs {
		if e.of != q {
			continue
		}
		gap := timeSpan{from: e.Time}
		k, _ := slices.BinarySearchFunc(g, e.Time, func(row timeSpan, at time.Time) int { return row.to.Compare(at) })
		if k < len(g) && g[k].to.Equal(e.Time) { // rows are missing right before, and the gap begins with them
			gap.from = g[k].from
		}
		gap.to = gap.from.Add(inHours(e.Hours))
		sum += e.Hours
		for ; k < len(g) && g[k].from.Before(gap.to); k++ {
			sum -= g[k].to.Sub(g[k].from).Hours()
		}
	}
	return sum
}

func inHours(h float64) time.Duration { return time.Duration(math.Round(h * float64(time.Hour))) }
