package sim

import (
	"math"

	"winterline/sim/heat"
)

// lastWarm is what a cell remembers of the last warm water that ran through it, to tell of if ice shuts it: that water,
// what it left standing, and the cell's books at that time.
type lastWarm struct {
	known    bool      // false: none has come since the record's start
	end      float64   // when it had passed [s]
	mass     float64   // how much came [kg]
	heat     float64   // its enthalpy over the heat capacity [kg K]
	standing float64   // water and ice that it left standing [kg]
	ice      float64   // ice among that [kg]
	above    float64   // heat of what it left, above 0 °C [J]
	sill     float64   // level held at the outlet at that time [m]
	books    cellBooks // at that time
	carried  float64   // heat that moved water has brought since [J]
	iced     bool      // there is ice
	iceSince float64   // since when, without a break [s]
}

// cellBooks are a cell's books of heat at an instant [J].
type cellBooks struct{ content, outside, surface, ground float64 }

// booksNow reads a cell's books.
func (c *cell) booksNow() cellBooks {
	return cellBooks{c.heatContent(), c.tally.heatIn, c.tally.surfaceIn, c.tally.groundIn}
}

// stands notes what stands in the cell now, and its books.
func (k *lastWarm) stands(c *cell) {
	k.standing, k.ice, k.above = c.mass*c.length, c.iceMass(), 0
	if c.wet() {
		for i := range c.mesh.water {
			k.above += max(0, c.u[i]) * c.shellMass(i) * heat.LiquidHeat
		}
	}
	k.books, k.carried = c.booksNow(), 0
}

// sameRun is the longest pause between two lots of water that count as one run [s].
const sameRun = 1.0

// arriving is water that comes to a cell.
type arriving struct {
	parcel
	warm bool // it runs, and is warm; what drains when the pump has stopped does not count
}

// arrives looks at a stream before the cell takes it.
func arrives(p passage, in stream) arriving {
	a := arriving{parcel: in.mean()}
	a.warm = p.run > 0 && !p.thin && a.mass > crumb && a.u > leastWarm
	return a
}

// passed notes what a passage did to the cell: a is what came, out what went on, wall the heat of wall and soil that
// joined the wetted share [J], sill the level held at the outlet [m].
func (c *cell) passed(p passage, a arriving, out stream, wall, sill float64) {
	k := &c.last
	if !a.warm {
		k.carried += a.mass*a.u*heat.LiquidHeat - out.heat() + wall
		return
	}
	if !k.known || p.start-k.end > sameRun {
		k.mass, k.heat = 0, 0
	}
	k.known, k.end, k.sill = true, p.start+p.run, sill
	k.mass, k.heat = k.mass+a.mass, k.heat+a.mass*a.u
	k.stands(c)
}

// freeOfIce forgets since when there was ice, once there is none any more.
func (c *cell) freeOfIce() {
	if c.last.iced && !(c.wet() && c.iced(c.u)) {
		c.last.iced = false
	}
}

// warm is the last warm water as a closure tells of it.
func (k *lastWarm) warm() WarmWater {
	if !k.known {
		return WarmWater{math.NaN(), math.NaN(), math.NaN()}
	}
	return WarmWater{k.end, k.heat / k.mass, k.mass / heat.WaterDensity}
}

// held is the heat of the water from the last warm water until the cell shut, at t [s] and with so much ice in it [kg].
func (k *lastWarm) held(t, ice float64) HeatHeld {
	h := HeatHeld{
		Standing: k.standing / heat.WaterDensity, AboveZero: k.above, ToShut: max(0, ice-k.ice) * heat.Fusion,
		Mean: math.NaN(), FirstIce: math.NaN(), LossToIce: math.NaN(), Loss: math.NaN(),
	}
	if k.standing > 0 {
		h.IceBefore = k.ice / k.standing
	}
	if liquid := k.standing - k.ice; liquid > 0 {
		h.Mean = k.above / (liquid * heat.LiquidHeat)
	}
	if k.iced {
		h.FirstIce = k.iceSince
	}
	if h.FirstIce > k.end {
		h.LossToIce = h.AboveZero / (h.FirstIce - k.end)
	}
	if t > k.end {
		h.Loss = (h.AboveZero + h.ToShut) / (t - k.end)
	}
	return h
}

// spent is the cell's book from the last warm water until now, t [s].
func (c *cell) spent(t float64) HeatSpent {
	a, b := c.last.books, c.booksNow()
	return HeatSpent{
		Until: t, Content: b.content - a.content, Outside: b.outside - a.outside, Surface: b.surface - a.surface,
		Ground: b.ground - a.ground, Carried: c.last.carried,
	}
}
