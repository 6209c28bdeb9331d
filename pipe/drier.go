package pipe

// Drier returns the layout with less water in every soil whose moisture was not written: by as
// much of its volume as `lack` [-], but never below the wilting point. The guesses follow. source
// says why, for their readers.
func (l *Layout) Drier(lack float64, source string) *Layout {
	out := *l
	out.Guesses = append([]Guess(nil), l.Guesses...)
	site := &out.Site
	before := site.Soil
	site.Soil = site.Soil.drier(lack)
	site.Layers = drierLayers(site.Layers, lack)
	if t, ok := findTexture(site.Soil.Texture); ok && len(site.Topsoil) > 0 && site.Soil.Supposed {
		site.Topsoil = t.topsoil(site.Soil)
	}
	for i := range out.Guesses {
		if g := &out.Guesses[i]; g.Key == "site.soil_moisture" && site.Soil != before {
			g.Value, g.Source = site.Soil.Moisture, g.Source+"; "+source
		}
	}
	return &out
}

func drierLayers(layers []SoilLayer, lack float64) []SoilLayer {
	var out []SoilLayer
	for _, layer := range layers {
		out = append(out, SoilLayer{layer.To, layer.Soil.drier(lack)})
	}
	return out
}

// water is what the soil holds by volume [-].
func (s Soil) water() float64 { return s.Moisture * s.DryDensity / waterDensity }

// drier returns the soil with less water, where its moisture is only supposed.
func (s Soil) drier(lack float64) Soil {
	t, ok := findTexture(s.Texture)
	if !ok || !s.Supposed {
		return s
	}
	made, err := MakeSoil(t.name, t.packed(nil, nil).byWeight(max(min(s.water(), t.wilting), s.water()-lack)))
	if err != nil {
		return s
	}
	made.Supposed, made.SaturatedConductivity, made.Drained, made.Source = true, s.SaturatedConductivity, s.Drained, s.Source
	return made
}
