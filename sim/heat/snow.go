package heat

import "math"

// SnowConductivity returns the effective conductivity [W/(m K)] of seasonal snow of the
// given density [kg/m³].
//
// Source: Sturm et al. 1997, J. Glaciol. 43:26, eq. 4, 156 to 600 kg/m³; the straight line
// below 156 kg/m³ is theirs, from memory. The two lines meet within 0.4 mW/(m K).
func SnowConductivity(density float64) float64 {
	g := density / 1000
	if g < 0.156 {
		return 0.023 + 0.234*g
	}
	return 0.138 - 1.01*g + 3.233*g*g
}

// SnowConductivityCalonne returns the same from conduction computed through scanned snow. It lies above
// that of Sturm: the other end of what is known, and the colder side for the ground. The simulation uses it.
//
// Source: Calonne et al. 2011, Geophys. Res. Lett. 38:L23501, eq. 12 (number from memory).
func SnowConductivityCalonne(density float64) float64 {
	return 0.024 + density*(-1.23e-4+2.5e-6*density)
}

// SnowConductivityYen returns the same from an older fit that reaches up to ice.
//
// Source: Yen 1981, CRREL Report 81-10 (from memory).
func SnowConductivityYen(density float64) float64 {
	return 2.22362 * math.Pow(density/1000, 1.885)
}

// SnowResistance returns the resistance [m² K/W] of snow of the given depth [m] and density
// [kg/m³].
func SnowResistance(depth, density float64) float64 { return depth / SnowConductivity(density) }
