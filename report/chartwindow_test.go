package report

import (
	"math"
	"slices"
	"testing"
	"time"

	"winterline/sim"
)

// A stretch of a result holds just its rows, runs and events.
func TestWithin(t *testing.T) {
	r := plain(sim.ShutRelieved)
	t0, t1 := 30.5*86400, 33*86400.0
	cut := within(r, t0, t1)
	if n := len(cut.Hourly.Time); n != 61 || cut.Hourly.Time[0] != t0 || cut.Hourly.Time[n-1] != t1 {
		t.Errorf("%d rows", n)
	}
	for i, s := range cut.Hourly.Segments {
		if len(s.Water) != 61 || len(s.Ice) != 61 || len(s.Fill) != 61 || s.Ice[0] != r.Hourly.Segments[i].Ice[732] {
			t.Errorf("segment %d: %d rows of water", i, len(s.Water))
		}
	}
	inside := func(at float64) bool { return at >= t0 && at <= t1 }
	runs, events := 0, 0
	for _, c := range r.Cycles {
		if inside(c.Time) {
			runs++
		}
	}
	for _, e := range r.Events {
		if inside(e.Time) {
			events++
		}
	}
	if runs == 0 || len(cut.Cycles) != runs || len(cut.Events) != events {
		t.Errorf("%d runs of %d, %d events of %d", len(cut.Cycles), runs, len(cut.Events), events)
	}
	if len(r.Hourly.Time) != 60*24+1 || len(r.Hourly.Segments[0].Ice) != 60*24+1 {
		t.Error("the whole has been cut as well")
	}
}

// The worst hours hold the first closure; where there is none, the coldest stretch, which a plain search finds too.
func TestWorstWindow(t *testing.T) {
	r := plain(sim.ShutRelieved)
	t0, t1, _ := worstWindow(r)
	if shut := *r.Verdict.Closed; t1-t0 != worstHours || shut-t0 < beforeShut || shut-t0 > beforeShut+3600 {
		t.Errorf("shut at %v, shown from %v to %v", shut, t0, t1)
	}
	open := plain(sim.Clear)
	t0, t1, reason := worstWindow(open)
	best, least := 0.0, math.Inf(1)
	for from := 0; from+72 < len(open.Hourly.Air); from++ {
		sum := 0.0
		for _, air := range open.Hourly.Air[from : from+73] {
			sum += air
		}
		if sum < least-1e-7 {
			best, least = open.Hourly.Time[from], sum
		}
	}
	if t0 != best || t1 != best+worstHours || reason != worstReason {
		t.Errorf("shown from %v to %v, coldest from %v", t0, t1, best)
	}
	short := sample(sampleSpec{sim.Clear, 3, 1})
	if t0, t1, _ := worstWindow(short); t0 != 0 || t1 != 86400 {
		t.Errorf("one day: from %v to %v", t0, t1)
	}
}

// Midnight does not divide a night, noon does, and a record's end cuts it.
func TestColdestNight(t *testing.T) {
	hour := func(h float64) float64 { return h * 3600 }
	for _, c := range []struct{ coldest, from, to float64 }{
		{hour(30), hour(18), hour(32)}, // 06:00 of the second day
		{hour(23), hour(18), hour(32)},
		{hour(36), hour(42), hour(56)}, // noon: the night to come
		{hour(2), 0, hour(8)},          // its evening is before the record
		{hour(70), hour(66), hour(72)}, // it goes on after the record
	} {
		r := &sim.Result{Start: time.Date(2026, time.January, 5, 0, 0, 0, 0, time.UTC)}
		for i := range 73 {
			r.Hourly.Time = append(r.Hourly.Time, hour(float64(i)))
			r.Hourly.Air = append(r.Hourly.Air, math.Abs(hour(float64(i))-c.coldest)/3600-20)
		}
		n, ok := coldestNight(r)
		if !ok || n.from != c.from || n.to != c.to || n.at != c.coldest || n.low != -20 {
			t.Errorf("coldest at %v h: %+v", c.coldest/3600, n)
		}
	}
	if _, ok := coldestNight(&sim.Result{Hourly: sim.Hourly{Time: []float64{0}, Air: []float64{math.NaN()}}}); ok {
		t.Error("a night without air temperature")
	}
}

// What went each way day by day adds up to the running totals, in a short and in a long record.
func TestPathBins(t *testing.T) {
	for _, c := range []struct {
		days  int
		bins  int
		words string
	}{{3, 72, "hour by hour"}, {60, 60, "day by day"}, {365, 53, "week by week"}} {
		r := sample(sampleSpec{sim.Spilled, 5, c.days})
		r.Layout.Pocket = nil
		bands := pathBands(r)
		b := pathBins(r, bands)
		if len(b.volumes) != c.bins || b.words != c.words {
			t.Errorf("%d days: %d bins, %s", c.days, len(b.volumes), b.words)
		}
		for k, band := range bands {
			sum, grown := 0.0, 0.0
			for _, volumes := range b.volumes {
				sum += volumes[k]
			}
			for i := 1; i < len(band.totals); i++ {
				grown += math.Max(0, band.totals[i]-band.totals[i-1])
			}
			if math.Abs(sum-grown) > 1e-6 {
				t.Errorf("%d days, %s: %v L in bins, %v L in all", c.days, band.words, sum, grown)
			}
		}
	}
}

// A run is divided by its ways, from the harmless to the harmful, and the parts add up.
func TestRunParts(t *testing.T) {
	parts := runParts(sim.CycleRecord{Volume: 0.04, Relief: 0.03, Rim: 0.004, Refused: 0.006})
	var ways []waterWay
	sum := 0.0
	for _, p := range parts {
		ways, sum = append(ways, p.way), sum+p.volume
	}
	if !slices.Equal(ways, []waterWay{wayRelief, wayRim, wayFloor}) || math.Abs(sum-40) > 1e-9 {
		t.Errorf("%v, %v L", ways, sum)
	}
}

// Moments stand in time order, and those of one instant share a picture.
func TestMoments(t *testing.T) {
	cells := make([]sim.CellState, 1)
	at := func(time float64) sim.Snapshot { return sim.Snapshot{Time: time, Cells: cells} }
	r := &sim.Result{Worst: at(9), Moments: []sim.Moment{
		{Kind: sim.MomentFirstIce, Snapshot: at(3)}, {Kind: sim.MomentShut, Snapshot: at(9)}, {Kind: sim.MomentColdest, Snapshot: at(1)},
	}}
	var words []string
	for _, m := range moments(r) {
		words = append(words, m.words)
	}
	if want := []string{"the coldest air", "the first ice", "frozen shut and the most ice"}; !slices.Equal(words, want) {
		t.Errorf("got %q, want %q", words, want)
	}
}

// Segments that held water are spread evenly over pages, in flow order, each once.
func TestSegmentPages(t *testing.T) {
	for segments, pages := range map[int]int{3: 1, 5: 1, 7: 1, 8: 2, 30: 5} { // one of them stays dry
		if got := segmentsCharts(sample(sampleSpec{sim.Clear, segments, 20})); len(got) != pages {
			t.Errorf("%d segments: %d pages, want %d", segments, len(got), pages)
		}
	}
}

// A winter's pictures are small enough to be sent by mail.
func TestChartsAreSmall(t *testing.T) {
	const most = 2_000_000
	for name, r := range map[string]*sim.Result{
		"the demonstration":           demonstration(t),
		"thirty segments, six months": sample(sampleSpec{sim.Flooded, 30, 182}),
	} {
		sum := 0
		for _, f := range Charts(r, ChartOptions{}) {
			sum += len(rendered(t, f))
		}
		t.Logf("%s: %d bytes", name, sum)
		if sum > most {
			t.Errorf("%s: %d bytes, want %d at most", name, sum, most)
		}
	}
}
