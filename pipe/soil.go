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
	fieldCapacity float64 // water by volume after draining for days: the default moisture [-]
	wilting       float64 // water by volume that plants cannot draw: the dry end of the default's range [-]
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

const rawls = "porosity and moisture Rawls, Brakensiek and Miller 1983; saturated conductivity Rawls, Brakensiek and Saxton 1982 (from memory); quartz Peters-Lidard and others 1998 (from memory)"

var textures = []textureRow{
	{"sand", 0.437, 0.062, 0.024, 210, 0.92, coarseSoil, rawls},
	{"loamy sand", 0.437, 0.105, 0.047, 61.1, 0.82, coarseSoil, rawls},
	{"sandy loam", 0.453, 0.190, 0.085, 25.9, 0.60, coarseSoil, rawls},
	{"loam", 0.463, 0.232, 0.116, 13.2, 0.40, fineSoil, rawls},
	{"silt loam", 0.501, 0.284, 0.135, 6.8, 0.25, fineSoil, rawls},
	{"silt", 0.46, 0.30, 0.10, 2.5, 0.10, fineSoil, "Carsel and Parrish 1988 (from memory)"},
	{"sandy clay loam", 0.398, 0.244, 0.136, 4.3, 0.60, fineSoil, rawls},
	{"clay loam", 0.464, 0.310, 0.187, 2.3, 0.35, fineSoil, rawls},
	{"silty clay loam", 0.471, 0.342, 0.210, 1.5, 0.10, fineSoil, rawls},
	{"sandy clay", 0.430, 0.321, 0.221, 1.2, 0.52, fineSoil, rawls},
	{"silty clay", 0.479, 0.371, 0.251, 0.9, 0.10, fineSoil, rawls},
	{"clay", 0.475, 0.378, 0.265, 0.6, 0.25, fineSoil, rawls},
	{"peat", 0.85, 0.60, 0.30, 20, 0, peatSoil, "handbook values after Farouki 1981 (from memory)"},
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

// dryDensity returns the density of the dry soil [kg/m³]: (1 − porosity) of grains.
func (t textureRow) dryDensity() float64 {
	if t.kind == peatSoil {
		return (1 - t.porosity) * peatDensity
	}
	return (1 - t.porosity) * mineralDensity
}

// byWeight turns water by volume into water over dry soil by weight.
func (t textureRow) byWeight(volume float64) float64 {
	return volume * waterDensity / t.dryDensity()
}

// saturation returns the moisture by weight at which all pores are full.
func (t textureRow) saturation() float64 { return t.byWeight(t.porosity) }

// DefaultMoisture returns the moisture of a texture class at field capacity, and its range from
// the wilting point to nine tenths of saturation, all by dry weight [-].
func DefaultMoisture(texture string) (value, low, high float64, ok bool) {
	t, ok := findTexture(texture)
	if !ok {
		return 0, 0, 0, false
	}
	return t.byWeight(t.fieldCapacity), t.byWeight(t.wilting), 0.9 * t.saturation(), true
}

// MakeSoil returns the properties of a soil of a texture class holding moisture [-] of water by
// dry weight. An unknown class or a moisture below 0 or above saturation is an error.
func MakeSoil(texture string, moisture float64) (Soil, error) {
	t, ok := findTexture(texture)
	if !ok {
		return Soil{}, fmt.Errorf("%q is no texture class; known: %s", texture, strings.Join(TextureNames(), ", "))
	}
	// A moisture that was itself computed from full pores may pass them by rounding.
	if moisture < 0 || moisture > t.saturation()*(1+1e-9) || math.IsNaN(moisture) {
		return Soil{}, fmt.Errorf("%.3g %% of water; %s holds 0 to %.3g %% of its dry weight", 100*moisture, t.name, 100*t.saturation())
	}
	rho := t.dryDensity()
	water := rho * moisture // [kg/m³]
	wet := min(water/waterDensity/t.porosity, 1)
	solids := (1 - t.porosity) * mineralCapacity
	if t.kind == peatSoil {
		solids = (1 - t.porosity) * peatCapacity
	}
	return Soil{
		Texture:               t.name,
		ConductivityUnfrozen:  johansen(t.kind, t.porosity, t.quartz, wet, false),
		ConductivityFrozen:    johansen(t.kind, t.porosity, t.quartz, wet, true),
		HeatCapacityUnfrozen:  solids + water*waterHeat,
		HeatCapacityFrozen:    solids + water*iceHeat,
		Latent:                water * fusionHeat,
		SaturatedConductivity: t.ksat / 3.6e6,
		Porosity:              t.porosity,
		DryDensity:            rho,
		Moisture:              moisture,
		Source:                "conductivity Johansen 1975; " + t.source,
	}, nil
}

// johansen returns the thermal conductivity [W/(m K)] of a soil of the given porosity and quartz
// share whose pores are filled to the share wet, all of their water frozen or none.
//
// Source: Johansen 1975 as given by Farouki 1981: k = k_dry + (k_sat − k_dry) Ke with
// k_sat = k_s^(1−n) k_f^n, k_s = 7.7^q k_o^(1−q), k_o 2.0, or 3.0 where q ≤ 0.2, k_f 0.57
// (water) or 2.2 (ice), k_dry = (0.135 ρ + 64.7)/(2700 − 0.947 ρ), for crushed rock 0.039 n^−2.2;
// Ke = 1 + log10 wet (fine), 1 + 0.7 log10 wet (coarse, crushed), wet (frozen). Peat: k_s 0.25, k_dry 0.05,
// Ke = wet (from memory). Below the wetness at which Ke reaches 0 the soil counts as dry.
func johansen(kind soilKind, porosity, quartz, wet float64, frozen bool) float64 {
	fluid := 0.57
	if frozen {
		fluid = 2.2
	}
	other := 2.0
	if quartz <= 0.2 {
		other = 3.0
	}
	solids := math.Pow(7.7, quartz) * math.Pow(other, 1-quartz)
	rho := mineralDensity * (1 - porosity)
	dry := (0.135*rho + 64.7) / (2700 - 0.947*rho)
	switch kind {
	case crushedRock:
		dry = 0.039 * math.Pow(porosity, -2.2)
	case peatSoil:
		solids, dry = 0.25, 0.05
	}
	full := math.Pow(solids, 1-porosity) * math.Pow(fluid, porosity)
	ke := wet
	if !frozen && kind != peatSoil {
		slope := 1.0
		if kind != fineSoil {
			slope = 0.7
		}
		ke = 1 + slope*math.Log10(max(wet, 1e-9))
	}
	return dry + (full-dry)*max(ke, 0)
}
