package sim

import (
	"math"

	"winterline/sim/heat"
)

const (
	washFirst = 8.0   // first step while water runs [s]
	washGrow  = 1.6   // ratio of neighbouring steps
	washMost  = 600.0 // longest such step [s]
	washWarm  = 6.0   // over a bed that nothing freezes on, steps are so many times as long
)

// wash marches the cell while the stream's parcels run through it, each at its own
// enthalpy, and takes from each parcel what it gave to wall and ice.
func (c *cell) wash(w *stepper, s *sky, p passage, in stream, first int) error {
	total := in.mass()
	p.rate = total / heat.WaterDensity / p.run // what cells upstream have kept does not come this far
	p.area = c.boreArea()
	if p.free {
		p.area = c.runningArea(p.flow)
	}
	t, step := p.start, washFirst
	if p.step > 0 {
		step = p.step
	}
	if first == c.mesh.water && c.u[first]+in.mean().u > 0 {
		step *= washWarm
	}
	step *= w.control.Running
	for k := range in {
		if in[k].mass < crumb {
			continue
		}
		lasts := p.run * in[k].mass / total
		n := max(1, math.Ceil(lasts/step-1e-9))
		for range int(n) {
			h := lasts / n
			part := parcel{in[k].mass / n, in[k].u}
			given, err := c.washOver(w, s, p, part, first, t, h)
			if err != nil {
				return err
			}
			in[k].u -= given / (in[k].mass * heat.LiquidHeat)
			t += h
			step = min(washMost*w.control.Running, step*washGrow)
		}
	}
	return nil
}

// washOver is washStep, and where that does not converge two halves of it.
func (c *cell) washOver(w *stepper, s *sky, p passage, part parcel, first int, t, h float64) (float64, error) {
	given, ok := c.washStep(w, s, p, part, first, t, h)
	if ok {
		return given, nil
	}
	w.rejected++
	if h < w.control.Shortest {
		return 0, stepError{t, h}
	}
	part.mass /= 2
	a, err := c.washOver(w, s, p, part, first, t, h/2)
	if err != nil {
		return 0, err
	}
	b, err := c.washOver(w, s, p, part, first, t+h/2, h/2)
	return a + b, err
}

// washStep is one implicit step with water of one enthalpy running by; it returns the
// heat that the water gave [J], or false where it does not converge.
func (c *cell) washStep(w *stepper, s *sky, p passage, part parcel, first int, t, h float64) (float64, bool) {
	e, thawing := c.washEnds(s, p, part, first, t+h)
	w.begin(c.mesh, first, c.u)
	base, next := w.base[:c.mesh.n], w.next[:c.mesh.n]
	copy(base, c.u)
	w.moved = 0
	if c.soil < c.mesh.n {
		w.moved = c.outside.ground.enthalpy(t+h) - c.outside.ground.enthalpy(t)
		addGround(c.mesh, base, w.moved)
	}
	copy(next, base)
	q, ok := w.solve(c.mesh, &e, h, base, next)
	if ok && q.tie < 0 && e.tieG > thawing { // the bed has thawed meanwhile: it only warms the water up to itself
		e.tieG = thawing
		copy(next, base)
		q, ok = w.solve(c.mesh, &e, h, base, next)
	}
	if !ok {
		return 0, false
	}
	w.steps++
	d := c.share * c.length
	c.tally.heatIn += q.outer * h * d
	c.tally.groundIn += c.mesh.groundGain(first, w.moved) * d
	copy(c.u[first:], next[first:])
	if first < c.mesh.water {
		c.changed()
	}
	c.past.h = 0
	return q.tie * h * d, true
}

// washEnds couples the running water to the bed: over a cell's length its temperature
// falls towards the bed's exponentially (plug flow), so that what it gives is
// capacity rate × (1 − exp(−NTU)) × the difference at the inlet. Water at 0 °C does not cool on a
// frozen bed, it freezes, and gives all that the film lets it, up to its heat of fusion. thawing is the conductance to a
// bed on which it does not freeze.
func (c *cell) washEnds(s *sky, p passage, part parcel, first int, t float64) (e ends, thawing float64) {
	e = ends{first: first, tieNode: first, tieT: max(0, part.u)}
	e.outR, e.outT = c.outside.atSurface(s, t, c.surfaceTemperature())
	area := c.flowArea(p)
	wetted := c.flowPerimeter(area)
	film := heat.FilmInside(e.tieT, 4*area/wetted, c.length, p.rate/area)
	round := c.share * math.Pi * c.bore // the wall that the mesh stands for [m]
	touched := min(1, wetted/round)
	r := 1 / (film * touched * math.Pi * c.bore)
	switch {
	case first == c.mesh.water:
		r += c.mesh.inLiquid[first] / touched
	case c.mesh.phase[first].ice(c.u[first]) >= 1:
		r += c.mesh.inFrozen[first]
	}
	rate := heat.WaterDensity * p.rate * heat.LiquidHeat // [W/K]
	d := c.share * c.length
	thawing = rate * -math.Expm1(-d/(r*rate)) / d
	e.tieG = thawing
	if bed := -c.mesh.phase[first].temperature(c.u[first]); part.u <= 0 && bed > 0 {
		e.tieG = min(1/r, rate*max(0, fusion+part.u)/(d*max(bed, leastBed)))
	}
	return e, thawing
}

// leastBed is how far under 0 °C a bed counts at least when what it can freeze is limited [K].
const leastBed = 1e-3

// flowPerimeter is what running water of a cross-section [m²] wets of wall and ice [m]: the
// surface of the ring of ice in a full bore, else the bore's bed.
func (c *cell) flowPerimeter(area float64) float64 {
	if open := c.boreArea() - c.iceArea(); c.vertical || area >= 0.98*open {
		return math.Sqrt(4 * math.Pi * area)
	}
	return c.bedPerimeter(area)
}

// flowArea is the cross-section through which the water runs [m²].
func (c *cell) flowArea(p passage) float64 {
	open := max(c.boreArea()-c.iceArea(), 0.02*c.boreArea())
	return min(open, max(p.area, dryBelow*c.boreArea()))
}

// coldViscosity is the kinematic viscosity of water in a discharge line, at 5 °C; it does
// not change enough to follow [m²/s].
var coldViscosity = heat.WaterKinematicViscosity(5)
