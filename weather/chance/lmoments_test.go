package chance

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/combin"
	"pgregory.net/rapid"
)

// The sample 1, 2 … 11 by hand. λ1 is the mean 6. λ2 is half the mean difference of two
// drawn without replacement, which for 1 … n is (n+1)/3: 2. Even spacing has neither
// skewness nor, as a uniform law, kurtosis.
func TestLMomentsByHand(t *testing.T) {
	l := SampleLMoments([]float64{7, 3, 11, 1, 9, 2, 10, 4, 8, 6, 5})
	near(t, "λ1", l.L1, 6, 1e-12)
	near(t, "λ2", l.L2, 2, 1e-12)
	near(t, "τ3", l.T3, 0, 1e-12)
	near(t, "τ4", l.T4, 0, 1e-12)
}

// By definition (Hosking 1990, section 3) a sample's r-th L-moment is the mean over all its
// subsets of r of the differences of their sorted values: half of x2−x1, a third of
// x3−2·x2+x1, a quarter of x4−3·x3+3·x2−x1.
func TestLMomentsAreMeansOverSubsets(t *testing.T) {
	weights := [][]float64{{1}, {-1, 1}, {1, -2, 1}, {-1, 3, -3, 1}}
	rapid.Check(t, func(t *rapid.T) {
		sample := rapid.SliceOfN(rapid.Float64Range(-30, 30), 4, 9).Draw(t, "sample")
		sorted := slices.Sorted(slices.Values(sample))
		if sorted[len(sorted)-1]-sorted[0] < 1e-3 {
			t.Skip("no spread")
		}
		var want [4]float64
		for r, weight := range weights {
			subsets := combin.Combinations(len(sorted), r+1)
			for _, subset := range subsets {
				for i, at := range subset {
					want[r] += weight[i] * sorted[at] / float64((r+1)*len(subsets))
				}
			}
		}
		l := SampleLMoments(sample)
		near(t, "λ1", l.L1, want[0], 1e-9)
		near(t, "λ2", l.L2, want[1], 1e-9)
		near(t, "λ3", l.T3*l.L2, want[2], 1e-9)
		near(t, "λ4", l.T4*l.L2, want[3], 1e-9)
	})
}

func TestLMomentsOfFew(t *testing.T) {
	for _, c := range []struct {
		sample         []float64
		l1, l2         float64
		skewness, kurt bool
	}{
		{[]float64{2, 5}, 3.5, 1.5, false, false},
		{[]float64{2, 5, 5}, 4, 1, true, false},
		{[]float64{4, 4, 4, 4, 4}, 4, 0, false, false},
		{[]float64{0.1, 0.1, 0.1}, 0.1, 0, false, false},
	} {
		l := SampleLMoments(c.sample)
		near(t, "λ1", l.L1, c.l1, 1e-12)
		near(t, "λ2", l.L2, c.l2, 1e-15)
		if math.IsNaN(l.T3) == c.skewness || math.IsNaN(l.T4) == c.kurt {
			t.Errorf("%v: τ3 %g, τ4 %g", c.sample, l.T3, l.T4)
		}
	}
}

type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t reporter, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %.7g, want %.7g ± %g", what, got, want, tolerance)
	}
}
