package sim_test

import (
	"math"
	"reflect"
	"sort"
	"testing"

	"winterline/sim"
)

// inOrder checks that time never runs backwards and that nothing happens outside the record.
func inOrder(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	if !reflect.DeepEqual(r.Hourly.Time, k.Weather.Time) {
		t.Error("the hourly rows are not the weather's")
	}
	end := k.Weather.End()
	if !sort.SliceIsSorted(r.Cycles, func(i, j int) bool { return r.Cycles[i].Time < r.Cycles[j].Time }) {
		t.Error("cycles out of order")
	}
	for _, c := range r.Cycles {
		if c.Time < 0 || c.Time+c.Run > end+1e-6 {
			t.Errorf("a cycle from %g s on for %g s, in a record of %g s", c.Time, c.Run, end)
		}
	}
	v := &r.Verdict
	times(t, "verdict", end, v.Closed, v.Reopened)
	if !v.ClosedByMound { // ice on the ground shuts a line that holds none
		times(t, "verdict", end, v.FirstIce, v.Closed)
	}
	for _, one := range []*float64{v.ClosedDendritic, v.Relief, v.Spill, v.Floor, &v.ShutFor, &r.Worst.Time} {
		times(t, "verdict", end, one)
	}
	for _, s := range r.Segments {
		times(t, s.Name, end, s.FirstIce, s.Closed)
		times(t, s.Name, end, s.FirstIce, s.Ice10, s.Ice50, s.Ice90)
		if s.HoursWithIce < 0 || s.HoursWithIce > end/3600+1e-9 {
			t.Errorf("%s: %g h with ice", s.Name, s.HoursWithIce)
		}
	}
}

// times checks that those of the given times that are not nil lie within the record, one not before another [s].
func times(t *testing.T, name string, end float64, all ...*float64) {
	t.Helper()
	last := 0.0
	for i, at := range all {
		if at == nil {
			continue
		}
		if *at < last-1e-6 || *at > end+1e-6 {
			t.Errorf("%s: time %d is %g s, after %g s in a record of %g s", name, i, *at, last, end)
		}
		last = *at
	}
}

// overRim is how high water can stand over a standpipe's rim [m]: 3 in. By hand, a weir with the coefficient 1.71 round a
// bore of 78 mm takes 8 L/s, more than pumps and roofs here bring, at √³((0.008/(1.71·π·0.078))²) = 72 mm.
const overRim = 0.0762

// vessels checks that water is nowhere less than none, nor outside of what holds it.
func vessels(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	h := &r.Hourly
	if p := k.Layout.Standpipe; p != nil {
		bottom := k.Profile.Invert(p.After+1, 0)
		top := k.Profile.Ground(k.Profile.X(p.After, 1)) + p.Rim + overRim
		inside(t, "standpipe", h.Standpipe, bottom, top)
		for _, c := range r.Cycles {
			if c.Run > 0 && !(c.Level >= bottom-1e-9 && c.Level <= top) {
				t.Errorf("cycle at %g s: level %g m in a standpipe from %g to %g", c.Time, c.Level, bottom, top)
			}
		}
	}
	if b := k.Layout.Basin; b != nil {
		room := (b.BottomBelowFloor - 0.5*(b.FloatOn+b.FloatOff)) * b.Area
		if l := &r.Ledger; l.HeldBasin > room*(1+1e-9) || l.Floor > 0 && l.HeldBasin < 0 {
			t.Errorf("%g m³ in a basin with room for %g, %g on the floor", l.HeldBasin, room, l.Floor)
		}
	}
	for _, v := range [][]float64{h.SnowDepth, h.Frost} {
		inside(t, "snow or frost", v, 0, 10)
	}
	for _, s := range r.Segments {
		if s.Standing < 0 {
			t.Errorf("%s: %g m³ stand in it", s.Name, s.Standing)
		}
	}
	for i, c := range r.Worst.Cells {
		if c.Fill < 0 || c.Fill > 1+1e-9 || c.Ice < 0 || c.Ice > 1+1e-9 {
			t.Errorf("cell %d: fill %g, ice %g", i, c.Fill, c.Ice)
		}
	}
}

// onlyMeantNaN checks that what may be NaN is so just where its comment says.
func onlyMeantNaN(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	for i, s := range r.Hourly.Segments {
		for row := range s.Water {
			if math.IsNaN(s.Water[row]) != (s.Fill[row] == 0) {
				t.Errorf("%s, row %d: water of %g °C fills %g", r.Segments[i].Name, row, s.Water[row], s.Fill[row])
				break
			}
		}
	}
	for i, c := range r.Worst.Cells {
		if math.IsNaN(c.Temperature) != (c.Fill == 0) {
			t.Errorf("cell %d: water of %g °C fills %g", i, c.Temperature, c.Fill)
		}
	}
	for _, s := range r.Segments {
		if math.IsNaN(s.LowestWater) && s.FirstIce != nil {
			t.Errorf("%s froze without water", s.Name)
		}
	}
	for _, c := range r.Cycles {
		if math.IsNaN(c.Level) != (k.Layout.Standpipe == nil || c.Run == 0) {
			t.Errorf("cycle at %g s, of %g s: level %g m", c.Time, c.Run, c.Level)
		}
	}
	if g := r.Ground; g != nil {
		for row, f := range g.Frozen {
			if math.IsNaN(g.FrostTop[row]) != (f == 0) || math.IsNaN(g.FrostBottom[row]) != (f == 0) {
				t.Errorf("row %d: frost from %g to %g m, %g thick", row, g.FrostTop[row], g.FrostBottom[row], f)
				break
			}
		}
	}
}
