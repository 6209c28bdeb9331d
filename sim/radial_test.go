package sim_test

import (
	"context"
	"fmt"
	"math"
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

// value is one figure that a radial case asks for beside what a run gave, in the unit that verify
// reports.
type value struct {
	id               string
	want, got, limit float64
}

// values lists what a case asks for.
func values(c verify.RadialCase, run verify.CellRun) []value {
	var all []value
	add := func(what string, want, got, least float64) {
		if !math.IsNaN(want) {
			all = append(all, value{c.ID + "/" + what, want, got, math.Max(least, radialShare*want)})
		}
	}
	first := radialTime
	if c.Still {
		first = stillTime
	}
	add("first-ice", c.FirstIce/3600, run.FirstIce/3600, first)
	add("first-ice-heat", c.HeatFirstIce, run.HeatFirstIce, first*3600*c.HeatFirstIce/c.FirstIce)
	for k, level := range verify.RadialLevels {
		name := fmt.Sprintf("ice-%g", 100*level)
		add(name, c.Ice[k]/3600, run.Ice[k]/3600, radialTime)
		add(name+"-heat", c.Heat[k], run.Heat[k], 0)
	}
	if !math.IsNaN(c.IceAtEnd) {
		all = append(all, value{c.ID + "/ice-at-end", c.IceAtEnd, run.IceAtEnd, radialShare})
	}
	return all
}

// Every row of the radial freezing table through a run with default shells and steps; the expected
// figures are those of an independent solver (sim/verify/radial_freeze.csv).
func TestRadialFreezing(t *testing.T) {
	rows, figures := 0, 0
	for _, c := range verify.RadialCases() {
		run, err := verify.RunCell(context.Background(), c)
		if err != nil {
			t.Errorf("%s: %v", c.ID, err)
			continue
		}
		rows++
		for _, v := range values(c, run) {
			figures++
			if !(math.Abs(v.got-v.want) <= v.limit) {
				t.Errorf("%s: %.6g; want %.6g within %.3g", v.id, v.got, v.want, v.limit)
			}
		}
	}
	if rows != 29 || figures < 6*rows {
		t.Errorf("%d figures of %d rows; the table has 29, which ask for six at least", figures, rows)
	}
}

// `winterline verify` covers every row and every level, true to the table and no laxer.
func TestVerifyCoversRadialFreezing(t *testing.T) {
	if !long() {
		t.Skip("runs all checks; WINTERLINE_LONG=1 does")
	}
	outcomes := map[string]verify.Outcome{}
	for _, o := range verify.Run(context.Background(), nil) {
		outcomes[o.ID] = o
	}
	for _, c := range verify.RadialCases() {
		for _, v := range values(c, verify.CellRun{}) {
			o, there := outcomes[v.id]
			switch {
			case !there:
				t.Errorf("%s is not checked", v.id)
			case o.Err != nil:
				t.Errorf("%s: %v", v.id, o.Err)
			case o.Expected != v.want:
				t.Errorf("%s: checked against %g; the table says %g", v.id, o.Expected, v.want)
			case !o.Pass || !(math.Abs(o.Computed-v.want) <= v.limit):
				t.Errorf("%s: %g; want %g within %g %s", v.id, o.Computed, v.want, v.limit, o.Unit)
			case o.Limit > v.limit*(1+1e-12):
				t.Errorf("%s passes within %g; the limit is %g", v.id, o.Limit, v.limit)
			}
		}
	}
}

// Still liquid freezes first at the wall, while its core is warm: sooner than the same water mixed.
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
