package chance

import (
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Band returns, for each of some return periods [draws], all above 1, the interval at Confidence of the level that is
// exceeded once in that many draws on average: that of laws fitted anew to samples of a number of values drawn from the
// law; see resampled.
func Band(law GEV, values int, seed uint64, periods []float64) (low, high []float64) {
	levels := make([][]float64, len(periods))
	for refit := range refits(law, values, seed) {
		for i, period := range periods {
			levels[i] = append(levels[i], refit.Level(period))
		}
	}
	for _, all := range levels {
		slices.Sort(all)
		low = append(low, stat.Quantile((1-Confidence)/2, stat.LinInterp, all, nil))
		high = append(high, stat.Quantile((1+Confidence)/2, stat.LinInterp, all, nil))
	}
	return low, high
}

// refits yields, one after the other, the laws fitted to samples of a number of values drawn from a law.
func refits(law GEV, values int, seed uint64) func(yield func(GEV) bool) {
	return func(yield func(GEV) bool) {
		draw := rand.New(rand.NewPCG(seed, 0))
		sample := make([]float64, values)
		for range resamples {
			for j := range sample {
				sample[j] = law.Quantile(inside(draw))
			}
			if !yield(Fit(sample)) {
				return
			}
		}
	}
}

// PlottingPeriod returns the return period [draws] at which a chart shows the value of a rank among n values, 1 for the
// largest.
//
// Source: I. I. Gringorten, "A plotting rule for extreme probability paper", J. Geophysical Research 68 (1963): (n + 0.12)/(rank − 0.44).
func PlottingPeriod(rank, n int) float64 { return (float64(n) + 0.12) / (float64(rank) - 0.44) }

// ReducedVariate returns the reduced variate [-] of a return period [draws] above 1: where it stands on the axis of Gumbel
// paper, on which Gumbel's law is a straight line.
func ReducedVariate(period float64) float64 { return reduced(period) }
