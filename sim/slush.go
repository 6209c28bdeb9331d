package sim

import (
	"math"

	"winterline/sim/heat"
)

// slushPoint is when supercooled water of a cell turned to slush.
type slushPoint struct {
	t    float64 // [s]
	cold float64 // of its coldest shell just before [°C]
}

// toSlush makes supercooled water freeze as it is at t [s]: enthalpy stays, the law changes, and the
// sensible heat missing becomes ice spread through the water.
func (c *cell) toSlush(t float64) {
	cold := 0.0
	for i := range c.mesh.water {
		cold = math.Min(cold, c.u[i]) // liquid: u is its temperature
	}
	c.mesh.setPhase(waterPhase)
	c.changed()
	c.liquid, c.slushy = false, true
	if c.tally.slush == nil {
		c.tally.slush = &slushPoint{t, cold}
	}
}

// slush notes that supercooled water in a segment turned to slush; once until all of the segment's
// water has been above 0 °C again.
func (r *recorder) slush(s *segmentTally) {
	var first *slushPoint
	slushy := false
	for _, c := range s.cells {
		if p := c.tally.slush; p != nil && (first == nil || p.t < first.t) {
			first = p
		}
		c.tally.slush = nil
		slushy = slushy || c.slushy
	}
	if first != nil && !s.slushTold {
		s.slushTold = true
		r.event(first.t, EventSlush, s.result.Name, 100*heat.DendriticFraction(first.cold), "%",
			"water in the "+s.result.Name+" that had stayed liquid below 0 °C turned to slush at once; the share that it made of it")
	}
	s.slushTold = s.slushTold && slushy
}
