package chance

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The sample 1, 2 … 11 by hand: λ1 is 6 and λ2 is 2, so the scale is 2/0.693147 = 2.885390,
// the location 6 − 0.577216·2.885390 = 4.334507, and the ten-year level
// 4.334507 + 2.885390·2.250367 = 10.827696.
func TestFitGumbelByHand(t *testing.T) {
	g := FitGumbel(SampleLMoments([]float64{7, 3, 11, 1, 9, 2, 10, 4, 8, 6, 5}))
	near(t, "scale", g.Scale, 2.885390, 1e-6)
	near(t, "location", g.Location, 4.334507, 1e-6)
	near(t, "ten-year level", g.Level(10), 10.827696, 1e-5)
}

// drawn is a sample from a law.
func drawn(g GEV, n int, draw *rand.Rand) []float64 {
	sample := make([]float64, n)
	for i := range sample {
		sample[i] = g.Quantile(inside(draw))
	}
	return sample
}

// Known laws are found again in 100,000 draws, for which the standard error of the shape is
// some 0.003 (√(0.5633/n) = 0.0024 near 0, more for heavy tails).
func TestFitRecoversLaws(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 4))
	for _, shape := range []float64{-0.25, -0.1, 0, 0.1, 0.3, 0.6} {
		known := GEV{Location: -8, Scale: 3, Shape: shape}
		got := Fit(drawn(known, 100_000, draw))
		near(t, "location", got.Location, known.Location, 0.04)
		near(t, "scale", got.Scale, known.Scale, 0.05)
		near(t, "shape", got.Shape, known.Shape, 0.012)
	}
}

// The standard error of a level, against 20,000 samples of 40 drawn from a known law and
// fitted; their mean is the level itself. The shape's against √(0.5633/n).
func TestStandardErrors(t *testing.T) {
	known := GEV{Location: 20, Scale: 3}
	draw := rand.New(rand.NewPCG(1, 2))
	const samples, n = 20_000, 40
	years := []float64{5, 10, 50}
	levels, shapes := make([]tally, len(years)), tally{}
	for range samples {
		l := SampleLMoments(drawn(known, n, draw))
		for i, y := range years {
			levels[i].add(FitGumbel(l).Level(y) - known.Level(y))
		}
		if g, ok := FitGEV(l); ok {
			shapes.add(g.Shape)
		}
	}
	for i, y := range years {
		mean, spread := levels[i].moments()
		near(t, "mean of fitted levels", mean, 0, 0.05)
		near(t, "standard error", GumbelLevelError(known.Scale, y, n)/spread, 1, 0.03)
	}
	mean, spread := shapes.moments()
	near(t, "mean of fitted shapes", mean, 0, 0.02)
	near(t, "standard error of the shape", math.Sqrt(0.5633/n)/spread, 1, 0.08)
}

// tally sums up figures and their squares.
type tally struct{ n, sum, squares float64 }

func (s *tally) add(x float64) { s.n, s.sum, s.squares = s.n+1, s.sum+x, s.squares+x*x }

func (s *tally) moments() (mean, spread float64) {
	mean = s.sum / s.n
	return mean, math.Sqrt(s.squares/s.n - mean*mean)
}

func TestFitChoosesTheLaw(t *testing.T) {
	spread := []float64{0, 1, 3, 4, 7, 9, 10, 12, 13, 15, 17, 18, 20, 23} // T3 near 0
	outlier := append(make([]float64, 0, 20), 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 900)
	for _, c := range []struct {
		what   string
		sample []float64
		gumbel bool
	}{
		{"14 values", spread, true},
		{"15 values", append(spread, 25), false},
		{"one value far from the others", outlier, true},
		{"no spread", make([]float64, 20), true},
	} {
		if g := Fit(c.sample); (g.Shape == 0) != c.gumbel {
			t.Errorf("%s: %+v", c.what, g)
		}
	}
}

// The law does not jump where its shape passes 0, nor at the smallest shape that is used.
func TestFitIsSmoothAtGumbel(t *testing.T) {
	gumbel := skewness(0)
	at := FitGumbel(LMoments{L1: 5, L2: 2})
	for _, off := range []float64{-1e-4, -1e-5, -2e-6, -1e-7, 0, 1e-9, 1e-6, 1e-5, 1e-4} {
		g, ok := FitGEV(LMoments{L1: 5, L2: 2, T3: gumbel + off})
		if !ok {
			t.Fatalf("no law at τ3 %g", gumbel+off)
		}
		near(t, "level", g.Level(50), at.Level(50), 1e-4+80*math.Abs(off))
		near(t, "shape", g.Shape, -1.5*off, 0.3*math.Abs(off)+smallShape)
	}
}

func TestUnbelievableShapes(t *testing.T) {
	for _, c := range []struct {
		t3 float64
		ok bool
	}{{-0.99, false}, {-0.334, false}, {-0.333, true}, {0.53, true}, {0.535, false}, {0.99, false}, {math.NaN(), false}} {
		if _, ok := FitGEV(LMoments{L1: 1, L2: 1, T3: c.t3}); ok != c.ok {
			t.Errorf("τ3 %g: %v", c.t3, ok)
		}
	}
}
