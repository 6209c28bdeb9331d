package chance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// V. T. Chow, D. R. Maidment and L. W. Mays, "Applied Hydrology" (1988), example 12.2.1
// (from memory): ten-minute rainfalls with u = 0.569 in and α = 0.138 in reach 0.78 in in
// 5 years, 0.88 in in 10 and 1.11 in in 50.
func TestGumbelLevel(t *testing.T) {
	g := GEV{Location: 0.569, Scale: 0.138}
	for years, want := range map[float64]float64{5: 0.78, 10: 0.88, 50: 1.11} {
		near(t, "level", g.Level(years), want, 0.005)
	}
	// Reduced variates of the same book's frequency factors, and the median 0.3665.
	for years, want := range map[float64]float64{2: 0.3665, 5: 1.4999, 10: 2.2504, 25: 3.1985, 50: 3.9019, 100: 4.6001} {
		near(t, "reduced variate", reduced(years), want, 5e-5)
	}
}

func TestGEVThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := GEV{rapid.Float64Range(-50, 50).Draw(t, "location"), rapid.Float64Range(0.1, 20).Draw(t, "scale"), rapid.Float64Range(-0.9, 1.5).Draw(t, "shape")}
		p := rapid.Float64Range(0.001, 0.999).Draw(t, "p")
		x := g.Quantile(p)
		near(t, "CDF of the quantile", g.CDF(x), p, 1e-9)
		near(t, "both sides", g.CDF(x)+g.Exceed(x), 1, 1e-12)
		near(t, "level", g.Level(1/(1-p)), x, 1e-6*(1+math.Abs(x)))
		if higher := g.Quantile(p + (1-p)/2); !(higher > x) {
			t.Errorf("%g at %g and %g beyond", x, p, higher)
		}
	})
}

func TestGEVEnds(t *testing.T) {
	bounded := GEV{Location: 10, Scale: 2, Shape: 0.5} // up to 10 + 2/0.5
	heavy := GEV{Location: 10, Scale: 2, Shape: -0.5}  // from 10 − 2/0.5
	still := GEV{Location: 10}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"above the upper end", bounded.Exceed(14.01), 0},
		{"up to the upper end", bounded.CDF(14), 1},
		{"below the lower end", heavy.CDF(5.99), 0},
		{"from the lower end", heavy.Exceed(6), 1},
		{"below a scale of 0", still.Exceed(9.99), 1},
		{"above a scale of 0", still.Exceed(10.01), 0},
		{"level of a scale of 0", still.Level(50), 10},
	} {
		if c.got != c.want {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}

// Chances of one in a thousand billion keep their digits: e^−z for large z.
func TestGEVExceedsFarOut(t *testing.T) {
	g := GEV{Location: 0, Scale: 1}
	if got, want := g.Exceed(40), math.Exp(-40); math.Abs(got/want-1) > 1e-12 {
		t.Errorf("%g, want %g", got, want)
	}
}
