package sim

import (
	"math"

	"winterline/sim/heat"
)

// parcel is an amount of moving water with one enthalpy.
type parcel struct {
	mass float64 // [kg]
	u    float64 // [K]; below 0: carries slush
}

// stream is moving water, first in front.
type stream []parcel

// mass of the whole stream [kg].
func (s stream) mass() float64 {
	sum := 0.0
	for _, p := range s {
		sum += p.mass
	}
	return sum
}

// heat of the whole stream [J].
func (s stream) heat() float64 {
	sum := 0.0
	for _, p := range s {
		sum += p.mass * p.u
	}
	return sum * heat.LiquidHeat
}

// parcelLimit bounds how many parcels a stream keeps apart.
const parcelLimit = 6

// gather joins neighbouring parcels, smallest difference in temperature first, until no
// more than parcelLimit are left.
func (s stream) gather() stream {
	for len(s) > parcelLimit {
		best, least := 1, math.Inf(1)
		for i := 1; i < len(s); i++ {
			cost := math.Abs(s[i].u-s[i-1].u) * math.Min(s[i].mass, s[i-1].mass)
			if cost < least {
				best, least = i, cost
			}
		}
		s[best-1] = blendParcels(s[best-1], s[best])
		s = append(s[:best], s[best+1:]...)
	}
	return s
}

func blendParcels(a, b parcel) parcel {
	m := a.mass + b.mass
	if m == 0 {
		return a
	}
	return parcel{m, (a.mass*a.u + b.mass*b.u) / m}
}

// split takes the last `mass` kg off the stream and returns what goes on and what stays.
func (s stream) split(mass float64) (on, stay stream) {
	for i := len(s) - 1; i >= 0; i-- {
		if mass <= 0 {
			return s[: i+1 : i+1], stay
		}
		if s[i].mass > mass {
			stay = append(stay, parcel{mass, s[i].u})
			on = append(stream{}, s[:i]...)
			return append(on, parcel{s[i].mass - mass, s[i].u}), stay
		}
		stay = append(stay, s[i])
		mass -= s[i].mass
	}
	return nil, stay
}

// mean blends all of the stream into one parcel.
func (s stream) mean() parcel {
	var all parcel
	for _, p := range s {
		all = blendParcels(all, p)
	}
	return all
}

// passage is one lot of water on its way through the line.
type passage struct {
	start, run float64 // when it starts and how long it runs [s]; run 0: it drains, without time for heat
	rate       float64 // [m³/s]
	depth      func(c *cell) float64
}

// pass takes a stream through the cell and leaves `target` kg/m standing in it, as far as
// the water suffices. First in is first out: what stood in the cell goes on before what
// comes. The moving water heats wall and ice, and melts it; ice stays behind. It
// returns the stream that goes on and the heat of wall and soil that joined the wetted
// share [J].
func (c *cell) pass(w *stepper, s *sky, p passage, in stream, target float64) (stream, float64, error) {
	c.stir()
	first := c.bedStart()
	own := c.takeLiquid(first)
	if p.run > 0 && len(in) > 0 {
		if err := c.wash(w, s, p, in, first); err != nil {
			return nil, 0, err
		}
	}
	all := append(stream{}, in...)
	if own.mass > 0 {
		all = append(stream{own}, in...)
	}
	return c.leave(all, first, target)
}

// stir lets ice sink to the wall, and supercooled water freeze: running water does both.
func (c *cell) stir() {
	if !c.wet() {
		return
	}
	if c.liquid {
		for i := range c.mesh.water {
			if c.u[i] < 0 {
				c.mesh.setPhase(waterPhase)
				c.liquid, c.slushy = false, true
				break
			}
		}
	}
	for i := 1; i < c.mesh.water; i++ {
		if c.u[i] > c.u[i-1] && c.u[i-1] < 0 {
			l := c.profile()
			l.settle()
			l.fill(c.u[:c.mesh.water], c.mass)
			return
		}
	}
}

// looseIce is the ice share under which a shell runs with the water, as slush [-].
const looseIce = 0.02

// bedStart is the index of the innermost volume that does not run with the water: the
// first shell that holds more than loose ice, or the wall.
func (c *cell) bedStart() int {
	if !c.wet() {
		return c.mesh.water
	}
	for i := range c.mesh.water {
		if c.mesh.phase[i].ice(c.u[i]) > looseIce {
			return i
		}
	}
	return c.mesh.water
}

// takeLiquid reads the water inside the bed as one parcel.
func (c *cell) takeLiquid(first int) parcel {
	if !c.wet() {
		return parcel{}
	}
	var all parcel
	for i := range first {
		all = blendParcels(all, parcel{c.shellMass(i), c.u[i]})
	}
	return all
}

// shellMass is the mass of a water shell over the cell's length [kg].
func (c *cell) shellMass(i int) float64 {
	n := float64(c.mesh.water * c.mesh.water)
	return c.mass * c.length * float64(2*i+1) / n
}

const (
	washFirst = 8.0   // first step while water runs [s]
	washGrow  = 1.6   // ratio of neighbouring steps
	washMost  = 600.0 // longest such step [s]
)

// wash marches the cell while the stream's parcels run through it, each at its own
// enthalpy, and takes from each parcel what it gave to wall and ice.
func (c *cell) wash(w *stepper, s *sky, p passage, in stream, first int) error {
	total := in.mass()
	p.rate = total / heat.WaterDensity / p.run // what cells upstream have kept does not come this far
	t, step := p.start, washFirst
	for k := range in {
		lasts := p.run * in[k].mass / total
		n := math.Max(1, math.Ceil(lasts/step-1e-9))
		for range int(n) {
			h := lasts / n
			part := parcel{in[k].mass / n, in[k].u}
			given, err := c.washOver(w, s, p, part, first, t, h)
			if err != nil {
				return err
			}
			in[k].u -= given / (in[k].mass * heat.LiquidHeat)
			t += h
			step = math.Min(washMost, step*washGrow)
		}
	}
	return nil
}

// washOver is washStep, in two halves where it does not converge whole.
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
	e := c.washEnds(s, p, part, first, t+h)
	w.grow(c.mesh.n)
	if len(w.next) < c.mesh.n {
		w.next = make([]float64, c.mesh.n)
	}
	base, next := w.base[:c.mesh.n], w.next[:c.mesh.n]
	copy(base, c.u)
	w.moved = 0
	if c.soil < c.mesh.n {
		w.moved = c.outside.ground.enthalpy(t+h) - c.outside.ground.enthalpy(t)
		addGround(c.mesh, base, w.moved)
	}
	w.sides(c.mesh, first, c.u)
	copy(next, base)
	q, ok := w.solve(c.mesh, &e, h, base, next)
	if !ok {
		return 0, false
	}
	w.steps++
	d := c.share * c.length
	c.tally.heatIn += q.outer * h * d
	c.tally.groundIn += c.mesh.groundGain(first, w.moved) * d
	copy(c.u[first:], next[first:])
	return q.tie * h * d, true
}

// washEnds couples the running water to the bed: over a cell's length its temperature
// falls towards the bed's exponentially (plug flow), so that what it gives is
// capacity rate × (1 − exp(−NTU)) × the difference at the inlet.
func (c *cell) washEnds(s *sky, p passage, part parcel, first int, t float64) ends {
	e := ends{first: first, tieNode: first, tieT: math.Max(0, part.u)}
	e.outR, e.outT = c.outside.atSurface(s, t, c.surfaceTemperature())
	speed := p.rate / c.flowArea(p)
	film := heat.FilmInside(e.tieT, c.bore, c.length, speed)
	r := 1 / (film * math.Pi * c.bore)
	switch {
	case first == c.mesh.water:
		r += c.mesh.inLiquid[first]
	case c.mesh.phase[first].ice(c.u[first]) >= 1:
		r += c.mesh.inFrozen[first]
	}
	rate := heat.WaterDensity * p.rate * heat.LiquidHeat // [W/K]
	d := c.share * c.length
	e.tieG = rate * -math.Expm1(-d/(r*rate)) / d
	return e
}

// flowArea is the cross-section through which the water runs [m²].
func (c *cell) flowArea(p passage) float64 {
	open := math.Max(c.boreArea()-c.iceArea(), 0.02*c.boreArea())
	if p.depth == nil {
		return open
	}
	return math.Min(open, math.Max(p.depth(c), 0.02*c.boreArea()))
}

// leave sets what stays in the cell out of a stream and its own bed.
func (c *cell) leave(all stream, first int, target float64) (stream, float64, error) {
	bed, melted := c.bed(first)
	want := math.Max(0, math.Min(target*c.length-bed.mass(), all.mass()+melted.mass())) // no more than there is
	if (bed.mass()+want)/c.length < dryBelow*c.boreArea()*heat.WaterDensity {
		all = append(append(stream{}, all...), melted...)
		all = append(all, bed...)
		moved := c.relayer(nil)
		return all.positive(), moved, nil
	}
	fromStream := math.Max(0, want-melted.mass())
	on, stay := all.split(fromStream)
	if spare := melted.mass() - want; spare > 0 {
		var back stream
		back, melted = melted.split(want)
		on = append(append(stream{}, on...), back...)
	}
	inside := append(stay, melted...).mean()
	layers := append(bed, inside)
	return on.positive(), c.relayer(layers), nil
}

// positive drops parcels without mass.
func (s stream) positive() stream {
	var out stream
	for _, p := range s {
		if p.mass > 0 {
			out = append(out, p)
		}
	}
	return out
}

// bed reads the shells from index first outwards, from the wall inwards: those that
// still hold ice, and those that have melted.
func (c *cell) bed(first int) (ice, melted stream) {
	if !c.wet() {
		return nil, nil
	}
	for i := c.mesh.water - 1; i >= first; i-- {
		p := parcel{c.shellMass(i), c.u[i]}
		if p.u < 0 {
			ice = append(ice, p)
		} else {
			melted = append(melted, p)
		}
	}
	return ice, melted
}

// relayer replaces the standing water by the given layers, from the wall inwards, and
// returns the heat of wall and soil that joined the wetted share [J].
func (c *cell) relayer(from stream) float64 {
	oldShare := c.share
	l := &layers{}
	for _, p := range from {
		l.add(p.mass/c.length, p.u)
	}
	sum := 0.0
	for _, m := range l.mass {
		sum += m
	}
	c.shape(sum)
	if c.wet() {
		if c.mixed {
			l.equalise()
		}
		l.fill(c.u[:c.mesh.water], c.mass)
		c.superheat()
	}
	return c.wallJoined(oldShare)
}

// coldViscosity is the kinematic viscosity of water in a discharge line, at 5 °C; it does
// not change enough to follow [m²/s].
var coldViscosity = heat.WaterKinematicViscosity(5)
