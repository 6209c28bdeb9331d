package sim

import (
	"winterline/sim/heat"
	"winterline/weather"
)

// sky is the weather at the line: one value a weather row, joined linearly. It is
// shared by all cells, which read it; only row, the interval in which all of them march, moves.
type sky struct {
	time []float64 // [s]
	air  []float64 // [°C]
	wind []float64 // at the pipe [m/s]
	temp []float64 // effective temperature of the sky [°C]
	dew  []float64 // dew point [°C]; nil: not known
	pack weather.SnowPack
	snow []float64 // its depth in the open [m]; nil: not known
	row  int       // the interval in which all cells march: [time[row], time[row+1]]
}

// airState is the weather at the line at one instant.
type airState struct {
	temp, wind, sky float64 // [°C], [m/s], [°C]
}

// calmAssumed is the wind taken where the record has none [m/s at 10 m]: a light wind is
// common in cold spells and colder for the pipe than calm (common practice, no source).
const calmAssumed = 3.0

// newSky brings a record to the line: wind reduced by exposure, sky temperature from
// dew point and cloud where they are given, else from air temperature alone.
func newSky(s *weather.Series, exposure float64) *sky { return skyOver(s.Snow(), s, exposure) }

// skyOver is newSky over snow that is known.
func skyOver(pack weather.SnowPack, s *weather.Series, exposure float64) *sky {
	n := len(s.Time)
	k := &sky{time: s.Time, air: s.Air, wind: make([]float64, n), temp: make([]float64, n), dew: s.DewPoint, pack: pack, snow: pack.Depth}
	for i := range n {
		wind := calmAssumed
		if s.Wind != nil {
			wind = s.Wind[i]
		}
		k.wind[i] = wind * exposure
		k.temp[i] = skyTemperature(s, i)
	}
	return k
}

// skyTemperature is the effective sky temperature at a row [°C].
func skyTemperature(s *weather.Series, i int) float64 {
	cloud := 0.0
	if s.Cloud != nil {
		cloud = s.Cloud[i]
	}
	if s.DewPoint == nil {
		clear := heat.SkySwinbank(s.Air[i])
		return clear + cloud*(s.Air[i]-clear)
	}
	return heat.SkyTemperature(s.Air[i], heat.SkyEmissivity(s.DewPoint[i], cloud))
}

// at joins the rows of the current interval linearly.
func (k *sky) at(t float64) airState { return k.between(k.weight(t)) }

// between is at for a share of the interval.
func (k *sky) between(w float64) airState {
	i := k.row
	return airState{
		temp: k.air[i] + w*(k.air[i+1]-k.air[i]),
		wind: k.wind[i] + w*(k.wind[i+1]-k.wind[i]),
		sky:  k.temp[i] + w*(k.temp[i+1]-k.temp[i]),
	}
}

// weight is how far t stands in the current interval, 0 to 1.
func (k *sky) weight(t float64) float64 {
	a, b := k.time[k.row], k.time[k.row+1]
	return min(1, max(0, (t-a)/(b-a)))
}

// snowAt is the snow depth in the open [m]; 0 when not known.
func (k *sky) snowAt(t float64) float64 {
	if k.snow == nil {
		return 0
	}
	return k.snow[k.row] + k.weight(t)*(k.snow[k.row+1]-k.snow[k.row])
}
