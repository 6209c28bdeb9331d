package sim

// fading is a column's ground as if nothing in it froze, under a surface held at 0 °C. How far a column is from its
// periodic state fades from year to year as a temperature would in here.
type fading struct {
	mesh *mesh
	room scratch
}

// fadingSurface is the resistance at its surface [m² K/W]: air film and grass, small beside ten metres of ground.
const fadingSurface = 0.15

// newFading copies the layers of a column.
func newFading(c *column) *fading {
	m := c.mesh
	var layers []volume
	for i, k := range m.kLiquid {
		layers = append(layers, volume{m.edge[i+1], m.cap[i] / m.measure(m.edge[i], m.edge[i+1]), phase{ratio: 1}, k, k})
	}
	f := &fading{mesh: newMesh(m.edge[0], layers, 0, false)}
	f.room.grow(m.n)
	return f
}

// left is how far a column still has to go [K] after a year that changed its temperatures by change [K]; false: not found.
//
// A part of the distance that fades by the factor exp(−λ) in a year has changed by 1 − exp(−λ) of what it was at the year's
// start, and so still has 1/(exp(λ) − 1) times its change to go. 1/(λ(1 + λ/2)) comes close: it is 2 % more for the
// slowest part in ten metres of clay, and next to nothing, as it should be, for parts that are gone within a year. The
// factor 1/(1 + λ/2) is an implicit step of half a year. The factor 1/λ is the state that loses the result in every
// year: an implicit step so long that nothing but this balance counts.
func (f *fading) left(change []float64) ([]float64, bool) {
	const year, endless = secondsYear, 1e5
	e := ends{outR: fadingSurface}
	half := make([]float64, len(change))
	copy(half, change)
	if _, ok := f.room.solve(f.mesh, &e, year/2, change, half); !ok {
		return nil, false
	}
	togo := make([]float64, len(change))
	for i := range half {
		half[i] *= endless
	}
	copy(togo, half)
	_, ok := f.room.solve(f.mesh, &e, endless*year, half, togo)
	return togo, ok
}
