package chance

import (
	"math"
	"slices"
)

// LMoments are the first two L-moments of a sample or a law, in its unit, and the ratios of
// the third and fourth to the second [-]. L1 is the mean, L2 half the mean difference of
// two draws, T3 the L-skewness and T4 the L-kurtosis.
type LMoments struct{ L1, L2, T3, T4 float64 }

// SampleLMoments returns the unbiased L-moments of a sample of one or more in any order, from its
// probability-weighted moments: the j-th smallest of n counts with (j−1)/(n−1) in b1, with
// (j−1)(j−2)/((n−1)(n−2)) in b2 and so on. Two values have no T3, three no T4, and neither
// has a sample without spread: they are NaN.
//
// Source: J. R. M. Hosking, "L-moments: analysis and estimation of distributions using
// linear combinations of order statistics", J. R. Statist. Soc. B 52 (1990), section 3.
func SampleLMoments(sample []float64) LMoments {
	sorted := slices.Sorted(slices.Values(sample))
	n := float64(len(sorted))
	var b0, b1, b2, b3 float64
	for i, x := range sorted {
		below := float64(i)
		w := x / n
		b0 += w
		w = w * below / (n - 1)
		b1 += w
		w = w * (below - 1) / (n - 2)
		b2 += w
		w = w * (below - 2) / (n - 3)
		b3 += w
	}
	l := LMoments{L1: b0, L2: 2*b1 - b0, T3: math.NaN(), T4: math.NaN()}
	if sorted[0] == sorted[len(sorted)-1] {
		l.L2 = 0
		return l
	}
	if len(sorted) > 2 {
		l.T3 = (6*b2 - 6*b1 + b0) / l.L2
	}
	if len(sorted) > 3 {
		l.T4 = (20*b3 - 30*b2 + 12*b1 - b0) / l.L2
	}
	return l
}
