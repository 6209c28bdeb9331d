package sim

// Enthalpy of a control volume is held as u, in kelvin: the enthalpy per unit
// length divided by the heat capacity that the volume has when all its water is
// liquid, zero for liquid at 0 °C. The law between u and temperature is the same for
// pipe water and for the pore water of soil:
//
//	u ≥ 0         liquid          T = u
//	−p ≤ u ≤ 0    melting         T = 0, ice share −u/p
//	u ≤ −p        frozen          T = (u + p)·r
//
// with p = latent heat / liquid heat capacity [K] and r = liquid over frozen heat
// capacity [-]. Any such law must be monotone, continuous, and invertible but for the
// plateau, and must spend the same energy both ways; the tests hold it to that. A
// supercooled liquid has p = 0 and r = 1 until it nucleates, so that u keeps its meaning
// and no energy appears when the law changes.
type phase struct {
	plateau float64 // p [K]
	ratio   float64 // r [-]
}

// temperature returns T [°C] of a volume with enthalpy u [K].
func (p phase) temperature(u float64) float64 {
	switch {
	case u >= 0:
		return u
	case u <= -p.plateau:
		return (u + p.plateau) * p.ratio
	}
	return 0
}

// enthalpy returns u [K] of a volume at temperature t [°C]; at 0 °C, which does not
// say how much is ice, it is all liquid.
func (p phase) enthalpy(t float64) float64 {
	if t >= 0 {
		return t
	}
	return t/p.ratio - p.plateau
}

// ice returns the ice share [-] of a volume with enthalpy u [K].
func (p phase) ice(u float64) float64 {
	switch {
	case u >= 0 || p.plateau == 0:
		return 0
	case u <= -p.plateau:
		return 1
	}
	return -u / p.plateau
}
