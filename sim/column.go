package sim

import (
	"math"
	"slices"

	"winterline/pipe"
)

// column is the undisturbed ground under one kind of surface: control volumes from 10 m
// depth, where no heat passes, up to the surface. Its thermal state is the enthalpy of
// each volume.
type column struct {
	mesh *mesh
	u    []float64 // [K], deepest first
	dt   float64   // step to try next [s]
	in   sum       // heat that has come in through the surface, less what has left [J/m²]
	both float64   // heat that has passed the surface, both ways added up [J/m²]
	view *profile  // room for look
}

const (
	columnDepth = 10.0 // [m]
	columnTop   = 0.01 // thickness of the uppermost volumes [m]
	columnFine  = 0.60 // depth to which they stay that thin [m]
	columnGrow  = 1.12 // ratio of neighbouring thicknesses below
)

// newColumn builds a column at a uniform temperature [°C] from the soil at every depth [m]; soils change at
// the given depths [m].
func newColumn(soil func(depth float64) pipe.Soil, t float64, changes ...float64) *column {
	return newColumnOf(columnEdges(changes), soil, t)
}

// newColumnOf is newColumn with its volumes' edges at given depths [m], from the surface down.
func newColumnOf(depths []float64, soil func(depth float64) pipe.Soil, t float64) *column {
	laws := earths{}
	var v []volume
	for i := len(depths) - 2; i >= 0; i-- {
		s := soil(0.5 * (depths[i] + depths[i+1]))
		v = append(v, volume{columnDepth - depths[i], s.HeatCapacityUnfrozen, laws.of(s).law, s.ConductivityUnfrozen, s.ConductivityFrozen})
	}
	c := &column{mesh: newMesh(0, v, 0, false), dt: 3600}
	c.u = make([]float64, c.mesh.n)
	c.setTemperatures(func(float64) float64 { return t })
	return c
}

// columnEdges are the depths of the volumes' edges from the surface down [m], with one at
// every depth at which the soil changes.
func columnEdges(changes []float64) []float64 {
	edges := columnGrid()
	for _, z := range changes {
		i, found := slices.BinarySearch(edges, z)
		if found || i == 0 || i == len(edges) {
			continue
		}
		// An inner edge nearby moves there; where it is a soil's own already, one is added.
		near := i
		if z-edges[i-1] < edges[i]-z {
			near = i - 1
		}
		if near == 0 || near == len(edges)-1 || slices.Contains(changes, edges[near]) {
			edges = slices.Insert(edges, i, z)
		} else {
			edges[near] = z
		}
	}
	return edges
}

// columnGrid is where the edges lie in uniform ground [m].
func columnGrid() []float64 {
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
		done, err := c.step(w, above, t, w.control.ahead(c.dt, end-t))
		if err != nil {
			return err
		}
		t += done
	}
	return nil
}

// step makes one accepted step from t, of length h or shorter, and returns its length.
func (c *column) step(w *stepper, above cover, t, h float64) (float64, error) {
	var d drive
	for {
		d.e[0].outR, d.e[0].outT = above(t + gamma*h)
		d.e[1].outR, d.e[1].outT = above(t + h)
		tr, ok := w.attempt(c.mesh, &d, c.u, h)
		if ok && (tr.mistake <= 2*w.control.Tolerance || h <= w.control.Shortest) {
			c.accept(w, h, tr)
			return h, nil
		}
		w.rejected++
		if h = w.control.retry(h, tr, ok); h < w.control.Shortest {
			return 0, c.gaveUp(w, t, h)
		}
	}
}

// accept takes the step in w.next and books it.
func (c *column) accept(w *stepper, h float64, tr trial) {
	w.steps++
	c.in.add(tr.outer)
	c.both += math.Abs(tr.outer)
	copy(c.u, w.next[:c.mesh.n])
	c.dt = w.control.nextStep(h, tr.mistake, 0)
}

// content is the column's enthalpy [J/m²].
func (c *column) content() float64 {
	var all sum
	for i, u := range c.u {
		all.add(c.mesh.cap[i] * u)
	}
	return all.value()
}

// kelvin is the heat that warms the column, all its water liquid, by one kelvin [J/m²].
func (c *column) kelvin() float64 {
	var all sum
	for _, heat := range c.mesh.cap {
		all.add(heat)
	}
	return all.value()
}

// temperatures are those of all volumes, deepest first [°C].
func (c *column) temperatures() []float64 {
	t := make([]float64, len(c.u))
	for i, u := range c.u {
		t[i] = c.mesh.phase[i].temperature(u)
	}
	return t
}
