package sim

import (
	"math"
	"slices"
)

// shellsRead is what has been read from a cell's water shells, kept until they change: nearly all of a
// winter's questions for a cell's ice come while it stands still. It is stale as soon as an enthalpy, a
// heat capacity or the law of a water shell changes; whatever changes one calls changed.
type shellsRead struct {
	known  bool
	lowest float64 // least enthalpy of a shell [K]; from 0 on there is no ice
	ice    float64 // ice share [-]
}

// changed forgets what was read from the water shells.
func (c *cell) changed() { c.read.known, c.past.h = false, 0 }

// shells reads the water shells of a wet cell where they have changed.
func (c *cell) shells() *shellsRead {
	if r := &c.read; !r.known {
		r.known, r.lowest, r.ice = true, slices.Min(c.u[:c.mesh.water]), 0
		if !(r.lowest >= 0) {
			r.ice = c.iceShareIn(c.u)
		}
	}
	return &c.read
}

// iceShare is the ice share of the standing water by mass [-].
func (c *cell) iceShare() float64 {
	if !c.wet() {
		return 0
	}
	return c.shells().ice
}

// iceShareIn is the ice share of a wet cell whose shells are in state u. All shells have one law.
func (c *cell) iceShareIn(u []float64) float64 {
	m := c.mesh
	plateau := m.phase[0].plateau
	if plateau == 0 {
		return 0
	}
	ice, part := 0.0, m.part[:m.water]
	for i, v := range u[:m.water] {
		switch {
		case v >= 0:
		case v <= -plateau:
			ice += part[i]
		default:
			ice -= part[i] * v / plateau
		}
	}
	return ice
}

// lowestWater is the lowest temperature of the standing water or ice [°C]; NaN when dry. All shells have
// one law, by which none is colder than that of least enthalpy.
func (c *cell) lowestWater() float64 {
	if c.film() {
		return math.NaN()
	}
	return c.mesh.phase[0].temperature(c.shells().lowest)
}
