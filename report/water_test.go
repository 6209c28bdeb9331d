package report

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim"
)

// Whatever the volumes, both printed columns add up to the printed total, and no
// printed figure is further than one unit from the volume that it stands for.
func TestWaterTableAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := math.Pow(10, rapid.Float64Range(-5, 3).Draw(t, "scale"))
		volume := func(name string, low float64) float64 { return scale * rapid.Float64Range(low, 1).Draw(t, name) }
		l := sim.Ledger{
			Outlet: volume("outlet", 0), Relief: volume("relief", 0), Rim: volume("rim", 0),
			PocketToSoil: volume("soil", 0), Floor: volume("floor", 0), Extra: volume("extra", 0),
			HeldLine: volume("line", -1), HeldPocket: volume("pocket", -1), HeldBasin: volume("basin", -1),
		}
		l.Arrived = l.Outlet + l.Relief + l.Rim + l.PocketToSoil + l.Floor + l.HeldLine + l.HeldPocket + l.HeldBasin - l.Extra
		if l.Arrived < 0 {
			l.Outlet -= l.Arrived
			l.Arrived = 0
		}
		system := rapid.SampledFrom([]System{US, SI}).Draw(t, "system")
		table := newWaterTable(&sim.Result{Ledger: l, Layout: &pipe.Layout{}}, system)
		for _, side := range [][]waterRow{table.in, table.out} {
			sum := int64(0)
			for _, row := range side {
				sum += row.shown
				if math.Abs(float64(row.shown)-row.m3/table.unit()) > 1.000001 {
					t.Fatalf("%s: %d printed for %v", row.words, row.shown, row.m3/table.unit())
				}
				if row.path == pathUnaccounted {
					t.Fatalf("%v left over though all was accounted for", row.m3)
				}
			}
			if sum != table.total {
				t.Fatalf("rows %v add up to %d, total %d", side, sum, table.total)
			}
		}
	})
}

// A book that does not close shows what is missing.
func TestWaterTableShowsGap(t *testing.T) {
	r := &sim.Result{Ledger: sim.Ledger{Arrived: 1, Outlet: 0.9}, Layout: &pipe.Layout{}}
	table := newWaterTable(r, SI)
	if text := strings.Join(table.lines(), "\n"); !strings.Contains(text, "100 L  not accounted for") {
		t.Errorf("got\n%s", text)
	}
}

// Three thirds of 100 L: the largest remainders take the litre that rounding lost.
func TestApportion(t *testing.T) {
	for _, c := range []struct {
		values []float64
		total  int64
		want   []int64
	}{
		{[]float64{33.4, 33.3, 33.3}, 100, []int64{34, 33, 33}},
		{[]float64{0.5, 0.5}, 1, []int64{1, 0}},
		{[]float64{2, 3}, 5, []int64{2, 3}},
		{[]float64{-1.2, 4.2}, 3, []int64{-1, 4}},
		{nil, 0, nil},
	} {
		got := apportion(c.values, c.total)
		for i := range c.want {
			if got[i] != c.want[i] {
				t.Errorf("apportion(%v, %d) = %v, want %v", c.values, c.total, got, c.want)
				break
			}
		}
	}
}

// What is there but rounds to nothing is not printed as nothing.
func TestTraceOfWater(t *testing.T) {
	r := &sim.Result{Ledger: sim.Ledger{Arrived: 16.0003, Outlet: 16, Floor: 0.0003}, Layout: &pipe.Layout{}}
	table := newWaterTable(r, US)
	if got := table.amount(pathFloor); got != "under 1 gal" {
		t.Errorf("got %q", got)
	}
	if got := table.amount(pathRim); got != "0 gal" {
		t.Errorf("got %q", got)
	}
}
