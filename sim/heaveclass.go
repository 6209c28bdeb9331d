package sim

import "winterline/pipe"

// FrostClass says how readily a texture class of soil heaves.
type FrostClass struct {
	// Group is the frost design group of the US Army Corps of Engineers: NFS (not frost-susceptible), or F2 to
	// F4 (most susceptible); "": the table has none for such soil.
	Group     string
	Low, High float64 // segregation potential under no load [m²/(s K)]
	Source    string
}

const (
	// potential is the unit in which the literature prints segregation potentials [m²/(s K)].
	potential = 1e-11 // 1e-5 mm²/(s °C)

	frostGroups      = "group UFC 3-260-02 table 19-2, by texture as a soil of that class usually falls (no source)"
	frostPotentials  = "; segregation potential after Konrad 1999 and 2005 and Saetersdal 1981 (from memory; wide scatter)"
	frostNone        = "; clean: drains as it freezes, no heave (common practice, no source)"
	frostUnpublished = "no group and no published segregation potential: the range of peat spans those of fat clay and silty sand (common practice, no source)"
)

// FrostClassOf returns the class of a texture class, as pipe.TextureNames has it; false: unknown.
func FrostClassOf(texture string) (FrostClass, bool) {
	class := func(group string, low, high float64) (FrostClass, bool) {
		return FrostClass{group, low * potential, high * potential, frostGroups + frostPotentials}, true
	}
	switch texture {
	case "sand", "crushed rock":
		return FrostClass{"NFS", 0, 0, frostGroups + frostNone}, true
	case "loamy sand":
		return class("F2", 10, 80) // silty sand
	case "sandy loam":
		return class("F3", 10, 80) // silty sand
	case "silt loam", "silt":
		return class("F4", 80, 400) // silt, clayey silt
	case "loam":
		return class("F4", 30, 200) // lean clay of low plasticity
	case "sandy clay loam", "clay loam", "silty clay loam", "sandy clay":
		return class("F3", 30, 200) // lean clay
	case "silty clay", "clay":
		return class("F3", 5, 60) // fat clay
	case "peat":
		return FrostClass{"", 5 * potential, 80 * potential, frostUnpublished}, true
	}
	return FrostClass{}, false
}

// Lenses grow from water that reaches the front through the ground. At the low end of the range there is only what the
// ground holds itself: the class's whole potential counts where its pores are full to lensesFull, none of it below
// lensesNone, in proportion between. At the high end water stands nearby, as it does where a house has a sump, and the
// whole potential counts (common practice, no source).
const (
	lensesNone = 0.5 // saturation [-]
	lensesFull = 0.9 // [-]
)

// ownWater is the share of the potential that the ground's own water lets grow [-].
func ownWater(saturation float64) float64 {
	return min(1, max(0, (saturation-lensesNone)/(lensesFull-lensesNone)))
}

// waterDensity turns moisture by weight into moisture by volume [kg/m³], rounded as in soil mechanics.
const waterDensity = 1000.0

// saturationOf is the share of a soil's pores that water fills [-].
func saturationOf(s pipe.Soil) float64 {
	if !(s.Porosity > 0) {
		return 0
	}
	return min(1, max(0, s.Moisture*s.DryDensity/waterDensity/s.Porosity))
}
