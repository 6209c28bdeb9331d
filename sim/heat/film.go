package heat

import "math"

// NusseltForced returns the mean Nusselt number [-] of a cylinder in cross flow:
//
//	Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3) / (1 + (0.4/Pr)^(2/3))^(1/4) · (1 + (Re/282000)^(5/8))^(4/5)
//
// Source: Churchill & Bernstein 1977, J. Heat Transfer 99:300, eq. 4, for Re·Pr > 0.2; below
// that it tends to 0.3, which natural convection outweighs.
func NusseltForced(re, pr float64) float64 {
	return forcedLeast + forcedFactor(pr)*math.Sqrt(re)*forcedGrowth(re)
}

// forcedLeast is the constant of NusseltForced.
const forcedLeast = 0.3

// forcedFactor is the factor of NusseltForced that holds the Prandtl number.
func forcedFactor(pr float64) float64 {
	return 0.62 * math.Cbrt(pr) / math.Pow(1+math.Pow(0.4/pr, 2.0/3), 0.25)
}

// forcedGrowth is its last factor, the powers taken by roots, which are faster.
func forcedGrowth(re float64) float64 {
	half := math.Sqrt(re / 282000)
	return fourFifths(1 + half*math.Sqrt(math.Sqrt(half))) // 5/8 = 1/2 + 1/8
}

// fourFifths is x^(4/5) for x ≥ 1. Up to 2, which covers the wind on a pipe, three steps of Halley's method from 1 give the
// fifth root: the first leaves an error of 5e-3, the second 3e-7, the third none.
func fourFifths(x float64) float64 {
	if !(x < 2) {
		return math.Exp(0.8 * math.Log(x))
	}
	root := (2 + 3*x) / (3 + 2*x)
	for range 2 {
		fifth := root * root
		fifth *= fifth * root
		root *= (2*fifth + 3*x) / (3*fifth + 2*x)
	}
	return x / root
}

// NusseltNatural returns the mean Nusselt number [-] of a horizontal cylinder in still
// fluid:
//
//	Nu = (0.6 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))²
//
// Source: Churchill & Chu 1975, Int. J. Heat Mass Transfer 18:1049, eq. 5 of the laminar
// and turbulent range, for 1e-5 < Ra < 1e12.
func NusseltNatural(ra, pr float64) float64 {
	root := naturalLeast + naturalFactor(pr)*sixthRoot(ra)
	return root * root
}

// naturalLeast is the constant of NusseltNatural.
const naturalLeast = 0.6

// naturalFactor is the factor of NusseltNatural that holds the Prandtl number.
func naturalFactor(pr float64) float64 {
	return 0.387 / math.Pow(1+math.Pow(0.559/pr, 0.5625), 8.0/27)
}

func sixthRoot(x float64) float64 { return math.Sqrt(math.Cbrt(x)) }

// Rayleigh returns the Rayleigh number [-] of a cylinder of outside diameter d [m] in air
// of kinematic viscosity nu [m²/s] and Prandtl number pr [-]; the surface differs from the
// air by dt [K] and the film is at tf [°C]. The air's expansion coefficient is that of an
// ideal gas.
func Rayleigh(d, dt, tf, nu, pr float64) float64 {
	return gravity * math.Abs(dt) / (tf + Kelvin) * d * d * d / (nu * nu) * pr
}

// FilmForced returns the forced-convection film coefficient [W/(m² K)] around a horizontal
// cylinder of outside diameter d [m] and surface temperature surface [°C] in air [°C] that
// crosses it at speed wind [m/s]: NusseltForced with air properties at the film temperature.
func FilmForced(air, surface, d, wind float64) float64 {
	a := filmAirAt((air + surface) / 2)
	return a.forced(d, wind) * a.conductivity / d
}

// FilmNatural returns the natural-convection film coefficient [W/(m² K)] around a
// horizontal cylinder of outside diameter d [m] and surface temperature surface [°C] in
// still air [°C]: NusseltNatural at Rayleigh with air properties at the film temperature.
func FilmNatural(air, surface, d float64) float64 {
	a := filmAirAt((air + surface) / 2)
	return a.natural(d, surface-air) * a.conductivity / d
}

// Film returns the convective film coefficient [W/(m² K)] around a horizontal cylinder in
// wind: forced and natural convection blended by the third power.
//
// Source: Churchill 1977, AIChE J. 23:10, assisting and transverse flow; arguments as for
// FilmForced.
func Film(air, surface, d, wind float64) float64 { return FilmBlended(air, surface, d, wind, 3) }

// FilmBlended is Film with the power n of the blend given; 4 is often advised for
// cylinders.
func FilmBlended(air, surface, d, wind, n float64) float64 {
	a := filmAirAt((air + surface) / 2)
	forced, natural := a.forced(d, wind), a.natural(d, surface-air)
	if n == 3 {
		return math.Cbrt(forced*forced*forced+natural*natural*natural) * a.conductivity / d
	}
	return math.Pow(math.Pow(forced, n)+math.Pow(natural, n), 1/n) * a.conductivity / d
}

// FilmOutdoorISO returns the convective film coefficient [W/(m² K)] of a horizontal pipe of
// outside diameter d [m] in wind [m/s]: the simple engineering form, to set beside Film.
//
// Source: ISO 12241:2008, surface coefficients, as transcribed in public code.
func FilmOutdoorISO(d, wind float64) float64 {
	if wind*d > 8.55e-3 {
		return 8.9 * math.Pow(wind, 0.9) / math.Pow(d, 0.1)
	}
	return 8.1e-3/d + 3.14*math.Sqrt(wind/d)
}

// FilmIndoorISO returns the convective film coefficient [W/(m² K)] of a horizontal pipe of
// outside diameter d [m] whose surface differs from still air by dt [K].
//
// Source: ISO 12241:2008, surface coefficients, as transcribed in public code; its
// turbulent branch is printed there with dt/d, which its units do not allow.
func FilmIndoorISO(d, dt float64) float64 {
	dt = math.Abs(dt)
	if d*d*d*dt <= 10 {
		return 1.25 * math.Pow(dt/d, 0.25)
	}
	return 1.21 * math.Cbrt(dt)
}
