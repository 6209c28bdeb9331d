package sim

import (
	"winterline/sim/heat"
	"winterline/weather"
)

// GroundMound is a mound under steady weather: air, its wind at 2 m and a sky of the same temperature.
type GroundMound struct {
	*mound
	Air, Wind float64
}

// NewGroundMound lies on a spread area [m²] in air [°C] and wind [m/s].
func NewGroundMound(area, air, wind float64) GroundMound {
	return GroundMound{newMound("outlet", area, 1), air, wind}
}

// Take lets water [kg] of a temperature [°C] go on ground that is as cold as the air.
func (m GroundMound) Take(mass, t float64) { m.take(mass, mass*heat.LiquidHeat*t, m.Air < 0) }

// March waits for some seconds.
func (m GroundMound) March(dt float64) {
	rows := []float64{0, dt}
	w := &winter{k: &Case{Weather: &weather.Series{}}, sky: &sky{time: rows, air: []float64{m.Air, m.Air}, wind: []float64{m.Wind, m.Wind}, temp: []float64{m.Air, m.Air}}}
	s := &mounds{w: w, toWind: 1}
	m.time = 0
	s.follow(m.mound, dt)
}

// Held is what lies there, RanOff what did not stay, Ice the ice of it [kg]; Thickness is that of the ice [m].
func (m GroundMound) Held() float64      { return m.mass }
func (m GroundMound) RanOff() float64    { return m.ranOff.value() }
func (m GroundMound) Ice() float64       { return m.ice() }
func (m GroundMound) Thickness() float64 { return m.thickness() }
