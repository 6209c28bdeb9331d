package sim

import (
	"math"
	"math/rand/v2"
	"testing"

	"winterline/pipe"
)

// The Newton system's matrix is the slope of its residual: each column is set beside the change of the
// residual when one volume's enthalpy moves a little, in states drawn all over the law: liquid, part ice, frozen, ice
// inside and outside, still and mixed water, with and without a tie.
func TestNewtonMatrixIsTheSlope(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	wall := pipe.Material{Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	size := pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}
	for k := range 400 {
		liquid := pipe.Still
		if k%2 == 1 {
			liquid = pipe.Mixed
		}
		m := pipeMesh(size, nil, liquid, nil, 0, Shells{}.orDefault())
		u := make([]float64, m.n)
		for i := range u {
			switch r.IntN(3) {
			case 0:
				u[i] = 5 * r.Float64()
			case 1:
				u[i] = -(0.001 + 0.998*r.Float64()) * waterPhase.plateau
			case 2:
				u[i] = -waterPhase.plateau - 9*r.Float64()
			}
		}
		e := &ends{outR: 1, outT: -7, tieNode: r.IntN(m.water), tieG: r.Float64(), tieT: -12}
		compareSlopes(t, k, m, e, u)
	}
}

// compareSlopes compares the matrix at u, column by column.
func compareSlopes(t *testing.T, k int, m *mesh, e *ends, u []float64) {
	t.Helper()
	const a, du = 60.0, 1e-6
	w, base := &scratch{}, make([]float64, m.n)
	residual := func(u []float64) []float64 {
		w.linearise(m, 0, u)
		w.assemble(m, e, a, base, u)
		return append([]float64(nil), w.r[:m.n]...)
	}
	w.begin(m, 0, u)
	residual(u)
	lo, di, up := append([]float64(nil), w.lo...), append([]float64(nil), w.di...), append([]float64(nil), w.up...)
	for i := range u {
		here := u[i]
		moved := append([]float64(nil), u...)
		w.start = u
		moved[i] = here + du
		above := residual(moved)
		moved[i] = here - du
		below := residual(moved)
		for j, want := range map[int]float64{i - 1: 0, i: 0, i + 1: 0} {
			if j < 0 || j >= m.n {
				continue
			}
			want = -(above[j] - below[j]) / (2 * du)
			got := di[i]
			if j < i {
				got = up[j]
			} else if j > i {
				got = lo[j]
			}
			if math.Abs(got-want) > 1e-4*math.Max(1, math.Abs(want)) {
				t.Errorf("state %d: row %d by volume %d: matrix %.9g, slope %.9g (u %.9g)", k, j, i, got, want, here)
			}
		}
	}
}
