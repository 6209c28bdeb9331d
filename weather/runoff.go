package weather

import "math"

// Runoff returns the water [m] that runs off a roof from each row to the next, rain and what
// melts of the snow that fell on it apart; the last row's is 0. nil where the record has
// neither rain nor snowfall. Snow melts by the degree-day factor of open ground; warmth from
// the house, wind and icicles are left out. The roof is bare at the first row.
func (s *Series) Runoff() (rain, melt []float64) {
	if s.Rain == nil && s.SnowfallWater == nil {
		return nil, nil
	}
	rain, melt = make([]float64, len(s.Time)), make([]float64, len(s.Time))
	snow := 0.0 // as water [m]
	for i := 0; i+1 < len(s.Time); i++ {
		air, step := s.airOver(i), s.Time[i+1]-s.Time[i]
		if s.SnowfallWater != nil {
			snow += s.SnowfallWater[i]
		}
		if s.Rain != nil {
			if air < rainSnowLimit && s.SnowfallWater == nil {
				snow += s.Rain[i]
			} else {
				rain[i] = s.Rain[i]
			}
		}
		melt[i] = math.Min(snow, DegreeDayMelt(degreeDayFactor, air, step))
		snow -= melt[i]
	}
	return rain, melt
}
