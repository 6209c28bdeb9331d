package weather

import "math"

// traceWord is what airport reports write for precipitation too little to measure; it is
// taken as none.
const traceWord = "T"

// increments turns running totals, which begin anew with each period, into what fell
// since the report before: an airport's special report gives what has fallen since the
// latest routine one, and the next routine report all of it again. period tells for each
// row which one it lies in; rows without a total are passed over.
func increments(period []int64, totals []float64) {
	before, last := 0.0, int64(math.MinInt64)
	for i, total := range totals {
		if math.IsNaN(total) {
			continue
		}
		if period[i] == last && total >= before {
			totals[i] = total - before
		}
		before, last = total, period[i]
	}
}

// routineMinute returns the minute of the hour at which most reports are made; of equals
// the latest, as routine reports are made shortly before the full hour.
func routineMinute(stamps []int64) int {
	var count [60]int
	for _, s := range stamps {
		count[wall(s).Minute()]++
	}
	most := 0
	for minute, n := range count {
		if n >= count[most] {
			most = minute
		}
	}
	return most
}

// periods tells for each stamp how many routine reports came before it.
func periods(stamps []int64, minute int) []int64 {
	all := make([]int64, len(stamps))
	for i, s := range stamps {
		all[i] = floorDiv(s-int64(minute)*60-1, secondsPerHour)
	}
	return all
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
