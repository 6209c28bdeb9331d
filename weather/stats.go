package weather

import "math"

const secondsPerDay = 86400.0

// Mean returns the mean air temperature over the record [°C], weighted by time.
func (s *Series) Mean() float64 {
	if len(s.Time) < 2 {
		return s.Air[0]
	}
	return s.airIntegral(0, s.End()) / s.End()
}

// Coldest returns the lowest air temperature of the record [°C] and when it stood [s].
// Of several equal rows the first counts.
func (s *Series) Coldest() (t, air float64) {
	low := 0
	for i, a := range s.Air {
		if a < s.Air[low] {
			low = i
		}
	}
	return s.Time[low], s.Air[low]
}

// coldestDay returns the lowest mean air temperature of any 24 h that begin or end at a
// row [°C] and when they begin [s]; ok is false for a record shorter than 24 h.
func (s *Series) coldestDay() (start, mean float64, ok bool) {
	if s.End() < secondsPerDay {
		return 0, math.NaN(), false
	}
	total := s.cumulative(s.Air)
	mean = math.Inf(1)
	try := func(from float64) {
		to := from + secondsPerDay
		if from < 0 || to > s.End() {
			return
		}
		if m := s.dayMean(s.Air, total, from); m < mean {
			start, mean = from, m
		}
	}
	for _, t := range s.Time {
		try(t - secondsPerDay)
		try(t)
	}
	return start, mean, true
}

// firstMidnight returns when the day of the first row ends [s].
func (s *Series) firstMidnight() float64 {
	begun := float64(s.Start.Hour()*3600+s.Start.Minute()*60+s.Start.Second()) +
		float64(s.Start.Nanosecond())*1e-9
	return secondsPerDay - begun
}

// airIntegral returns ∫ air dt from t0 to t1 inside the record [°C s], exact for the
// straight joints between rows.
func (s *Series) airIntegral(t0, t1 float64) float64 {
	var sum float64
	for i := s.Row(t0); i+1 < len(s.Time) && s.Time[i] < t1; i++ {
		from, to := math.Max(t0, s.Time[i]), math.Min(t1, s.Time[i+1])
		mid := (from + to) / 2
		share := (mid - s.Time[i]) / (s.Time[i+1] - s.Time[i])
		sum += between(s.Air, i, share) * (to - from)
	}
	return sum
}

// cumulative returns the integral over time of a state column from the first row to each
// row [unit of the column × s].
func (s *Series) cumulative(column []float64) []float64 {
	total := make([]float64, len(s.Time))
	for i := 1; i < len(total); i++ {
		total[i] = total[i-1] + (column[i-1]+column[i])/2*(s.Time[i]-s.Time[i-1])
	}
	return total
}

// dayMean returns the mean of a state column over the 24 h from a time inside the record,
// given its cumulative integral.
func (s *Series) dayMean(column, total []float64, from float64) float64 {
	return (s.upTo(column, total, from+secondsPerDay) - s.upTo(column, total, from)) / secondsPerDay
}

// upTo returns the integral of a state column from the first row to time t.
func (s *Series) upTo(column, total []float64, t float64) float64 {
	i, share := s.locate(t)
	return total[i] + (column[i]+between(column, i, share))/2*(t-s.Time[i])
}
