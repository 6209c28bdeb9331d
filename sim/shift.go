package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// Warmer is the case in weather that is warmer by so many kelvin, or colder where that is negative.
//
// Air and dew point shift, and with them the long-wave radiation of the sky and what the ground feels from the first
// row on. Everything else is that of the record as it stands, so that the answer is about cold alone: snow, what fell
// as snow and what as rain, cloud, wind and sun, the water that comes and its temperature, the moisture of the
// ground, and the ground's state at the first row, with the years before it.
func (k *Case) Warmer(by float64) *Case {
	shifted := *k
	shifted.Shift += by
	return &shifted
}

// shiftedWeather is a record with air and dew point shifted [K], and the sky's recorded radiation with them; all else it
// shares.
func shiftedWeather(s *weather.Series, by float64) *weather.Series {
	if by == 0 {
		return s
	}
	out := *s
	out.Air, out.DewPoint = shiftedColumn(s.Air, by), shiftedColumn(s.DewPoint, by)
	out.LongWave = shiftedLongWave(s, &out)
	return &out
}

// shiftedColumn is a column with a number added; nil for nil.
func shiftedColumn(column []float64, by float64) []float64 {
	if column == nil {
		return nil
	}
	out := make([]float64, len(column))
	for i, v := range column {
		out[i] = v + by
	}
	return out
}

// shiftedLongWave is the recorded long-wave radiation of the sky after a shift of the air from that of `from` to that
// of `to` [W/m²]; nil where none was recorded. Left as it stands it would shine on from air that is gone, and could
// outshine a black body of the new one. So it changes in the proportion in which the radiation worked out from air,
// dew point and cloud changes, as it does altogether where none was recorded; without a dew point as that of
// a sky that keeps its emissivity.
func shiftedLongWave(from, to *weather.Series) []float64 {
	if from.LongWave == nil {
		return nil
	}
	out := make([]float64, len(from.LongWave))
	if from.DewPoint != nil {
		before, after := skyRadiation(from), skyRadiation(to)
		for i, v := range from.LongWave {
			out[i] = v * after[i] / before[i]
		}
		return out
	}
	for i, v := range from.LongWave {
		out[i] = v * math.Pow((to.Air[i]+heat.Kelvin)/(from.Air[i]+heat.Kelvin), 4)
	}
	return out
}

// newShiftedGrounds prepares the ground of a site, and its sky, for a record that is shifted [K].
func newShiftedGrounds(site *pipe.Site, s *weather.Series, by float64) *grounds {
	if by == 0 {
		return newGrounds(site, s, newSky(s, site.WindExposure))
	}
	felt := shiftedWeather(s, by)
	k := skyOver(s.Snow(), felt, site.WindExposure)
	g := &grounds{site: site, s: s, sky: k, pack: k.pack, soil: earths{}, felt: felt, shift: by, usual: newGrounds(site, s, k)}
	g.under(groundKey{site.Surface, site.SnowOnLine})
	return g
}

// asRecorded are the grounds under the record as it stands.
func (g *grounds) asRecorded() *grounds {
	if g.usual != nil {
		return g.usual
	}
	return g
}

// shiftFrom makes the column one that goes on from where another begins its record, under weather shifted by so much
// [K]; what its soil holds of rain stays the other's.
func (g *ground) shiftFrom(usual *ground, by float64) {
	g.usual, g.shift = usual, by
	if g.surface.balance == nil {
		return
	}
	shifted, recorded := g.surface.balance, usual.surface.balance
	g.surface.balance = func() *energy {
		e := shifted()
		e.water = recorded().water
		return e
	}
}
