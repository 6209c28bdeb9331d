package pipe

// SoilConductivity returns the thermal conductivity [W/(m K)] of a mineral soil, coarse or fine, of
// the given porosity and quartz share of its solids [-] whose pores are filled to the share
// saturation [-] with water or, frozen, with ice. MakeSoil takes these from the texture.
//
// Source: Johansen 1975 as given by Farouki 1981; see johansen.
func SoilConductivity(coarse bool, porosity, quartz, saturation float64, frozen bool) float64 {
	kind := fineSoil
	if coarse {
		kind = coarseSoil
	}
	return johansen(kind, porosity, quartz, saturation, frozen)
}
