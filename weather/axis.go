package weather

import (
	"slices"

	"winterline/pipe/units"
)

const (
	maxYears = 200           // from first to last row
	maxStep  = secondsPerDay // usual time between rows [s]
)

// checkAxis says what is wrong with how many rows there are, how far apart and over how
// long. The record is in order. Where rows were refused, too few of them are no news.
func (r *record) checkAxis() units.Problems {
	n := len(r.stamp)
	if n < 2 {
		if r.lossy {
			return nil
		}
		return units.Problems{{File: r.source, Found: []string{"no rows of weather", "a single row of weather"}[n], Expected: "at least 2"}}
	}
	if r.stamp[n-1]-r.stamp[0] > maxYears*366*secondsPerDay {
		return units.Problems{r.problem(n-1, "time", "a record of more than 200 years", "at most 200 years; split the record")}
	}
	if step := usualStep(r.stamp); step > maxStep {
		return units.Problems{{File: r.source, Key: "time", Found: "rows that are usually " + showHours(step) + " apart", Expected: "24 h at most"}}
	}
	return nil
}

// usualStep returns the median time between stamps in order [s]; 0 for a single one.
func usualStep[T int64 | float64](stamps []T) float64 {
	if len(stamps) < 2 {
		return 0
	}
	first, steady := stamps[1]-stamps[0], 0
	for i := 1; i < len(stamps); i++ {
		if stamps[i]-stamps[i-1] == first {
			steady++
		}
	}
	if 2*steady > len(stamps) { // more than half are alike: one of them is in the middle
		return float64(first)
	}
	steps := make([]T, len(stamps)-1)
	for i := range steps {
		steps[i] = stamps[i+1] - stamps[i]
	}
	slices.Sort(steps)
	return float64(steps[len(steps)/2])
}
