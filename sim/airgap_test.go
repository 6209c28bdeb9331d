package sim_test

import (
	"fmt"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// gapWinter runs two days at −10 °C: the line behind the standpipe freezes shut, and every six hours
// the pump sends 0.5 L/s for 30 s to a relief opening 40 mm high with its bottom at 0.30 m. The
// house pipe ends at 0.40 m, the rim stands at 0.45 m.
func gapWinter(t *testing.T, width, snow float64) *sim.Result {
	t.Helper()
	text := strings.NewReplacer("rise = \"0.02 m\"", "drop = \"0.02 m\"", "kind = \"open\"", "kind = \"open\"\nlevel = \"0.15 m\"").Replace(gluedLine) +
		"[standpipe]\nafter = \"joists\"\npipe = \"4 in D3034\"\nhouse_pipe_end = \"0.4 m\"\nrim = \"0.45 m\"\n" +
		fmt.Sprintf("[[relief]]\nat = \"standpipe\"\nheight = \"0.30 m\"\nwidth = \"%.0f mm\"\nopening_height = \"40 mm\"\nsnow_factor = 1\n", width*1000)
	l, profile := readLayout(t, text)
	s := rows(48*3600, 3600, steady(-10))
	for range s.Time {
		s.SnowDepth = append(s.SnowDepth, snow)
	}
	supply := sim.Supply{Given: true}
	for h := 3.0; h < 48; h += 6 {
		supply.Cycles = append(supply.Cycles, pipe.Cycle{Start: s.Stamp(h * 3600), Run: 30, Flow: 0.0005})
	}
	k, err := sim.NewCase("gap", l, profile, s, supply)
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Verdict.Closed == nil || r.AirGap == nil {
		t.Fatalf("the line never shut, or has no air gap: %+v", r.AirGap)
	}
	return r
}

// gapEvents are the times at which the gap was used up.
func gapEvents(r *sim.Result) (all []float64) {
	for _, e := range r.Events {
		if e.Kind == sim.EventGapUsedUp {
			all = append(all, e.Time)
		}
	}
	return all
}

// By hand: 0.5 L/s over the bottom of an opening 60 mm wide stands h = (3·0.0005/(2·0.61·0.06·√(2g)))^(2/3) =
// 27.8 mm over it, at 0.3278 m: 72.2 mm under the house pipe's end. The opening's lip lies 100 mm under it.
func TestAirGapKept(t *testing.T) {
	g := gapWinter(t, 0.06, 0).AirGap
	near(t, "clearance over the water", g.OverWater(), 0.0722, 2e-3)
	near(t, "clearance over the lip", g.OverLip(), 0.10, 1e-9)
	if r := gapWinter(t, 0.06, 0); g.Lost() || len(gapEvents(r)) != 0 {
		t.Errorf("lost: %v, events %v", g.Lost(), gapEvents(r))
	}
}

// Snow up to 0.32 m leaves the upper half of the opening free: its lip is the snow. Snow over all of it
// leaves the rim, which lies 50 mm over the house pipe's end.
func TestAirGapUnderSnow(t *testing.T) {
	near(t, "half buried", gapWinter(t, 0.06, 0.32).AirGap.OverLip(), 0.08, 1e-9)
	near(t, "buried", gapWinter(t, 0.06, 0.35).AirGap.OverLip(), -0.05, 1e-9)
}

// An opening of 5 mm passes hardly any of it: water goes over the rim. By hand, over a weir of coefficient
// 1.71 round a bore of 101 mm, less than 0.5 L/s stands less than 9.5 mm: it is 50 to 60 mm over
// the house pipe's end, once told of, when the pump first runs against the shut line.
func TestAirGapLost(t *testing.T) {
	r := gapWinter(t, 0.005, 0)
	g, told := r.AirGap, gapEvents(r)
	if !g.Lost() || g.OverWater() > -0.050 || g.OverWater() < -0.0595 {
		t.Errorf("clearance %g m", g.OverWater())
	}
	if len(told) != 1 || told[0] < *r.Verdict.Closed || told[0] > *r.Verdict.Closed+6*3600 {
		t.Errorf("told at %v s; shut at %g s", told, *r.Verdict.Closed)
	}
}

// A glued line has none.
func TestGluedLineHasNoAirGap(t *testing.T) {
	if r := mustOdd(t, gluedLine, 2, true); r.AirGap != nil {
		t.Errorf("%+v", r.AirGap)
	}
}
