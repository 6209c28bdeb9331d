package heat

import "math"

// IceConductivityAt returns the thermal conductivity [W/(m K)] of ice at t [°C]: 2.07 at
// 0 °C, at the low end of what handbooks print.
//
// Source: Yen 1981, CRREL Report 81-10: k = 9.828 exp(−0.0057 T), T in K (from memory).
func IceConductivityAt(t float64) float64 { return 9.828 * math.Exp(-0.0057*(t+Kelvin)) }

// MeltingPressure returns the absolute pressure [Pa] at which ice and water stand in
// balance at t [°C], t from −22 to 0.01: what water trapped with ice can build up to.
//
// Source: IAPWS R14-08(2011), eq. 1, ice Ih (coefficients from memory; its check value
// is 138.268 MPa at 260 K).
func MeltingPressure(t float64) float64 {
	theta := (t + Kelvin) / 273.16
	return 611.657 * (1 + 0.119539337e7*(1-math.Pow(theta, 3)) +
		0.808183159e5*(1-math.Pow(theta, 25.75)) +
		0.333826860e4*(1-math.Pow(theta, 103.75)))
}

// TrappedPressure returns the pressure rise [Pa] in a rigid closed length of which the
// share frozen [-] has turned to ice: the water left is squeezed by the ice's swelling,
// the ice taken as rigid. compressibility is the water's [1/Pa], about 5e-10 at 0 °C. An
// upper value: the pipe's stretch lowers it and MeltingPressure bounds it.
func TrappedPressure(frozen, compressibility float64) float64 {
	return IceExpansion * frozen / (compressibility * (1 - frozen))
}
