package heat

import "math"

// Dry air at low pressure. Viscosity and conductivity are the dilute-gas terms of the
// reference equation; what the density at 1 atm adds is below 0.2 %, less than the
// equation's own uncertainty of 1 and 2 %.
const (
	airMolarMass = 0.0289586   // [kg/mol], Lemmon & Jacobsen 2004
	molarGas     = 8.314462618 // [J/(mol K)], CODATA 2018
)

// AirHeatCapacity is the specific heat [J/(kg K)] of dry air: 1005 to 1007 from −60 to 60 °C.
//
// Source: Lemmon et al. 2000.
const AirHeatCapacity = 1006.0

// AirDensity returns the density [kg/m³] of dry air at t [°C] and pressure p [Pa].
//
// Source: ideal gas; within 0.2 % of Lemmon et al. 2000 from −60 to 60 °C at 1 atm.
func AirDensity(t, p float64) float64 { return p * airMolarMass / (molarGas * (t + Kelvin)) }

// AirViscosity returns the dynamic viscosity [Pa s] of dry air at t [°C].
//
// Source: Lemmon & Jacobsen 2004, Int. J. Thermophys. 25:21, eqs 2 and 3 (coefficients
// from memory), all temperatures of weather.
func AirViscosity(t float64) float64 {
	x := math.Log((t + Kelvin) / 103.3)
	collision := math.Exp(0.431 + x*(-0.4623+x*(0.08406+x*(0.005341-0.00331*x))))
	return 0.0266958e-6 * math.Sqrt(28.9586*(t+Kelvin)) / (0.36 * 0.36 * collision)
}

// AirKinematicViscosity returns the kinematic viscosity [m²/s] of dry air at t [°C] and 1 atm.
func AirKinematicViscosity(t float64) float64 { return AirViscosity(t) / AirDensity(t, Atmosphere) }

// AirConductivity returns the thermal conductivity [W/(m K)] of dry air at t [°C].
//
// Source: Lemmon & Jacobsen 2004, Int. J. Thermophys. 25:21, eq. 5 (coefficients from
// memory).
func AirConductivity(t float64) float64 { return airConductivity(t, AirViscosity(t)) }

func airConductivity(t, viscosity float64) float64 {
	tau := 132.6312 / (t + Kelvin)
	return 1e-3 * (1.308*1e6*viscosity + 1.405*math.Pow(tau, -1.1) - 1.036*math.Pow(tau, -0.3))
}

// AirPrandtl returns the Prandtl number [-] of dry air at t [°C].
func AirPrandtl(t float64) float64 {
	mu := AirViscosity(t)
	return AirHeatCapacity * mu / airConductivity(t, mu)
}
