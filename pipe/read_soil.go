package pipe

import (
	"fmt"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// soil binds the soil, its layers and the properties written by hand.
func (b *binder) soil(s, override *scope, n need, l *Layout) {
	hand := override.properties()
	soil, ok := b.oneSoil(s, n.soil && !hand.complete(n.ground, l.Pocket != nil), n.soil)
	if ok {
		hand.apply(&soil)
		l.Site.Soil = soil
	}
	for _, t := range s.tables("layer") {
		to, ok := t.required("to", units.Length, limit{0.01, 100, "from 1 cm to 100 m"})
		last := len(l.Site.Layers) - 1
		if ok && last >= 0 && to <= l.Site.Layers[last].To {
			t.problem("to", describe(t.node.children["to"]), "layers in order of depth, from the surface down")
		}
		if _, st := t.get("soil"); st == missing {
			t.problem("soil", "nothing", "a texture class: "+quoteAll(TextureNames()))
		}
		layer, _ := b.oneSoil(t, n.soil, true)
		t.finish()
		l.Site.Layers = append(l.Site.Layers, SoilLayer{to, layer})
	}
}

// oneSoil binds `soil` and `soil_moisture` of the site or of a layer. counts: defaults are guesses;
// wanted: a soil is needed at all.
func (b *binder) oneSoil(s *scope, counts, wanted bool) (Soil, bool) {
	n, st := s.get("soil")
	texture := ""
	switch st {
	case given:
		row, ok := findTexture(n.text)
		if n.kind != stringNode || !ok {
			s.problem("soil", describe(n), `a texture class or "unknown"`+nearestHint(n.text, TextureNames()))
			s.get("soil_moisture")
			return Soil{}, false
		}
		texture = row.name
	case missing, unknown:
		if !wanted {
			break
		}
		f := defaults["site.soil"]
		texture = f.value
		if st == missing && counts {
			s.problem("soil", "nothing, though something is buried or drains into the soil", `a texture class or "unknown": `+quoteAll(TextureNames()))
		}
		if st == unknown && counts {
			s.guessWord("soil", f)
		}
	}
	return b.moisture(s, texture, counts)
}

// moisture binds the soil's water; by default what the texture class holds after draining.
func (b *binder) moisture(s *scope, texture string, counts bool) (Soil, bool) {
	v, st := s.quantity("soil_moisture", units.Fraction, limit{0, 20, "of 0 or more by dry weight"})
	if texture == "" || st == faulty {
		return Soil{}, false
	}
	if st != given {
		value, low, high, _ := DefaultMoisture(texture)
		if v = value; counts {
			b.guesses = append(b.guesses, Guess{Key: s.key("soil_moisture"), Dimension: units.Fraction, Value: value, Low: low, High: high,
				Source: "field capacity of " + texture + ", from wilting point to nearly full pores (Rawls, Brakensiek and Miller 1983)"})
		}
	}
	soil, err := MakeSoil(texture, v)
	if err != nil {
		row, _ := findTexture(texture)
		s.problem("soil_moisture", describe(s.node.children["soil_moisture"]),
			fmt.Sprintf("at most %.1f %% by dry weight, at which %s has all pores full", 100*row.saturation(), texture))
	}
	return soil, err == nil
}

// byHand are soil properties of [site.soil_override]; nil: from the texture class.
type byHand struct {
	values [6]*float64
}

var overrideKeys = []struct {
	name  string
	d     units.Dimension
	limit limit
	field func(*Soil) *float64
}{
	{"conductivity_unfrozen", units.Conductivity, limit{0.01, 20, "from 0.01 to 20 W/m/K"}, func(s *Soil) *float64 { return &s.ConductivityUnfrozen }},
	{"conductivity_frozen", units.Conductivity, limit{0.01, 20, "from 0.01 to 20 W/m/K"}, func(s *Soil) *float64 { return &s.ConductivityFrozen }},
	{"heat_capacity_unfrozen", units.VolumetricHeat, limit{1e4, 1e7, "from 0.01 to 10 MJ/m3/K"}, func(s *Soil) *float64 { return &s.HeatCapacityUnfrozen }},
	{"heat_capacity_frozen", units.VolumetricHeat, limit{1e4, 1e7, "from 0.01 to 10 MJ/m3/K"}, func(s *Soil) *float64 { return &s.HeatCapacityFrozen }},
	{"latent_heat", units.VolumetricLatent, limit{0, 4e8, "from 0 to 400 MJ/m3"}, func(s *Soil) *float64 { return &s.Latent }},
	{"saturated_conductivity", units.HydraulicConductivity, limit{0, 1, "from 0 to 1 m/s"}, func(s *Soil) *float64 { return &s.SaturatedConductivity }},
}

// properties binds [site.soil_override].
func (s *scope) properties() byHand {
	var h byHand
	if s == nil {
		return h
	}
	for i, k := range overrideKeys {
		h.values[i] = s.optional(k.name, k.d, k.limit)
	}
	s.finish()
	return h
}

// complete says whether nothing of the texture class is left to matter.
func (h byHand) complete(ground, pocket bool) bool {
	thermal := !slices.Contains(h.values[:5], nil)
	return (thermal || !ground) && (h.values[5] != nil || !pocket)
}

func (h byHand) apply(soil *Soil) {
	for i, v := range h.values {
		if v == nil {
			continue
		}
		*overrideKeys[i].field(soil) = *v
		if overrideKeys[i].name == "latent_heat" {
			soil.SharpFreezing = true
		}
		if !strings.HasSuffix(soil.Source, "; some by hand") {
			soil.Source += "; some by hand"
		}
	}
}
