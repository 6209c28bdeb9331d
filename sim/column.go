package sim

import (
	"math"

	"winterline/pipe"
)

// column is the undisturbed ground under one kind of surface: control volumes from 10 m
// depth, where no heat passes, up to the surface. Its thermal state is the enthalpy of
// each volume.
type column struct {
	mesh *mesh
	u    []float64 // [K], deepest first
	dt   float64   // step to try next [s]
	in   float64   // heat that has come in through the surface [J/m²]
}

const (
	columnDepth = 10.0 // [m]
	columnTop   = 0.01 // thickness of the uppermost volumes [m]
	columnFine  = 0.60 // depth to which they stay that thin [m]
	columnGrow  = 1.12 // ratio of neighbouring thicknesses below
	secondsYear = 365 * 86400.0
)

// newColumn builds a column of the given soil layers, the lowest of which reaches down
// to the bottom, at a uniform temperature [°C].
func newColumn(soil func(depth float64) pipe.Soil, t float64) *column {
	depths := columnEdges()
	var v []volume
	for i := len(depths) - 2; i >= 0; i-- {
		s := soil(0.5 * (depths[i] + depths[i+1]))
		v = append(v, volume{columnDepth - depths[i], s.HeatCapacityUnfrozen, soilPhase(s), s.ConductivityUnfrozen, s.ConductivityFrozen})
	}
	c := &column{mesh: newMesh(0, v, 0, false), dt: 3600}
	c.u = make([]float64, c.mesh.n)
	c.setTemperatures(func(float64) float64 { return t })
	return c
}

// columnEdges are the depths of the volumes' edges from the surface down [m].
func columnEdges() []float64 {
	edges := []float64{0}
	dz := columnTop
	for z := 0.0; z < columnDepth; {
		if z >= columnFine-1e-9 {
			dz *= columnGrow
		}
		z = math.Min(columnDepth, z+dz)
		if columnDepth-z < dz {
			z = columnDepth
		}
		edges = append(edges, z)
	}
	return edges
}

// depth is that of a volume's centre [m].
func (c *column) depth(i int) float64 { return columnDepth - c.mesh.centre(i) }

// setTemperatures sets the state from a temperature profile [°C] by depth [m].
func (c *column) setTemperatures(at func(depth float64) float64) {
	for i := range c.u {
		c.u[i] = c.mesh.phase[i].enthalpy(at(c.depth(i)))
	}
}

// cover is what lies between the ground's surface and what drives it: a resistance
// [m² K/W] and a temperature [°C] at an instant.
type cover func(t float64) (resistance, temperature float64)

// march takes the column from t to end under a cover.
func (c *column) march(w *stepper, above cover, t, end float64) error {
	for end-t > 1e-6 {
		h := math.Min(c.dt, w.control.Longest)
		if h > 0.999*(end-t) {
			h = end - t
		} else if h > 0.5*(end-t) {
			h = 0.5 * (end - t)
		}
		done, err := c.step(w, above, t, h)
		if err != nil {
			return err
		}
		t += done
	}
	return nil
}

// step makes one accepted step from t, of length h or shorter, and returns its length.
func (c *column) step(w *stepper, above cover, t, h float64) (float64, error) {
	for {
		var d drive
		d.e[0].outR, d.e[0].outT = above(t + gamma*h)
		d.e[1].outR, d.e[1].outT = above(t + h)
		tr, ok := w.attempt(c.mesh, &d, c.u, h)
		if ok && (tr.mistake <= 2*w.control.Tolerance || h <= w.control.Shortest) {
			w.steps++
			c.in += tr.outer
			copy(c.u, w.next[:c.mesh.n])
			c.dt = w.control.nextStep(h, tr.mistake)
			return h, nil
		}
		w.rejected++
		if ok {
			h = math.Max(w.control.nextStep(h, tr.mistake), 0.1*h)
		} else {
			h *= 0.25
		}
		if h < w.control.Shortest {
			return 0, stepError{t, h}
		}
	}
}

// enthalpyAt is the enthalpy at a depth [K] for soil of the given law, joined linearly
// between volumes; at the edge of two soils, the nearest volume's of the same soil.
func (c *column) enthalpyAt(depth float64, law phase) float64 {
	i, w := c.between(depth)
	switch a, b := c.mesh.phase[i], c.mesh.phase[i+1]; {
	case a == b:
		return c.u[i] + w*(c.u[i+1]-c.u[i])
	case a == law:
		return c.u[i]
	}
	return c.u[i+1]
}

// temperatureAt is the temperature at a depth [°C].
func (c *column) temperatureAt(depth float64) float64 {
	i, w := c.between(depth)
	a, b := c.mesh.phase[i].temperature(c.u[i]), c.mesh.phase[i+1].temperature(c.u[i+1])
	return a + w*(b-a)
}

// between finds the two volumes, i and i+1, whose centres a depth lies between, and how
// far towards the second it lies.
func (c *column) between(depth float64) (i int, w float64) {
	height := columnDepth - depth
	lo, hi := 0, c.mesh.n-1
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if c.mesh.centre(mid) <= height {
			lo = mid
		} else {
			hi = mid
		}
	}
	a, b := c.mesh.centre(lo), c.mesh.centre(hi)
	return lo, math.Min(1, math.Max(0, (height-a)/(b-a)))
}

// frost is the depth of the lowest frozen point [m]; 0 when nothing is frozen.
func (c *column) frost() float64 {
	for i, u := range c.u {
		if f := c.mesh.phase[i].ice(u); f > 0 || u < 0 && c.mesh.phase[i].plateau == 0 {
			top, bottom := columnDepth-c.mesh.edge[i+1], columnDepth-c.mesh.edge[i]
			if i < c.mesh.n-1 && c.u[i+1] > 0 {
				return bottom // thawed above: the ice left lies at the bottom of the volume
			}
			return top + f*(bottom-top)
		}
	}
	return 0
}

// content is the column's enthalpy [J/m²].
func (c *column) content() float64 {
	sum := 0.0
	for i, u := range c.u {
		sum += c.mesh.cap[i] * u
	}
	return sum
}

// spinUp repeats the year under a cover, from time start to start + 365 d, until another
// year changes no temperature by more than 0.002 K; it gives up after the given number
// of years and reports whether it got there.
func (c *column) spinUp(w *stepper, above cover, start float64, years int) (bool, error) {
	before := make([]float64, len(c.u))
	for range years {
		for i, u := range c.u {
			before[i] = c.mesh.phase[i].temperature(u)
		}
		if err := c.march(w, above, start, start+secondsYear); err != nil {
			return false, err
		}
		worst := 0.0
		for i, u := range c.u {
			worst = math.Max(worst, math.Abs(c.mesh.phase[i].temperature(u)-before[i]))
		}
		if worst <= 0.002 {
			return true, nil
		}
	}
	return false, nil
}
