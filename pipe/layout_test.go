package pipe

import (
	"fmt"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"winterline/pipe/units"
)

// load reads a layout of testdata with edits; it must be free of faults.
func load(t *testing.T, name string, edits ...Edit) *Layout {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	l, ps := ReadLayoutWith(name, text, edits)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	return l
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %g, want %g within %g", what, got, want, tol)
	}
}

// TestEveryKey reads a layout with every key once. Expected values are the written ones in SI.
func TestEveryKey(t *testing.T) {
	l := load(t, "full.toml")
	const in, ft = 0.0254, 0.3048
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"soil_moisture", l.Site.Soil.Moisture, 0.24}, {"ground_mean", *l.Site.GroundMean, 8}, {"ground_swing", *l.Site.GroundSwing, 12},
		{"ground_slope", l.Site.GroundSlope, 0.02}, {"snow_on_line", l.Site.SnowOnLine, 1}, {"wind_exposure", l.Site.WindExposure, 0.5},
		{"wind_pressure_coefficient", l.Site.WindPressureCoefficient, 0.4},
		{"water_table", *l.Site.WaterTable, 6 * ft}, {"return_delay", l.Site.ReturnDelay, 43200}, {"layer", l.Site.Layers[0].To, 2 * ft},
		{"layer moisture", l.Site.Layers[0].Soil.Moisture, 0.20}, {"layer keeps its class", l.Site.Layers[0].Soil.Porosity, 0.463},
		{"conductivity_unfrozen", l.Site.Soil.ConductivityUnfrozen, 1.2}, {"conductivity_frozen", l.Site.Soil.ConductivityFrozen, 1.9},
		{"heat_capacity_unfrozen", l.Site.Soil.HeatCapacityUnfrozen, 2.6e6}, {"heat_capacity_frozen", l.Site.Soil.HeatCapacityFrozen, 1.9e6},
		{"latent_heat", l.Site.Soil.Latent, 80e6}, {"saturated_conductivity", l.Site.Soil.SaturatedConductivity, 0.013 / 3600},
		{"dry_density", l.Site.Soil.DryDensity, 1400}, {"porosity", l.Site.Soil.Porosity, 0.48},
		{"freezing_point", l.Site.Soil.Freezing.Point, -0.1}, {"freezing_exponent", l.Site.Soil.Freezing.Exponent, 0.5},
		{"second layer's soil", l.Site.Layers[1].Soil.DryDensity, 90 * 0.45359237 / 0.028316846592}, {"its freezing point", l.Site.Layers[1].Soil.Freezing.Point, -0.2},
		{"surface_resistance", *l.Site.SurfaceResistance, 0.1},
		{"floor", l.Basin.FloorBelowGround, 8 * ft}, {"basin area", l.Basin.Area, math.Pi / 4 * 18 * in * 18 * in}, {"float_off", l.Basin.FloatOff, 5 * in},
		{"basin water", *l.Basin.WaterTemperature, 9}, {"cycles every", l.Water.Every, 21600}, {"cycles for", l.Water.For, 45},
		{"shut-off", l.Pumps[0].Curve[3].Head, 25 * ft}, {"backup start", l.Pumps[1].Start, 15 * in},
		{"rise is a negative drop", l.Segments[0].Drop, -9 * ft}, {"fittings", l.Segments[0].Loss, 0.6 + 0.6 + 2}, {"slope along the pipe", l.Segments[3].Drop, 30. / 96 * ft},
		{"cover", l.Segments[3].Cover[1], 14 * in}, {"sag", l.Segments[3].Sag, in / 2}, {"second layer", l.Segments[3].Insulation[1].Material.Conductivity, 0.036},
		{"film", *l.Segments[3].FilmCoefficient, 15}, {"start", *l.Segments[3].StartTemperature, 10}, {"standing", *l.Segments[3].Standing, 0.4}, {"nucleation", *l.Segments[3].Nucleation, -4},
		{"end", l.Standpipe.HousePipeEnd, 14 * in}, {"rim", l.Standpipe.Rim, 16 * in}, {"slip", l.Standpipe.SlipTravel, 3 * in},
		{"relief", l.Reliefs[0].Height, 10 * in}, {"relief opening", l.Reliefs[0].OpeningHeight, 2 * in}, {"weep", l.Outlet.Weep.Height, 3. / 8 * in}, {"weep width", l.Outlet.Weep.Width, 2 * in},
		{"relief spread", l.Reliefs[0].SpreadArea, 20 * ft * ft}, {"outlet spread", l.Outlet.SpreadArea, 1.5},
		{"lid", *l.Outlet.Level, in}, {"distance", l.Outlet.DistanceToHouse, 32 * ft}, {"pocket", l.Pocket.Void, 0.4}, {"roof", l.ExtraInflows[0].Area, 40}, {"cost", l.Cost.FloodedBasement, 12000},
	} {
		near(t, c.what, c.got, c.want, 1e-12*max(1, math.Abs(c.want)))
	}
	if l.Site.ShelteredTemperature != nil || l.Segments[3].Liquid != Still || l.Pumps[1].Role != BackupPump ||
		l.Standpipe.After != 2 || l.Reliefs[0].Segment != -1 || l.ExtraInflows[0].Segment != 3 || l.Outlet.Kind != Lid || l.Seen[0].What != "shut" || len(l.Outages) != 1 {
		t.Errorf("words were not all taken: %+v", l)
	}
	if len(l.Guesses) != 1 || l.Guesses[0].Key != "pump[1].curve" || l.Guesses[0].Text != "1/3 hp" {
		t.Errorf("the typical curve is the one guess of this layout; got %+v", l.Guesses)
	}
}

// TestLatentHeatByHand: written alone, latent heat is taken up and given off at 0 °C; beside a whole freezing
// curve it keeps to that; where it is not written the curve is the texture's, in part by hand.
func TestLatentHeatByHand(t *testing.T) {
	const at = "site.soil_override."
	sharp := load(t, "full.toml", Edit{at + "freezing_point", ""}, Edit{at + "freezing_exponent", ""})
	if f := sharp.Site.Soil.Freezing; f != (FreezingCurve{}) {
		t.Errorf("latent heat alone freezes along %+v", f)
	}
	part := load(t, "full.toml", Edit{at + "latent_heat", ""}, Edit{at + "freezing_exponent", ""}).Site.Soil
	near(t, "point by hand", part.Freezing.Point, -0.1, 0)
	near(t, "exponent of silty clay", part.Freezing.Exponent, math.Log(0.371/0.251)/math.Log(1500./33), 1e-12)
	near(t, "latent heat of 24 % in 1400 kg/m³", part.Latent, 0.24*1400*333427, 1)
}

// TestNFactor reads n-factors, in place of the surface resistance; film, cover and snow are no guesses then.
func TestNFactor(t *testing.T) {
	l := load(t, "full.toml", Edit{"site.soil_override.surface_resistance", ""}, Edit{"site.n_factor", "{ freezing = 0.7, thawing = \"140 %\" }"})
	near(t, "freezing", l.Site.NFactor.Freezing, 0.7, 0)
	near(t, "thawing", l.Site.NFactor.Thawing, 1.4, 1e-12)
	l = load(t, "sparse.toml", Edit{"site.n_factor.freezing", "0.5"}, Edit{"site.n_factor.thawing", "1"})
	for _, g := range l.Guesses {
		if g.Key == "site.surface" || g.Key == "site.snow_on_line" {
			t.Errorf("%s is listed as a guess beside n-factors", g.Key)
		}
	}
}

// TestSegmentSurface: a segment may lie under a surface of its own, and paving is cleared where nothing else is said.
func TestSegmentSurface(t *testing.T) {
	bare := Edit{"site.soil_override.surface_resistance", ""}
	paved := Edit{"yard run.surface", "paved"}
	for _, c := range []struct {
		what  string
		edits []Edit
		cover Surface
		snow  float64
		guess bool
	}{
		{"nothing of its own", nil, Grass, 1, false},
		{"a driveway", []Edit{paved}, Paved, 0, true},
		{"a driveway that nobody clears", []Edit{paved, {"yard run.snow_on_line", "natural"}}, Paved, 1, false},
		{"a shovelled path", []Edit{{"yard run.snow_on_line", "20 %"}}, Grass, 0.2, false},
		{"gravel in grass", []Edit{{"yard run.surface", "gravel"}, {"site.snow_on_line", "0.5"}}, Gravel, 0.5, false},
		{"paved as all the rest", []Edit{paved, {"site.surface", "paved"}}, Paved, 1, false},
		{"grass beside paving", []Edit{{"yard run.surface", "grass"}, {"site.surface", "paved"}, {"site.snow_on_line", ""}}, Grass, 1, true},
	} {
		l := load(t, "full.toml", append(c.edits, bare)...)
		cover, snow := l.Over(3)
		guess := slices.ContainsFunc(l.Guesses, func(g Guess) bool { return g.Key == "yard run.snow_on_line" })
		if cover != c.cover || snow != c.snow || guess != c.guess {
			t.Errorf("%s: %v with %g of the snow, guess %v; want %v, %g, %v", c.what, cover, snow, guess, c.cover, c.snow, c.guess)
		}
	}
}

// TestSoilBelowTheLayers: a depth takes the soil of the layer that holds it, and below the last one the site's.
func TestSoilBelowTheLayers(t *testing.T) {
	site := load(t, "full.toml").Site
	for _, c := range []struct {
		depth   float64
		texture string
	}{{0, "loam"}, {0.6, "loam"}, {0.62, "clay"}, {1.22, "silty clay"}, {9, "silty clay"}} {
		if got := site.SoilAt(c.depth).Texture; got != c.texture {
			t.Errorf("%s at %g m, want %s", got, c.depth, c.texture)
		}
	}
}

func TestTooManyLayers(t *testing.T) {
	text := "[site]\nsoil = \"loam\"\n[[segment]]\npipe = \"4 in D3034\"\nlength = \"3 m\"\ndrop = \"0 m\"\nsetting = \"buried\"\ncover = \"1 m\"\n[outlet]\nkind = \"open\"\n"
	for n, want := range map[int]string{50: "", 51: "l.toml:11: site.layer: found 51 layers; expected at most 50"} {
		layers := ""
		for i := range n {
			layers += fmt.Sprintf("[[site.layer]]\nto = \"%d cm\"\nsoil = \"sand\"\n", i+1)
		}
		if _, ps := ReadLayout("l.toml", []byte(text+layers)); ps.Error() != want {
			t.Errorf("%d layers: %q, want %q", n, ps.Error(), want)
		}
	}
}

func TestVerificationCellHasNoGuess(t *testing.T) {
	l := load(t, "cell.toml")
	if len(l.Guesses) != 0 {
		t.Errorf("guesses %+v", l.Guesses)
	}
	if s := l.Segments[0]; *s.Standing != 1 || s.Size.Material.HeatCapacity != 900 || l.Outlet.Kind != Open || l.Outlet.Level != nil {
		t.Errorf("cell %+v", s)
	}
}

// TestDifferencesHaveNo32 covers each key that is a difference: 18 degF is 10 K.
func TestDifferencesHaveNo32(t *testing.T) {
	l := load(t, "full.toml", Edit{"site.ground_swing", "18 degF"})
	near(t, "ground_swing", *l.Site.GroundSwing, 10, 0)
	l = load(t, "full.toml", Edit{"site.ground_mean", "50 degF"}, Edit{"yard run.nucleation", "23 degF"}, Edit{"basin.water_temperature", "41 degF"})
	near(t, "ground_mean", *l.Site.GroundMean, 10, 1e-12)
	near(t, "nucleation", *l.Segments[3].Nucleation, -5, 1e-12)
	near(t, "water_temperature", *l.Basin.WaterTemperature, 5, 1e-12)
}

// TestGuesses reads a house of which little is known: every quantity that matters is listed with a
// range that holds the value, its key can be edited, and either end of the range gives a layout.
func TestGuesses(t *testing.T) {
	l := load(t, "sparse.toml")
	keys := map[string]bool{}
	for _, g := range l.Guesses {
		if keys[g.Key] || g.Source == "" {
			t.Errorf("%s is listed twice or without a source", g.Key)
		}
		keys[g.Key] = true
		if g.Text == "" && !(g.Low <= g.Value && g.Value <= g.High && g.Low < g.High) {
			t.Errorf("%s: %g is not inside %g to %g", g.Key, g.Value, g.Low, g.High)
		}
		for _, e := range []Edit{g.LowEdit(), g.HighEdit()} {
			edited := load(t, "sparse.toml", e)
			if slices.ContainsFunc(edited.Guesses, func(other Guess) bool { return other.Key == g.Key && g.Key != "pump[0].curve" }) {
				t.Errorf("%s = %s is still a guess", e.Path, e.Value)
			}
		}
	}
	for _, key := range []string{"site.soil", "site.soil_moisture", "site.surface", "site.snow_on_line", "site.wind_exposure", "site.room_temperature", "basin.diameter",
		"basin.float_on", "basin.check_valve", "basin.water_temperature", "pump[0].curve", "riser.pipe", "riser.fittings", "yard run.slope", "yard run.cover", "yard run.sag",
		"standpipe.house_pipe_end", "relief[0].height", "outlet.level", "pocket.void"} {
		if !keys[key] {
			t.Errorf("%s is not listed", key)
		}
	}
	if keys["site.sheltered_temperature"] {
		t.Error("a guess of a garage that is not there")
	}
	if _, ps := l.MakeProfile("sparse.toml"); len(ps) > 0 {
		t.Errorf("the defaults disagree: %v", ps)
	}
}

// TestGuessesKeepToWhatIsWritten: a range never reaches past what the layout says, so that both of
// its ends can be run.
func TestGuessesKeepToWhatIsWritten(t *testing.T) {
	for _, written := range []Edit{{"basin.bottom_below_floor", "10 in"}, {"basin.float_off", "8 in"}, {"basin.float_on", "4 in"}, {"basin.float_on", "26 in"},
		{"relief[0].height", "14 in"}, {"standpipe.house_pipe_end", "14 in"}, {"standpipe.rim", "8 in"}} {
		for _, g := range load(t, "sparse.toml", written).Guesses {
			for _, e := range []Edit{g.LowEdit(), g.HighEdit()} {
				load(t, "sparse.toml", written, e)
			}
		}
	}
}

// TestDefaultsAreReadable reads every default in the dimension of its key, low ≤ value ≤ high.
func TestDefaultsAreReadable(t *testing.T) {
	for key, f := range defaults {
		read := 0
		for d := units.Length; d <= units.HydraulicConductivity; d++ {
			v, err1 := units.Parse(d, f.value)
			low, err2 := units.Parse(d, f.low)
			high, err3 := units.Parse(d, f.high)
			if err1 != nil || err2 != nil || err3 != nil {
				continue
			}
			if read++; !(low <= v && v <= high) {
				t.Errorf("%s: %s is not inside %s to %s", key, f.value, f.low, f.high)
			}
		}
		words := []string{"site.surface", "site.topsoil", "site.sheltered", "site.soil", "basin.check_valve", "water_temperature", "pump.curve",
			"segment.pipe", "segment.buried", "standpipe.pipe", "relief.faces_house", "outlet.weep"}
		if isWord := slices.Contains(words, key); isWord == (read > 0) || f.source == "" {
			t.Errorf("%s: %+v reads as %d dimensions", key, f, read)
		}
	}
}

// TestGuessesFollowTheLayout: no soil, snow or cover guess where nothing is buried, no basin guess
// without a basin.
func TestGuessesFollowTheLayout(t *testing.T) {
	text := "[[segment]]\npipe = \"2 in sch 40 PVC\"\nlength = \"3 m\"\ndrop = \"0 m\"\nsetting = \"open-air\"\n[outlet]\nkind = \"open\"\n"
	l, ps := ReadLayout("l.toml", []byte(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	if len(l.Guesses) != 1 || l.Guesses[0].Key != "site.wind_exposure" {
		t.Errorf("guesses %+v, want the wind alone", l.Guesses)
	}
	if l.Segments[0].Name != "segment 1" {
		t.Errorf("an unnamed segment is called %q", l.Segments[0].Name)
	}
}

func TestTooManySegmentsAndCells(t *testing.T) {
	one := "[[segment]]\npipe = \"2 in sch 40 PVC\"\nlength = \"%s\"\ndrop = \"0 m\"\nsetting = \"open-air\"\n"
	end := "[outlet]\nkind = \"open\"\n"
	for _, c := range []struct {
		n      int
		length string
		want   string
	}{{200, "50 m", ""}, {201, "1 m", "201 segments; expected at most 200"}, {11, "1 km", "22000 cells of 0.5 m; expected at most 20000"}} {
		_, ps := ReadLayout("l.toml", []byte(strings.Repeat(fmt.Sprintf(one, c.length), c.n)+end))
		if (c.want == "") != (len(ps) == 0) || !strings.Contains(ps.Error(), c.want) {
			t.Errorf("%d of %s: %v, want %q", c.n, c.length, ps, c.want)
		}
	}
	if _, ps := ReadLayout("l.toml", make([]byte, MaxLayout+1)); len(ps) != 1 || !strings.Contains(ps[0].Found, "4 MiB") {
		t.Errorf("a huge file gives %v", ps)
	}
}

// TestEdits holds that an edit is the same as a change in the file, and how paths are read.
func TestEdits(t *testing.T) {
	text, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		edit     Edit
		old, new string // the same change in the text
	}{
		{Edit{"yard run.cover", "30 in"}, `cover = "14 in"`, `cover = "30 in"`},
		{Edit{"yard run.cover", `"30 in"`}, `cover = "14 in"`, `cover = "30 in"`},
		{Edit{"segment[3].insulation[0].thickness", "2 in"}, `{ thickness = "1 in", material = "closed-cell foam" }`, `{ thickness = "2 in", material = "closed-cell foam" }`},
		{Edit{"yard run.insulation", ""}, "insulation = [", "#"},
		{Edit{"yard run.rise", "1 in"}, `slope = "1/8 in/ft"` + "\nsetting = \"buried\"", `rise = "1 in"` + "\nsetting = \"buried\""},
		{Edit{"relief[0].height", "12 in"}, `height = "10 in"`, `height = "12 in"`},
		{Edit{"relief[1]", `{ at = "standpipe", height = "13 in", width = "3 in", opening_height = "2 in", faces_house = false, distance_to_house = "14 in", snow_factor = 1 }`},
			"[outlet]", "[[relief]]\nat = \"standpipe\"\nheight = \"13 in\"\nwidth = \"3 in\"\nopening_height = \"2 in\"\nfaces_house = false\ndistance_to_house = \"14 in\"\nsnow_factor = 1\n[outlet]"},
		{Edit{"site.wind_exposure", "0.7"}, "wind_exposure = 0.5", "wind_exposure = 0.7"},
		{Edit{"site.snow_on_line", "cleared"}, `"natural"`, `"cleared"`},
		{Edit{"standpipe.painted", "false"}, "slip_travel = \"3 in\"\npainted = true", "slip_travel = \"3 in\"\npainted = false"},
		{Edit{"garage.painted", "false"}, "\"sheltered\"\npainted = true", "\"sheltered\"\npainted = false"},
		{Edit{"outlet.weep", ""}, "weep =", "#"},
		{Edit{"water", ""}, "[water]\ncycles = \"every 6 h for 45 s\"", ""},
		{Edit{"water.arrives", "2 gal/h"}, `cycles = "every 6 h for 45 s"`, `arrives = "2 gal/h"`},
		{Edit{"riser.fittings[3]", "tee run"}, `"check valve"]`, `"check valve", "tee run"]`},
	} {
		edited, ps := ReadLayoutWith("l.toml", text, []Edit{c.edit})
		if len(ps) > 0 {
			t.Errorf("%+v: %v", c.edit, ps)
			continue
		}
		if strings.Count(string(text), c.old) != 1 {
			t.Fatalf("%q does not stand once in the file", c.old)
		}
		changed, ps := ReadLayout("l.toml", []byte(strings.Replace(string(text), c.old, c.new, 1)))
		if len(ps) > 0 {
			t.Errorf("%+v: in the file: %v", c.edit, ps)
			continue
		}
		for _, l := range []*Layout{edited, changed} { // lines differ by nature
			l.Outlet.Line, l.Standpipe.Line = 0, 0
			for i := range l.Segments {
				l.Segments[i].Line = 0
			}
		}
		if !reflect.DeepEqual(edited, changed) {
			t.Errorf("%+v is not the same as in the file:\n%+v\n%+v", c.edit, edited, changed)
		}
	}
}

func TestEditsRefused(t *testing.T) {
	text, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		edit Edit
		want string
	}{
		{Edit{"yard rum.cover", "30 in"}, `l.toml: yard rum.cover: found "yard rum"; expected a segment's name or a table of the layout (did you mean "yard run"?)`},
		{Edit{"yard run.cover", "30"}, `l.toml: yard run.cover: found 30 (a bare number); expected a length with its unit`},
		{Edit{"yard run.covre", "30 in"}, `l.toml: yard run.covre: found an unknown key; expected one of this table's keys (did you mean "cover"?)`},
		{Edit{"segment[9].cover", "30 in"}, `l.toml: segment[9].cover: found segment[9]; expected an index up to 4`},
		{Edit{"site.soil.x", "1"}, `l.toml: site.soil.x: found a value at soil; expected a table there`},
		{Edit{"segment[x]", "1"}, `expected a path such as`},
		{Edit{"", "1"}, `expected a segment's name`},
	} {
		_, ps := ReadLayoutWith("l.toml", text, []Edit{c.edit})
		if len(ps) == 0 || !strings.Contains(ps.Error(), c.want) {
			t.Errorf("%+v gives\n%v\nwant\n%s", c.edit, ps, c.want)
		}
	}
}
