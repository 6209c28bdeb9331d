package sim

import (
	"winterline/sim/heat"
)

// passage is one lot of water on its way through the line.
type passage struct {
	start, run float64   // when it starts and how long it runs [s]; run 0: it drains, without time for heat
	rate       float64   // [m³/s]
	free       bool      // it runs with a free surface where it can; else it takes up the bore
	flow       float64   // for which that surface is reckoned [m³/s]
	area       float64   // cross-section that it takes up in the cell that it passes now [m²]
	thin       bool      // too little and too slow to carry ice on: it freezes to the bed
	step       float64   // first step of heat [s]; 0: as for a pump run
	hold       []float64 // by cell, what stays on its way there [kg]; nil: nothing
	off        []float64 // by cell, what sets off there of what was on its way [kg]; nil: nothing
}

// pass takes a stream through the cell and leaves `target` kg/m standing in it, as far as
// the water suffices. First in is first out: what stood in the cell goes on before what
// comes. The moving water heats wall and ice, and melts it; ice stays behind. It
// returns the stream that goes on and the heat of wall and soil that joined the wetted
// share [J].
func (c *cell) pass(w *stepper, s *sky, f *flume, p passage, in stream, target float64) (stream, float64, error) {
	c.stir(p.start, &f.layers)
	first := c.bedStart()
	own := c.takeLiquid(first)
	var frozen parcel
	if p.run > 0 && len(in) > 0 {
		if err := c.wash(w, s, p, in, first); err != nil {
			return nil, 0, err
		}
		if p.thin {
			in, frozen = in.freezeOut()
		}
	}
	all := f.next()
	if own.mass > 0 {
		all = append(all, own)
	}
	on, wall := c.leave(f, append(all, in...), frozen, first, target)
	return on, wall, nil
}

// stir lets ice sink to the wall, and supercooled water freeze: running water does both.
func (c *cell) stir(t float64, l *layers) {
	if !c.wet() || c.shells().lowest >= 0 {
		return // there is no ice, nor supercooled water
	}
	if c.liquid {
		for i := range c.mesh.water {
			if c.u[i] < 0 {
				c.toSlush(t)
				break
			}
		}
	}
	for i := 1; i < c.mesh.water; i++ {
		if c.u[i] > c.u[i-1] && c.u[i-1] < 0 {
			c.profile(l)
			l.settle()
			l.fill(c.u[:c.mesh.water], c.mesh.part, c.mass)
			c.changed()
			return
		}
	}
}

// looseIce is the ice share under which a shell runs with the water, as slush [-].
const looseIce = 0.02

// bedStart is the index of the innermost volume that does not run with the water: the
// first shell that holds more than loose ice, or the wall.
func (c *cell) bedStart() int {
	if !c.wet() || c.shells().lowest >= 0 {
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
func (c *cell) shellMass(i int) float64 { return c.mass * c.length * c.mesh.part[i] }

// leave sets what stays in the cell out of a stream, what of it froze on, and its own bed.
func (c *cell) leave(f *flume, all stream, frozen parcel, first int, target float64) (stream, float64) {
	bed, melted := c.bed(f, first)
	if frozen.mass > 0 {
		room := max(0, c.boreArea()*c.length*heat.WaterDensity-bed.mass())
		if more := frozen.mass - room; more > 0 { // goes on as slush
			frozen.mass = room
			all = append(all, parcel{more, frozen.u})
		}
		bed = append(bed, frozen)
	}
	want := max(0, min(target*c.length-bed.mass(), all.mass()+melted.mass())) // no more than there is
	if (bed.mass()+want)/c.length < dryBelow*c.boreArea()*heat.WaterDensity {
		all = append(append(all, melted...), bed...)
		return all.positive(), c.relayer(nil, &f.layers)
	}
	fromStream := max(0, want-melted.mass())
	on, stay := all.split(fromStream, f.stay)
	if spare := melted.mass() - want; spare > 0 {
		var back stream
		back, melted = melted.split(want, f.late)
		on = append(on, back...)
	}
	inside := append(stay, melted...).mean()
	return on.positive(), c.relayer(append(bed, inside), &f.layers)
}

// bed reads the shells from index first outwards, from the wall inwards: those that
// still hold ice, and those that have melted.
func (c *cell) bed(f *flume, first int) (ice, melted stream) {
	ice, melted = f.ice[:0], f.melted[:0]
	if !c.wet() {
		return ice, melted
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

// relayer replaces the standing water by the given layers, from the wall inwards, which it works out in l, and
// returns the heat of wall and soil that joined the wetted share [J].
func (c *cell) relayer(from stream, l *layers) float64 {
	oldShare := c.share
	l.empty()
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
		l.fill(c.u[:c.mesh.water], c.mesh.part, c.mass)
		c.superheat()
		c.changed()
	}
	return c.wallJoined(oldShare)
}
