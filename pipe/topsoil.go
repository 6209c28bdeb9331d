package pipe

// Topsoil under a lawn or grassland: roots and humus loosen the soil and conduct badly, most
// of all near the surface.

// grasslandCarbon is the organic carbon of temperate grassland in the uppermost metre
// [kg/m²], and carbonShare how it is spread over slices of carbonSlice.
//
// Source: Jobbágy and Jackson 2000, Ecol. Appl. 10:423 (11.7 kg/m²; 42, 23, 15, 11 and 9 % by
// slices of 20 cm; from memory).
const (
	grasslandCarbon = 11.7
	carbonSlice     = 0.2 // [m]
)

var carbonShare = [5]float64{0.42, 0.23, 0.15, 0.11, 0.09}

// Organic matter as a part of the soil.
//
// Source: Lawrence and Slater 2008, Clim. Dyn. 30:145 (from memory): a soil whose solids are all
// organic holds 130 kg/m³ of carbon, with a porosity of 0.9, and conducts 0.25 W/(m K) as solid
// and 0.05 dry; a mixture has the mean of both soils by volume.
const (
	organicCarbon   = 130.0 // [kg/m³]
	organicPorosity = 0.9   // [-]
	organicSolid    = 0.25  // [W/(m K)]
	organicDry      = 0.05  // [W/(m K)]
)

// withOrganic mixes organic soil into the class, by volume share.
func (t textureRow) withOrganic(share float64) packing {
	mineral := t.packed(nil, nil)
	t.porosity += share * (organicPorosity - t.porosity)
	grains := mineralDensity + share*(peatDensity-mineralDensity)
	return packing{textureRow: t, density: (1 - t.porosity) * grains, mineral: mineral.density, organic: share}
}

// hasTopsoil says whether grass makes topsoil of a class.
func (t textureRow) hasTopsoil() bool { return t.kind == fineSoil || t.kind == coarseSoil }

// topsoil returns the layers of the uppermost metre under grass over a soil of the class. They
// hold as much water by volume as it and drain as fast.
func (t textureRow) topsoil(over Soil) []SoilLayer {
	var layers []SoilLayer
	for i, part := range carbonShare {
		p := t.withOrganic(part * grasslandCarbon / carbonSlice / organicCarbon)
		soil, err := p.soil(min(p.byWeight(over.water()), p.saturation()))
		if err != nil {
			return nil
		}
		soil.Source += "; topsoil Lawrence and Slater 2008, Jobbágy and Jackson 2000 (from memory)"
		soil.SaturatedConductivity, soil.Drained = over.SaturatedConductivity, over.Drained
		layers = append(layers, SoilLayer{carbonSlice * float64(i+1), soil})
	}
	return layers
}
