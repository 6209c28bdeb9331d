package pipe

import (
	"fmt"
	"math"
	"strings"
)

// textureRow describes a soil by its texture class.
type textureRow struct {
	name          string
	porosity      float64 // [-]
	fieldCapacity float64 // water by volume after draining for days, at about 33 kPa [-]
	wilting       float64 // water by volume that plants cannot draw, at about 1500 kPa: the dry end of the default's range [-]
	ksat          float64 // saturated hydraulic conductivity [mm/h]
	quartz        float64 // quartz share of the solids [-]
	kind          soilKind
	source        string
}

// soilKind chooses the form of the conductivity relation.
type soilKind int

const (
	fineSoil soilKind = iota
	coarseSoil
	crushedRock
	peatSoil
)

const (
	rawls      = "porosity and moisture Rawls, Brakensiek and Miller 1983; saturated conductivity Rawls, Brakensiek and Saxton 1982 (from memory); quartz Peters-Lidard and others 1998 (from memory)"
	carsel     = "Carsel and Parrish 1988, moisture at 33 and 1500 kPa from their retention parameters 0.034, 0.46, 1.6 1/m and 1.37; quartz Peters-Lidard and others 1998 (all from memory)"
	peatSource = "moisture on the wet side of hemic and sapric peat, which hold 0.34 and 0.51 at 33 kPa and 0.18 and 0.37 at 1500 kPa (Letts and others 2000, from memory); the rest " + noSource
)

var textures = []textureRow{
	{"sand", 0.437, 0.062, 0.024, 210, 0.92, coarseSoil, rawls},
	{"loamy sand", 0.437, 0.105, 0.047, 61.1, 0.82, coarseSoil, rawls},
	{"sandy loam", 0.453, 0.190, 0.085, 25.9, 0.60, coarseSoil, rawls},
	{"loam", 0.463, 0.232, 0.116, 13.2, 0.40, fineSoil, rawls},
	{"silt loam", 0.501, 0.284, 0.135, 6.8, 0.25, fineSoil, rawls},
	{"silt", 0.46, 0.26, 0.09, 2.5, 0.10, fineSoil, carsel},
	{"sandy clay loam", 0.398, 0.244, 0.136, 4.3, 0.60, fineSoil, rawls},
	{"clay loam", 0.464, 0.310, 0.187, 2.3, 0.35, fineSoil, rawls},
	{"silty clay loam", 0.471, 0.342, 0.210, 1.5, 0.10, fineSoil, rawls},
	{"sandy clay", 0.430, 0.321, 0.221, 1.2, 0.52, fineSoil, rawls},
	{"silty clay", 0.479, 0.371, 0.251, 0.9, 0.10, fineSoil, rawls},
	{"clay", 0.475, 0.378, 0.265, 0.6, 0.25, fineSoil, rawls},
	{"peat", 0.85, 0.60, 0.30, 20, 0, peatSoil, peatSource},
	{"crushed rock", 0.40, 0.03, 0.01, 360_000, 0.30, crushedRock, "void 0.40: TRCA/CVC low-impact-development wiki; the rest " + noSource},
}

// TextureNames lists the texture classes.
func TextureNames() []string {
	names := make([]string, len(textures))
	for i, t := range textures {
		names[i] = t.name
	}
	return names
}

func findTexture(name string) (textureRow, bool) {
	low := strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(name, "-", " "))), " ")
	for _, t := range textures {
		if t.name == low {
			return t, true
		}
	}
	return textureRow{}, false
}

// Constants of the three-phase soil. Solids: 2700 kg/m³ (the grain density in Johansen's
// relations) with 1.92 MJ/m³K, peat 1300 kg/m³ with 2.5 MJ/m³K (de Vries 1963, from memory). Water and
// ice at 0 °C and normal pressure: IAPWS R6-95 and R10-06, heat of fusion 333.427 kJ/kg.
const (
	mineralDensity  = 2700.0   // [kg/m³]
	mineralCapacity = 1.92e6   // [J/(m³ K)]
	peatDensity     = 1300.0   // [kg/m³]
	peatCapacity    = 2.5e6    // [J/(m³ K)]
	waterDensity    = 999.84   // [kg/m³]
	waterHeat       = 4219.4   // [J/(kg K)]
	iceHeat         = 2096.7   // [J/(kg K)]
	fusionHeat      = 333_427. // [J/kg]
)

// grains returns the density [kg/m³] and the volumetric heat capacity [J/(m³ K)] of the solids.
func (t textureRow) grains() (density, capacity float64) {
	if t.kind == peatSoil {
		return peatDensity, peatCapacity
	}
	return mineralDensity, mineralCapacity
}

// packing is a texture class at a porosity, which may differ from the class's, and a dry density.
type packing struct {
	textureRow
	density float64 // of the dry soil [kg/m³]
	mineral float64 // of its mineral part alone, at the porosity that this has by itself [kg/m³]
	organic float64 // share of organic soil mixed into it, by volume [-]
}

// packed returns the class at a porosity [-] and a dry density [kg/m³] where these are known. Either
// follows from the other by the grains' density; the porosity is the class's where neither is known.
func (t textureRow) packed(porosity, density *float64) packing {
	grains, _ := t.grains()
	switch {
	case porosity != nil:
		t.porosity = *porosity
	case density != nil:
		t.porosity = 1 - *density/grains
	}
	if density != nil {
		return packing{textureRow: t, density: *density, mineral: *density}
	}
	made := (1 - t.porosity) * grains
	return packing{textureRow: t, density: made, mineral: made}
}

// byWeight turns water by volume into water over dry soil by weight.
func (p packing) byWeight(volume float64) float64 { return volume * waterDensity / p.density }

// saturation returns the moisture by weight at which all pores are full.
func (p packing) saturation() float64 { return p.byWeight(p.porosity) }

// drainSuction is the suction of ground a metre above water [kPa]. A house has a sump because
// water stands not far below; in the cold half of the year, with little evaporation, the ground
// above it comes to rest at about that suction (common practice, no source).
const drainSuction = 10.0

// moisture returns the moisture by weight of ground a metre above water, and its range from the wilting
// point to nine tenths of saturation [-]; in soil packed so tightly that its pores hold less, those nine
// tenths.
func (p packing) moisture() (value, low, high float64) {
	high = 0.9 * p.saturation()
	wet := p.fieldCapacity * math.Pow(fieldSuction/drainSuction, p.retention())
	return min(p.byWeight(wet), high), min(p.byWeight(p.wilting), high), high
}

// DefaultMoisture returns the moisture of a texture class a metre above standing water, and its range
// from the wilting point to nine tenths of saturation, all by dry weight [-].
func DefaultMoisture(texture string) (value, low, high float64, ok bool) {
	t, ok := findTexture(texture)
	if !ok {
		return 0, 0, 0, false
	}
	value, low, high = t.packed(nil, nil).moisture()
	return value, low, high, true
}

// Retention returns the water by volume [-] that a texture class holds at field capacity (33 kPa)
// and at the wilting point (1500 kPa).
func Retention(texture string) (field, wilting float64, ok bool) {
	t, ok := findTexture(texture)
	return t.fieldCapacity, t.wilting, ok
}

// MakeSoil returns the properties of a soil of a texture class holding moisture [-] of water by
// dry weight. An unknown class or a moisture below 0 or above saturation is an error.
func MakeSoil(texture string, moisture float64) (Soil, error) {
	t, ok := findTexture(texture)
	if !ok {
		return Soil{}, fmt.Errorf("%q is no texture class; known: %s", texture, strings.Join(TextureNames(), ", "))
	}
	return t.packed(nil, nil).soil(moisture)
}

// soil returns the properties at a moisture by dry weight [-]; one below 0 or above saturation is an error.
func (p packing) soil(moisture float64) (Soil, error) {
	// A moisture that was itself computed from full pores may pass them by rounding.
	if moisture < 0 || moisture > p.saturation()*(1+1e-9) || math.IsNaN(moisture) {
		return Soil{}, fmt.Errorf("%.3g %% of water; %s holds 0 to %.3g %% of its dry weight", 100*moisture, p.name, 100*p.saturation())
	}
	water := p.density * moisture // [kg/m³]
	wet := min(water/waterDensity/p.porosity, 1)
	grains, capacity := p.grains()
	grains += p.organic * (peatDensity - grains)
	capacity += p.organic * (peatCapacity - capacity)
	solids := p.density / grains * capacity
	return Soil{
		Texture:               p.name,
		ConductivityUnfrozen:  p.conductivity(wet, false),
		ConductivityFrozen:    p.conductivity(wet, true),
		HeatCapacityUnfrozen:  solids + water*waterHeat,
		HeatCapacityFrozen:    solids + water*iceHeat,
		Latent:                water * fusionHeat,
		Freezing:              p.freezing(water / waterDensity),
		SaturatedConductivity: p.ksat / 3.6e6,
		FrontSuction:          frontSuctions[p.name],
		Porosity:              p.porosity,
		DryDensity:            p.density,
		Moisture:              moisture,
		AvailableWater:        max(min(p.fieldCapacity, p.porosity)-p.wilting, 0),
		Source:                "conductivity Johansen 1975; freezing Koopmans and Miller 1966; " + p.source,
	}, nil
}
