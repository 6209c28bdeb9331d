package weather

import (
	"math"
	"time"
)

// WinterCold is the cold of one winter, from July to June, or of what the record has of it.
type WinterCold struct {
	Ends       int     // year in which the winter ends
	DegreeDays float64 // freezing degree-days [°C·day]
	Lowest     float64 // air temperature [°C]
	Days       float64 // that the record covers
}

// Winters returns the cold of every winter that the record has a part of, in order.
//
// Freezing degree-days are the sum over all days of how far the daily mean air temperature
// lies below 0 °C; warmer days count nothing. Days run from midnight to midnight; a part of
// a day at either end of the record counts by its length.
//
// Source: definition of the degree-day in Department of the Army and Air Force,
// TM 5-852-1 (1987), glossary (from memory). The freezing index of that manual also
// subtracts thawing days within the season; this sum does not.
func (s *Series) Winters() (winters []WinterCold) {
	for from, to := 0.0, s.firstMidnight(); from < s.End(); from, to = to, to+secondsPerDay {
		to := math.Min(to, s.End())
		ends := winterEnds(s.Stamp(from))
		if n := len(winters); n == 0 || winters[n-1].Ends != ends {
			winters = append(winters, WinterCold{Ends: ends, Lowest: math.Inf(1)})
		}
		w := &winters[len(winters)-1]
		w.DegreeDays += math.Max(0, -s.airIntegral(from, to)) / secondsPerDay
		w.Days += (to - from) / secondsPerDay
		for i := s.Row(from); i < len(s.Time) && s.Time[i] <= to; i++ {
			if s.Time[i] >= from {
				w.Lowest = min(w.Lowest, s.Air[i])
			}
		}
	}
	return winters
}

// winterEnds returns the year in which the winter of a day ends.
func winterEnds(day time.Time) int {
	if day.Month() >= time.July {
		return day.Year() + 1
	}
	return day.Year()
}
