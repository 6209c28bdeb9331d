package heat

import "math"

// VapourPressure returns the saturation pressure of water vapour [Pa] over liquid water at
// t [°C], also below 0 °C.
//
// Source: Magnus form of FAO Irrigation and Drainage Paper 56 (1998), eq. 11.
func VapourPressure(t float64) float64 { return 610.8 * math.Exp(17.27*t/(t+237.3)) }

// vapourPressureSlope returns how VapourPressure grows with temperature [Pa/K] (FAO 56, eq. 13).
func vapourPressureSlope(t float64) float64 {
	return VapourPressure(t) * 17.27 * 237.3 / ((t + 237.3) * (t + 237.3))
}

// VapourPressureIce returns the saturation pressure [Pa] over ice at t [°C].
//
// Source: Magnus form with the coefficients of Alduchov and Eskridge 1996, J. Appl.
// Meteorol. 35:601 (from memory).
func VapourPressureIce(t float64) float64 { return 611.21 * math.Exp(22.587*t/(t+273.86)) }

// psychrometric is the psychrometric constant at sea level [Pa/K] (FAO 56, eq. 8). It goes with the
// pressure, as the air's density does, so that their ratio in LatentFlux holds at any altitude.
const psychrometric = 67.4

// airHeat returns the volumetric heat capacity of air at t [°C] and 1 atm [J/(m³ K)].
func airHeat(t float64) float64 {
	const byMass = 1013 // moist air (FAO 56, eq. 8) [J/(kg K)]
	return AirDensity(t, Atmosphere) * byMass
}

// SensibleCoefficient returns the coefficient [W/(m² K)] of an aerodynamic resistance [s/m] in air
// at t [°C].
func SensibleCoefficient(t, resistance float64) float64 { return airHeat(t) / resistance }

// LatentFlux returns the heat [W/m²] that vapour carries off a surface with the vapour pressure
// es [Pa] into air at t [°C] with ea, through aerodynamic and surface resistances in series
// [s/m] (Penman–Monteith, FAO 56, eq. 3).
func LatentFlux(t, es, ea, resistance float64) float64 {
	return airHeat(t) / psychrometric * (es - ea) / resistance
}

// AerodynamicResistance returns the resistance [s/m] to heat and vapour between a surface
// of roughness length rough [m] and air at height z [m] with wind u [m/s] there, without
// the effect of stratification; u > 0. The roughness length for heat and vapour is a tenth of that for
// the wind.
//
// Source: FAO 56, eq. 4; over its grass of 0.12 m (roughness 0.0148 m, displacement 0.08 m)
// it gives 208/u at 2 m.
func AerodynamicResistance(u, z, displacement, rough float64) float64 {
	const karman = 0.41
	h := z - displacement
	return math.Log(h/rough) * math.Log(h/(0.1*rough)) / (karman * karman * u)
}

// Stratification returns the factor [-] by which stratification changes the exchange between
// a surface at ts [°C] and air at ta [°C] at height z [m] moving at u [m/s]: below one over a
// surface colder than the air, above one over a warmer one, where it is held to 3; u > 0.
//
// Source: Price and Dunne 1976, Water Resour. Res. 12:686, 1/(1 + 10 Ri) and 1 − 10 Ri
// (from memory).
func Stratification(ta, ts, z, u float64) float64 {
	ri := 9.81 * z * (ta - ts) / ((ta + Kelvin) * u * u)
	if ri >= 0 {
		return 1 / (1 + 10*ri)
	}
	return math.Min(3, 1-10*ri)
}

// PenmanMonteith returns the latent heat flux [W/m²] of a canopy that takes in net radiation net
// [W/m²] in air at t [°C] with the vapour pressure ea [Pa], through aerodynamic and surface
// resistances [s/m].
//
// Source: FAO 56, eq. 3.
func PenmanMonteith(t, ea, net, aerodynamic, surface float64) float64 {
	slope := vapourPressureSlope(t)
	drying := airHeat(t) * (VapourPressure(t) - ea) / aerodynamic
	return (slope*net + drying) / (slope + psychrometric*(1+surface/aerodynamic))
}
