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
// Soil may freeze along a curve instead, from its freezing point down (see curve).
//
// Here p = latent heat / liquid heat capacity [K] and r = liquid over frozen heat
// capacity [-]. Any such law must be monotone, continuous, and invertible but for the
// plateau, and must spend the same energy both ways; the tests hold it to that. A
// supercooled liquid has p = 0 and r = 1 until it nucleates, so that u keeps its meaning
// and no energy appears when the law changes.
type phase struct {
	plateau float64 // p [K]
	ratio   float64 // r [-]
	curve   *curve  // nil: sharp at 0 °C
}

// freezes is the temperature below which there is ice [°C], and as well the enthalpy [K]: 0, or the freezing point.
func (p phase) freezes() float64 {
	if p.curve != nil {
		return p.curve.point
	}
	return 0
}

// temperature returns T [°C] of a volume with enthalpy u [K].
func (p phase) temperature(u float64) float64 {
	switch {
	case u >= 0:
		return u
	case p.curve != nil:
		if u >= p.curve.point {
			return u
		}
		return p.curve.find(u).temperature(u)
	case u <= -p.plateau:
		return (u + p.plateau) * p.ratio
	}
	return 0
}

// enthalpy returns u [K] of a volume at temperature t [°C]; at 0 °C, which does not
// say how much is ice, it is all liquid.
func (p phase) enthalpy(t float64) float64 {
	switch {
	case t >= 0 || p.curve != nil && t >= p.curve.point:
		return t
	case p.curve != nil:
		return p.curve.enthalpy(t)
	}
	return t/p.ratio - p.plateau
}

// enthalpyWith is enthalpy where the ice share at 0 °C is known.
func (p phase) enthalpyWith(t, ice float64) float64 {
	if t == 0 && p.curve == nil {
		return -ice * p.plateau
	}
	return p.enthalpy(t)
}

// ice returns the ice share [-] of a volume with enthalpy u [K].
func (p phase) ice(u float64) float64 {
	switch {
	case u >= 0 || p.plateau == 0:
		return 0
	case p.curve != nil:
		if u >= p.curve.point {
			return 0
		}
		return p.curve.find(u).share(u)
	case u <= -p.plateau:
		return 1
	}
	return -u / p.plateau
}
