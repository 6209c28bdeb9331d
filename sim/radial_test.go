package sim_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"winterline/sim/verify"
)

// Limits of the radial freezing cases: 1 % or 0.02 h, the larger; 0.05 h for the first ice of
// still liquid; 1 % of heats, that of first ice likewise no tighter than its time; 0.01 of the ice
// share at the end.
const (
	radialShare = 0.01
	radialTime  = 0.02 // [h]
	stillTime   = 0.05 // [h]
)

// expectation is one value that a radial case asks for, in the unit that verify reports.
type expectation struct {
	id          string
	want, limit float64
}

// expectations lists what a case asks for.
func expectations(c verify.RadialCase) []expectation {
	var all []expectation
	add := func(what string, want, least float64) {
		if !math.IsNaN(want) {
			all = append(all, expectation{c.ID + "/" + what, want, math.Max(least, radialShare*want)})
		}
	}
	first := radialTime
	if c.Still {
		first = stillTime
	}
	add("first-ice", c.FirstIce/3600, first)
	add("first-ice-heat", c.HeatFirstIce, first*3600*c.HeatFirstIce/c.FirstIce)
	for k, level := range verify.RadialLevels {
		name := fmt.Sprintf("ice-%g", 100*level)
		add(name, c.Ice[k]/3600, radialTime)
		add(name+"-heat", c.Heat[k], 0)
	}
	add("ice-at-end", c.IceAtEnd, radialShare)
	return all
}

// Every row of the radial freezing table, through a run with default shells and steps. The
// expected values are those of an independent solver (sim/verify/radial_freeze.csv); `winterline
// verify` computes the outcomes, and this test holds them to be all there, true to the table and
// no laxer than the limits.
func TestRadialFreezing(t *testing.T) {
	outcomes := map[string]verify.Outcome{}
	for _, o := range verify.Run(context.Background()) {
		if strings.HasPrefix(o.Check, "cell-") {
			outcomes[o.ID] = o
		}
	}
	levels := 0
	for _, c := range verify.RadialCases() {
		for _, e := range expectations(c) {
			o, there := outcomes[e.id]
			delete(outcomes, e.id)
			levels++
			switch {
			case !there:
				t.Errorf("%s is not checked", e.id)
			case o.Err != nil:
				t.Errorf("%s: %v", e.id, o.Err)
			case o.Expected != e.want:
				t.Errorf("%s: checked against %g; the table says %g", e.id, o.Expected, e.want)
			case !(math.Abs(o.Computed-e.want) <= e.limit) || !o.Pass:
				t.Errorf("%s: %g; want %g within %g %s", e.id, o.Computed, e.want, e.limit, o.Unit)
			case o.Limit > e.limit*(1+1e-12):
				t.Errorf("%s passes within %g; the limit is %g", e.id, o.Limit, e.limit)
			}
		}
	}
	for id := range outcomes {
		t.Errorf("%s stands in no row of the table", id)
	}
	if levels < 29*6 {
		t.Errorf("%d values in 29 rows; a row asks for six at least", levels)
	}
}

// First ice is followed further than the limits ask: a cell of mixed water lands on 0 °C, and the
// lumped solution (heat.CoolingTime) is near where wall and foam hold little heat.
func TestStillLiquidFreezesFirstAtTheWall(t *testing.T) {
	ctx := context.Background()
	pairs := 0
	for _, still := range verify.RadialCases() {
		mixed := still
		mixed.Still = false
		if !still.Still || still.AirSwing != 0 || math.IsNaN(still.Ice[3]) {
			continue
		}
		a, err := verify.RunCell(ctx, still)
		if err != nil {
			t.Fatal(err)
		}
		b, err := verify.RunCell(ctx, mixed)
		if err != nil {
			t.Fatal(err)
		}
		pairs++
		if !(a.FirstIce < b.FirstIce) {
			t.Errorf("%s: still liquid at the wall freezes after %g s, all of it mixed after %g s", still.ID, a.FirstIce, b.FirstIce)
		}
	}
	if pairs == 0 {
		t.Error("no still row to compare")
	}
}
