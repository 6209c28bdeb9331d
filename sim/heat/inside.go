package heat

import "math"

// Bounds of the change from laminar to turbulent flow in a pipe, as Reynolds numbers.
const (
	laminarReynolds   = 2300.0
	turbulentReynolds = 4000.0
)

// NusseltLaminar returns the mean Nusselt number [-] over the length of a pipe of uniform
// wall temperature in laminar flow with a developed profile; graetz = Re·Pr·d/length.
//
// Source: VDI Heat Atlas 2010, sec. G1, eqs 2 to 4 (from memory): 3.66 far from the entry,
// 1.615 graetz^(1/3) near it.
func NusseltLaminar(graetz float64) float64 {
	entry := 1.615*math.Cbrt(graetz) - 0.7
	return math.Cbrt(3.66*3.66*3.66 + 0.7*0.7*0.7 + entry*entry*entry)
}

// NusseltGnielinski returns the Nusselt number [-] of developed turbulent flow in a pipe
// with the Darcy friction factor f [-].
//
// Source: Gnielinski 1976, Int. Chem. Eng. 16:359; 3000 < Re < 5e6, 0.5 < Pr < 2000.
func NusseltGnielinski(re, pr, f float64) float64 {
	root, third := math.Sqrt(f/8), math.Cbrt(pr)
	return f / 8 * (re - 1000) * pr / (1 + 12.7*root*(third*third-1))
}

// NusseltDittusBoelter returns the Nusselt number [-] of developed turbulent flow in a
// smooth pipe whose fluid is being cooled; simpler and rougher than NusseltGnielinski.
//
// Source: Dittus & Boelter 1930 in the form of McAdams 1942; Re > 10000, 0.7 < Pr < 160.
func NusseltDittusBoelter(re, pr float64) float64 {
	return 0.023 * math.Pow(re, 0.8) * math.Pow(pr, 0.3)
}

// FrictionSmooth returns the Darcy friction factor [-] of a smooth pipe in turbulent flow,
// as Gnielinski's relation takes it.
//
// Source: Petukhov 1970, Adv. Heat Transfer 6:503; 3000 < Re < 5e6.
func FrictionSmooth(re float64) float64 {
	x := 0.790*math.Log(re) - 1.64
	return 1 / (x * x)
}

// nusseltInside returns the mean Nusselt number [-] over a full smooth pipe; slenderness is
// diameter over length [-], 0 for a long pipe.
//
// Laminar below Re 2300, Gnielinski with his entry factor 1 + (d/length)^(2/3) above 4000,
// straight between the two (Gnielinski 2013, Int. J. Heat Mass Transfer 63:134).
func nusseltInside(re, pr, slenderness float64) float64 {
	if re <= laminarReynolds {
		return NusseltLaminar(re * pr * slenderness)
	}
	if re >= turbulentReynolds {
		return nusseltTurbulent(re, pr, slenderness)
	}
	part := (re - laminarReynolds) / (turbulentReynolds - laminarReynolds)
	return (1-part)*NusseltLaminar(laminarReynolds*pr*slenderness) +
		part*nusseltTurbulent(turbulentReynolds, pr, slenderness)
}

func nusseltTurbulent(re, pr, slenderness float64) float64 {
	third := math.Cbrt(slenderness)
	return NusseltGnielinski(re, pr, FrictionSmooth(re)) * (1 + third*third)
}
