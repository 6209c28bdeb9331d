package chance

import (
	"math"
	"testing"
)

// Of Gumbel's law the band is about 1.645 standard errors wide on either side (GumbelLevelError), for a chance of 90 in 100, where shape is not
// fitted; it holds the law, widens towards rare levels, and is the same for the same seed.
func TestBand(t *testing.T) {
	law := GEV{Location: 3, Scale: 2}
	periods := []float64{2, 10, 40}
	const n = 14 // fewer values than a shape is fitted to
	low, high := Band(law, n, 1, periods)
	for i, period := range periods {
		level := law.Level(period)
		want := 1.645 * GumbelLevelError(law.Scale, period, n)
		for _, half := range []float64{level - low[i], high[i] - level} {
			if half < 0.6*want || half > 1.5*want {
				t.Errorf("once in %g: %g to %g about %g; want about %g either way", period, low[i], high[i], level, want)
			}
		}
	}
	again, _ := Band(law, n, 1, periods)
	other, _ := Band(law, n, 2, periods)
	if again[2] != low[2] || other[2] == low[2] {
		t.Errorf("low end %g, again %g, with another seed %g", low[2], again[2], other[2])
	}
}

// Of ten values the largest stands at 10.12/0.56 and the least at 10.12/9.56, by hand; the periods of ranks from both ends agree, as
// 1/T and 1 − 1/T do.
func TestPlottingPeriod(t *testing.T) {
	for _, c := range []struct {
		rank int
		want float64
	}{{1, 10.12 / 0.56}, {10, 10.12 / 9.56}} {
		if got := PlottingPeriod(c.rank, 10); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("rank %d: %g; want %g", c.rank, got, c.want)
		}
	}
	for rank := 1; rank <= 10; rank++ {
		if sum := 1/PlottingPeriod(rank, 10) + 1/PlottingPeriod(11-rank, 10); math.Abs(sum-1) > 1e-12 {
			t.Errorf("rank %d: chances add up to %g", rank, sum)
		}
	}
	if ReducedVariate(2) >= ReducedVariate(5) || math.Abs(ReducedVariate(1/(1-math.Exp(-1)))) > 1e-12 {
		t.Errorf("on paper at %g, %g and %g", ReducedVariate(2), ReducedVariate(5), ReducedVariate(1/(1-math.Exp(-1))))
	}
}
