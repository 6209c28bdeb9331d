package chance

import (
	"fmt"

	"gonum.org/v1/gonum/stat/distuv"
)

// Confidence is how often an interval holds the true value: at most five in a hundred
// intervals lie below it, and at most five above.
const Confidence = 0.90

// Share is a chance, or a part of many, with an interval [-].
type Share struct{ Best, Low, High float64 }

// Counted returns the share that k of n make, with its interval at Confidence; see Binomial.
func Counted(k float64, n int) Share { return Binomial(k, n, Confidence) }

// Binomial returns the share that k of n independent trials make, with the interval that
// holds the true chance with at least the confidence asked for. Of no trials the interval is 0 to 1.
//
// k need not be whole: where each trial is itself a share, such as that of the draws for one
// winter in which a line failed, k is their sum. No share with a mean of p varies more than
// failure or not with a chance of p does, so the interval is rather too wide than too narrow.
//
// Source: C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits
// illustrated in the case of the binomial", Biometrika 26 (1934), by quantiles of the beta law.
func Binomial(k float64, n int, confidence float64) Share {
	if n == 0 {
		return Share{Best: 0, Low: 0, High: 1}
	}
	outside, of := (1-confidence)/2, float64(n)
	s := Share{Best: k / of, Low: 0, High: 1}
	if k > 0 {
		s.Low = distuv.Beta{Alpha: k, Beta: of - k + 1}.Quantile(outside)
	}
	if k < of {
		s.High = distuv.Beta{Alpha: k + 1, Beta: of - k}.Quantile(1 - outside)
	}
	return s
}

// String says the share as "12 in 100 (7 to 19)".
func (s Share) String() string {
	return fmt.Sprintf("%s (%.0f to %.0f)", inHundred(s.Best), 100*s.Low, 100*s.High)
}

// Winters says the share as one of winters: "about 12 in 100 winters (7 to 19)".
func (s Share) Winters() string {
	about := ""
	if s.Best >= 0.005 && s.Best < 0.995 {
		about = "about "
	}
	return fmt.Sprintf("%s%s winters (%.0f to %.0f)", about, inHundred(s.Best), 100*s.Low, 100*s.High)
}

// inHundred says a share so that none but an impossible one is "0 in 100", and none but a
// certain one "100 in 100".
func inHundred(share float64) string {
	switch {
	case share > 0 && share < 0.005:
		return "under 1 in 100"
	case share >= 0.995 && share < 1:
		return "over 99 in 100"
	}
	return fmt.Sprintf("%.0f in 100", 100*share)
}
