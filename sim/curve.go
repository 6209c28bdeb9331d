package sim

import "math"

// curve is the law of soil whose pore water freezes bit by bit: below its freezing point
// tp the share (T/tp)^−e of it is still liquid. Enthalpy, temperature and ice share are
// tabulated at knots and joined linearly, so that the law is exactly invertible and spends
// the same energy both ways whatever the table's fineness.
type curve struct {
	point float64 // freezing point, as temperature and as enthalpy [°C, K]
	knots []knot  // from the freezing point downwards
}

// knot is a point of the curve, with the slopes of the stretch below it.
type knot struct {
	u, t, ice float64 // [K], [°C], [-]
	slope     float64 // dT/du [-]
	iceSlope  float64 // d(ice)/du [1/K]
	ease      float64 // unfrozen conductivity over that at this knot [-]
	easeSlope float64 // d(ease)/du [1/K]
	floor     float64 // u at the next knot [K]; −Inf for the last
}

const (
	curveKnots   = 56
	curveColdest = -60.0 // [°C]; below, the last stretch runs on
)

// newCurve tabulates the law. All enthalpies are over the liquid heat capacity: plateau is
// the latent heat of all pore water [K], ratio the liquid heat capacity over the frozen
// one, point the freezing point [°C] (below 0), exponent e, and conducts the frozen conductivity over the
// unfrozen one. In between, the conductivity is the geometric mean of both, weighted by ice share, as
// Johansen mixes water and ice (Farouki 1981).
//
// With the ice share f(T) = 1 − (T/tp)^−e, the heat capacity between liquid and frozen in
// proportion to f, and u(tp) = tp:
//
//	u(T) = T − (1 − 1/ratio)·∫f dT − plateau·f,  ∫f dT from tp = (T − tp) − tp[(T/tp)^(1−e) − 1]/(1 − e)
func newCurve(plateau, ratio, point, exponent, conducts float64) *curve {
	c := &curve{point: point, knots: make([]knot, curveKnots)}
	grow := math.Pow(curveColdest/point, 1/float64(curveKnots-1))
	for i := range c.knots {
		x := math.Pow(grow, float64(i)) // T over the freezing point
		f := 1 - math.Pow(x, -exponent)
		integral := point * (x - 1 - powerIntegral(x, exponent))
		c.knots[i] = knot{u: point*x - (1-1/ratio)*integral - plateau*f, t: point * x, ice: f, ease: math.Pow(conducts, -f)}
	}
	for i := range c.knots[:curveKnots-1] {
		a, b := &c.knots[i], c.knots[i+1]
		du := b.u - a.u
		a.slope, a.iceSlope, a.easeSlope, a.floor = (b.t-a.t)/du, (b.ice-a.ice)/du, (b.ease-a.ease)/du, b.u
	}
	last := &c.knots[curveKnots-1]
	last.slope, last.floor = ratio, math.Inf(-1)
	return c
}

// powerIntegral is ∫ s^−e ds from 1 to x.
func powerIntegral(x, e float64) float64 {
	if math.Abs(e-1) < 1e-9 {
		return math.Log(x)
	}
	return (math.Pow(x, 1-e) - 1) / (1 - e)
}

// at is the index of the knot at the top of the stretch that holds u, which must not lie above the
// freezing point's. The search starts from a guess: between Newton's steps u seldom leaves its stretch.
func (c *curve) at(u float64, guess int) int {
	for c.knots[guess].u < u && guess > 0 {
		guess--
	}
	for u < c.knots[guess].floor {
		guess++
	}
	return guess
}

// find is at without a guess.
func (c *curve) find(u float64) *knot {
	lo, hi := 0, len(c.knots)
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; c.knots[mid].u >= u {
			lo = mid
		} else {
			hi = mid
		}
	}
	return &c.knots[lo]
}

func (k *knot) temperature(u float64) float64 { return k.t + k.slope*(u-k.u) }
func (k *knot) share(u float64) float64       { return k.ice + k.iceSlope*(u-k.u) }

// enthalpy of a temperature at or below the freezing point [K].
func (c *curve) enthalpy(t float64) float64 {
	lo, hi := 0, len(c.knots)
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; c.knots[mid].t >= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	k := &c.knots[lo]
	return k.u + (t-k.t)/k.slope
}
