package report

import (
	"math"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// closedCase is a line that shut at hour 5.5 in its second segment, behind a full rock pit.
func closedCase() *sim.Result {
	at := 5.5 * 3600
	r := &sim.Result{
		Layout:   &pipe.Layout{Segments: []pipe.Segment{{Name: "riser"}, {Name: "yard run", Sag: 0.03}}, Outlet: pipe.Outlet{Kind: pipe.Lid, Weep: &pipe.Slot{Height: 0.01, Width: 0.05}}},
		Segments: []sim.SegmentResult{{Name: "riser"}, {Name: "yard run", Standing: 0.030}},
		Verdict:  sim.Verdict{Closed: &at, ClosedWhere: 1},
		Closures: []sim.Closure{{
			Where: 1, Shut: at, After: -1, Stood: sim.Stood{Volume: 0.004, Fill: 1, Stretch: 0.030, From: 0, To: 8, Barrier: sim.BarrierPocket, At: 8, Part: 1},
			Warm: sim.WarmWater{Time: 1.5 * 3600, Volume: 0.04},
			Met:  sim.Met{Air: -15, Wind: 1, Outside: -2, MeanSince: -13, LowestSince: -15, Ground: -2, Depth: 0.4, Frost: 0.5, Snow: math.NaN()},
		}},
		Cycles: []sim.CycleRecord{
			{Time: 1.5 * 3600, Volume: 0.04, Outlet: 0.04},
			{Time: 4 * 3600, Volume: 0.04, Refused: 0.04}, // brought nothing
			{Time: 6 * 3600, Volume: 0.04, Outlet: 0.04},  // after it had shut
		},
	}
	for h := range 10 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*3600)
		r.Hourly.Air = append(r.Hourly.Air, -10-float64(h))
		r.Hourly.Frost = append(r.Hourly.Frost, 0.5)
		r.Hourly.Pocket = append(r.Hourly.Pocket, 1)
	}
	return r
}

// The run's screen tells in brief of the first closure what causeWords tells in full.
func TestWhyItShut(t *testing.T) {
	r := closedCase()
	got := strings.Join(whyWords(r, SI), "\n")
	for _, want := range []string{"30 L (7.9 gal) stood in the line at the yard run, because the rock pit at the end was full", "4 hours before", "frost reached 0.50 m"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	whole := strings.Join(causeWords(r, 0, SI), "\n")
	for _, sentence := range whyWords(r, SI)[1:] {
		if !strings.Contains(whole, sentence) {
			t.Errorf("%q is not among\n%s", sentence, whole)
		}
	}
	r.Closures[0].Met.Ground = math.NaN() // in the open
	if got := strings.Join(whyWords(r, SI), "\n"); !strings.Contains(got, "-15 °C (5 °F)") || strings.Contains(got, "frost") {
		t.Errorf("in the open: %q", got)
	}
	r.Verdict.Closed = nil
	if got := whyWords(r, SI); got != nil {
		t.Errorf("a line that never shut: %q", got)
	}
}
