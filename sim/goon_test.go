package sim

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"winterline/pipe"
)

// plainMesh is a full 2 in pipe, and ends that cool its wall and its core.
func plainMesh() (*mesh, *ends) {
	wall := pipe.Material{Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	m := pipeMesh(pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}, nil, pipe.Still, nil, 0, Shells{}.orDefault())
	return m, &ends{outR: 1, outT: 4, tieNode: 2, tieG: 0.3, tieT: 3}
}

// Without ice, one pass with the kept elimination is what Newton's method finds, for any length of step, ends and
// state; and again for other ends after it has been kept.
func TestThawedSolveIsNewtons(t *testing.T) {
	m, e := plainMesh()
	r := rand.New(rand.NewPCG(3, 4))
	for k := range 500 {
		if k%3 == 0 { // two of three reuse what was eliminated
			e.outR, e.tieG, e.tieNode, e.first = 0.1+r.Float64(), float64(k%2)*r.Float64(), r.IntN(m.water), 0
			if k%4 == 0 {
				e.first, e.tieNode = m.water, m.water
			}
		}
		e.outT, e.tieT = 20*r.Float64(), 20*r.Float64()
		a := []float64{1, 100, 1e4}[k/3%3]
		base := make([]float64, m.n)
		for i := range base {
			base[i] = 0.5 + 10*r.Float64()
		}
		w := &scratch{}
		w.begin(m, e.first, base)
		once, newton := slices.Clone(base), slices.Clone(base)
		got, ok := w.thawed(m, e, a, base, once)
		if !ok {
			t.Fatalf("draw %d: not thawed", k)
		}
		m.icy = true // what has held ice is not tried so
		want, ok := w.solve(m, e, a, base, newton)
		if !ok {
			t.Fatalf("draw %d: no solution", k)
		}
		for i := range once {
			if math.Abs(once[i]-newton[i]) > 1e-6 {
				t.Errorf("draw %d: volume %d at %g K; Newton's method finds %g", k, i, once[i], newton[i])
			}
		}
		if math.Abs(got.outer-want.outer) > 1e-4 || math.Abs(got.tie-want.tie) > 1e-4 {
			t.Errorf("draw %d: flows %+v; Newton's method finds %+v", k, got, want)
		}
	}
}

// Where ice would form, the pass for thawed rows says so and leaves the state as it was.
func TestThawedSolveLeavesIceToNewton(t *testing.T) {
	m, e := plainMesh()
	e.outT = -40
	base := slices.Repeat([]float64{0.1}, m.n)
	w, u := &scratch{}, slices.Clone(base)
	w.begin(m, 0, base)
	if _, ok := w.thawed(m, e, 3600, base, u); ok || !slices.Equal(u, base) {
		t.Errorf("thawed: %v, state %v", ok, u)
	}
}

// A step that goes on from the last one is of second order: halving all steps quarters the error, within a tenth. Its
// books close: what came in is what the row gained.
func TestGoOnIsOfSecondOrder(t *testing.T) {
	const span = 7200.0
	after := func(n int) ([]float64, float64) {
		m, e := plainMesh()
		w := newStepper(Stepping{})
		u := make([]float64, m.n)
		for i := range u {
			u[i] = 10 - 0.01*float64(i*i)
		}
		var p past
		d := drive{e: [2]ends{*e, *e}}
		h, in, before := span/float64(n), 0.0, content(m, u)
		for k := range n {
			tr, ok := w.goOn(m, &d, u, h, &p)
			if k == 0 {
				tr, ok = w.attempt(m, &d, u, h)
			}
			if !ok {
				t.Fatal("no step")
			}
			p.keep(m, 0, u, w.next, 0, h, tr)
			copy(u, w.next)
			in += tr.outer + tr.tie
		}
		if gained := content(m, u) - before; math.Abs(gained-in) > 1e-9*math.Abs(gained) {
			t.Errorf("%d steps: gained %g J/m of %g that came in", n, gained, in)
		}
		return u, in
	}
	exact, _ := after(8192)
	off := func(n int) float64 {
		u, _ := after(n)
		return math.Abs(u[0] - exact[0])
	}
	for n := 64; n <= 512; n *= 2 {
		if order := math.Log2(off(n) / off(2*n)); order < 1.85 || order > 2.15 {
			t.Errorf("from %d to %d steps: order %.2f", n, 2*n, order)
		}
	}
}

// content is the heat of a row [J/m].
func content(m *mesh, u []float64) float64 {
	sum := 0.0
	for i := range u {
		sum += m.cap[i] * u[i]
	}
	return sum
}

// What was wanted before an event cut a step short is taken up again, but only as far as the error allows; else a step
// grows fourfold at most.
func TestNextStepAfterAnEvent(t *testing.T) {
	s := Stepping{}.orDefault()
	for _, x := range []struct{ h, mistake, wanted, want float64 }{
		{10, 0, 0, 40},
		{10, 0, 3600, 3600},
		{10, 1e-6, 3600, calm * 10 * 1e3},
		{10, 0.01, 3600, 40},
		{10, 1, 3600, 8.5},
		{10, 100, 3600, 2},
	} {
		if got := s.nextStep(x.h, x.mistake, x.wanted); math.Abs(got-x.want) > 1e-9 {
			t.Errorf("after %g s with a mistake of %g K, %g s wanted: %g s; want %g", x.h, x.mistake, x.wanted, got, x.want)
		}
	}
}
