package weather

import (
	"fmt"
	"math"
	"time"
)

// winterLow is the lowest mean air temperature of 24 h in a winter.
type winterLow struct {
	ends  int     // year in which the winter ends
	mean  float64 // [°C]
	span  *Series // that holds it
	start float64 // of the 24 h [s] in that span
	core  float64 // of the winter's core that the record covers [s]
}

// coreShare is the share of its core, December to February, that the record of a winter
// has to cover for its lowest day to count (common practice, no source).
const coreShare = 0.95

// winterLows returns the lowest 24 h of every winter, July to June, of which the spans,
// in order, cover nearly all of December to February. The 24 h begin at a row, and belong
// to the winter in which they begin.
func winterLows(spans []*Series) []winterLow {
	var all []winterLow
	of := func(ends int) *winterLow {
		if n := len(all); n == 0 || all[n-1].ends != ends {
			all = append(all, winterLow{ends: ends, mean: math.Inf(1)})
		}
		return &all[len(all)-1]
	}
	for _, s := range spans {
		total := s.cumulative(s.Air)
		for _, t := range s.Time {
			w := of(winterEnds(s.Stamp(t)))
			if t+secondsPerDay > s.End() {
				continue
			}
			if mean := s.dayMean(s.Air, total, t); mean < w.mean {
				w.mean, w.span, w.start = mean, s, t
			}
		}
		for i := range all {
			all[i].core += s.coveredCore(all[i].ends)
		}
	}
	var whole []winterLow
	for _, w := range all {
		from, to := core(w.ends)
		if w.span != nil && w.core >= coreShare*to.Sub(from).Seconds() {
			whole = append(whole, w)
		}
	}
	return whole
}

// core is from 1 December to the end of February of a winter.
func core(ends int) (from, to time.Time) {
	return date(ends-1, time.December, 1), date(ends, time.March, 1)
}

// coveredCore returns how much of a winter's core the series covers [s].
func (s *Series) coveredCore(ends int) float64 {
	from, to := core(ends)
	return math.Max(0, math.Min(s.End(), to.Sub(s.Start).Seconds())-math.Max(0, from.Sub(s.Start).Seconds()))
}

// winterName names a winter by its years, "2025-26".
func winterName(ends int) string { return fmt.Sprintf("%d-%02d", ends-1, ends%100) }
