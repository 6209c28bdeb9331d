package pipe

import (
	"fmt"

	"winterline/pipe/units"
)

// Limits of layers: nobody logs the ground more finely.
const (
	maxSoilLayers = 50
	thinnestLayer = 0.01 // [m]
)

// soil binds the soil below all layers, the layers, and the properties written by hand, which it
// returns.
func (b *binder) soil(s, override *scope, n need, l *Layout) byHand {
	layers := s.tables("layer")
	hand := override.properties()
	counts := n.soil && !hand.complete(n.ground, l.Pocket != nil)
	if counts && s.node.children["soil"] == nil {
		s.noSoil(layers)
	}
	if soil, ok := b.oneSoil(s, override, hand, counts, n.soil); ok {
		l.Site.Soil = soil
	}
	b.layers(layers, s, n, l)
	return hand
}

// noSoil reports ground that nothing describes: all of it, or what lies below the last layer.
func (s *scope) noSoil(layers []*scope) {
	if len(layers) == 0 {
		why := "something is buried or drains into the soil"
		if s.b.ground {
			why = "the ground is asked for"
		}
		s.problem("soil", "nothing, though "+why, `a texture class or "unknown": `+quoteAll(TextureNames()))
		return
	}
	last := layers[len(layers)-1].node
	ends, line := "", last.line
	if to := last.children["to"]; to != nil {
		ends, line = ", which ends at "+describe(to), to.line
	}
	s.problemAt(line, "soil", "nothing below the last layer"+ends, `a texture class for what lies below it, or "unknown": `+quoteAll(TextureNames()))
}

// layers binds [[site.layer]], from the surface down.
func (b *binder) layers(list []*scope, site *scope, n need, l *Layout) {
	if len(list) > maxSoilLayers {
		site.problem("layer", fmt.Sprintf("%d layers", len(list)), fmt.Sprintf("at most %d", maxSoilLayers))
		list = list[:maxSoilLayers]
	}
	var above *node // where the layer above ends
	for _, t := range list {
		to, ok := t.required("to", units.Length, limit{thinnestLayer, 100, "from 1 cm to 100 m (0.4 in to 328 ft)"})
		if ok && above != nil {
			t.layerBelow(above, to, l.Site.Layers[len(l.Site.Layers)-1].To)
		}
		override := t.table("soil_override")
		hand := override.properties()
		counts := n.soil && !hand.complete(n.ground, l.Pocket != nil)
		if t.node.children["soil"] == nil && !hand.complete(true, l.Pocket != nil) {
			t.problem("soil", "nothing", "a texture class: "+quoteAll(TextureNames()))
		}
		soil, _ := b.oneSoil(t, override, hand, counts, true)
		t.finish()
		if ok {
			above = t.node.children["to"]
			l.Site.Layers = append(l.Site.Layers, SoilLayer{to, soil})
		}
	}
}

// layerBelow checks that a layer ends deeper [m] than the one above it.
func (t *scope) layerBelow(above *node, to, aboveTo float64) {
	found := describe(t.node.children["to"]) + " below a layer that ends at " + describe(above)
	switch {
	case to < aboveTo:
		t.problem("to", found, "layers in order of depth, from the surface down")
	case to == aboveTo:
		t.problem("to", found, "another depth: a layer ends there already")
	case to-aboveTo < thinnestLayer*(1-1e-9):
		t.problem("to", found, "a layer at least 1 cm (0.4 in) thick")
	}
}

// oneSoil binds `soil` and `soil_moisture` of the site or of a layer, with its override. counts:
// defaults are guesses; wanted: a soil is needed at all.
func (b *binder) oneSoil(s, override *scope, hand byHand, counts, wanted bool) (Soil, bool) {
	texture, ok := b.texture(s, counts, wanted)
	if !ok {
		s.get("soil_moisture")
		return Soil{}, false
	}
	v, st := s.quantity("soil_moisture", units.Fraction, limit{0, 20, "of 0 or more by dry weight"})
	if texture.name == "" || st == faulty {
		return Soil{}, false
	}
	p, ok := hand.packed(texture, override)
	if !ok {
		return Soil{}, false
	}
	if st != given {
		v = b.drained(s, p, counts)
	}
	soil, err := p.soil(v)
	if err != nil {
		s.problem("soil_moisture", describe(s.node.children["soil_moisture"]),
			fmt.Sprintf("at most %.1f %% by dry weight, at which %s has all pores full", 100*p.saturation(), p.name))
		return Soil{}, false
	}
	soil.Supposed = st != given && !hand.describes()
	hand.apply(&soil)
	return soil, true
}

// texture binds `soil`; no class at all where none is written or wanted, false after a fault.
func (b *binder) texture(s *scope, counts, wanted bool) (textureRow, bool) {
	n, st := s.get("soil")
	f := defaults["site.soil"]
	switch {
	case st == given:
		row, ok := findTexture(n.text)
		if n.kind != stringNode || !ok {
			s.problem("soil", describe(n), `a texture class or "unknown"`+nearestHint(n.text, TextureNames()))
			return textureRow{}, false
		}
		return row, true
	case st == faulty:
		return textureRow{}, false
	case !wanted:
		return textureRow{}, true
	case st == missing && counts:
		return textureRow{}, false // reported by whoever asks
	case counts:
		s.guessWord("soil", f)
	}
	row, _ := findTexture(f.value)
	return row, true
}

// drained is the moisture where none was written: what the class holds a metre above water.
func (b *binder) drained(s *scope, p packing, counts bool) float64 {
	value, low, high := p.moisture()
	if counts {
		b.guesses = append(b.guesses, Guess{Key: s.key("soil_moisture"), Dimension: units.Fraction, Value: value, Low: low, High: high,
			Source: "what " + p.name + " holds 1 m (3 ft) above standing water, from wilting point to nearly full pores (retention after Rawls, Brakensiek and Miller 1983)"})
	}
	return value
}
