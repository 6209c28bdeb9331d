package sim_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"winterline/sim"
	"winterline/sim/flow"
)

// The standpipe of these tests: 4 in bore from −0.5 m to a rim at 0.40 m, a relief opening 60 mm
// wide and 20 mm high from 0.15 m up, the ground beside it at 0.
const (
	pipeBottom, pipeRim, pipeBore = -0.5, 0.40, 0.10
	reliefBottom, reliefTop       = 0.15, 0.17
	reliefWidth                   = 0.06
)

func testJoint() *sim.Joint {
	return sim.NewJoint(pipeBottom, pipeRim, pipeBore, sim.Opening{Bottom: reliefBottom, Top: reliefTop, Width: reliefWidth, SnowFactor: 1})
}

// narrowed is a line that takes what an orifice of an area [m²] would at the head over −0.4 m.
func narrowed(area float64) func(level float64) float64 {
	return func(level float64) float64 { return flow.OrificeFlow(0.6, area, level+0.4) }
}

// At a known level the three ways out follow from the published relations: line as given, relief
// as a slot (large orifice, coefficient 0.61), rim as a weir round the pipe. Their sum, sent
// back in, must find that level.
func TestPartingFindsAKnownLevel(t *testing.T) {
	const line = 3e-5
	for _, level := range []float64{-0.3, 0.1, 0.16, 0.2, 0.39, 0.41, 0.43} {
		want := sim.Parting{Level: level, Line: narrowed(line)(level),
			Relief: flow.SlotFlow(0.61, reliefWidth, reliefTop-reliefBottom, level-reliefBottom),
			Rim:    flow.RimFlow(pipeBore, level-pipeRim)}
		got := testJoint().Part(0, want.Line+want.Relief+want.Rim, narrowed(line))
		if math.Abs(got.Level-level) > 1e-8 {
			t.Errorf("level %.9f m; want %g", got.Level, level)
		}
		for _, way := range []struct {
			name      string
			got, want float64
		}{{"line", got.Line, want.Line}, {"relief", got.Relief, want.Relief}, {"rim", got.Rim, want.Rim}} {
			if math.Abs(way.got-way.want) > 1e-9 {
				t.Errorf("level %g m, %s: %.9g m³/s; want %.9g", level, way.name, way.got, way.want)
			}
		}
	}
}

// By hand: with the line shut, 1 L/s over a rim of 0.1 m bore stands √³((0.001/(1.71·π·0.1))²) =
// 15.1 mm over it (weir of coefficient 1.71).
func TestPartingOverTheRim(t *testing.T) {
	j := sim.NewJoint(pipeBottom, pipeRim, pipeBore)
	got := j.Part(0, 1e-3, func(float64) float64 { return 0 })
	if math.Abs(got.Level-pipeRim-0.0151) > 5e-5 || math.Abs(got.Rim-1e-3) > 1e-12 {
		t.Errorf("%+v; want 15.1 mm over the rim", got)
	}
}

func TestPartingAddsUpAndRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area := rapid.Float64Range(0, 2e-3).Draw(t, "line")
		snow := rapid.Float64Range(0, 0.3).Draw(t, "snow")
		inflow := math.Pow(10, rapid.Float64Range(-6, -2.3).Draw(t, "lg inflow"))
		less := testJoint().Part(snow, inflow, narrowed(area))
		more := testJoint().Part(snow, inflow*rapid.Float64Range(1, 3).Draw(t, "more"), narrowed(area))
		if sum := less.Line + less.Relief + less.Rim; math.Abs(sum-inflow) > 1e-9*inflow {
			t.Fatalf("%g m³/s go out of %g", sum, inflow)
		}
		if less.Line < 0 || less.Relief < 0 || less.Rim < 0 {
			t.Fatalf("a way out runs backwards: %+v", less)
		}
		if more.Level < less.Level-1e-8 {
			t.Fatalf("level falls from %g to %g m as the inflow rises", less.Level, more.Level)
		}
		if snow >= reliefTop && less.Relief > 0 {
			t.Fatalf("%g m³/s out of an opening that snow of %g m covers", less.Relief, snow)
		}
	})
}

// The lip is the lowest way out that snow leaves free: the opening's bottom, the snow before it,
// the rim once the opening is covered.
func TestLip(t *testing.T) {
	for _, c := range []struct{ snow, want float64 }{{0, reliefBottom}, {0.10, reliefBottom}, {0.16, 0.16}, {0.17, pipeRim}, {0.3, pipeRim}} {
		if got := testJoint().Lip(c.snow); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("snow %g m: lip at %g m; want %g", c.snow, got, c.want)
		}
	}
}

// Ice on the ground before an opening shuts it as snow does, and the deeper of the two counts.
func TestIceBeforeAnOpening(t *testing.T) {
	for _, c := range []struct{ ice, snow, lip float64 }{
		{0.10, 0, reliefBottom}, {0.16, 0, 0.16}, {0.155, 0.16, 0.16}, {0.16, 0.155, 0.16}, {0.17, 0, pipeRim}, {0.4, 0.1, pipeRim},
	} {
		j := sim.NewJoint(pipeBottom, pipeRim, pipeBore, sim.Opening{Bottom: reliefBottom, Top: reliefTop, Width: reliefWidth, SnowFactor: 1, Ice: c.ice})
		if got := j.Lip(c.snow); math.Abs(got-c.lip) > 1e-12 {
			t.Errorf("ice %g m, snow %g m: lip at %g m; want %g", c.ice, c.snow, got, c.lip)
		}
		if p := j.Part(c.snow, 1e-4, func(float64) float64 { return 0 }); (p.Rim > 0) != (c.lip == pipeRim) || p.Level < c.lip {
			t.Errorf("ice %g m, snow %g m: %+v; want the water out at %g m", c.ice, c.snow, p, c.lip)
		}
	}
}
