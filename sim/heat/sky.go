package heat

import "math"

// StefanBoltzmann is the Stefan–Boltzmann constant [W/(m² K⁴)] (CODATA 2018).
const StefanBoltzmann = 5.670374419e-8

// SkyEmissivity returns the emissivity [-] of the sky over its whole hemisphere at dew
// point dew [°C] under a cloud cover of cloud [-], 0 clear to 1 overcast: Berdahl & Martin
// for the clear part, with the clouds of Campbell & Norman. Its clear sky is colder than
// that of Clark & Allen, which lies 0.08 to 0.10 above it near −10 to 0 °C: the safe side
// for a pipe. Brutsaert's is colder still in dry air (0.57 against 0.63 at 0 °C with a dew point
// of −20 °C).
func SkyEmissivity(dew, cloud float64) float64 {
	return CloudCampbellNorman(SkyBerdahlMartin(dew), cloud)
}

// SkyTemperature returns the temperature [°C] of a black hemisphere that radiates like a
// sky of the given emissivity [-] over air at air [°C].
func SkyTemperature(air, emissivity float64) float64 {
	return math.Sqrt(math.Sqrt(emissivity))*(air+Kelvin) - Kelvin
}

// SkyClarkAllen returns the emissivity [-] of the clear sky at dew point dew [°C].
//
// Source: Clark & Allen 1978, Proc. 2nd National Passive Solar Conf., as printed in the
// EnergyPlus Engineering Reference, Sky Radiation Modeling.
func SkyClarkAllen(dew float64) float64 { return 0.787 + 0.764*math.Log((dew+Kelvin)/273) }

// CloudWalton returns the factor [-] that raises SkyClarkAllen under n tenths of opaque
// cloud.
//
// Source: Walton 1983, NBSIR 83-2655, as printed in the EnergyPlus Engineering Reference.
func CloudWalton(n float64) float64 { return 1 + n*(0.0224+n*(-0.0035+0.00028*n)) }

// SkyMartinBerdahl returns the emissivity [-] of the clear sky at dew point dew [°C],
// hour of the day hour [h] and air pressure p [Pa].
//
// Source: Martin & Berdahl 1984, Solar Energy 33:321; pressure term as in public code.
func SkyMartinBerdahl(dew, hour, p float64) float64 {
	return SkyBerdahlMartin(dew) + 0.013*math.Cos(2*math.Pi*hour/24) + 0.00012*(p/100-1000)
}

// SkyBerdahlMartin returns the daily mean emissivity [-] of the clear sky at dew point
// dew [°C].
//
// Source: Berdahl & Martin 1984, Solar Energy 32:663, dew points of −13 to 24 °C (range from
// memory). Below −38 °C the parabola turns up again, by 0.03 down to −60 °C (unsafe side).
func SkyBerdahlMartin(dew float64) float64 {
	x := dew / 100
	return 0.711 + 0.56*x + 0.73*x*x
}

// SkyBrutsaert returns the emissivity [-] of the clear sky over air at air [°C] with the
// vapour pressure e [Pa].
//
// Source: Brutsaert 1975, Water Resour. Res. 11:742, eq. 11 (e in hPa, T in K there).
func SkyBrutsaert(air, e float64) float64 {
	return 1.24 * math.Pow(e/100/(air+Kelvin), 1.0/7)
}

// SkySwinbank returns the temperature [°C] of the clear sky over air at air [°C], for
// records without a dew point.
//
// Source: Swinbank 1963, Q. J. R. Meteorol. Soc. 89:339, T_sky = 0.0552 T^1.5 in K (from
// memory).
func SkySwinbank(air float64) float64 {
	t := air + Kelvin
	return 0.0552*t*math.Sqrt(t) - Kelvin
}

// CloudCampbellNorman returns the sky's emissivity [-] under a cloud cover of cloud [-]
// from that of the clear sky.
//
// Source: Campbell & Norman 1998, An Introduction to Environmental Biophysics, eq. 10.12
// (equation number from memory), after Unsworth & Monteith 1975.
func CloudCampbellNorman(clear, cloud float64) float64 { return (1-0.84*cloud)*clear + 0.84*cloud }

// CloudLinear returns the sky's emissivity [-] under n tenths of cloud from that of the
// clear sky.
//
// Source: California Alternative Calculation Method reference manual 2013, eq. 76.
func CloudLinear(clear, n float64) float64 { return clear + 0.784*(1-clear)*n/10 }

// RadiationCoefficient returns the long-wave coefficient [W/(m² K)] that, times the
// difference of the temperatures, gives the exchange of a surface at surface [°C] and of the given
// emissivity with black surroundings at surroundings [°C]: exact, not a tangent.
func RadiationCoefficient(surface, surroundings, emissivity float64) float64 {
	a, b := surface+Kelvin, surroundings+Kelvin
	return emissivity * StefanBoltzmann * (a + b) * (a*a + b*b)
}

// NetLongWave returns the flux [W/m²] that a surface loses by long-wave radiation; arguments as for
// RadiationCoefficient.
func NetLongWave(surface, surroundings, emissivity float64) float64 {
	return RadiationCoefficient(surface, surroundings, emissivity) * (surface - surroundings)
}
