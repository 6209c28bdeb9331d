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
	curveShare  = 0.035      // the same along a curve, where the freezing point's place in a volume is read from straight lines [-]
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

// Surfaces and soils of the tests below, which set columns beside other ways to the same end.
var (
	peaty = pipe.Soil{ConductivityUnfrozen: 0.5, ConductivityFrozen: 1.3, HeatCapacityUnfrozen: 3.4e6, HeatCapacityFrozen: 2.3e6, Latent: 180e6}
	sandy = pipe.Soil{ConductivityUnfrozen: 1.7, ConductivityFrozen: 2.6, HeatCapacityUnfrozen: 2.3e6, HeatCapacityFrozen: 1.9e6, Latent: 40e6}
)

// withCurve is a soil that freezes along a curve.
func withCurve(s pipe.Soil, point, exponent float64) pipe.Soil {
	s.Freezing = pipe.FreezingCurve{Point: point, Exponent: exponent}
	return s
}

// layerEdge is where upper soil lies on lower [m].
const layerEdge = 0.40

func twoSoils(upper, lower pipe.Soil) func(depth float64) pipe.Soil {
	return func(depth float64) pipe.Soil {
		if depth < layerEdge {
			return upper
		}
		return lower
	}
}

// Ground that has been warming evenly for long warms everywhere alike, and through every depth passes
// the heat that all below it takes up. With the rate β, heat capacity C and conductivity k of each soil and
// M the heat capacity below a depth, k dT/dz = −β M: exact, by hand, at the soils' meeting and all other depths.
func TestLayeredColumnWarmsEvenly(t *testing.T) {
	const rate, resistance, bottom, years, limit = 0.8 / year, 0.2, 10.0, 20, 0.001 // rate [K/s], limit [K]
	kU, cU, kL, cL := peaty.ConductivityUnfrozen, peaty.HeatCapacityUnfrozen, sandy.ConductivityUnfrozen, sandy.HeatCapacityUnfrozen
	// fall is the integral of M/k from 0 to z.
	fall := func(z float64) float64 {
		below := cL * (bottom - layerEdge)
		u := math.Min(z, layerEdge)
		sum := (below+cU*layerEdge)*u/kU - cU*u*u/2/kU
		if l := z - layerEdge; l > 0 {
			sum += below*l/kL - cL*l*l/2/kL
		}
		return sum
	}
	all := cU*layerEdge + cL*(bottom-layerEdge)
	exact := func(z, at float64) float64 { return 10 + rate*(at-resistance*all-fall(z)) }
	c := sim.NewLayeredColumn(twoSoils(peaty, sandy), 0, sim.Stepping{})
	c.Start(func(z float64) float64 { return exact(z, 0) })
	before, in := c.Books()
	if err := c.March(func(at float64) (float64, float64) { return resistance, 10 + rate*at }, 0, years*year, day); err != nil {
		t.Fatal(err)
	}
	for _, z := range []float64{0.005, 0.1, 0.395, layerEdge, 0.405, 0.6, 1, 2, 5} {
		if got, want := c.TemperatureAt(z), exact(z, years*year); math.Abs(got-want) > limit {
			t.Errorf("%g m: %.4f °C; want %.4f", z, got, want)
		}
	}
	// The flux through the meeting, from the column's own temperatures above and below it.
	want := -rate * cL * (bottom - layerEdge)
	for _, soil := range []struct{ away, k float64 }{{-0.02, kU}, {0.02, kL}} {
		got := soil.k * (c.TemperatureAt(layerEdge+soil.away) - c.TemperatureAt(layerEdge)) / soil.away
		if math.Abs(got/want-1) > 0.01 {
			t.Errorf("flux at %+g m from the meeting: %.4f W/m²; want %.4f", soil.away, got, want)
		}
	}
	closes(t, c, before, in, 0)
	_, inAfter := c.Books()
	if got, want := inAfter-in, rate*all*years*year; math.Abs(got/want-1) > 1e-3 {
		t.Errorf("%g J/m² came in; want %g", got, want)
	}
}

// The heat that ground takes up between two temperatures is the integral of its heat capacity and the
// heat of what melts, whatever way it takes: Δ = ∫[C + f (C_frozen − C)]dT − L f with the ice share
// f = 1 − (T/point)^−e. A column at one temperature holds ten metres of it. Expected: closed form; the program
// tabulates the law, and its straight stretches may be off by a thousandth of the latent heat.
func TestFreezingCurveHoldsItsHeat(t *testing.T) {
	const depth, limit = 10.0, 0.002 // of the latent heat
	for _, s := range []pipe.Soil{withCurve(sandy, -0.0082, 0.25), withCurve(wetSoil, -0.05, 0.5), withCurve(wetSoil, -0.3, 0.1), withCurve(peaty, -0.1, 1), withCurve(peaty, -0.02, 1.6)} {
		c := sim.NewSoilColumn(s, 0, sim.Stepping{})
		zero, _ := c.Books()
		worst := 0.0
		for _, at := range []float64{5, 0, -0.005, -0.0083, -0.02, -0.06, -0.2, -0.7, -2, -6, -15, -40} {
			c.Start(func(float64) float64 { return at })
			content, _ := c.Books()
			off := (content-zero)/depth - curveEnthalpy(s, at)
			worst = math.Max(worst, math.Abs(off)/s.Latent)
			if got := c.TemperatureAt(1); math.Abs(got-at) > 1e-9 {
				t.Errorf("point %g: started at %g °C; reads %g", s.Freezing.Point, at, got)
			}
		}
		t.Logf("point %g °C, exponent %g: heat off by %.5f of the latent at most", s.Freezing.Point, s.Freezing.Exponent, worst)
		if worst > limit {
			t.Errorf("point %g °C, exponent %g: heat off by %g of the latent; limit %g", s.Freezing.Point, s.Freezing.Exponent, worst, limit)
		}
	}
}

// Frost going in and out, in two soils one on the other and along curves, against forward steps. Where freezing is
// sharp the forward solver's temperatures go up and down as its front crosses from volume to volume; hence means
// over a day.
func TestColumnAgainstForwardSteps(t *testing.T) {
	for _, c := range []struct {
		name  string
		soil  func(depth float64) pipe.Soil
		thin  float64 // volumes of the forward solver [m]; along a curve all is smooth, and thicker ones do
		frost float64 // limit of the lowest frozen point [-]
	}{
		{"peat on sand", twoSoils(peaty, sandy), 0.005, frostShare},
		{"sand on peat", twoSoils(sandy, peaty), 0.005, frostShare},
		{"one soil along a curve", twoSoils(withCurve(wetSoil, -0.05, 0.3), withCurve(wetSoil, -0.05, 0.3)), 0.010, curveShare},
		{"two soils, two curves", twoSoils(withCurve(wetSoil, -0.3, 0.12), withCurve(sandy, -0.0082, 0.25)), 0.010, curveShare},
	} {
		t.Run(c.name, func(t *testing.T) {
			if long() {
				c.thin /= 2
			}
			besideForward(t, c.soil, c.thin, c.frost)
		})
	}
}

func besideForward(t *testing.T, soil func(depth float64) pipe.Soil, thin, frost float64) {
	const (
		start, days, every = 4.0, 48, 4
		thaw               = 0.010 // limit of the highest frozen point: the thickness of the uppermost volumes [m]
	)
	wave := func(at float64) (float64, float64) {
		return 0.1, -12*math.Sin(2*math.Pi*at/(60*day)) + 3*math.Sin(2*math.Pi*at/day)
	}
	column, f := sim.NewLayeredColumn(soil, start, sim.Stepping{}), newForward(soil, thin, start)
	before, in := column.Books()
	passed, last, worst, deepest := 0.0, in, 0.0, 0.0
	depths := []float64{0.05, 0.1, 0.2, 0.3, layerEdge - 0.01, layerEdge + 0.01, 0.5, 0.7, 1, 1.5, 2.5}
	got, want := make([]float64, len(depths)), make([]float64, len(depths))
	for at := 0.0; at < days*day; at += hour {
		if err := column.March(wave, at, at+hour, hour); err != nil {
			t.Fatal(err)
		}
		f.march(wave, at, at+hour)
		_, now := column.Books()
		passed += math.Abs(now - last)
		last = now
		for i, z := range depths {
			got[i] += column.TemperatureAt(z) / 24
			want[i] += f.temperatureAt(z) / 24
		}
		if math.Mod(at+hour, day) != 0 {
			continue
		}
		if n := int(at+hour) / int(day); n%every == 0 {
			for i, z := range depths {
				worst = math.Max(worst, math.Abs(got[i]-want[i]))
				if math.Abs(got[i]-want[i]) > columnLimit {
					t.Errorf("day %d, %g m: %.3f °C; want %.3f", n, z, got[i], want[i])
				}
			}
			top, bottom, _ := column.Layers()
			wantTop, wantBottom := f.frozen()
			deepest = math.Max(deepest, wantBottom)
			if !(math.Abs(bottom-wantBottom) <= math.Max(frostLeast, frost*wantBottom) && math.Abs(top-wantTop) <= math.Max(thaw, frost*wantTop)) {
				t.Errorf("day %d: frozen from %.4f to %.4f m; want %.4f to %.4f", n, top, bottom, wantTop, wantBottom)
			}
		}
		clear(got)
		clear(want)
	}
	t.Logf("daily means %.4f K off at most; frost to %.3f m; heat %+.3f %% of what passed", worst, deepest, 100*(last-in-f.in)/passed)
	if math.Abs(last-in-f.in) > 0.005*passed {
		t.Errorf("%g J/m² came in; want %g", last-in, f.in)
	}
	closes(t, column, before, in, passed)
}

// The method of the handbooks has no bottom: the front in deep ground is twice as deep after four times as long. At a
// quarter of a season the bottom at 10 m is four times as far in those terms, so what it does to a whole season
// shows. The coldest and the most conducting of the worked examples, and one between.
func TestSeasonNeedsNoBottom(t *testing.T) {
	const limit = 0.003 // of the depth
	for _, c := range []struct{ k, c, latent, start, surface, days float64 }{
		{1.3145, 1.8982e6, 80.48e6, 2.889, -8.681, 160},
		{2.2484, 1.8512e6, 51.51e6, 5.556, -7.407, 150},
		{2.7673, 1.8093e6, 34.87e6, 6.667, -5.556, 120},
	} {
		soil := pipe.Soil{ConductivityUnfrozen: c.k, ConductivityFrozen: c.k, HeatCapacityUnfrozen: c.c, HeatCapacityFrozen: c.c, Latent: c.latent}
		depth := func(end float64) float64 {
			column := sim.NewSoilColumn(soil, c.start, sim.Stepping{})
			if err := column.March(held(c.surface), 0, end, day); err != nil {
				t.Fatal(err)
			}
			return column.Frost()
		}
		whole, quarter := depth(c.days*day), depth(c.days*day/4)
		t.Logf("%g days: %.4f m; a quarter: %.4f m, %+.3f %% of half", c.days, whole, quarter, 100*(2*quarter/whole-1))
		if math.Abs(2*quarter/whole-1) > limit {
			t.Errorf("frost at %g m after %g days and at %g m after a quarter", whole, c.days, quarter)
		}
	}
}
