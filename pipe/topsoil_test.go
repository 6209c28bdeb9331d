package pipe

import (
	"fmt"
	"slices"
	"testing"
)

// ground reads a layout with a buried line and these lines on the site; it must be free of faults.
func ground(t *testing.T, site string) *Layout {
	t.Helper()
	l, problems := ReadLayout("l.toml", []byte(fmt.Sprintf(buriedLine, site, "")))
	if len(problems) > 0 {
		t.Fatalf("%s: %v", site, problems)
	}
	return l
}

// buriedLine takes lines of [site] and of its segment.
const buriedLine = `
[site]
%s
[[segment]]
name = "line"
pipe = "4 in D3034"
length = "5 m"
slope = "1/8 in/ft"
setting = "buried"
cover = "12 in"
%s
[outlet]
kind = "open"
`

// TestTopsoilByHand works out the uppermost 20 cm of a lawn on clay that holds the class's default, 0.378 (33/10)^0.0930550 = 0.42242
// of its volume. They hold 0.42 of 11.7 kg/m² of carbon: 0.42 · 11.7/0.2/130 = 0.189 of them is organic.
//
//	porosity       0.475 + 0.189 (0.9 − 0.475) = 0.555325; grains 2700 − 0.189 · 1400 = 2435.4 kg/m³
//	dry density    (1 − 0.555325) 2435.4 = 1082.96 kg/m³; moisture by weight 422.350/1082.96 = 0.389996
//	dry, mineral   density (1 − 0.475) 2700 = 1417.5: (0.135 · 1417.5 + 64.7)/(2700 − 0.947 · 1417.5) = 0.188610
//	dry            0.188610 + 0.189 (0.05 − 0.188610) = 0.162413 W/m K
//	solids         7.7^0.25 · 2^0.75 = 2.801529; + 0.189 (0.25 − 2.801529) = 2.319290
//	full           2.319290^0.444675 · 0.57^0.555325 = 1.063887; frozen, with 2.2 for 0.57, 2.252268
//	filled to      0.42242/0.555325 = 0.760668; Ke = 1 + log10 of it = 0.881195
//	conductivity   0.162413 + 0.901474 · 0.881195 = 0.956787; frozen 0.162413 + 2.089856 · 0.760668 = 1.752098
//	heat capacity  solids 0.444675 (1.92 + 0.189 · 0.58) = 0.902521, water 422.350 · 4219.4 = 1.782064, ice 0.885542 MJ/m³K
//	latent heat    422.350 · 333427 = 140.823 MJ/m³
func TestTopsoilByHand(t *testing.T) {
	top := ground(t, `soil = "clay"`).Site.Topsoil
	if len(top) != 5 {
		t.Fatalf("%d layers of topsoil, want 5", len(top))
	}
	s := top[0].Soil
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"porosity", s.Porosity, 0.555325}, {"dry density", s.DryDensity, 1082.96}, {"moisture", s.Moisture, 0.389996},
		{"conductivity", s.ConductivityUnfrozen, 0.956787}, {"conductivity frozen", s.ConductivityFrozen, 1.752098},
		{"heat capacity", s.HeatCapacityUnfrozen, 2.684585e6}, {"heat capacity frozen", s.HeatCapacityFrozen, 1.788063e6},
		{"latent heat", s.Latent, 140.823e6},
	} {
		near(t, c.what, c.got, c.want, 1e-5*c.want)
	}
	for i, layer := range top {
		near(t, "layer ends at", layer.To, 0.2*float64(i+1), 1e-12)
	}
}

// TestTopsoilConductsLess: humus thins out downwards, 42, 23, 15, 11 and 9 % by layers, and with it pores; conductivity, dry, moist and
// frozen, rises from layer to layer and stays below that of the soil without humus. Water by volume is that soil's.
func TestTopsoilConductsLess(t *testing.T) {
	for _, row := range textures {
		if !row.hasTopsoil() {
			continue
		}
		l := ground(t, fmt.Sprintf("soil = %q", row.name))
		layers := append(slices.Clone(l.Site.Topsoil), SoilLayer{Soil: l.Site.Soil})
		for i := 1; i < len(layers); i++ {
			above, below := layers[i-1].Soil, layers[i].Soil
			if above.ConductivityUnfrozen >= below.ConductivityUnfrozen || above.ConductivityFrozen >= below.ConductivityFrozen || above.Porosity <= below.Porosity {
				t.Errorf("%s: layer %d conducts %g and %g with %g of pores, the next %g and %g with %g", row.name, i,
					above.ConductivityUnfrozen, above.ConductivityFrozen, above.Porosity, below.ConductivityUnfrozen, below.ConductivityFrozen, below.Porosity)
			}
			near(t, row.name+" water by volume", above.Moisture*above.DryDensity, l.Site.Soil.Moisture*l.Site.Soil.DryDensity, 1e-9*999)
			near(t, row.name+" latent heat", above.Latent, l.Site.Soil.Latent, 1e-9*l.Site.Soil.Latent)
			near(t, row.name+" saturated conductivity", above.SaturatedConductivity, l.Site.Soil.SaturatedConductivity, 0)
		}
		last := 1.0
		for _, part := range []float64{0, 0.1, 0.3, 0.6, 1} {
			dry := row.withOrganic(part).conductivity(0, true)
			if dry >= last {
				t.Errorf("%s dry conducts %g with %g organic, less with less", row.name, dry, part)
			}
			last = dry
		}
		near(t, row.name+" all organic and dry", last, 0.05, 1e-12)
	}
}

// TestTopsoilShares: what the layers hold is what temperate grassland holds, 11.7 kg of carbon to the square metre.
func TestTopsoilShares(t *testing.T) {
	loam, _ := findTexture("loam")
	carbon := 0.0
	for _, part := range carbonShare {
		organic := loam.withOrganic(part * grasslandCarbon / carbonSlice / organicCarbon).organic
		carbon += organic * 130 * 0.2
	}
	near(t, "carbon [kg/m²]", carbon, 11.7, 1e-9)
}

// TestTopsoilOnlyUnderALawn: topsoil is made under grass of a texture class that says all of the ground. It is a guess unless written.
func TestTopsoilOnlyUnderALawn(t *testing.T) {
	const layer = "\n[[site.layer]]\nto = \"1 ft\"\nsoil = \"loam\""
	for _, c := range []struct {
		what, site    string
		made, guessed bool
	}{
		{"a class", `soil = "clay"`, true, true},
		{"an unknown class", `soil = "unknown"`, true, true},
		{"unknown topsoil", "soil = \"clay\"\ntopsoil = \"unknown\"", true, true},
		{"written", "soil = \"clay\"\ntopsoil = \"lawn\"", true, false},
		{"switched off", "soil = \"clay\"\ntopsoil = \"none\"", false, false},
		{"moisture by hand", "soil = \"clay\"\nsoil_moisture = \"20 %\"", true, true},
		{"drainage by hand", "soil = \"clay\"\n[site.soil_override]\nsaturated_conductivity = \"5 mm/h\"", true, true},
		{"bare", "soil = \"clay\"\nsurface = \"bare\"", false, false},
		{"gravel", "soil = \"clay\"\nsurface = \"gravel\"", false, false},
		{"paved", "soil = \"clay\"\nsurface = \"paved\"", false, false},
		{"peat", `soil = "peat"`, false, false},
		{"crushed rock", `soil = "crushed rock"`, false, false},
		{"layers", `soil = "clay"` + layer, false, false},
		{"conductivity by hand", "soil = \"clay\"\n[site.soil_override]\nconductivity_frozen = \"2 W/m/K\"", false, false},
		{"density by hand", "soil = \"clay\"\n[site.soil_override]\ndry_density = \"1300 kg/m3\"", false, false},
	} {
		l := ground(t, c.site)
		guessed := slices.ContainsFunc(l.Guesses, func(g Guess) bool { return g.Key == "site.topsoil" && g.Text == "lawn" && g.LowText == "none" })
		if made := len(l.Site.Topsoil) > 0; made != c.made || guessed != c.guessed {
			t.Errorf("%s: topsoil %t, guess %t; want %t, %t", c.what, made, guessed, c.made, c.guessed)
		}
	}
}

// TestTopsoilUnderWhatIsGrass: of a site with paving and grass only what lies under grass has topsoil, above the soil's own 1 m.
func TestTopsoilUnderWhatIsGrass(t *testing.T) {
	l, problems := ReadLayout("l.toml", []byte(fmt.Sprintf(buriedLine, "soil = \"clay\"\nsurface = \"paved\"", `surface = "grass"`)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := &l.Site
	for _, c := range []struct {
		cover Surface
		depth float64
		want  Soil
	}{
		{Paved, 0.1, s.Soil}, {Grass, 0.1, s.Topsoil[0].Soil}, {Grass, 0.3, s.Topsoil[1].Soil}, {Grass, 0.95, s.Topsoil[4].Soil},
		{Grass, 1.05, s.Soil}, {Bare, 0.1, s.Soil},
	} {
		if got := s.SoilUnder(c.cover, c.depth); got != c.want {
			t.Errorf("surface %d, %g m: porosity %g, want %g", c.cover, c.depth, got.Porosity, c.want.Porosity)
		}
	}
}

// TestTopsoilBesideADescription: topsoil that is asked for beside layers or an override is refused, and so are other words.
func TestTopsoilBesideADescription(t *testing.T) {
	for _, c := range []struct{ site, want string }{
		{"soil = \"clay\"\ntopsoil = \"lawn\"\n[[site.layer]]\nto = \"1 ft\"\nsoil = \"loam\"", `l.toml:4: site.topsoil: found "lawn" beside layers or a soil_override; expected one or the other: those say what lies uppermost`},
		{"soil = \"clay\"\ntopsoil = \"lawn\"\n[site.soil_override]\nporosity = \"50 %\"", `l.toml:4: site.topsoil: found "lawn" beside layers or a soil_override; expected one or the other: those say what lies uppermost`},
		{"soil = \"clay\"\ntopsoil = \"loam\"", `l.toml:4: site.topsoil: found "loam"; expected one of "lawn", "none"`},
	} {
		_, problems := ReadLayout("l.toml", []byte(fmt.Sprintf(buriedLine, c.site, "")))
		if len(problems) != 1 || problems[0].Error() != c.want {
			t.Errorf("%q: %v, want %s", c.site, problems, c.want)
		}
	}
}

// TestDrierTopsoil: ground that the record leaves drier has topsoil as dry as what lies below, of the same drainage; the loss in clay is
// 0.05 of the volume, 0.42242 − 0.05.
func TestDrierTopsoil(t *testing.T) {
	l := ground(t, "soil = \"clay\"\n[site.soil_override]\nsaturated_conductivity = \"5 mm/h\"").Drier(0.05, "a dry record")
	for _, layer := range l.Site.Topsoil {
		near(t, "water by volume", layer.Soil.water(), 0.37242, 1e-5)
		near(t, "saturated conductivity [mm/h]", layer.Soil.SaturatedConductivity*3.6e6, 5, 1e-9)
	}
	near(t, "water below by volume", l.Site.Soil.water(), 0.37242, 1e-5)
	if len(l.Site.Topsoil) != 5 {
		t.Errorf("%d layers of topsoil, want 5", len(l.Site.Topsoil))
	}
}
