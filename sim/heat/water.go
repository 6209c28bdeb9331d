package heat

import "math"

// Water and ice at 0 °C and 1 atm, as the cell solver uses them. Ice takes the same
// mass per volume there so that mass is conserved; its swelling counts where geometry
// matters, through IceExpansion.
const (
	WaterDensity       = 999.84   // [kg/m³], IAPWS R6-95(2018)
	LiquidHeat         = 4219.0   // isobaric heat capacity [J/(kg K)], IAPWS R6-95(2018)
	LiquidConductivity = 0.556    // [W/(m K)], IAPWS R15-11
	IceDensity         = 916.7    // ice Ih [kg/m³], IAPWS R10-06(2009)
	IceHeat            = 2097.0   // ice Ih [J/(kg K)], IAPWS R10-06(2009)
	IceConductivity    = 2.16     // ice Ih [W/(m K)]; handbooks print 2.07 (Yen 1981) to 2.24
	Fusion             = 333427.0 // heat of fusion [J/kg], IAPWS R6-95 less R10-06 at the melting point

	// IceExpansion is the share by which water's volume grows on freezing [-].
	IceExpansion = WaterDensity/IceDensity - 1
)

// WaterDensityAt returns the density [kg/m³] of liquid water at t [°C] and 1 atm.
//
// Source: Kell 1975, J. Chem. Eng. Data 20:97, eq. 16 (coefficients from memory), 0 to
// 150 °C. It follows supercooled water down to −10 °C within 0.1 kg/m³ of IAPWS G12-15.
func WaterDensityAt(t float64) float64 {
	above := 999.83952 + t*(16.945176+t*(-7.9870401e-3+t*(-46.170461e-6+t*(105.56302e-9-280.54253e-12*t))))
	return above / (1 + 16.879850e-3*t)
}

// WaterHeatCapacityAt returns the isobaric heat capacity [J/(kg K)] of liquid water at
// t [°C] and 1 atm.
//
// Source: Millero, Perron & Desnoyers 1973, J. Geophys. Res. 78:4499, as adopted by
// UNESCO 1983 for fresh water (coefficients from memory), 0 to 40 °C; 2 J/(kg K) below
// IAPWS R6-95 there and down to −10 °C.
func WaterHeatCapacityAt(t float64) float64 {
	return 4217.4 + t*(-3.720283+t*(0.1412855+t*(-2.654387e-3+2.093236e-5*t)))
}

// WaterViscosity returns the dynamic viscosity [Pa s] of liquid water at t [°C].
//
// Source: IAPWS SR6-08(2011), liquid water at 0.1 MPa, −20 to 110 °C, eq. 7
// (coefficients from memory).
func WaterViscosity(t float64) float64 {
	x := (t + Kelvin) / 300
	return 1e-6 * (280.68*math.Pow(x, -1.9) + 511.45*math.Pow(x, -7.7) +
		61.131*math.Pow(x, -19.6) + 0.45903*math.Pow(x, -40))
}

// WaterKinematicViscosity returns the kinematic viscosity [m²/s] of liquid water at t [°C].
func WaterKinematicViscosity(t float64) float64 { return WaterViscosity(t) / WaterDensityAt(t) }

// WaterConductivityAt returns the thermal conductivity [W/(m K)] of liquid water at t [°C].
//
// Source: IAPWS SR6-08(2011), liquid water at 0.1 MPa, 0 to 110 °C, eq. 8 (coefficients
// from memory).
func WaterConductivityAt(t float64) float64 {
	x := (t + Kelvin) / 300
	return 1.6630*math.Pow(x, -1.15) - 1.7781*math.Pow(x, -3.4) +
		1.1567*math.Pow(x, -6.0) - 0.432115*math.Pow(x, -7.6)
}

// WaterPrandtl returns the Prandtl number [-] of liquid water at t [°C].
func WaterPrandtl(t float64) float64 {
	return WaterViscosity(t) * WaterHeatCapacityAt(t) / WaterConductivityAt(t)
}
