package sim

import (
	"math"

	"winterline/sim/heat"
)

// From which instant of a step on drive works out what acts: both stages of attempt, or the end alone for goOn.
const (
	atStages = iota
	atEnd
)

// drive is what acts on the cell during a step of length h from t. Films are those at the middle
// of the step, temperatures those at its stages, or at its end alone.
func (c *cell) drive(s *sky, t, h float64, from int) drive {
	var d drive
	e := ends{first: c.firstShell()}
	c.tieToAir(&e)
	var x surroundings
	var ground float64
	buried := c.soil < c.mesh.n
	if buried {
		if ground = c.idle.ground; !c.idle.on {
			ground = c.outside.ground.enthalpy(t)
		}
	} else {
		x = c.outside.surroundings(s.at(t+h/2), c.surfaceTemperature())
		e.outR = x.r
	}
	for k := from; k < 2; k++ {
		at := t + h
		if k == atStages {
			at = t + gamma*h
		}
		share := s.weight(at)
		air := s.between(share)
		if buried {
			u := c.outside.ground.between(share)
			d.ground[k], e.outT = u-ground, c.outside.ground.law.temperature(u)
		} else {
			e.outT = x.temp(air)
		}
		e.tieT = c.innerAir(air, e.outT)
		d.e[k] = e
	}
	return d
}

// surfaceTemperature is that of the outermost shell [°C]; the film outside goes by it.
func (c *cell) surfaceTemperature() float64 {
	last := c.mesh.n - 1
	return c.mesh.phase[last].temperature(c.u[last])
}

// tieToAir couples a pool's surface, or the bare wall of a dry cell, to the air inside
// the pipe.
func (c *cell) tieToAir(e *ends) {
	switch {
	case !c.wet():
		e.tieNode = c.mesh.water
		e.tieG = 1 / (1/(pipeAirFilm*math.Pi*c.bore) + c.mesh.inLiquid[c.mesh.water])
	case c.width > 0:
		node, sheet := c.surfaceSheet()
		e.tieNode = node
		e.tieG = c.width / (1/pipeAirFilm + sheet/heat.IceConductivity)
	}
}

// innerAir is the temperature of the air inside the cell [°C]: outdoor air in an upright pipe, which is open at the
// top; what a draught makes of it elsewhere; without a draught that of what surrounds the pipe.
func (c *cell) innerAir(air airState, around float64) float64 {
	switch {
	case c.upright:
		return air.temp
	case c.air.on:
		return c.air.share*air.temp + c.air.rest
	}
	return around
}

// sheetDone is the ice share from which the sheet over a pool has passed a shell. Were it
// 1, the tie would flip between a shell that is just frozen and the next.
const sheetDone = 0.95

// surfaceSheet finds where a pool gives off heat through its surface: the innermost shell
// that the sheet has not passed, and the thickness [m] of the sheet of ice over it. The innermost
// shell stands for the top of the pool, the outermost for the water at the wall.
func (c *cell) surfaceSheet() (node int, thickness float64) {
	m := c.mesh
	area, all := 0.0, c.mass/heat.WaterDensity/c.share
	for i := range m.water {
		f := m.phase[i].ice(c.u[i])
		area += f * all * m.part[i]
		if f < sheetDone {
			return i, area / c.width
		}
	}
	return 0, area / c.width / 2
}
