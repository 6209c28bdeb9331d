package report

import (
	"bytes"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

func rendered(t *testing.T, f File) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(f.Name, err)
	}
	return b.Bytes()
}

func chartNames(files []File) string {
	var names []string
	for _, f := range files {
		names = append(names, strings.TrimSuffix(f.Name, filepath.Ext(f.Name)))
	}
	return strings.Join(names, " ")
}

// chartNamed is a chart of the plain winter.
func chartNamed(t *testing.T, name string) chart {
	t.Helper()
	for _, c := range chartsOf(plain(sim.Clear)) {
		if c.name == name {
			return c
		}
	}
	t.Fatal("no chart " + name)
	return chart{}
}

// A chart that would have nothing to show is left out.
func TestWhichCharts(t *testing.T) {
	const all = "weather worst-72-hours water-temperature ice profile water-paths levels segments"
	if got := chartNames(Charts(plain(sim.Clear), ChartOptions{})); got != all {
		t.Errorf("got %s, want %s", got, all)
	}
	if got, want := chartNames(Charts(verificationCell(), ChartOptions{})), "weather worst-72-hours water-temperature ice profile segments"; got != want {
		t.Errorf("one pipe without a pump: got %s, want %s", got, want)
	}
	const iced = "weather worst-72-hours water-temperature ice profile profile-moments water-paths levels segments-1 segments-2 segments-3 segments-4 segments-5"
	if got := chartNames(Charts(sample(sampleSpec{sim.Iced, 30, 60}), ChartOptions{})); got != iced {
		t.Errorf("thirty segments with ice: got %s, want %s", got, iced)
	}
	empty := &sim.Result{Layout: &pipe.Layout{}, Profile: &pipe.Profile{}}
	if got := Charts(empty, ChartOptions{}); len(got) != 0 {
		t.Errorf("nothing at all: got %s", chartNames(got))
	}
}

// Every picture comes out the same twice, one after the other and side by side.
func TestChartsAreDeterministic(t *testing.T) {
	for _, format := range []Format{PNG, SVG} {
		files := Charts(plain(sim.Flooded), ChartOptions{Format: format, Width: 600})
		want := make([][]byte, len(files))
		for i, f := range files {
			want[i] = rendered(t, f)
			if filepath.Ext(f.Name) != "."+string(format) {
				t.Errorf("%s is %s", f.Name, format)
			}
		}
		again := Charts(plain(sim.Flooded), ChartOptions{Format: format, Width: 600})
		got := make([]bytes.Buffer, len(again))
		var wait sync.WaitGroup
		for i, f := range again {
			wait.Go(func() {
				if err := f.Write(&got[i]); err != nil {
					t.Error(err)
				}
			})
		}
		wait.Wait()
		for i, f := range again {
			if !bytes.Equal(got[i].Bytes(), want[i]) {
				t.Errorf("%s differs from itself", f.Name)
			}
		}
	}
}

func TestChartSize(t *testing.T) {
	for _, c := range []struct {
		o    ChartOptions
		want int
	}{{ChartOptions{}, 1600}, {ChartOptions{DPI: 100}, 1000}, {ChartOptions{Width: 804}, 800}} {
		picture, err := png.DecodeConfig(bytes.NewReader(rendered(t, chartNamed(t, "water-temperature").file(c.o))))
		if err != nil || picture.Width != c.want || picture.Height != c.want*5/8 {
			t.Errorf("%+v: %d × %d px, %v", c.o, picture.Width, picture.Height, err)
		}
	}
}

// Lines and letters of a picture come from its own file.
func TestSVGCarriesFonts(t *testing.T) {
	text := string(rendered(t, Charts(plain(sim.Clear), ChartOptions{Format: SVG})[0]))
	if !strings.Contains(text, "@font-face") || !strings.Contains(text, "Liberation Sans") {
		t.Error("no font in the file")
	}
}

// Whatever the record's length, the number of segments and the verdict, every chart
// can be drawn.
func TestEveryChartDraws(t *testing.T) {
	for _, days := range []int{0, 1, 200} {
		for _, segments := range []int{3, 5, 30} {
			for _, state := range allStates {
				if state == sim.Iced && days < 60 {
					continue // the sample's ice needs more time
				}
				r := sample(sampleSpec{state, segments, days})
				for _, f := range Charts(r, ChartOptions{Width: 200}) {
					if err := f.Write(io.Discard); err != nil {
						t.Errorf("%d days, %d segments, %v: %s: %v", days, segments, state, f.Name, err)
					}
				}
			}
		}
	}
}

// Numbers that are none leave a gap in a chart; they do not stop it from being drawn.
func TestChartsSurviveMissingNumbers(t *testing.T) {
	r := plain(sim.ShutRelieved)
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for i := 100; i < 140; i++ {
			r.Hourly.Air[i], r.Hourly.SnowDepth[i], r.Hourly.Pocket[i] = bad, bad, bad
			r.Hourly.Basin[i], r.Hourly.Standpipe[i], r.Hourly.Relief[i] = bad, bad, bad
			r.Hourly.Segments[3].Water[i], r.Hourly.Segments[3].Ice[i] = bad, bad
		}
		r.Cycles[7].Level, r.Worst.Frost, r.Worst.Cells[30].Ice = bad, bad, bad
		for _, f := range Charts(r, ChartOptions{Width: 200}) {
			if err := f.Write(io.Discard); err != nil {
				t.Errorf("%s: %v", f.Name, err)
			}
		}
	}
}

// The pictures as they were when somebody looked at them. Pixels may differ a little
// from one processor to another, so the mean difference is compared, not the bytes.
func TestChartsGolden(t *testing.T) {
	const limit = 0.5 // of 255, mean over all pixels and colours
	r := plain(sim.ShutRelieved)
	r.Invented = true
	for _, f := range Charts(r, ChartOptions{Width: 800}) {
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

func meanDifference(t *testing.T, a, b []byte) float64 {
	t.Helper()
	pictures := make([]image.Image, 2)
	for i, file := range [][]byte{a, b} {
		var err error
		if pictures[i], err = png.Decode(bytes.NewReader(file)); err != nil {
			t.Fatal(err)
		}
	}
	if pictures[0].Bounds() != pictures[1].Bounds() {
		return 255
	}
	size, sum := pictures[0].Bounds(), 0.0
	for y := size.Min.Y; y < size.Max.Y; y++ {
		for x := size.Min.X; x < size.Max.X; x++ {
			r0, g0, b0, _ := pictures[0].At(x, y).RGBA()
			r1, g1, b1, _ := pictures[1].At(x, y).RGBA()
			for _, d := range [3]float64{float64(r0) - float64(r1), float64(g0) - float64(g1), float64(b0) - float64(b1)} {
				sum += math.Abs(d) / 257
			}
		}
	}
	return sum / float64(3*size.Dx()*size.Dy())
}
