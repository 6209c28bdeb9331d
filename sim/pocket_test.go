package sim_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
)

// pocketLayout is as much of a layout as a pocket needs.
func pocketLayout(length, width, depth, void, k float64) *pipe.Layout {
	l := &pipe.Layout{Pocket: &pipe.Pocket{Length: length, Width: width, Depth: depth, Void: void}}
	l.Outlet.Weep = &pipe.Slot{Height: 0.01, Width: 0.05}
	l.Site.Soil.SaturatedConductivity = k
	return l
}

// A full pocket of 0.6 m × 0.5 m × 0.4 m with 40 % voids holds 48 L. From void·area·dh/dt =
// −K(area + perimeter·h) it is empty after void·area/(K·perimeter)·ln(1 + perimeter·0.4/area) =
// 0.12/4.4e-6·ln(1 + 0.88/0.3) = 37,349.65 s.
func TestPocketDrains(t *testing.T) {
	const k = 2e-6 // [m/s]
	p := sim.NewRockPocket(pocketLayout(0.6, 0.5, 0.4, 0.4, k))
	near(t, "capacity", p.Capacity(), 0.048*heat.WaterDensity, 1e-12)
	const empty = 37349.65
	p.Fill(1)
	p.Drain(0.999 * empty)
	if !(p.Held() > 0 && p.Held() < 0.002*p.Capacity()) {
		t.Errorf("%g kg just before the end", p.Held())
	}
	p.Drain(0.001001 * empty)
	if p.Held() > 1e-9 {
		t.Errorf("%g kg left after %g s", p.Held(), empty)
	}
	if took := p.Drain(1e9); took > 1e-9 || p.Held() < 0 {
		t.Errorf("an empty pocket gives %g kg and holds %g", took, p.Held())
	}
}

// Half way up, the time from full is what the balance gives between 0.4 and 0.2 m:
// void·area/(K·perimeter)·ln((area + perimeter·0.4)/(area + perimeter·0.2)) =
// 0.12/4.4e-6·ln(1.18/0.74) = 12,726 s.
func TestPocketHalfEmpty(t *testing.T) {
	p := sim.NewRockPocket(pocketLayout(0.6, 0.5, 0.4, 0.4, 2e-6))
	p.Fill(1)
	p.Drain(12726)
	near(t, "half", p.Held(), p.Capacity()/2, 1e-4)
}

// What the soil takes is what the pocket loses, and many steps take what one long step does.
func TestPocketKeepsItsWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := pocketLayout(rapid.Float64Range(0.2, 1.5).Draw(t, "length"), rapid.Float64Range(0.2, 1).Draw(t, "width"),
			rapid.Float64Range(0.2, 1).Draw(t, "depth"), rapid.Float64Range(0.2, 0.5).Draw(t, "void"),
			math.Pow(10, rapid.Float64Range(-9, -4).Draw(t, "lg conductivity")))
		share := rapid.Float64Range(0, 1).Draw(t, "full")
		span := math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "lg time"))
		whole, parts := sim.NewRockPocket(l), sim.NewRockPocket(l)
		whole.Fill(share)
		parts.Fill(share)
		took := whole.Drain(span)
		if miss := share*whole.Capacity() - whole.Held() - took; math.Abs(miss) > 1e-9*whole.Capacity() {
			t.Fatalf("%g kg missing", miss)
		}
		for range 20 {
			parts.Drain(span / 20)
		}
		if math.Abs(parts.Held()-whole.Held()) > 1e-9*whole.Capacity() {
			t.Fatalf("%g kg after twenty steps, %g after one", parts.Held(), whole.Held())
		}
	})
}

// Without a slot nothing feeds a pocket.
func TestPocketNeedsASlot(t *testing.T) {
	l := pocketLayout(0.6, 0.5, 0.4, 0.4, 2e-6)
	l.Outlet.Weep = nil
	if sim.NewRockPocket(l) != nil {
		t.Error("a pocket that nothing feeds")
	}
}

// A pocket whose floor lies under the water table gives nothing off; one above it does.
func TestPocketInTheWaterTable(t *testing.T) {
	for _, c := range []struct {
		table  float64
		drains bool
	}{{0.3, false}, {0.5, true}} {
		l := pocketLayout(0.6, 0.5, 0.4, 0.4, 2e-6)
		l.Site.WaterTable = &c.table
		p := sim.NewRockPocket(l)
		p.Fill(1)
		if took := p.Drain(3600); (took > 0) != c.drains {
			t.Errorf("water table at %g m: %g kg drained", c.table, took)
		}
	}
}
