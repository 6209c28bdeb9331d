package weather

import (
	"math"
	"sort"
)

// Sample is the sky at one instant; a quantity that the record does not have is NaN.
// Units as in Series.
type Sample struct {
	Air, Wind, DewPoint, Cloud, SnowDepth, Sun, LongWave float64
}

// At returns the states at t seconds after the first row, joined linearly between rows
// and held beyond the first and the last. It does not allocate and keeps no cursor, so
// that any number of simulations may read one Series at once.
func (s *Series) At(t float64) Sample {
	i, share := s.locate(t)
	return Sample{
		Air:       between(s.Air, i, share),
		Wind:      between(s.Wind, i, share),
		DewPoint:  between(s.DewPoint, i, share),
		Cloud:     between(s.Cloud, i, share),
		SnowDepth: between(s.SnowDepth, i, share),
		Sun:       between(s.Sun, i, share),
		LongWave:  between(s.LongWave, i, share),
	}
}

// Amount returns how much of an amount column (Rain, SnowfallWater) falls from t0 to t1
// [s], in the column's unit: each row's amount is spread evenly up to the next stamp.
// The last row's amount falls after the record's end and is never counted.
func (s *Series) Amount(column []float64, t0, t1 float64) float64 {
	if column == nil {
		return 0
	}
	t0, t1 = math.Max(t0, s.Time[0]), math.Min(t1, s.End())
	var sum float64
	for i := s.Row(t0); i+1 < len(s.Time) && s.Time[i] < t1; i++ {
		from, to := math.Max(t0, s.Time[i]), math.Min(t1, s.Time[i+1])
		if to > from {
			sum += column[i] * (to - from) / (s.Time[i+1] - s.Time[i])
		}
	}
	return sum
}

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

func between(column []float64, i int, share float64) float64 {
	if column == nil {
		return math.NaN()
	}
	if share == 0 { // a lone row has no next
		return column[i]
	}
	return column[i] + share*(column[i+1]-column[i])
}
