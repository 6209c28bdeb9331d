package report

import (
	"math"

	"winterline/sim"
)

// decimate thins a series to what can be seen: in each of the given number of equal
// columns of x it keeps the first, lowest, highest and last point, in their order.
// Points that are not numbers break the line and stay, one for each break. A short
// series comes back whole.
func decimate(xs, ys []float64, columns int) (thinX, thinY []float64) {
	if len(xs) <= 4*columns || len(xs) == 0 {
		return xs, ys
	}
	x0 := xs[0]
	width := (xs[len(xs)-1] - x0) / float64(columns)
	keep := func(i int) {
		if n := len(thinX); n > 0 && thinX[n-1] == xs[i] {
			return
		}
		thinX, thinY = append(thinX, xs[i]), append(thinY, ys[i])
	}
	for i := 0; i < len(xs); {
		if math.IsNaN(ys[i]) {
			keep(i)
			for i < len(xs) && math.IsNaN(ys[i]) {
				i++
			}
			continue
		}
		column := math.Floor((xs[i] - x0) / width)
		first, low, high := i, i, i
		for ; i < len(xs) && !math.IsNaN(ys[i]) && math.Floor((xs[i]-x0)/width) == column; i++ {
			if ys[i] < ys[low] {
				low = i
			}
			if ys[i] > ys[high] {
				high = i
			}
		}
		keep(first)
		keep(min(low, high))
		keep(max(low, high))
		keep(i - 1)
	}
	return thinX, thinY
}

// longRecord is the length of record from which charts show days rather than rows [s].
const longRecord = 20 * 86400

// byDay says whether a record is so long that what swings with every pump cycle is
// better shown day by day.
func byDay(r *sim.Result) bool {
	t0, t1 := recordSpan(r)
	return t1-t0 > longRecord
}

// daily gives the lowest and highest value of each day of a series, at the middle of
// what the series has of that day; NaN where it has no number all day. Less than half a
// day at the end, such as a last row at midnight, counts with the day before.
func daily(xs, ys []float64) (at, low, high []float64) {
	const whole = 86400
	if len(xs) == 0 {
		return nil, nil, nil
	}
	end := xs[len(xs)-1]
	lastDay := math.Max(math.Floor(xs[0]/whole), math.Floor((end-whole/2)/whole))
	dayOf := func(x float64) float64 { return math.Min(math.Floor(x/whole), lastDay) }
	for i := 0; i < len(xs); {
		day := dayOf(xs[i])
		first, least, most := i, math.NaN(), math.NaN()
		for ; i < len(xs) && dayOf(xs[i]) == day; i++ {
			if !(ys[i] >= least) && !math.IsNaN(ys[i]) {
				least = ys[i]
			}
			if !(ys[i] <= most) && !math.IsNaN(ys[i]) {
				most = ys[i]
			}
		}
		at = append(at, (xs[first]+xs[i-1])/2)
		low, high = append(low, least), append(high, most)
	}
	return at, low, high
}
