package sim

import (
	"math"
	"slices"
)

// contactTolerance is how close to 0 °C, or to the nucleation temperature, a step has to end at which the first ice
// forms [K].
const contactTolerance = 1e-4

// farAbove is a temperature that spares the sum for the wall between two shells: where both are warmer, water
// does not freeze at it [°C].
const farAbove = 0.01

// iced reports whether the water has come to 0 °C at the wall, or holds ice.
func (c *cell) iced(u []float64) bool {
	if c.liquid {
		return false // supercooled, not nucleated
	}
	last := c.mesh.water - 1
	if c.mesh.phase[last].plateau > 0 && slices.Min(u[:c.mesh.water]) < 0 {
		return true
	}
	if u[last] > farAbove && u[last+1] > farAbove && !c.mixed {
		return false
	}
	return c.above(u) < 2*contactTolerance
}

// above is how far the water is from its first ice [K]: mixed water freezes when all
// of it is at 0 °C, still water when that at the wall is.
func (c *cell) above(u []float64) float64 {
	if !c.mixed {
		return c.wallContact(u)
	}
	sum, all := 0.0, 0.0
	for i := range c.mesh.water {
		sum += c.mesh.cap[i] * u[i]
		all += c.mesh.cap[i]
	}
	return sum / all
}

// toIce is how far the water is from turning to ice [K], supercooled water from its nucleation.
func (c *cell) toIce(u []float64) float64 {
	if !c.liquid {
		return c.above(u)
	}
	return slices.Min(u[:c.mesh.water]) - c.nucleus
}

// landing finds the step from t, shorter than h, after which the water at the wall stands at 0 °C, or the coldest
// supercooled water at its nucleation temperature. It is regula falsi on the step's length; the value at the end that is
// kept is halved every time, as in the Illinois method, so that neither end can be kept for long. On entry w.next holds
// the step of length h.
func (c *cell) landing(w *stepper, s *sky, t, h float64) float64 {
	c.mesh.chilled = true
	lo, flo := 0.0, c.toIce(c.u)
	hi, fhi := h, c.toIce(w.next)
	for range 12 {
		if hi-lo < 0.5 || flo <= 0 {
			break
		}
		mid := lo + (hi-lo)*math.Min(0.98, math.Max(0.02, flo/(flo-fhi)))
		d := c.drive(s, t, mid, atStages)
		if _, ok := w.attempt(c.mesh, &d, c.u, mid); !ok {
			return math.Max(lo, 0.25*mid) // ends above 0 °C; the next step lands from there
		}
		f := c.toIce(w.next)
		if math.Abs(f) < contactTolerance {
			return mid
		}
		if f > 0 {
			lo, flo, fhi = mid, f, fhi/2
		} else {
			hi, fhi, flo = mid, f, flo/2
		}
	}
	return hi
}

// noteIce notes at t [s] that the standing water holds ice: since when, and whether for the first time.
func (c *cell) noteIce(t float64) {
	c.mesh.chilled = true
	if !c.last.iced {
		c.last.iced, c.last.iceSince = true, t
	}
	if !c.tally.hasFirstIce && !c.film() {
		c.tally.hasFirstIce, c.tally.firstIce, c.tally.heatToIce = true, t, c.tally.heatIn
	}
}

// nucleate lets supercooled water freeze where it has reached its nucleation
// temperature: enthalpy stays, the law changes, and the sensible heat missing becomes
// ice spread through the water (dendritic slush).
func (c *cell) nucleate(t float64) {
	if c.liquid && c.wet() && c.toIce(c.u) <= contactTolerance {
		c.toSlush(t)
	}
}

// superheat makes water that is wholly above 0 °C able to supercool again.
func (c *cell) superheat() {
	if c.nucleus >= 0 || c.liquid {
		return
	}
	for i := range c.mesh.water {
		if c.u[i] < 0 {
			return
		}
	}
	c.mesh.setPhase(supercooledPhase)
	c.liquid, c.slushy = true, false
}
