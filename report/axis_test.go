package report

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
	"pgregory.net/rapid"

	"winterline/sim"
)

// testPanel is a panel of a usual size that keeps nothing of what is drawn.
func testPanel(r *sim.Result) *panel {
	page := draw.NewCanvas(&recorder.Canvas{}, figureWidth, figureHeight)
	return timePanels(page, r, 0, 1)[0]
}

// Ticks stand on round times of the local clock, for records of hours to decades.
func TestTimeTicks(t *testing.T) {
	start := time.Date(2025, time.November, 29, 7, 30, 0, 0, time.UTC) // a Saturday
	for _, c := range []struct {
		hours float64
		most  int
		want  string
	}{
		{5, 8, "08:00/Nov 29 09:00 10:00 11:00 12:00"},
		{36, 8, "12:00/Nov 29 18:00 00:00/Nov 30 06:00 12:00 18:00"},
		{6 * 24, 8, "Nov 30/2025 Dec 1 Dec 2 Dec 3 Dec 4 Dec 5"},
		{40 * 24, 8, "Dec 1/2025 Dec 8 Dec 15 Dec 22 Dec 29 Jan 5/2026"},
		{200 * 24, 9, "Dec 1/2025 Jan 1/2026 Feb 1 Mar 1 Apr 1 May 1 Jun 1"},
		{5 * 8766, 8, "2026 2027 2028 2029 2030"},
	} {
		var got []string
		for _, tick := range timeTicks(start, 0, c.hours*3600, c.most) {
			got = append(got, strings.ReplaceAll(tick.label, "\n", "/"))
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v h: got %s, want %s", c.hours, strings.Join(got, " "), c.want)
		}
	}
}

func TestTimeTicksAreInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "start"), 0).UTC()
		length := math.Pow(10, rapid.Float64Range(3.5, 9).Draw(t, "length"))
		most := rapid.IntRange(2, 12).Draw(t, "most")
		ticks := timeTicks(start, 0, length, most)
		if length < 50*365*86400 && len(ticks) > most+1 {
			t.Fatalf("%d ticks, at most %d wanted", len(ticks), most)
		}
		for i, tick := range ticks {
			if tick.t < 0 || tick.t > length || (i > 0 && tick.t <= ticks[i-1].t) {
				t.Fatalf("tick %d at %v of %v", i, tick.t, length)
			}
		}
	})
}

func TestNiceTicks(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		most      int
		want      []float64
		decimals  int
	}{
		{-21, 11, 8, []float64{-20, -15, -10, -5, 0, 5, 10}, 0},
		{0, 0.43, 3, []float64{0, 0.2, 0.4}, 1},
		{0, 100, 3, []float64{0, 50, 100}, 0},
		{0, 43, 2, []float64{0, 20, 40}, 0}, // one tick alone would say nothing
		{3, 3, 5, []float64{3}, 0},
	} {
		got, decimals := niceTicks(c.low, c.high, c.most)
		if decimals != c.decimals || !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-12 }) {
			t.Errorf("%v to %v: got %v with %d decimals, want %v", c.low, c.high, got, decimals, c.want)
		}
	}
}

// A tick of the right axis stands where the left axis has the same temperature.
func TestDualTemperatureAxis(t *testing.T) {
	left, right := celsiusAxis(), fahrenheitAxis()
	for f, c := range map[float64]float64{32: 0, 212: 100, -40: -40} { // fixed points of both scales
		if math.Abs(right.back(f)-left.back(c)) > 1e-12 || math.Abs(right.show(c)-f) > 1e-12 {
			t.Errorf("%v °F stands at %v, %v °C at %v", f, right.back(f), c, left.back(c))
		}
	}
}

// Thinning keeps the ends, every peak and every break.
func TestDecimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3000).Draw(t, "n")
		columns := rapid.IntRange(1, 100).Draw(t, "columns")
		xs, ys := make([]float64, n), make([]float64, n)
		gap := rapid.IntRange(0, 2*n).Draw(t, "gap")
		for i := range xs {
			xs[i] = float64(i)
			ys[i] = math.Sin(float64(i*i%977) + float64(n))
			if i == gap {
				ys[i] = math.NaN()
			}
		}
		gotX, gotY := decimate(xs, ys, columns)
		if len(gotX) > max(4*columns, 4*(columns+3)) {
			t.Fatalf("%d points for %d columns", len(gotX), columns)
		}
		low, high := extent(ys)
		thinLow, thinHigh := extent(gotY)
		if low != thinLow || high != thinHigh || gotX[0] != xs[0] || gotX[len(gotX)-1] != xs[n-1] {
			t.Fatalf("from %v…%v to %v…%v", low, high, thinLow, thinHigh)
		}
		if gap < n && !slices.ContainsFunc(gotY, math.IsNaN) {
			t.Fatal("the break is gone")
		}
		for i := 1; i < len(gotX); i++ {
			if gotX[i] <= gotX[i-1] {
				t.Fatalf("times run backwards at %d", i)
			}
		}
	})
}

func TestDaily(t *testing.T) {
	nan := math.NaN()
	xs := []float64{0, 43200, 86400, 86400 + 43200, 2 * 86400, 2.5 * 86400, 3 * 86400}
	at, low, high := daily(xs, []float64{3, 1, nan, nan, 7, 8, 9})
	if !slices.Equal(at, []float64{0.25 * 86400, 1.25 * 86400, 2.5 * 86400}) {
		t.Errorf("days at %v", at)
	}
	if low[0] != 1 || high[0] != 3 || !math.IsNaN(low[1]) || !math.IsNaN(high[1]) || low[2] != 7 || high[2] != 9 {
		t.Errorf("low %v, high %v", low, high)
	}
}

// Labels keep their distance and their order, and stay on the page.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wishes := rapid.SliceOfN(rapid.Float64Range(-50, 350), 0, 30).Draw(t, "wishes")
		slices.Sort(wishes)
		wanted := make([]vg.Length, len(wishes))
		for i, w := range wishes {
			wanted[i] = vg.Length(w)
		}
		const gap, low, high = 12, 0, 300
		got := spread(wanted, gap, low, high)
		least := vg.Length(gap)
		if n := len(wanted); n > 1 {
			least = min(least, (high-low)/vg.Length(n-1))
		}
		for i, y := range got {
			if y < low-1e-6 || y > high+1e-6 {
				t.Fatalf("label %d at %v", i, y)
			}
			if i > 0 && y-got[i-1] < least-1e-6 {
				t.Fatalf("labels %d and %d are %v apart, want %v", i-1, i, y-got[i-1], least)
			}
		}
	})
	// Where there is room, wishes are granted.
	if got := spread([]vg.Length{10, 50, 200}, 12, 0, 300); !slices.Equal(got, []vg.Length{10, 50, 200}) {
		t.Errorf("got %v", got)
	}
	if got := spread([]vg.Length{100, 100}, 12, 0, 300); !slices.Equal(got, []vg.Length{94, 106}) {
		t.Errorf("got %v", got)
	}
}

func TestRows(t *testing.T) {
	got := rows([]interval{{0, 10}, {5, 15}, {10, 20}, {12, 14}, {30, 40}})
	if !slices.Equal(got, []int{0, 1, 0, 2, 0}) {
		t.Errorf("got %v", got)
	}
}
