package sim_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/flow"
	"winterline/weather"
)

// tailHouse is reliefHouse with a straight line to daylight: 10 m of pipe falling 1 in 100.
func tailHouse(t *testing.T) *sim.Case {
	t.Helper()
	text := reliefHouse[:strings.LastIndex(reliefHouse, "[[segment]]")] + "[outlet]\nkind = \"open\"\n"
	text = strings.Replace(text, "length = \"2 m\"\ndrop = \"0 m\"", "length = \"10 m\"\ndrop = \"0.1 m\"", 1)
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC), Time: []float64{0, 86400}, Air: []float64{5, 5}}
	k := caseOf(t, text, s, sim.Supply{})
	return k
}

// Storage routing of the line's tail, dM/dt = −ρ Q(M), with Q by Manning at the mean depth, integrated in
// small steps down to 0.2 % of the bore. The tail takes three steps for it.
func TestLineTailByStorageRouting(t *testing.T) {
	k := tailHouse(t)
	size := k.Layout.Segments[2].Size
	bore := math.Pi / 4 * size.Bore() * size.Bore()
	for _, fill := range []float64{0.05, 0.2, 0.5} {
		area, want := fill*bore, 0.0
		for area > 2e-3*bore {
			step := 1e-4 * area
			depth := pipe.SegmentDepth(size.Bore(), area-step/2)
			want += step * 10 / flow.Discharge(size.Bore(), 0.01, size.Manning, depth)
			area -= step
		}
		_, got := sim.TailTimes(k, 0, fill*bore*10*1000, 0)
		if math.Abs(got-want) > 0.15*want {
			t.Errorf("from %.0f %% full: %.1f s, by small steps %.1f s", 100*fill, got, want)
		}
	}
}

// The standpipe's tail by small steps of dh/dt = −Q(h)/A, from 30 cm of water down to 3 mm.
func TestStandpipeTailByTorricelli(t *testing.T) {
	k := tailHouse(t)
	bore := k.Layout.Standpipe.Size.Bore()
	area := math.Pi / 4 * bore * bore
	bottom := k.Profile.Invert(2, 0)
	want := 0.0
	const step = 1e-4
	for h := 0.3; h > 3e-3; h -= step {
		want += step * area / sim.LineTakes(k, bottom+h-step/2)
	}
	got, _ := sim.TailTimes(k, 0.3*area*1000, 0, bottom+0.3)
	if math.Abs(got-want) > 0.2*want {
		t.Errorf("%.3f s, by small steps %.3f s", got, want)
	}
}

// A tenth of the heat of fusion drawn from water at 0 °C freezes a tenth of it, and the heat stays what it was.
func TestThinStreamFreezesOut(t *testing.T) {
	const fusion = 333427.0 / 4219.4 // heat of fusion over the heat of water, IAPWS, at 0 °C [K]
	on, ice := sim.FreezeOut([]sim.Parcel{{Mass: 2, U: 1}, {Mass: 1, U: -0.1 * fusion}})
	if len(on) != 2 || on[0].Mass != 2 || math.Abs(on[1].Mass-0.9) > 1e-4 || on[1].U != 0 {
		t.Errorf("on goes %+v; want 2 kg and 0.9 kg", on)
	}
	if heat := ice.Mass * ice.U; math.Abs(heat+0.1*fusion) > 1e-4*fusion || math.Abs(ice.Mass-0.1) > 1e-4 {
		t.Errorf("ice %+v; want 0.1 kg", ice)
	}
}

// Liquid that drains out of a ring of ice leaves the ring as it is, as high and as thick: 60 % of a full bore as ice, swollen by
// 9.07 %, takes 65.4 % of it.
func TestRingOfIceStays(t *testing.T) {
	k := tailHouse(t)
	before, after := sim.RingAfterDraining(k, 0.6)
	bore := k.Layout.Standpipe.Size.Bore()
	if want := 0.6 * 1.0907 * math.Pi / 4 * bore * bore; math.Abs(before-want) > 1e-3*want || math.Abs(after-want) > 1e-3*want {
		t.Errorf("%.6f m² before, %.6f after; want %.6f", before, after, want)
	}
}
