package sim

import (
	"math"
	"slices"

	"winterline/sim/heat"
)

// march takes the cell from t to end through still water and given surroundings, with
// its own steps, and keeps its tally.
func (c *cell) march(w *stepper, s *sky, t, end float64) error {
	c.tally.track = append(c.tally.track[:0], c.point(t))
	from := t
	if c.idle.on {
		t = c.idle.from
	}
	for end-t > 1e-6 {
		h := math.Min(c.dt, w.control.Longest)
		if h > 0.999*(end-t) || c.idle.on {
			h = end - t
		} else if h > 0.5*(end-t) {
			h = 0.5 * (end - t)
		}
		supercooled := c.liquid
		done, err := c.step(w, s, t, h)
		if err != nil {
			return err
		}
		t += done
		if supercooled && !c.liquid { // its ice came at once, at the end of the step
			last := c.tally.track[len(c.tally.track)-1]
			last.t = t
			c.tally.track = append(c.tally.track, last)
		}
		if t >= from {
			c.tally.track = append(c.tally.track, c.point(t))
		}
	}
	return nil
}

// step makes one accepted step from t, of length h or shorter, and returns its length.
func (c *cell) step(w *stepper, s *sky, t, h float64) (float64, error) {
	wasIced := c.wet() && c.iced(c.u)
	if c.mayGoOn(w, h) {
		if tr, ok := c.goOn(w, s, t, h, wasIced); ok {
			c.accept(w, t, h, tr)
			return h, nil
		}
	}
	for {
		d := c.drive(s, t, h, atStages)
		tr, ok := w.attempt(c.mesh, &d, c.u, h)
		tr.mistake = max(tr.mistake, c.iceMistake(w))
		if !ok || tr.mistake > 2*w.control.Tolerance && h > w.control.Shortest {
			w.rejected++
			if ok {
				h = math.Max(w.control.nextStep(h, tr.mistake, 0), 0.1*h)
			} else {
				h *= 0.25
			}
			if h < w.control.Shortest {
				return 0, stepError{t, h}
			}
			c.dt = h
			continue
		}
		if c.wet() && !wasIced && c.toIce(w.next) < -contactTolerance {
			h, wasIced = c.landing(w, s, t, h), true
			c.dt = h
			continue // the search has overwritten the step
		}
		c.accept(w, t, h, tr)
		return h, nil
	}
}

// iceStep is the change of ice share over a step that counts as a mistake of 1 K: as the front moves on, what stands
// between it and the cold grows, and with it the step's error.
const iceStep = 0.03

// iceMistake is what the ice that the step in w.next grew or melted counts for among its errors [K].
func (c *cell) iceMistake(w *stepper) float64 {
	if !c.wet() || c.iceShare() == 0 {
		return 0
	}
	grown := (c.iceShareIn(w.next) - c.iceShare()) / iceStep
	return grown * grown
}

// contactTolerance is how close to 0 °C, or to its nucleation temperature, the first ice is located [K].
const contactTolerance = 1e-4

// farAbove is a temperature on both sides of a wall at which none of the two is told to be at 0 °C [°C].
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

// landing finds the step from t, shorter than h, after which the water at the wall stands
// at 0 °C, or the coldest supercooled water at its nucleation temperature, by regula falsi on the step's length (Illinois form).
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
			return math.Max(lo, 0.25*mid) // short of 0 °C; the next step lands from there
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

// accept takes the step in w.next and books it.
func (c *cell) accept(w *stepper, t, h float64, tr trial) {
	w.steps++
	d := c.share * c.length
	c.tally.heatIn += tr.outer * d
	c.tally.surfaceIn += tr.tie * d
	c.tally.groundIn += c.mesh.groundGain(c.firstShell(), w.moved) * d
	first := c.firstShell()
	c.idle.on = false
	c.past.keep(c.mesh, first, c.u, w.next, w.moved, h, tr)
	copy(c.u[first:], w.next[first:c.mesh.n])
	c.read.known = false
	c.dt = w.control.nextStep(h, tr.mistake, c.dt)
	c.nucleate(t + h)
	if c.wet() && c.iced(c.u) {
		c.noteIce(t + h)
	}
}

// noteIce keeps when standing water in the cell first held ice [s].
func (c *cell) noteIce(t float64) {
	c.mesh.chilled = true
	if !c.last.iced {
		c.last.iced, c.last.iceSince = true, t
	}
	if !c.tally.hasFirstIce && !c.film() {
		c.tally.hasFirstIce, c.tally.firstIce, c.tally.heatToIce = true, t, c.tally.heatIn
	}
}

// firstShell is the index of the innermost volume that takes part in still water: the
// water's core, or the wall of a dry cell.
func (c *cell) firstShell() int {
	if c.wet() {
		return 0
	}
	return c.mesh.water
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

// Which instants of a step drive is asked for.
const (
	atStages = iota
	atEnd
)

// drive says what acts on the cell during a step of length h from t. Films are those at the middle
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

// surfaceTemperature is that of the outermost shell [°C], at which the film outside is
// reckoned.
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

// innerAir is the temperature of the air inside the cell [°C]: what a draught makes of it;
// outdoor air where the pipe is open at the top; else that of what surrounds the pipe.
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
// 1, the tie would go back and forth between a shell that is just frozen and the next.
const sheetDone = 0.95

// surfaceSheet finds where a pool's surface gives off its heat: the innermost shell
// that the sheet has not passed, and the thickness [m] of the sheet of ice over it. The inner
// shells stand for the top of the pool; ice that grows there grows down as a sheet.
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
