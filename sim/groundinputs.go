package sim

import (
	"slices"

	"winterline/pipe"
	"winterline/weather"
)

// groundInputs are all that the course of a column depends on. What plays no part under its surface's
// drive is left out, so that sites which differ in that alone agree.
type groundInputs struct {
	weather     *weather.Series
	stepping    Stepping
	cover       pipe.Surface
	soil        pipe.Soil
	layers      []pipe.SoilLayer
	shift       float64 // of the weather [K]
	mean, swing float64 // [°C], [K]
	snowOn      float64 // [-]
	exposure    float64 // to the wind [-]
	written     bool    // the layout states the surface's resistance
	resistance  float64 // [m² K/W]
	nFactor     pipe.NFactor
	past        *remembered
}

// inputsOf gathers the inputs of a ground that no thermometer drives.
func inputsOf(g *ground, s Stepping) groundInputs {
	f := g.surface
	in := groundInputs{
		weather: g.s, stepping: s.orDefault(), cover: g.key.cover, soil: g.site.Soil, layers: g.site.LayersUnder(g.key.cover),
		past: g.past, shift: g.shift, mean: g.mean, swing: g.swing, written: f.resistance != nil, resistance: pick(f.resistance, 0), nFactor: pick(f.nFactor, pipe.NFactor{}),
	}
	if f.covered() && f.snow != nil {
		in.snowOn = g.key.snowOn
	}
	if f.drive == EnergyDrive {
		in.exposure = g.site.WindExposure
	}
	return in
}

// same says whether two columns have the same course.
func (a groundInputs) same(b groundInputs) bool {
	return a.weather == b.weather && a.stepping == b.stepping && a.cover == b.cover && a.soil == b.soil && slices.Equal(a.layers, b.layers) &&
		a.shift == b.shift && a.mean == b.mean && a.swing == b.swing && a.snowOn == b.snowOn && a.exposure == b.exposure &&
		a.written == b.written && a.resistance == b.resistance && a.nFactor == b.nFactor && a.past.same(b.past)
}
