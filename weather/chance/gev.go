package chance

import "math"

// GEV is the generalized extreme-value law of the largest of many,
//
//	F(x) = exp(−(1 − Shape·(x − Location)/Scale)^(1/Shape)),
//
// which for Shape 0 is the law of Gumbel, F(x) = exp(−exp(−(x − Location)/Scale)). A
// positive shape has an upper end, a negative one a long upper tail; many authors write it
// with the opposite sign. A scale of 0 puts all draws at the location.
//
// Source: J. R. M. Hosking, J. R. Wallis and E. F. Wood, "Estimation of the generalized
// extreme-value distribution by the method of probability-weighted moments", Technometrics
// 27 (1985), equation 1.
type GEV struct{ Location, Scale, Shape float64 }

// CDF returns the chance of a value of at most x.
func (g GEV) CDF(x float64) float64 { return math.Exp(-g.falling(x)) }

// Exceed returns the chance of a value above x, exact also where it is small.
func (g GEV) Exceed(x float64) float64 { return -math.Expm1(-g.falling(x)) }

// falling returns −ln F(x).
func (g GEV) falling(x float64) float64 {
	if g.Scale == 0 {
		if x < g.Location {
			return math.Inf(1)
		}
		return 0
	}
	z := (x - g.Location) / g.Scale
	if g.Shape == 0 {
		return math.Exp(-z)
	}
	if g.Shape*z >= 1 { // beyond the end, where the shape has one
		return math.Max(0, math.Copysign(math.Inf(1), -g.Shape))
	}
	return math.Exp(math.Log1p(-g.Shape*z) / g.Shape)
}

// Quantile returns the value that a share p between 0 and 1 of all draws stays below.
func (g GEV) Quantile(p float64) float64 { return g.at(-math.Log(-math.Log(p))) }

// Level returns the value that is exceeded once in a number of draws, above 1, on average.
func (g GEV) Level(draws float64) float64 { return g.at(reduced(draws)) }

// at returns the value whose standard Gumbel variate is y.
func (g GEV) at(y float64) float64 {
	if g.Shape == 0 {
		return g.Location + g.Scale*y
	}
	return g.Location - g.Scale*math.Expm1(-g.Shape*y)/g.Shape
}

// reduced is the standard Gumbel variate that is exceeded once in a number of draws on
// average: −ln(−ln(1 − 1/draws)).
func reduced(draws float64) float64 { return -math.Log(-math.Log1p(-1 / draws)) }

// GumbelLevelError returns the standard error of a level of Gumbel's law that is fitted by
// L-moments to n values: scale·√((1.1128 + 0.4574·y + 0.8046·y²)/n) with y the reduced
// variate, asymptotic for many values.
//
// Source: H. N. Phien, "A review of methods of parameter estimation for the extreme value
// type-1 distribution", J. Hydrology 90 (1987) (from memory; simulated in the test).
func GumbelLevelError(scale, draws float64, n int) float64 {
	y := reduced(draws)
	return scale * math.Sqrt((1.1128+0.4574*y+0.8046*y*y)/float64(n))
}
