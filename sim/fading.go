package sim

// fading is a column's ground as if nothing in it froze, under a surface held at 0 °C: what a column lacks of
// its periodic state fades from year to year as a temperature in here would.
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

// left is what a column has still to go [K] after a year that changed its temperatures by change [K].
//
// A part of it that fades by the factor exp(−λ) a year changed by 1 − exp(−λ) of what was left at the year's
// beginning, and has 1/(exp(λ) − 1) times its change to go, which is close to 1/(λ(1 + λ/2)): 2 % more for the slowest
// part of ten metres of clay, and next to nothing, as it should be, for those that a year makes an end of.
// So the change fades through an implicit step of half a year, and what is sought is that which would lose
// the rest in every year, from a step so long that nothing but this balance counts.
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
