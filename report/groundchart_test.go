package report

import (
	"bytes"
	"image/color"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"winterline/sim"
)

// grey is how a colour prints without colour, 0 black to 1 white (ITU-R BT.601 luma).
func grey(c color.RGBA) float64 {
	return (0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)) / 255
}

// Every frozen band prints darker than every thawed one, with a step between them, and
// colder means darker on the frozen side.
func TestBandsInGrey(t *testing.T) {
	for _, b := range []bands{{0}, {-4, -3, -2, -1, 0, 2, 4, 6, 8, 10}, {-2, 0}, {0, 5, 10}} {
		cold := b.freezing()
		for i := 0; i < cold; i++ {
			for j := cold; j <= len(b); j++ {
				if step := grey(b.color(j)) - grey(b.color(i)); step < 0.08 {
					t.Errorf("%v: frozen band %d and thawed band %d are %.2f apart in grey", b, i, j, step)
				}
			}
			if i > 0 && grey(b.color(i)) <= grey(b.color(i-1)) {
				t.Errorf("%v: band %d is not lighter than the colder one", b, i)
			}
		}
	}
}

func TestBandsFor(t *testing.T) {
	var winter, year []float64
	for i := range 1000 {
		x := float64(i) / 999
		winter = append(winter, -7+17*x)
		year = append(year, -25+50*x)
	}
	for _, c := range []struct {
		temps []float64
		want  bands
	}{
		{winter, bands{-6, -4, -2, 0, 2, 4, 6, 8}},
		{year, bands{-20, -10, 0, 5, 10, 15, 20}},
		{[]float64{3, 4, math.NaN()}, bands{0, 1, 2, 3}},
		{nil, bands{0}},
	} {
		if got := bandsFor(c.temps); !slices.Equal(got, c.want) {
			t.Errorf("got %v, want %v", got, c.want)
		}
	}
	b := bands{-2, 0, 2}
	for temp, want := range map[float64]int{-3: 0, -2: 1, -0.1: 1, 0: 2, 1.9: 2, 2: 3} {
		if got := b.of(temp); got != want {
			t.Errorf("%v °C is in band %d, want %d", temp, got, want)
		}
	}
}

// The picture's border between frozen and thawed ground is the frost line, also where the
// temperatures around it say little.
func TestFieldFollowsFrost(t *testing.T) {
	r := &sim.GroundResult{
		Time: []float64{0, 7200}, Air: []float64{-5, -5},
		FrostTop: []float64{0, 0}, FrostBottom: []float64{0.10, 0.30}, Frozen: []float64{0.10, 0.30},
		Field: sim.GroundField{Time: []float64{0, 7200}, Depths: []float64{0.05, 0.5, 1},
			Temp: [][]float64{{-2, 0, 3}, {-2, 0, 3}}},
	}
	frost := frostLineOf(r)
	p := newFieldPicture(r, &frost, 1)
	picture := p.image(0, 7200, 1, 72, 100)
	for x := range 72 {
		deep := 0.10 + 0.20*(float64(x)+0.5)/72
		for y := range 100 {
			z := (float64(y) + 0.5) / 100
			if math.Abs(z-deep) < 1e-9 {
				continue
			}
			frozen := grey(picture.At(x, y).(color.RGBA)) < 0.8
			if frozen != (z < deep) {
				t.Fatalf("column %d: at %.3f m frozen is %v, the frost goes down to %.3f m", x, z, frozen, deep)
			}
		}
	}
}

// A thawed layer within the frost shows where rows are drawn one by one.
func TestFieldShowsThawedLayer(t *testing.T) {
	r := &sim.GroundResult{
		Time: []float64{0, 3600}, Air: []float64{0, 0},
		FrostTop: []float64{0, 0}, FrostBottom: []float64{0.6, 0.6}, Frozen: []float64{0.35, 0.35},
		Field: sim.GroundField{Time: []float64{0, 3600}, Depths: []float64{0, 0.1, 0.3, 0.4, 1},
			Temp: [][]float64{{-1, 1, 1, -1, 2}, {-1, 1, 1, -1, 2}}},
	}
	frost := frostLineOf(r)
	p := newFieldPicture(r, &frost, 1)
	picture := p.image(0, 3600, 1, 4, 100)
	for y, frozen := range map[int]bool{1: true, 20: false, 45: true, 80: false} {
		if got := grey(picture.At(1, y).(color.RGBA)) < 0.8; got != frozen {
			t.Errorf("at %d cm frozen is %v", y, got)
		}
	}
}

// Runs of frost end where nothing is frozen and where the frost that follows lies apart; in
// between half the way belongs to each.
func TestFrostLine(t *testing.T) {
	nan := math.NaN()
	f := frostLine{
		time:    []float64{0, 1, 2, 3, 4, 5},
		top:     []float64{nan, 0, 0.2, 0.5, 0, nan},
		bottom:  []float64{nan, 0.3, 0.6, 0.6, 0.02, nan},
		layered: make([]bool, 6),
	}
	if got, want := f.stretches(), []stretch{{1, 3}, {4, 4}}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	for _, c := range []struct {
		t, top, bottom float64
		frozen         bool
	}{
		{0.4, 0, 0, false}, {0.6, 0, 0.3, true}, {1.5, 0.1, 0.45, true}, {3.4, 0.5, 0.6, true}, {3.6, 0, 0.02, true}, {4.6, 0, 0, false},
	} {
		top, bottom, _, frozen := f.at(c.t)
		if frozen != c.frozen || frozen && (math.Abs(top-c.top) > 1e-12 || math.Abs(bottom-c.bottom) > 1e-12) {
			t.Errorf("at %v: %v to %v, frozen %v; want %+v", c.t, top, bottom, frozen, c)
		}
	}
}

// Days are means of what they have, and none where half of it is missing.
func TestDayMeans(t *testing.T) {
	nan := math.NaN()
	const h = 3600.0
	xs := []float64{0, 6 * h, 12 * h, 18 * h, 24 * h, 30 * h, 36 * h, 42 * h}
	at, mean := dayMeans(xs, []float64{1, 2, 3, nan, nan, nan, nan, 8})
	if !slices.Equal(at, []float64{9 * h, 33 * h}) || mean[0] != 2 || !math.IsNaN(mean[1]) {
		t.Errorf("got %v at %v", mean, at)
	}
}

// Of many depths six are drawn, the first and the last among them.
func TestSpreadOver(t *testing.T) {
	var all []sim.MeasuredDepth
	for i := range 11 {
		all = append(all, sim.MeasuredDepth{Depth: float64(i)})
	}
	var got []float64
	for _, m := range spreadOver(all, 6) {
		got = append(got, m.Depth)
	}
	if want := []float64{0, 2, 4, 6, 8, 10}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := spreadOver(all[:3], 6); len(got) != 3 {
		t.Errorf("%d of 3", len(got))
	}
}

// The picture goes past the frost and the pipes, and no deeper than what was computed.
func TestShownDepth(t *testing.T) {
	r := &sim.GroundResult{Field: sim.GroundField{Depths: []float64{0, 3}}}
	pipes := []buriedRange{{top: 0.2, bottom: 0.5}, {top: 1, bottom: 2}}
	for _, c := range []struct {
		deepest float64
		pipes   []buriedRange
		want    float64
	}{{0.3, nil, 1}, {1.5, nil, 2.1}, {0.3, pipes, 2.3}, {2.9, nil, 3}, {math.NaN(), nil, 1}} {
		r.Seasons = []sim.FrostSeason{{Deepest: c.deepest}}
		if got := shownDepth(r, c.pipes); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("frost %v, pipes %v: got %v, want %v", c.deepest, c.pipes, got, c.want)
		}
	}
}

func TestWhichGroundCharts(t *testing.T) {
	if got := chartNames(GroundCharts(oneWinter(), ChartOptions{})); got != "ground ground-measured" {
		t.Errorf("got %s", got)
	}
	if got := chartNames(GroundCharts(threeDays(), ChartOptions{})); got != "ground" {
		t.Errorf("without thermometers: got %s", got)
	}
	if got := GroundCharts(&sim.GroundResult{}, ChartOptions{}); len(got) != 0 {
		t.Errorf("nothing at all: got %s", chartNames(got))
	}
}

// Whatever the record, the layout and the numbers, every chart can be drawn.
func TestEveryGroundChartDraws(t *testing.T) {
	draw := func(name string, r *sim.GroundResult, o ChartOptions) {
		for _, f := range GroundCharts(r, o) {
			if err := f.Write(io.Discard); err != nil {
				t.Errorf("%s: %s: %v", name, f.Name, err)
			}
		}
	}
	small := ChartOptions{Width: 200}
	draw("four years", fourYears(), small)
	draw("mild winter", mildWinter(), small)
	draw("as SVG", oneWinter(), ChartOptions{Format: SVG})
	for _, days := range []int{0, 1, 21} {
		for _, segments := range []int{3, 30} {
			draw(plural(float64(days), "day"), groundSample(groundSpec{start: time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC),
				days: days, mild: -8, snow: true, measured: []float64{0.1}, segments: segments}), small)
		}
	}
	deep := oneWinter()
	for i := range deep.Snow {
		deep.Snow[i] *= 6
	}
	draw("deep snow", deep, small)
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		r := oneWinter()
		for i := 3000; i < 3050; i++ {
			r.Air[i], r.Snow[i], r.FrostTop[i], r.FrostBottom[i], r.Frozen[i] = bad, bad, bad, bad, bad
			r.Field.Temp[i/5][4], r.Measured[0].Temp[i], r.Tracks[1].Temp[i] = bad, bad, bad
		}
		r.Seasons[0].Deepest, r.Seasons[0].DeepestAt = bad, bad
		draw("bad number", r, small)
	}
}

func TestGroundChartsAreDeterministic(t *testing.T) {
	again := GroundCharts(oneWinter(), ChartOptions{Width: 600})
	for i, f := range GroundCharts(oneWinter(), ChartOptions{Width: 600}) {
		if !bytes.Equal(rendered(t, f), rendered(t, again[i])) {
			t.Errorf("%s differs from itself", f.Name)
		}
	}
}

// The pictures as they were when somebody looked at them; see TestChartsGolden.
func TestGroundChartsGolden(t *testing.T) {
	const limit = 0.5 // of 255, mean over all pixels and colours
	r := oneWinter()
	r.Invented = true
	for _, f := range GroundCharts(r, ChartOptions{Width: 800}) {
		path := filepath.Join("testdata", f.Name)
		got := rendered(t, f)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if d := meanDifference(t, got, want); d > limit {
			t.Errorf("%s differs by %.2f on %s: look at it, then run the tests with -update", f.Name, d, runtime.GOARCH)
		}
	}
}
