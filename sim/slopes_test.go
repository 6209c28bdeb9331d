package sim

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"winterline/pipe"
)

// A Newton step is one that would bring the residual to nothing if its slope held: along it the residual
// falls in proportion, in states drawn all over the law: liquid, part ice, frozen, ice
// inside and outside, still and mixed water, with and without a tie.
func TestNewtonStepFollowsTheSlope(t *testing.T) {
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

// compareSlopes goes a little way along the Newton step and back: the residual must fall by that share of it.
func compareSlopes(t *testing.T, k int, m *mesh, e *ends, u []float64) {
	t.Helper()
	const a = 60.0
	w, base := &scratch{}, make([]float64, m.n)
	w.begin(m, 0, u)
	residual := func(u []float64) []float64 {
		w.linearise(m, 0, u)
		w.sweep(m, e, a, base, u)
		return w.newtonStep(m.n)
	}
	here := residual(u)
	w.back(m, 0, slices.Clone(u))
	step := w.newtonStep(m.n)
	way := 1e-6 / max(slices.Max(step), -slices.Min(step))
	along := func(way float64) []float64 {
		v := slices.Clone(u)
		for i := range v {
			v[i] += way * step[i]
		}
		return residual(v)
	}
	ahead, behind := along(way), along(-way)
	for i, want := range here {
		got := (behind[i] - ahead[i]) / (2 * way)
		if math.Abs(got-want) > 1e-4*math.Max(1, math.Abs(want)) {
			t.Errorf("state %d, volume %d: the residual falls by %.9g of its %.9g (u %.9g)", k, i, got, want, u[i])
		}
	}
}

// A state with what is no number in it, wherever, does not converge, not even to a solution of the rest.
func TestSolveRefusesWhatIsNoNumber(t *testing.T) {
	wall := pipe.Material{Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	size := pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}
	m := pipeMesh(size, nil, pipe.Still, nil, 0, Shells{}.orDefault())
	for i := range m.n {
		for _, at := range []float64{0, 5, -0.5 * waterPhase.plateau, -waterPhase.plateau - 5} {
			w, base, u := &scratch{}, make([]float64, m.n), make([]float64, m.n)
			for k := range base {
				base[k], u[k] = at, at
			}
			base[i], u[i] = math.NaN(), math.NaN()
			w.begin(m, 0, base)
			if _, ok := w.solve(m, &ends{outR: 1, outT: at}, 60, base, u); ok {
				t.Errorf("volume %d of others at %g K: solved as %v", i, at, u)
			}
		}
	}
}

// newtonStep are the residuals, or the Newton step, of the first n volumes [K].
func (w *scratch) newtonStep(n int) []float64 {
	step := make([]float64, n)
	for i := range step {
		step[i] = w.node[i].r
	}
	return step
}
