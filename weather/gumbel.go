package weather

import (
	"math"
	"slices"
)

// gumbel is the extreme-value distribution of type I for the largest of many:
// F(x) = exp(−exp(−(x−location)/scale)).
type gumbel struct{ location, scale float64 }

// eulerGamma is the mean of the standard Gumbel distribution.
const eulerGamma = 0.57721566490153286

// fitGumbel fits the distribution to a sample of two or more by its first two L-moments:
// scale = λ2/ln 2, location = λ1 − γ·scale.
//
// Source: J. R. M. Hosking, "L-moments: analysis and estimation of distributions using
// linear combinations of order statistics", J. R. Statist. Soc. B 52 (1990), table 1.
func fitGumbel(sample []float64) gumbel {
	l1, l2 := sampleLMoments(sample)
	scale := l2 / math.Ln2
	return gumbel{l1 - eulerGamma*scale, scale}
}

// sampleLMoments returns the first two sample L-moments, from the unbiased
// probability-weighted moments: λ1 = b0 and λ2 = 2·b1 − b0, where b1 weights the j-th
// smallest of n by (j−1)/(n−1). Source: Hosking (1990), section 3.
func sampleLMoments(sample []float64) (l1, l2 float64) {
	sorted := slices.Sorted(slices.Values(sample))
	n := float64(len(sorted))
	var b0, b1 float64
	for j, x := range sorted {
		b0 += x / n
		b1 += x / n * float64(j) / (n - 1)
	}
	return b0, 2*b1 - b0
}

// reduced is the standard Gumbel variate that is exceeded once in so many years on the
// mean: −ln(−ln(1 − 1/years)).
func reduced(years float64) float64 { return -math.Log(-math.Log1p(-1 / years)) }

// level returns what is exceeded once in so many years on the mean.
func (g gumbel) level(years float64) float64 { return g.location + g.scale*reduced(years) }

// levelError returns the standard error of a level that is fitted to n years:
// scale·√((1.1128 + 0.4574·y + 0.8046·y²)/n) with y the reduced variate, asymptotic for
// many years.
//
// Source: H. N. Phien, "A review of methods of parameter estimation for the extreme value
// type-1 distribution", J. Hydrology 90 (1987) (from memory; simulated in the test).
func (g gumbel) levelError(years float64, n int) float64 {
	y := reduced(years)
	return g.scale * math.Sqrt((1.1128+0.4574*y+0.8046*y*y)/float64(n))
}
