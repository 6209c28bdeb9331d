package weather

import (
	"math"
	"sort"
)

// Row returns the row whose interval holds t: Time[row] ≤ t < Time[row+1]. Before the
// first row it is 0; from the last stamp on it is the last interval's row.
func (s *Series) Row(t float64) int {
	last := len(s.Time) - 2
	if last < 0 || t <= s.Time[0] {
		return 0
	}
	if t >= s.Time[last] {
		return last
	}
	// Rows are nearly always evenly spaced: one guess then hits the row or its neighbour.
	guess := int(t / s.End() * float64(last+1))
	for i := max(guess-1, 0); i <= min(guess+1, last); i++ {
		if s.Time[i] <= t && t < s.Time[i+1] {
			return i
		}
	}
	return sort.Search(last+1, func(i int) bool { return s.Time[i+1] > t })
}

// locate returns the row whose interval holds t and how far into it t lies, 0 to 1.
func (s *Series) locate(t float64) (row int, share float64) {
	if len(s.Time) < 2 {
		return 0, 0
	}
	row = s.Row(t)
	share = (t - s.Time[row]) / (s.Time[row+1] - s.Time[row])
	return row, math.Min(math.Max(share, 0), 1)
}

// between returns the value of a state column, joined linearly, at a share of the way from row i
// to the next; NaN where the record does not have the column.
func between(column []float64, i int, share float64) float64 {
	if column == nil {
		return math.NaN()
	}
	if share == 0 { // a lone row has no next
		return column[i]
	}
	return column[i] + share*(column[i+1]-column[i])
}
