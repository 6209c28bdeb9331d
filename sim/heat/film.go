package heat

import "math"

// IndoorFilm is the film coefficient, radiation included, of a pipe in a room
// [W/(m² K)]: ISO 6946 and ISO 12241 use 7.7 to 8 for still indoor air (from memory).
const IndoorFilm = 8.0

// NusseltForced returns the mean Nusselt number [-] of a cylinder in cross flow.
//
// Source: Churchill & Bernstein 1977, J. Heat Transfer 99:300, eq. 4, for Re·Pr > 0.2; below
// that it tends to its constant 0.3, which natural convection outweighs.
func NusseltForced(re, pr float64) float64 {
	return 0.3 + 0.62*math.Sqrt(re)*math.Cbrt(pr)/math.Pow(1+math.Pow(0.4/pr, 2.0/3), 0.25)*
		math.Pow(1+math.Pow(re/282000, 0.625), 0.8)
}

// NusseltNatural returns the mean Nusselt number [-] of a horizontal cylinder in still
// fluid.
//
// Source: Churchill & Chu 1975, Int. J. Heat Mass Transfer 18:1049, eq. 5 of the laminar
// and turbulent range, for 1e-5 < Ra < 1e12.
func NusseltNatural(ra, pr float64) float64 {
	root := 0.6 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.559/pr, 0.5625), 8.0/27)
	return root * root
}

// Rayleigh returns the Rayleigh number [-] of a cylinder of outside diameter d [m] in air
// of kinematic viscosity nu [m²/s] and Prandtl number pr [-]; the surface differs from the
// air by dt [K] and the film is at tf [°C]. The air's expansion coefficient is that of an
// ideal gas.
func Rayleigh(d, dt, tf, nu, pr float64) float64 {
	return Gravity * math.Abs(dt) / (tf + Kelvin) * d * d * d / (nu * nu) * pr
}

// FilmForced returns the forced-convection film coefficient [W/(m² K)] around a horizontal
// cylinder of outside diameter d [m] and surface temperature surface [°C] in air [°C] that
// crosses it at speed wind [m/s], air properties at the film temperature.
func FilmForced(air, surface, d, wind float64) float64 {
	k, nu, pr := airFilm((air + surface) / 2)
	return NusseltForced(wind*d/nu, pr) * k / d
}

// FilmNatural returns the natural-convection film coefficient [W/(m² K)] around a
// horizontal cylinder of outside diameter d [m] and surface temperature surface [°C] in
// still air [°C], air properties at the film temperature.
func FilmNatural(air, surface, d float64) float64 {
	tf := (air + surface) / 2
	k, nu, pr := airFilm(tf)
	return NusseltNatural(Rayleigh(d, surface-air, tf, nu, pr), pr) * k / d
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
	tf := (air + surface) / 2
	k, nu, pr := airFilm(tf)
	forced := NusseltForced(wind*d/nu, pr)
	natural := NusseltNatural(Rayleigh(d, surface-air, tf, nu, pr), pr)
	if n == 3 {
		return math.Cbrt(forced*forced*forced+natural*natural*natural) * k / d
	}
	return math.Pow(math.Pow(forced, n)+math.Pow(natural, n), 1/n) * k / d
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
