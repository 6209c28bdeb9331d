package heat

// Frost heave: pore water that swells where it freezes, and water drawn up to the front,
// which freezes to lenses of clear ice.

// freezingSwell is the share of its volume by which water swells as it freezes [-], rounded as in the
// literature of frost heave.
const freezingSwell = 0.09

// InSituHeave returns the heave [m] of ground that froze over a thickness [m] if all of its
// water freezes and none is pushed out of the pores: the upper value. Porosity and saturation (water over pore
// space) are shares [-]. With a rate of the front [m/s] in place of the thickness it returns a rate.
//
// Source: volume balance, 0.09 n S X.
func InSituHeave(porosity, saturation, thickness float64) float64 {
	return freezingSwell * porosity * saturation * thickness
}

// InSituHeaveLeast is InSituHeave if the ice first fills the air in the pores: nothing up
// to a saturation of 0.917.
func InSituHeaveLeast(porosity, saturation, thickness float64) float64 {
	return porosity * max(0, (1+freezingSwell)*saturation-1) * thickness
}

// SegregationRate returns the rate of heave [m/s] by lenses of ice at a frost front, where water
// is drawn up at potential·gradient and swells by 9 %. potential is the soil's segregation
// potential [m²/(s K)], gradient the temperature gradient of the frozen ground at the front [K/m].
// No lenses grow where the gradient is not positive.
//
// Source: Konrad & Morgenstern 1981, Can. Geotech. J. 18:482 (from memory), v = 1.09 SP grad T;
// for a front that stands or moves slowly, and no load on the ground.
func SegregationRate(potential, gradient float64) float64 {
	return (1 + freezingSwell) * potential * max(0, gradient)
}
