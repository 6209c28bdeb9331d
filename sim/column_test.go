package sim_test

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
	"winterline/sim/verify"
)

const (
	hour        = 3600.0     // [s]
	day         = 24 * hour  // [s]
	year        = 365 * day  // [s]
	columnStart = -100 * day // of the columns' year, after the coldest day [s]
	frostShare  = 0.01       // limit of frost depths [-]
	frostLeast  = 0.003      // the same, where that is the larger [m]
	columnLimit = 0.05       // of temperatures [K]
	closeLimit  = 1e-9       // of heat, as a share of what passed [-]
)

// column is a ground case with its surface as the column takes it.
type column struct{ verify.GroundCase }

func (c column) air(t float64) (resistance, temperature float64) {
	return c.SurfaceResistance, c.Air(t)
}

// annual leaves out the daily wave, for the spin-up.
func (c column) annual(t float64) (resistance, temperature float64) {
	c.DailySwing = 0
	return c.air(t)
}

// soilOf is a case's soil.
func soilOf(c column) pipe.Soil {
	return pipe.Soil{
		ConductivityUnfrozen: c.ConductivityUnfrozen, ConductivityFrozen: c.ConductivityFrozen,
		HeatCapacityUnfrozen: c.CapacityUnfrozen, HeatCapacityFrozen: c.CapacityFrozen, Latent: c.Latent,
	}
}

// groundCase finds a case.
func groundCase(t testing.TB, id string) column {
	for _, c := range verify.GroundCases() {
		if c.ID == id {
			return column{c}
		}
	}
	t.Fatalf("no ground case %s", id)
	return column{}
}

// Frost and temperatures of columns in their periodic state against two independent solvers
// (sim/verify/ground_column.csv). Two cases that settle soon always, the others on demand.
func TestColumnsInTheirPeriodicState(t *testing.T) {
	quick := map[string]bool{"GC2": true, "GC6": true}
	for _, g := range verify.GroundCases() {
		t.Run(g.ID, func(t *testing.T) {
			if !quick[g.ID] && !long() {
				t.Skip("takes longer; WINTERLINE_LONG=1 runs it")
			}
			periodic(t, column{g})
		})
	}
}

func periodic(t *testing.T, g column) {
	c := sim.NewSoilColumn(soilOf(g), g.AirMean, sim.Stepping{Longest: day})
	settled, err := c.SpinUp(g.annual, columnStart, 200)
	if err != nil || !settled {
		t.Fatalf("settled %t, %v", settled, err)
	}
	longest := day
	if g.DailySwing > 0 {
		longest = hour
	}
	before, in := c.Books()
	mustMarch(t, c, g, columnStart, columnStart+year, longest) // with the daily wave; the next year is like it
	at := columnStart
	for _, s := range g.States {
		mustMarch(t, c, g, at, s.Time, longest)
		at = s.Time
		if miss := math.Abs(c.Frost() - s.Frost); miss > math.Max(frostLeast, frostShare*s.Frost) {
			t.Errorf("day %g: frost at %.4f m; want %.4f", at/day, c.Frost(), s.Frost)
		}
		for k, z := range verify.GroundDepths {
			if got := c.TemperatureAt(z); math.Abs(got-s.Temperature[k]) > columnLimit {
				t.Errorf("day %g: %.3f °C at %g m; want %.3f", at/day, got, z, s.Temperature[k])
			}
		}
	}
	closes(t, c, before, in, 0)
}

func mustMarch(t *testing.T, c *sim.SoilColumn, g column, from, to, longest float64) {
	t.Helper()
	if err := c.March(g.air, from, to, longest); err != nil {
		t.Fatal(err)
	}
}

// closes checks that the column's heat changed by what came in; passed is what went both ways
// [J/m²], 0: the change itself or a kelvin of the whole column, whichever is larger.
func closes(t *testing.T, c *sim.SoilColumn, before, inBefore, passed float64) {
	t.Helper()
	after, in := c.Books()
	if passed == 0 {
		passed = math.Max(math.Abs(in-inBefore), 10*2e6) // 10 m of 2 MJ/(m³ K)
	}
	if miss := math.Abs(after - before - (in - inBefore)); miss > closeLimit*passed {
		t.Errorf("heat rose by %g J/m²; %g came in", after-before, in-inBefore)
	}
}

// Ground that does not freeze follows the damped annual wave, an exact solution for a half-space
// (Kusuda & Achenbach 1965); at this diffusivity the bottom at 10 m reflects less than a
// millikelvin up to 4 m.
func TestColumnFollowsTheDampedWave(t *testing.T) {
	const mean, swing, limit = 10.0, 8.0, 0.02
	soil := pipe.Soil{ConductivityUnfrozen: 0.9, ConductivityFrozen: 0.9, HeatCapacityUnfrozen: 3e6, HeatCapacityFrozen: 3e6}
	wave := func(z, at float64) float64 { return heat.AnnualWave(z, at, mean, swing, 0, 3e-7) }
	surface := func(at float64) (float64, float64) { return 0, wave(0, at) }
	c := sim.NewSoilColumn(soil, mean, sim.Stepping{})
	c.Start(func(z float64) float64 { return wave(z, 0) })
	before, in := c.Books()
	for at := 0.0; at < year; at += 7 * day {
		if err := c.March(surface, at, at+7*day, hour); err != nil {
			t.Fatal(err)
		}
		for _, z := range []float64{0.05, 0.1, 0.2, 0.5, 1, 1.5, 2, 3, 4} {
			if got, want := c.TemperatureAt(z), wave(z, at+7*day); math.Abs(got-want) > limit {
				t.Errorf("day %g, %g m: %.4f °C; want %.4f", at/day+7, z, got, want)
			}
		}
	}
	closes(t, c, before, in, 0)
}

// A column that freezes and thaws keeps its heat to rounding.
func TestColumnKeepsItsHeat(t *testing.T) {
	g := groundCase(t, "GC4")
	c := sim.NewSoilColumn(soilOf(g), 3, sim.Stepping{})
	before, in := c.Books()
	passed, last := 0.0, in
	for at := -30 * day; at < 60*day; at += 6 * hour {
		mustMarch(t, c, g, at, at+6*hour, hour)
		_, now := c.Books()
		passed += math.Abs(now - last)
		last = now
	}
	closes(t, c, before, in, passed)
	if c.Frost() == 0 {
		t.Error("the column never froze: the test tests nothing")
	}
}
