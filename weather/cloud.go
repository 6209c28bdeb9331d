package weather

import (
	"math"
	"slices"
)

const (
	// shortestSunny is the length of record from which clear days stand out [s]: with
	// fewer than ten days there may be none.
	shortestSunny = 10 * secondsPerDay

	// seasonReach is how many days either way have the sun of a day of the year: clear
	// days gain or lose about 1 % a day at 45° in spring and autumn.
	seasonReach = 10

	// clearRank is the rank among the days of a season [-] that stands for its clearest,
	// and clearShare how much of its sun a usual clear day has [-]: the clearest days are
	// those of dry air and of the season's brighter end. Own choice, by what the long-wave
	// radiation with this cloud comes to at three places of 40 to 61° latitude: its mean
	// from November to March is within 7 W/m² of the recorded (at one the reanalysed) one,
	// where a clear sky gives 46 to 65 W/m² too little.
	clearRank, clearShare = 0.9, 0.95

	// darkSeason is the clear day's mean sun below which it tells nothing of cloud [W/m²].
	darkSeason = 5.0

	// overcastLoss and cloudPower are the constants of Kasten and Czeplak (1980), Solar
	// Energy 24:177-189: global radiation under n of cloud, over that of the clear sky, is
	// 1 − 0.75 n^3.4, fitted to ten years of hours in Hamburg (from memory).
	overcastLoss, cloudPower = 0.75, 3.4
)

// CloudFromSun returns the cloud cover at each row [-], 0 to 1, worked out from Sun alone.
// The sun of the 24 h around a row, which reach over the night, is set against that of
// a clear day of the season, as the record's own days show it, all years together; in
// the first and last 12 h it is the first and the last whole 24 h. No latitude is needed.
// A season without sun counts as clear, the colder sky.
//
// It is nil where there is no Sun, where the record is shorter than ten days and where
// the sun never rises in it.
func (s *Series) CloudFromSun() []float64 {
	if s.heritage != nil {
		return s.heritage.cloud
	}
	if s.Sun == nil || s.End() < shortestSunny {
		return nil
	}
	total := s.cumulative(s.Sun)
	clear := s.clearDays(total)
	if slices.Max(clear[:]) < darkSeason {
		return nil
	}
	cloud := make([]float64, len(s.Time))
	for i, t := range s.Time {
		from := math.Max(0, math.Min(t-secondsPerDay/2, s.End()-secondsPerDay))
		if best := clear[s.dayOfYear(t)]; best >= darkSeason {
			cloud[i] = cloudBehind(s.dayMean(s.Sun, total, from) / best)
		}
	}
	return cloud
}

// clearDays returns the mean sun of a clear day [W/m²] for each day of the year; 0 for
// those that no day of the record lies near.
func (s *Series) clearDays(total []float64) (clear [366]float64) {
	var days [366][]float64 // means of the record's days from midnight to midnight
	first := math.Mod(s.firstMidnight(), secondsPerDay)
	for from := first; from+secondsPerDay <= s.End(); from += secondsPerDay {
		d := s.dayOfYear(from)
		days[d] = append(days[d], s.dayMean(s.Sun, total, from))
	}
	var season []float64
	for d := range clear {
		season = season[:0]
		for k := d - seasonReach; k <= d+seasonReach; k++ {
			season = append(season, days[(k+len(days))%len(days)]...)
		}
		if slices.Sort(season); len(season) > 0 {
			clear[d] = clearShare * season[int(math.Round(clearRank*float64(len(season)-1)))]
		}
	}
	return clear
}

// dayOfYear returns the day of the year t seconds after the first row, 0 for 1 January.
func (s *Series) dayOfYear(t float64) int { return s.Stamp(t).YearDay() - 1 }

// cloudBehind returns the cloud cover [-] under which the sun is the given share of the
// clear sky's, by Kasten and Czeplak (1980) turned round.
func cloudBehind(share float64) float64 {
	loss := math.Min(1, math.Max(0, 1-share)/overcastLoss)
	return math.Pow(loss, 1/cloudPower)
}
