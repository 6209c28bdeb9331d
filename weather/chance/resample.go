package chance

import (
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// resamples is how many samples an interval is drawn from: enough that its ends differ by
// less than a twentieth of its width from seed to seed.
const resamples = 2000

// resampled returns the law's chance of more than 0, with the interval in which those of
// refits lie, to samples of as many values drawn from the law (a parametric bootstrap, by its
// percentiles: B. Efron and R. J. Tibshirani, "An Introduction to the Bootstrap" (1993),
// sections 6.5 and 13.3).
//
// Samples are drawn from the law, not from the winters: from 15 to 30 winters with chances of
// 5 and 10 in 100 such an interval holds the true one in 81 to 91 of 100 records, one of
// redrawn winters in 67 to 85. From ten winters, where Gumbel's law stands for others, it
// does in 77 to 97. What is missed are mostly chances above High. The test measures it.
func resampled(law GEV, values int, seed uint64) Share {
	chances := make([]float64, 0, resamples)
	for refit := range refits(law, values, seed) {
		chances = append(chances, refit.Exceed(0))
	}
	slices.Sort(chances)
	end := func(p float64) float64 { return stat.Quantile(p, stat.LinInterp, chances, nil) }
	best := law.Exceed(0)
	return Share{best, min(best, end((1-Confidence)/2)), max(best, end((1+Confidence)/2))}
}

// inside draws a number above 0 and below 1.
func inside(draw *rand.Rand) float64 {
	const steps = 1 << 53
	return float64(1+draw.Uint64N(steps-1)) / steps
}
