package weather

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The sample 1, 2 … 11 by hand. λ1 is the mean 6. λ2 is half the mean difference of two
// drawn without replacement, which for 1 … n is (n+1)/3: 2. So the scale is 2/0.693147 =
// 2.885390, the location 6 − 0.577216·2.885390 = 4.334507, and the ten-year level
// 4.334507 + 2.885390·2.250367 = 10.827696.
func TestFitGumbelByHand(t *testing.T) {
	sample := []float64{7, 3, 11, 1, 9, 2, 10, 4, 8, 6, 5}
	l1, l2 := sampleLMoments(sample)
	near(t, "λ1", l1, 6, 1e-12)
	near(t, "λ2", l2, 2, 1e-12)
	g := fitGumbel(sample)
	near(t, "scale", g.scale, 2.885390, 1e-6)
	near(t, "location", g.location, 4.334507, 1e-6)
	near(t, "ten-year level", g.level(10), 10.827696, 1e-5)
}

// V. T. Chow, D. R. Maidment and L. W. Mays, "Applied Hydrology" (1988), example 12.2.1
// (from memory): ten-minute rainfalls with u = 0.569 in and α = 0.138 in reach 0.78 in in
// 5 years, 0.88 in in 10 and 1.11 in in 50.
func TestGumbelLevel(t *testing.T) {
	g := gumbel{location: 0.569, scale: 0.138}
	for years, want := range map[float64]float64{5: 0.78, 10: 0.88, 50: 1.11} {
		near(t, "level", g.level(years), want, 0.005)
	}
	// Reduced variates of the same book's frequency factors, and the median 0.3665.
	for years, want := range map[float64]float64{2: 0.3665, 5: 1.4999, 10: 2.2504, 25: 3.1985, 50: 3.9019, 100: 4.6001} {
		near(t, "reduced variate", reduced(years), want, 5e-5)
	}
}

// The standard error of a level, against 20,000 samples of 40 drawn from a known
// distribution and fitted; their mean is the level itself.
func TestGumbelLevelError(t *testing.T) {
	known := gumbel{location: 20, scale: 3}
	draw := rand.New(rand.NewPCG(1, 2))
	const samples, n = 20_000, 40
	for _, years := range []float64{5, 10, 50} {
		var sum, squares float64
		for range samples {
			sample := make([]float64, n)
			for i := range sample {
				sample[i] = known.location - known.scale*math.Log(-math.Log(1-draw.Float64()))
			}
			off := fitGumbel(sample).level(years) - known.level(years)
			sum, squares = sum+off, squares+off*off
		}
		near(t, "mean of fitted levels", sum/samples, 0, 0.05)
		spread := math.Sqrt(squares/samples - sum/samples*sum/samples)
		near(t, "standard error", known.levelError(years, n)/spread, 1, 0.03)
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %.7g, want %.7g ± %g", what, got, want, tolerance)
	}
}
