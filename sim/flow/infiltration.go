package flow

import "math"

// GreenAmpt returns the depth of water [m] that has entered soil after the given time [s]
// of standing water: k is the wetted front's conductivity [m/s]; pull is suction plus
// ponded depth, times the moisture that the front fills [m].
//
// Source: Green & Ampt 1911, F − pull·ln(1 + F/pull) = k·t. With F = pull·x the left side is
// convex in x, and Newton's method converges from above without overshoot. Early on the left side is the small
// difference of two nearly equal numbers; there the root is taken from its series in s = √(2 k·t/pull).
func GreenAmpt(k, pull, time float64) float64 {
	if !(k*time > 0) {
		return 0
	}
	if pull <= 0 {
		return k * time
	}
	tau := k * time / pull
	s := math.Sqrt(2 * tau)
	if s < 1e-2 {
		return pull * s * (1 + s*(1.0/3+s*(1.0/36+s*(-1.0/270+s/4320))))
	}
	x := tau + s // above the root, since e^s > 1 + s + s²/2
	for range 50 {
		step := (x - math.Log1p(x) - tau) * (1 + x) / x
		x -= step
		if step <= 1e-14*x { // below 0 it is rounding
			break
		}
	}
	return pull * x
}

// GreenAmptTime returns the time [s] after which a depth of water [m] has entered: the same
// equation the other way round.
func GreenAmptTime(k, pull, depth float64) float64 {
	if pull <= 0 {
		return depth / k
	}
	return (depth - pull*math.Log1p(depth/pull)) / k
}

// GreenAmptRate returns the rate [m/s] at which water enters once the depth entered [m] is
// in the ground.
func GreenAmptRate(k, pull, entered float64) float64 { return k * (1 + pull/entered) }

// PondingTime returns the time [s] after which steady rain [m/s] begins to pond; +Inf
// where the soil keeps up.
//
// Source: Mein & Larson 1973, Water Resour. Res. 9:384.
func PondingTime(k, pull, rain float64) float64 {
	if rain <= k {
		return math.Inf(1)
	}
	return k * pull / (rain - k) / rain
}

// FrozenConductivity returns the hydraulic conductivity [m/s] of soil with the share ice of
// its pore space [-] filled with ice, from k [m/s] without: an order of magnitude, no more.
//
// Source: impedance 10^(−6 ice) of the Community Land Model (exponent from memory; 7 in two
// public codes after Hansson et al. 2004).
func FrozenConductivity(k, ice float64) float64 { return k * math.Pow(10, -6*ice) }
