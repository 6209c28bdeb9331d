package sim

import (
	"math"

	"winterline/sim/heat"
)

// start sets the state at the first weather row: wall and insulation at the
// temperature of what surrounds them, water standing where it would rest.
func (w *winter) start() {
	l := w.line
	w.sill = l.sill
	if w.pocket != nil {
		w.sill = l.slot
	}
	mass := l.massAt(l.levels(w.rest()))
	for i, c := range l.cells {
		s := &w.k.Layout.Segments[c.segment]
		t := c.startTemperature(w.sky)
		if !c.upright {
			t = pick(s.StartTemperature, t)
		}
		if s.Standing != nil && !c.upright {
			mass[i] = *s.Standing * c.boreArea() * heat.WaterDensity
			c.written = mass[i]
		}
		water := t
		if t <= 0 && s.StartTemperature == nil {
			water = w.arriving(0) // it came from the pump; the record does not start with ice
		}
		c.begin(mass[i], t, water, w.step.control.First)
		c.last.sill = w.sill
	}
	if w.pocket != nil && w.pocket.warmth != nil {
		w.pocket.warmth.begin()
	}
	w.heat.before = w.storedHeat()
	w.water.before = l.held()
}

// startTemperature is that of what lies around the cell at the first row [°C].
func (c *cell) startTemperature(s *sky) float64 {
	_, t := c.outside.atSurface(s, 0, s.at(0).temp)
	return t
}

// begin fills the cell with water [°C] and sets the rest of it to a temperature t [°C];
// water does not start as ice.
func (c *cell) begin(mass, t, water, step float64) {
	c.shape(mass)
	for i := range c.mesh.n {
		at := t
		if i < c.mesh.water {
			at = math.Max(0, water)
		}
		c.u[i] = c.mesh.phase[i].enthalpy(at)
	}
	if c.soil < c.mesh.n {
		for i := c.soil; i < c.mesh.n; i++ {
			c.u[i] = c.outside.ground.u[0]
		}
	}
	c.dt = step
	c.changed()
	c.last = lastWarm{}
	c.last.stands(c)
}
