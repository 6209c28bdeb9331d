package report

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

func groundScreen(t *testing.T, r *sim.GroundResult, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := GroundScreen(&b, r, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// underThermometer is a winter driven by a thermometer at 0.1 m.
func underThermometer() *sim.GroundResult {
	r := oneWinter()
	r.Surface = sim.GroundSurface{Cover: pipe.Grass, Drive: sim.ThermometerDrive, SnowOn: 1, Depth: 0.1}
	r.Snow = nil
	for i, top := range r.FrostTop {
		r.FrostTop[i] = math.Max(top, 0.1)
	}
	return r
}

func TestGroundScreenGolden(t *testing.T) {
	invented := oneWinter()
	invented.Invented = true
	golden(t, "ground-winter-us.txt", []byte(groundScreen(t, invented, screenOptions(US))))
	golden(t, "ground-winter-si.txt", []byte(groundScreen(t, oneWinter(), screenOptions(SI))))
	golden(t, "ground-three-days-us.txt", []byte(groundScreen(t, threeDays(), screenOptions(US))))
	golden(t, "ground-four-years-us.txt", []byte(groundScreen(t, fourYears(), screenOptions(US))))
	golden(t, "ground-mild-us.txt", []byte(groundScreen(t, mildWinter(), screenOptions(US))))
	golden(t, "ground-thermometer-si.txt", []byte(groundScreen(t, underThermometer(), screenOptions(SI))))
	var brief bytes.Buffer
	if err := GroundBrief(&brief, oneWinter(), Options{Results: "./my-house/ground"}); err != nil {
		t.Fatal(err)
	}
	golden(t, "ground-brief-us.txt", brief.Bytes())
}

func TestGroundScreenWidthAndCaution(t *testing.T) {
	many := groundSample(groundSpec{start: oneWinter().Start, days: 100, segments: 30})
	for _, r := range []*sim.GroundResult{oneWinter(), threeDays(), fourYears(), mildWinter(), underThermometer(), many} {
		for _, s := range []System{US, SI} {
			text := groundScreen(t, r, screenOptions(s))
			for _, line := range strings.Split(text, "\n") {
				if n := utf8.RuneCountInString(line); n > groundWidth {
					t.Errorf("line of %d columns: %s", n, line)
				}
			}
			if joined := strings.Join(strings.Fields(text), " "); !strings.Contains(joined, groundCaution) {
				t.Errorf("the caution is not whole in\n%s", text)
			}
		}
	}
}

func TestGroundCautionIsWhole(t *testing.T) {
	for _, element := range []string{
		"simulation", "not a soil survey", "Local codes and their frost-depth tables come first",
		"utilities marked before digging", "cave in", "another winter may be colder",
	} {
		if !strings.Contains(groundCaution, element) {
			t.Errorf("the caution does not speak of %q", element)
		}
	}
}

// Turns of phrase that the golden texts do not meet.
func TestGroundWording(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*sim.GroundResult)
		want   []string
		never  []string
	}{
		{"paved and cleared", func(r *sim.GroundResult) { r.Surface.Cover, r.Surface.SnowOn = pipe.Paved, 0 },
			[]string{"under paving kept clear of snow.", "Snow         kept clear"}, nil},
		{"part of the snow", func(r *sim.GroundResult) { r.Surface.Cover, r.Surface.SnowOn = pipe.Gravel, 0.4 },
			[]string{"under gravel with 40 % of the natural snow", "40 % of it left on the ground"}, nil},
		{"snow from a pack", func(r *sim.GroundResult) { r.Surface.SnowKind = weather.SnowModelled },
			[]string{"worked out from snowfall, settling and melt; most on Mar 1: 16 in (0.40 m)"}, []string{"as measured"}},
		{"no snow known", func(r *sim.GroundResult) { r.Surface.SnowKind, r.Snow = weather.SnowNone, nil },
			[]string{"under grass.", "the ground is taken as bare"}, []string{"natural snow"}},
		{"no snow known, said by a warning", func(r *sim.GroundResult) {
			r.Surface.SnowKind, r.Snow = weather.SnowNone, nil
			r.Warnings = []sim.Warning{{Kind: "no-snow-record", Sentence: "No snow depth in the weather."}}
		}, []string{"Mind         No snow depth in the weather."}, []string{"Snow  ", "taken as bare"}},
		{"air alone", func(r *sim.GroundResult) { r.Surface.Drive = sim.AirDrive },
			[]string{"through air film, grass and snow; sun and sky are left out"}, []string{"evaporation"}},
		{"n-factor", func(r *sim.GroundResult) {
			r.Surface.Drive, r.Layout.Site.NFactor = sim.NFactorDrive, &pipe.NFactor{Freezing: 0.5, Thawing: 1.2}
		}, []string{"under grass.", "n-factors (0.5 in frost, 1.2 in thaw)"}, []string{"natural snow", "Snow  "}},
		{"stated resistance", func(r *sim.GroundResult) { r.Surface.Drive, r.Layout.Site.SurfaceResistance = sim.AirDrive, ptr(0.3) },
			[]string{"through a stated resistance"}, []string{"natural snow", "Snow  "}},
		{"short record", func(r *sim.GroundResult) {
			r.Warnings = []sim.Warning{{Kind: "short-record", Sentence: "The record is shorter than a year."}}
		}, []string{"Mind         The record is shorter than a year."}, []string{"its first year"}},
		{"shallow frost", func(r *sim.GroundResult) { r.Seasons[0].Deepest = 0.031 },
			[]string{"Deepest frost: 1.2 in (3 cm) on Apr 7"}, nil},
		{"frost that ends", func(r *sim.GroundResult) {
			r.Seasons[0].To = 1.5e7
		}, []string{"last Mar 23"}, []string{"record ends"}},
		{"no guess", func(r *sim.GroundResult) { r.Guesses = nil },
			[]string{"nothing on the site was left to a guess"}, []string{"more guess"}},
		{"segment under a driveway", func(r *sim.GroundResult) {
			paved := pipe.Paved
			r.Layout.Segments[2].Surface, r.Layout.Segments[2].SnowOnLine = &paved, ptr(0)
		}, []string{"but it lies under paving kept clear of snow, which a thermometer elsewhere does not tell of"}, nil},
		{"segment under a driveway whose ground was computed", func(r *sim.GroundResult) {
			paved := pipe.Paved
			r.Layout.Segments[2].Surface, r.Layout.Segments[2].SnowOnLine = &paved, ptr(0)
			drive := *r
			drive.Surface.Cover, drive.Surface.SnowOn = pipe.Paved, 0
			drive.Seasons = []sim.FrostSeason{drive.Seasons[0]}
			drive.Seasons[0].Deepest = 1.13
			r.Others = []*sim.GroundResult{&drive}
		}, []string{"under paving kept clear of snow, where frost reached 44 in (1.13 m): "}, []string{"thermometer elsewhere"}},
		{"nothing buried", func(r *sim.GroundResult) { r.Profile = nil }, nil, []string{"Pipes"}},
		{"no thermometer", func(r *sim.GroundResult) { r.Measured = nil }, nil, []string{"Measured", "RMSE"}},
	} {
		r := oneWinter()
		c.change(r)
		text := groundScreen(t, r, screenOptions(US))
		joined := strings.Join(strings.Fields(text), " ")
		for _, want := range c.want {
			if !strings.Contains(joined, strings.Join(strings.Fields(want), " ")) {
				t.Errorf("%s: no %q in\n%s", c.name, want, text)
			}
		}
		for _, never := range c.never {
			if strings.Contains(text, never) {
				t.Errorf("%s: %q in\n%s", c.name, never, text)
			}
		}
	}
}

// Thaw counts only where ground worth the name is soft above ground worth the name that is
// not: 6 cm over 20 cm is, 2 cm over 30 cm and 30 cm over 1 cm are not.
func TestThawOf(t *testing.T) {
	r := &sim.GroundResult{
		Time:        []float64{0, 86400, 90000, 180000},
		FrostTop:    []float64{0.02, 0.06, 0.04, 0.30},
		FrostBottom: []float64{0.32, 0.26, 0.26, 0.31},
	}
	got := thawOf(r)
	if len(got.days) != 1 || got.first != 86400 || got.last != 86400 || got.depth != 0.06 || got.bottom != 0.26 {
		t.Errorf("got %+v", got)
	}
	r.Surface.Depth = 0.05 // nothing is known above a thermometer there
	if got := thawOf(r); len(got.days) != 0 {
		t.Errorf("below a thermometer: %+v", got)
	}
}
