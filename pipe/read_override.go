package pipe

import (
	"fmt"

	"winterline/pipe/units"
)

// byHand are the soil properties of a soil_override, by key; what it lacks comes from the texture class.
type byHand map[string]float64

// overrideKeys are the keys of a soil_override. Those without a field are of the packing, from which
// the other properties follow.
var overrideKeys = []struct {
	name  string
	d     units.Dimension
	limit limit
	field func(*Soil) *float64
}{
	{"dry_density", units.Density, limit{50, 2600, "from 50 to 2600 kg/m3"}, nil},
	{"porosity", units.Fraction, limit{0.02, 0.98, "from 2 to 98 %"}, nil},
	{"conductivity_unfrozen", units.Conductivity, limit{0.01, 20, "from 0.01 to 20 W/m/K"}, func(s *Soil) *float64 { return &s.ConductivityUnfrozen }},
	{"conductivity_frozen", units.Conductivity, limit{0.01, 20, "from 0.01 to 20 W/m/K"}, func(s *Soil) *float64 { return &s.ConductivityFrozen }},
	{"heat_capacity_unfrozen", units.VolumetricHeat, limit{1e4, 1e7, "from 0.01 to 10 MJ/m3/K"}, func(s *Soil) *float64 { return &s.HeatCapacityUnfrozen }},
	{"heat_capacity_frozen", units.VolumetricHeat, limit{1e4, 1e7, "from 0.01 to 10 MJ/m3/K"}, func(s *Soil) *float64 { return &s.HeatCapacityFrozen }},
	{"latent_heat", units.VolumetricLatent, limit{0, 4e8, "from 0 to 400 MJ/m3"}, func(s *Soil) *float64 { return &s.Latent }},
	{"freezing_point", units.Temperature, limit{lowestPoint, highestPoint, "from -5 to -0.001 degC (23 to 31.998 degF)"}, func(s *Soil) *float64 { return &s.Freezing.Point }},
	{"freezing_exponent", units.Fraction, limit{0.01, 10, "from 0.01 to 10"}, func(s *Soil) *float64 { return &s.Freezing.Exponent }},
	{"saturated_conductivity", units.HydraulicConductivity, limit{0, 1, "from 0 to 1 m/s"}, func(s *Soil) *float64 { return &s.SaturatedConductivity }},
}

// properties binds a soil_override.
func (s *scope) properties() byHand {
	if s == nil {
		return nil
	}
	defer s.finish()
	h := byHand{}
	for _, k := range overrideKeys {
		if v, st := s.quantity(k.name, k.d, k.limit); st == given {
			h[k.name] = v
		}
	}
	// Latent heat alone says that all of the water freezes at 0 °C.
	if h.has("latent_heat") && h.has("freezing_point") != h.has("freezing_exponent") {
		one, other := "freezing_point", "freezing_exponent"
		if h.has(other) {
			one, other = other, one
		}
		s.problem(one, describe(s.node.children[one])+" beside latent_heat",
			other+" too, or neither of them: latent heat alone is taken up and given off at 0 degC")
	}
	return h
}

func (h byHand) has(key string) bool {
	_, ok := h[key]
	return ok
}

// of returns a property, or nil.
func (h byHand) of(key string) *float64 {
	if v, ok := h[key]; ok {
		return &v
	}
	return nil
}

// complete says whether nothing of the texture class is left to matter to the ground and to a pocket.
func (h byHand) complete(ground, pocket bool) bool {
	thermal := true
	for _, key := range []string{"conductivity_unfrozen", "conductivity_frozen", "heat_capacity_unfrozen", "heat_capacity_frozen", "latent_heat"} {
		thermal = thermal && h.has(key)
	}
	return (thermal || !ground) && (h.has("saturated_conductivity") || !pocket)
}

// grain bounds the density of the grains that a dry density and a porosity make together [kg/m³].
var grain = limit{1000, 5000, "1000 to 5000 kg/m3"}

// packed returns a texture class as the override packs it; false after a fault, which is reported.
func (h byHand) packed(t textureRow, s *scope) (packing, bool) {
	p := t.packed(h.of("porosity"), h.of("dry_density"))
	grains, _ := t.grains()
	switch least := overrideKeys[1].limit.low; {
	case h.has("dry_density") && h.has("porosity"):
		if made := p.density / (1 - p.porosity); !grain.holds(made) {
			s.problem("dry_density", describe(s.node.children["dry_density"])+" beside a porosity of "+describe(s.node.children["porosity"]),
				fmt.Sprintf("the two to agree: grains of %s, and these would have %.0f", grain.words, made))
			return p, false
		}
	case p.porosity < least:
		s.problem("dry_density", describe(s.node.children["dry_density"]),
			fmt.Sprintf("at most %.0f kg/m3 in %s, whose grains have %.0f; or porosity beside it", (1-least)*grains, t.name, grains))
		return p, false
	}
	return p, true
}

// describes says whether the override is about more than how the soil drains.
func (h byHand) describes() bool {
	return len(h) > 1 || len(h) == 1 && !h.has("saturated_conductivity")
}

// apply puts the written properties in place of the computed ones.
func (h byHand) apply(soil *Soil) {
	if len(h) == 0 {
		return
	}
	soil.Source += "; some by hand"
	soil.Drained = h.has("saturated_conductivity")
	if h.has("latent_heat") {
		soil.Freezing = FreezingCurve{}
	}
	for _, k := range overrideKeys {
		if v, ok := h[k.name]; ok && k.field != nil {
			*k.field(soil) = v
		}
	}
}
