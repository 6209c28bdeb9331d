package sim_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"reflect"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"

	"winterline/sim"
	"winterline/sim/heat"
)

// long tells that WINTERLINE_LONG asks for the tests that take minutes.
func long() bool { return os.Getenv("WINTERLINE_LONG") != "" }

// Draws that once failed, kept for good, and two whose basin ends with refused water in it.
var failedDraws = []uint64{75, 108, 114, 120, 177, 482, 772, 793, 1171, 2075, 2173}

// Both books close and no figure is absurd, whatever the installation, the water and the
// weather.
func TestBooksCloseOnDrawnCases(t *testing.T) {
	n := 50
	if long() {
		n = 1000
		if v, err := strconv.Atoi(os.Getenv("WINTERLINE_LONG")); err == nil && v > 1 {
			n = v
		}
	}
	seeds := append([]uint64{}, failedDraws...)
	for i := range n {
		seeds = append(seeds, uint64(i+1))
	}
	var refused atomic.Int64
	reached := &paths{count: map[string]int{}}
	t.Run("draws", func(t *testing.T) {
		for _, seed := range seeds {
			t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
				t.Parallel()
				k := drawCase(t, seed)
				if k == nil {
					refused.Add(1)
					return
				}
				r, err := sim.Run(context.Background(), k, sim.Settings{})
				if err != nil {
					t.Fatal(err)
				}
				sane(t, k, r)
				reached.note(r)
			})
		}
	})
	if int(refused.Load()) > len(seeds)/10 {
		t.Errorf("%d of %d draws made a layout that is refused", refused.Load(), len(seeds))
	}
	ways := append([]string{}, always...)
	if long() {
		ways = append(ways, seldom...)
	}
	for _, name := range ways {
		if reached.count[name] == 0 {
			t.Errorf("no draw came to %s", name)
		}
	}
}

// Ways, events and verdicts that some of fifty draws come to, and those that it takes a thousand for. A pocket that
// freezes takes longer than the days of a draw.
var (
	always = []string{"ice", "shut", "relief", "rim", "pocket", "floor", "outlet", "backlog", "return", "extra", "backup",
		"clear", "iced", "spilled", "flooded", "first-ice", "closed", "pump-no-flow", "relief-running", "relief-buried", "relief-stopped",
		"rim-spill", "gap-used-up", "pocket-full", "backup-running", "floor-wet"}
	seldom = []string{"shut-relieved", "reopened", "slip-used-up", "roof-over", "trapped-water", "lid-frozen", "short-cycling"}
)

// paths counts how often draws used each way that water can take, and came to each event and verdict: draws that never
// freeze or spill would prove little.
type paths struct {
	sync.Mutex
	count map[string]int
}

func (p *paths) note(r *sim.Result) {
	p.Lock()
	defer p.Unlock()
	for name, used := range map[string]bool{
		"ice": r.Verdict.FirstIce != nil, "shut": r.Verdict.Closed != nil, "relief": r.Ledger.Relief > 0, "rim": r.Ledger.Rim > 0,
		"pocket": r.Ledger.PocketToSoil > 0, "floor": r.Ledger.Floor > 0, "outlet": r.Ledger.Outlet > 0, "backlog": r.Ledger.HeldBasin > 0, "return": r.Ledger.Returned > 0, "extra": r.Ledger.Extra > 0, "backup": r.Ledger.Backup > 0, "trapped": len(r.Trapped) > 0,
	} {
		if used {
			p.count[name]++
		}
	}
	p.count[r.Verdict.State.String()]++
	for _, e := range r.Events {
		p.count[string(e.Kind)]++
	}
}

// sane checks what must hold of any result.
func sane(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	if r.Balance.WaterRelative > 1e-9 || r.Balance.HeatRelative > 1e-9 {
		t.Errorf("books: water %g, heat %g", r.Balance.WaterRelative, r.Balance.HeatRelative)
	}
	if where := notANumber(reflect.ValueOf(*r), "Result"); where != "" {
		t.Errorf("not a number: %s", where)
	}
	ledger(t, r)
	trapped(t, r)
	mounds(t, r)
	events(t, r)
	hourly(t, k, r)
	inOrder(t, k, r)
	vessels(t, k, r)
	causesHold(t, k, r)
	onlyMeantNaN(t, k, r)
	for i, s := range r.Segments {
		if s.LargestIce > 1+1e-9 || s.LargestIce < 0 || s.HoursClosed < 0 || s.HoursClosed > r.Hourly.Time[len(r.Hourly.Time)-1]/3600+1e-9 {
			t.Errorf("%s: ice %g, closed %g h", s.Name, s.LargestIce, s.HoursClosed)
		}
		last := -1.0
		for _, at := range []*float64{s.FirstIce, s.Ice10, s.Ice50, s.Ice90} {
			if at != nil && *at < last-1e-6 {
				t.Errorf("segment %d: ice times fall: %v", i, *at)
			}
			if at != nil {
				last = *at
			}
		}
	}
}

// trapped checks that what ice shuts in holds some water, no more than the line, and no more pressure
// than the melting curve of common ice has (209 MPa).
func trapped(t *testing.T, r *sim.Result) {
	t.Helper()
	standing := 0.0
	for _, s := range r.Segments {
		standing += s.Standing
	}
	for _, x := range r.Trapped {
		if x.Volume <= 0 || x.Volume > standing || x.Pressure < 0 || x.Pressure > 209e6 || x.Until != nil && *x.Until <= x.Since {
			t.Errorf("shut in: %+v of %g m³", x, standing)
		}
	}
}

// ledger checks that no volume is negative where it cannot be, and that cycles add up to
// the ledger.
func ledger(t *testing.T, r *sim.Result) {
	t.Helper()
	l := r.Ledger
	for name, v := range map[string]float64{
		"arrived": l.Arrived, "returned": l.Returned, "extra": l.Extra, "backup": l.Backup, "pumped": l.Pumped, "outlet": l.Outlet, "relief": l.Relief, "rim": l.Rim,
		"to soil": l.PocketToSoil, "pocket": l.HeldPocket, "basin": l.HeldBasin, "floor": l.Floor,
	} {
		if v < -1e-12 {
			t.Errorf("ledger: %s %g m³", name, v)
		}
	}
	relief, rim := 0.0, 0.0
	for _, c := range r.Cycles {
		relief, rim = relief+c.Relief, rim+c.Rim
		if c.Volume < 0 || c.Outlet < -1e-12 || c.Relief < 0 || c.Rim < 0 || c.Refused < 0 || c.Run < 0 {
			t.Errorf("cycle at %g s: %+v", c.Time, c)
		}
	}
	if math.Abs(relief-l.Relief)+math.Abs(rim-l.Rim) > 1e-9*(1+l.Pumped) {
		t.Errorf("cycles give %g through the relief and %g over the rim; ledger %g and %g", relief, rim, l.Relief, l.Rim)
	}
}

// mounds checks the books of the ice on the ground: all that was let go came there, and what did not run
// off is left.
func mounds(t *testing.T, r *sim.Result) {
	t.Helper()
	outlet, relief := 0.0, 0.0
	for _, m := range r.Mounds {
		if m.Place == "outlet" {
			outlet += m.Arrived
		} else {
			relief += m.Arrived
		}
		if miss := (m.Arrived-m.RanOff)*heat.WaterDensity - m.Left; math.Abs(miss) > 1e-9*m.Arrived*heat.WaterDensity {
			t.Errorf("%s: %g kg lost of %g", m.Place, miss, m.Arrived*heat.WaterDensity)
		}
		if m.LeftIce < 0 || m.LeftIce > m.Left || m.LeftIce > m.Mass+1e-9 || m.RanOff < 0 || m.Hours < 0 {
			t.Errorf("%+v", m)
		}
		if hand := m.Mass / 916.7 / m.SpreadArea; math.Abs(m.Thickest-hand) > 1e-9*hand {
			t.Errorf("%s: %g m thick; %g kg on %g m² are %g m", m.Place, m.Thickest, m.Mass, m.SpreadArea, hand)
		}
	}
	if math.Abs(outlet-r.Ledger.Outlet)+math.Abs(relief-r.Ledger.Relief) > 1e-9*(1+r.Ledger.Pumped) {
		t.Errorf("on the ground came %g and %g m³; the ledger has %g at the outlet and %g at the relief", outlet, relief, r.Ledger.Outlet, r.Ledger.Relief)
	}
}

func events(t *testing.T, r *sim.Result) {
	t.Helper()
	end := r.Hourly.Time[len(r.Hourly.Time)-1]
	for i, e := range r.Events {
		if e.Time < 0 || e.Time > end+1e-6 || i > 0 && e.Time < r.Events[i-1].Time {
			t.Errorf("event %d, %s, at %g s", i, e.Kind, e.Time)
		}
		if e.Where == "" || e.Meaning == "" {
			t.Errorf("event %d, %s: where %q, meaning %q", i, e.Kind, e.Where, e.Meaning)
		}
	}
}

// hourly checks rows, running totals, and that water stays inside what holds it.
func hourly(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	h := &r.Hourly
	n := len(k.Weather.Time)
	for name, v := range map[string][]float64{"time": h.Time, "outlet": h.Outlet, "relief": h.Relief, "rim": h.Rim, "to soil": h.ToSoil, "floor": h.Floor} {
		if len(v) != n {
			t.Fatalf("%s has %d rows; the weather %d", name, len(v), n)
		}
		for i := 1; i < n; i++ {
			if v[i] < v[i-1]-1e-12 {
				t.Errorf("%s falls at row %d: %g to %g", name, i, v[i-1], v[i])
				break
			}
		}
	}
	inside(t, "pocket", h.Pocket, 0, 1)
	if b := k.Layout.Basin; b != nil {
		inside(t, "basin", h.Basin, 0, b.BottomBelowFloor)
	}
	for i, s := range h.Segments {
		inside(t, r.Segments[i].Name+" ice", s.Ice, 0, 1)
		inside(t, r.Segments[i].Name+" fill", s.Fill, 0, 1)
	}
}

func inside(t *testing.T, name string, v []float64, low, high float64) {
	t.Helper()
	for i, x := range v {
		if x < low-1e-9 || x > high+1e-9 {
			t.Errorf("%s at row %d: %g outside %g … %g", name, i, x, low, high)
			return
		}
	}
}

// mayBeNaN are the fields whose comments give NaN a meaning, of one type where that is named.
var mayBeNaN = map[string]bool{
	"FrostTop": true, "FrostBottom": true, "LowestWater": true, "Water": true, "Temperature": true, "Level": true,
	"WarmWater.Time": true, "WarmWater.Volume": true, "HeatHeld.Mean": true, "HeatHeld.FirstIce": true, "HeatHeld.LossToIce": true,
	"HeatHeld.Loss": true, "Stood.At": true, "Stood.Depth": true, "Layer.Thickness": true, "Met.Spell": true, "Met.LowestSpell": true,
	"Met.MeanSpell": true, "Met.Ground": true, "Met.Depth": true, "Met.Frost": true, "Met.Snow": true, "ReliefThen.Snow": true,
	"WhileShut.FirstRelief": true, "WhileShut.FirstOver": true,
}

// notANumber names the first NaN or infinity in a value that has no meaning; "" for none.
func notANumber(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return path
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return notANumber(v.Elem(), path)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if where := notANumber(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); where != "" {
				return where
			}
		}
	case reflect.Struct:
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			if mayBeNaN[name] || mayBeNaN[v.Type().Name()+"."+name] || !v.Type().Field(i).IsExported() {
				continue
			}
			if where := notANumber(v.Field(i), path+"."+name); where != "" {
				return where
			}
		}
	}
	return ""
}
