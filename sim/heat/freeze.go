package heat

import "math"

// Closed forms for cooling and freezing. The cell solver does not use them; the verification
// holds it against them.

// CoolingTime returns the time [s] in which a body of the given heat capacity [J/(m K)],
// at one temperature throughout, falls from start to end [°C] through the resistance
// [m K/W] to steady air [°C]; +Inf if the air is not colder than end.
//
// Source: lumped balance; with the insulation's resistance alone it is the time to
// freezing of the ASHRAE Handbook, Fundamentals, Insulation for Mechanical Systems, eq. 1.
func CoolingTime(capacity, resistance, start, end, air float64) float64 {
	if start <= end {
		return 0
	}
	if air >= end {
		return math.Inf(1)
	}
	return capacity * resistance * math.Log((start-air)/(end-air))
}

// CoolingTimeISO returns the time [s] to 0 °C with the loss taken at the mean of start and
// 0 °C; arguments as for CoolingTime.
//
// Source: ISO 12241:2008, cooling of a pipe's contents, formula from memory; air below 0 °C.
func CoolingTimeISO(capacity, resistance, start, air float64) float64 {
	return capacity * start * resistance / (start/2 - air)
}

// FreezingTime returns the time [s] in which the latent heat [J/m] leaves through a
// constant resistance [m K/W] to steady air [°C] below 0 °C. The ice's own resistance is
// left out, so that the time comes out short (safe side). ISO 12241:2008 uses this form with the insulation's
// resistance alone for a wanted share of ice (from memory).
func FreezingTime(latent, resistance, air float64) float64 { return latent * resistance / -air }

// InwardFreezingTime returns the time [s] in which ice grows from the wall of a full pipe of
// bore radius r [m] to the radius front [m], the liquid at 0 °C, through the outside
// resistance [m K/W] to steady air [°C]. The ice has conductivity k [W/(m K)] and takes
// latent [J/m³]; its sensible heat is left out.
//
// Source: London & Seban 1943, Trans. ASME 65:771, quasi-steady cylinder.
func InwardFreezingTime(r, front, latent, k, resistance, air float64) float64 {
	area := r*r - front*front
	thickness := 0.0 // the limit at a closed front
	if front > 0 {
		thickness = front * front / 2 * math.Log(r/front)
	}
	return latent / -air * ((area/4-thickness)/k + math.Pi*resistance*area)
}

// FrostDepth returns the depth [m] to which a body that takes latent [J/m³] freezes under a
// surface resistance [m² K/W] and a freezing index [K s]; k is the frozen conductivity
// [W/(m K)].
//
// Source: Stefan 1891 with a film, London & Seban 1943. No sensible heat, and the unfrozen part at
// 0 °C: both make it come out deep.
func FrostDepth(k, latent, index, resistance float64) float64 {
	x := k * resistance
	return math.Sqrt(x*x+2*k*index/latent) - x
}

// FrostTime inverts FrostDepth for a steady outside temperature [°C] below 0 °C: the time [s] after which
// the frost has come to a depth [m].
func FrostTime(k, latent, depth, resistance, outside float64) float64 {
	return latent / -outside * (depth*depth/(2*k) + depth*resistance)
}

// DendriticFraction returns the share by mass [-] that turns to slush at once when water
// supercooled to nucleation [°C] freezes and returns to 0 °C.
//
// Source: adiabatic balance, f = c ΔT/L, with the heat capacity at 0 °C; that of
// supercooled water (IAPWS G12-15) gives 0.6 % more at −10 °C.
func DendriticFraction(nucleation float64) float64 {
	return max(0, LiquidHeat*-nucleation/Fusion)
}
