package sim_test

import (
	"testing"

	"winterline/sim"
)

// The snapshots of moments are of the rows at which these things were so.
func TestMoments(t *testing.T) {
	for _, name := range []string{"sag", "straight-grade", "relief-takes-over"} {
		r, err := sim.Run(t.Context(), scenarioCase(t, name), sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		h := r.Hourly
		// What happened between two rows is on the picture of the later one.
		rowAfter := func(at float64) float64 {
			for _, v := range h.Time {
				if v >= at {
					return v
				}
			}
			return -1
		}
		coldest := 0
		for i, air := range h.Air {
			if air < h.Air[coldest] {
				coldest = i
			}
		}
		want := map[sim.MomentKind]float64{sim.MomentColdest: h.Time[coldest]}
		if v := r.Verdict.FirstIce; v != nil {
			want[sim.MomentFirstIce] = rowAfter(*v)
		}
		if v := r.Verdict.Closed; v != nil {
			want[sim.MomentShut] = rowAfter(*v)
		}
		if len(r.Moments) != len(want) {
			t.Errorf("%s: %d moments, want %d", name, len(r.Moments), len(want))
		}
		for _, m := range r.Moments {
			if at, ok := want[m.Kind]; !ok || m.Time != at {
				t.Errorf("%s: kind %d at %v s, want %v", name, m.Kind, m.Time, at)
			}
			shut := false
			for _, c := range m.Cells {
				shut = shut || c.Closed
			}
			if len(m.Cells) != len(r.Worst.Cells) || m.Kind == sim.MomentShut && !shut && !r.Verdict.ClosedByMound {
				t.Errorf("%s: kind %d has %d cells, one shut: %v", name, m.Kind, len(m.Cells), shut)
			}
		}
	}
}
