package sim

import (
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// mounds are the ice on the ground at the outlet and at each relief opening, with the weather there:
// air, wind and sky as the open pipe has them, no sun (the safe side for what freezes), and a level
// surface that sees the whole sky.
type mounds struct {
	lip     *mound   // right over the lid, or before the open end; nil: no spread area is known
	outlet  *mound   // on the ground around that; nil with lip
	reliefs []*mound // one an opening, in the layout's order
	base    float64  // level of the ground at the outlet [m]
	skin    *track   // the ground near its surface; nil: not computed
	w       *winter
	toWind  float64 // wind at 2 m over that at the pipe [-]
}

// wellingUp is the ground right where the line lets go, over which all of its water comes first [m²]: it melts
// more there than farther out, and keeps a hole open while it comes warm (common practice, no
// source).
const wellingUp = 0.3

// skinDepth is where the ground's temperature says whether water let go on it freezes or is drunk [m]
// (common practice, no source). Where no ground is computed the air's mean over a day stands for it.
const skinDepth = 0.02

// newMounds places the mounds of a winter.
func newMounds(w *winter) *mounds {
	l := w.k.Layout
	s := &mounds{w: w, toWind: math.Min(1/l.Site.WindExposure, toTwoMetres/openExposure)}
	last := len(l.Segments) - 1
	ground := w.k.Profile.Ground(w.k.Profile.X(last, 1))
	s.base = math.Min(ground, w.line.end)
	edge := w.line.end - s.base + l.Segments[last].Size.Bore()
	if l.Outlet.Kind == pipe.Lid {
		s.base = ground
		edge = w.line.sill - ground
	}
	s.lip = newMound("outlet", math.Min(wellingUp, l.Outlet.SpreadArea), edge)
	s.outlet = newMound("outlet", l.Outlet.SpreadArea, edge)
	for i, r := range l.Reliefs {
		s.reliefs = append(s.reliefs, newMound(fmt.Sprintf("relief %d", i+1), r.SpreadArea, r.Height))
	}
	if g := w.ground.own(); g.frost != nil {
		s.skin = g.at(skinDepth)
	}
	return s
}

// frozen reports whether the ground is below 0 °C at t.
func (s *mounds) frozen(t float64) bool {
	if s.skin != nil {
		return s.skin.temperature(t) < 0
	}
	sky := s.w.sky
	sum, n := 0.0, 0.0
	for i := sky.row; i >= 0 && sky.time[i] > sky.time[sky.row]-86400; i-- {
		sum, n = sum+sky.air[i], n+1
	}
	return sum/n < 0
}

// surface is the mound's at t, as smooth as snow and wet: what it takes in is asked of it at the
// temperature of the water. melt is the heat that melts snow in such air by the degree-days [W/m²],
// sun and all.
func (s *mounds) surface(t float64) (x exchange, melt float64) {
	sky := s.w.sky
	air := sky.at(t)
	k := air.sky + heat.Kelvin
	x = exchange{
		air: air.temp, wind: math.Max(leastWind, air.wind*s.toWind), sky: heat.StefanBoltzmann * k * k * k * k,
		vapour: math.NaN(), roughness: snowRoughness,
	}
	x.neutral = heat.AerodynamicResistance(x.wind, windHeight, 0, x.roughness)
	if dew := sky.dew; dew != nil {
		d := dew[sky.row] + sky.weight(t)*(dew[sky.row+1]-dew[sky.row])
		x.vapour = heat.VapourPressure(math.Min(d, air.temp))
	}
	if air.temp <= 0 {
		return x, math.Inf(-1)
	}
	return x, meltHeat * air.temp
}

// follow takes a mound to time t within the interval of the weather that all march through.
func (s *mounds) follow(m *mound, t float64) {
	if m == nil {
		return
	}
	for t-m.time > 1e-6 {
		if m.mass <= 0 {
			m.time = t
			return
		}
		dt := math.Min(moundStep, t-m.time)
		x, melt := s.surface(m.time + dt/2)
		m.march(&x, melt, dt, s.frozen(m.time+dt/2))
	}
}

// let lets water [kg] with its heat [J] go onto a mound's ground at time t [s].
func (s *mounds) let(m *mound, t, mass, warmth float64) {
	if m == nil || mass <= 0 {
		return
	}
	s.follow(m, t)
	m.take(mass, warmth, s.frozen(t))
}

// letOut lets water go at the line's end: what the ground right there does not keep runs on around it.
func (s *mounds) letOut(t, mass, warmth float64) {
	if s.outlet == nil || mass <= 0 {
		return
	}
	s.follow(s.lip, t)
	off, carried := s.lip.take(mass, warmth, s.frozen(t))
	s.let(s.outlet, t, off, carried)
}

// letRelief lets what ran out of the reliefs by time t [s] onto the ground before each, in the shares in which they flow at
// the level of the parting beside so much snow [m].
func (s *mounds) letRelief(p parting, snow, t, mass, warmth float64) {
	j := s.w.joint
	all := j.relief(p.level, snow)
	if all <= 0 {
		return
	}
	for i, o := range j.reliefs {
		share := o.flow(p.level, snow) / all
		s.let(s.reliefs[i], t, mass*share, warmth*share)
	}
}

// judge follows all mounds to time t and lets their ice stand before openings and the line's end. It
// reports whether ice has shut the end, or let go of it, and when.
func (s *mounds) judge(t float64) (turned bool, at float64) {
	w := s.w
	for i, m := range s.reliefs {
		if m == nil {
			continue
		}
		s.follow(m, t)
		w.joint.reliefs[i].ice = m.thickness()
		if turned, at := m.judge(); turned && m.over {
			w.record.reliefIced(m, at)
		}
	}
	if s.outlet == nil {
		return false, 0
	}
	s.follow(s.outlet, t)
	s.follow(s.lip, t)
	turned, at = s.lip.judge()
	w.line.iced = s.lip.over
	if w.k.Layout.Outlet.Kind == pipe.Open {
		w.line.sill = math.Max(w.line.end, s.base+math.Min(s.lip.thickness(), s.lip.edge))
		w.sill = w.line.sill
	}
	return turned, at
}
