package pipe

import "math"

// SoilConductivity returns the thermal conductivity [W/(m K)] of a mineral soil, coarse or fine, of
// the given porosity and quartz share of its solids [-] whose pores are filled to the share
// saturation [-] with water or, frozen, with ice. MakeSoil takes these from the texture.
//
// Source: Johansen 1975 as given by Farouki 1981; see packing.conductivity.
func SoilConductivity(coarse bool, porosity, quartz, saturation float64, frozen bool) float64 {
	row := textureRow{quartz: quartz}
	if coarse {
		row.kind = coarseSoil
	}
	return row.packed(&porosity, nil).conductivity(saturation, frozen)
}

// conductivity returns the thermal conductivity [W/(m K)] of the soil with its pores filled to the
// share wet, all of their water frozen or none.
//
// Source: Johansen 1975 as given by Farouki 1981: k = k_dry + (k_sat − k_dry) Ke with
// k_sat = k_s^(1−n) k_f^n, k_s = 7.7^q k_o^(1−q), k_o 2.0, or 3.0 where q ≤ 0.2, k_f 0.57
// (water) or 2.2 (ice), k_dry = (0.135 ρ + 64.7)/(2700 − 0.947 ρ), for crushed rock 0.039 n^−2.2;
// Ke = 1 + log10 wet (fine), 1 + 0.7 log10 wet (coarse, crushed), wet (frozen). Peat: k_s 0.25, k_dry 0.05,
// Ke = wet (from memory). Organic matter is mixed in by volume (see withOrganic). Below the wetness at which Ke reaches 0 the soil counts as dry.
func (p packing) conductivity(wet float64, frozen bool) float64 {
	fluid := 0.57
	if frozen {
		fluid = 2.2
	}
	other := 2.0
	if p.quartz <= 0.2 {
		other = 3.0
	}
	solids := math.Pow(7.7, p.quartz) * math.Pow(other, 1-p.quartz)
	dry := (0.135*p.mineral + 64.7) / (2700 - 0.947*p.mineral)
	switch p.kind {
	case crushedRock:
		dry = 0.039 * math.Pow(p.porosity, -2.2)
	case peatSoil:
		solids, dry = 0.25, 0.05
	}
	solids += p.organic * (organicSolid - solids)
	dry += p.organic * (organicDry - dry)
	full := math.Pow(solids, 1-p.porosity) * math.Pow(fluid, p.porosity)
	ke := wet
	if !frozen && p.kind != peatSoil {
		slope := 1.0
		if p.kind != fineSoil {
			slope = 0.7
		}
		ke = 1 + slope*math.Log10(max(wet, 1e-9))
	}
	return dry + (full-dry)*max(ke, 0)
}
