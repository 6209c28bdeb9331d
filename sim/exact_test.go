package sim_test

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
	"winterline/sim/verify"
	"winterline/weather"
)

// weightless is a wall or an insulation that conducts and stores next to nothing: 500 J/(m³ K) against 4.2e6 of water.
func weightless(conductivity float64) pipe.Material {
	return pipe.Material{Name: "weightless", Conductivity: conductivity, Density: 1, HeatCapacity: 500}
}

// oneCell is a metre of pipe, in open air or in the ground, that holds water and no pump moves.
type oneCell struct {
	size       pipe.Size
	insulation []pipe.Insulation
	film       *float64
	start      float64
	standing   float64
	liquid     pipe.Liquid
	weather    *weather.Series
	site       *pipe.Site // for a buried cell
	cover      float64    // likewise [m]
}

func (c oneCell) run(t testing.TB, s sim.Settings) *sim.Result {
	t.Helper()
	l := &pipe.Layout{
		Segments: []pipe.Segment{{
			Name: "cell", Length: 1, Setting: pipe.OpenAir, Size: c.size, Insulation: c.insulation,
			FilmCoefficient: c.film, StartTemperature: &c.start, Standing: &c.standing, Liquid: c.liquid,
		}},
		Outlet: pipe.Outlet{Kind: pipe.Open},
	}
	l.Site.WindExposure = 0.4
	if c.site != nil {
		l.Site = *c.site
		l.Segments[0].Setting, l.Segments[0].Cover, l.Segments[0].FilmCoefficient = pipe.Buried, &[2]float64{c.cover, c.cover}, nil
	}
	profile, problems := l.MakeProfile("test")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	k, err := sim.NewCase("test", l, profile, c.weather, sim.Supply{Given: true})
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(context.Background(), k, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// rows is a record at even spacing, its last row at the end [s].
func rows(end, step float64, air func(t float64) float64) *weather.Series {
	s := &weather.Series{Source: "test", Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for t := 0.0; t < end-1e-6; t += step {
		s.Time = append(s.Time, t)
		s.Air = append(s.Air, air(t))
	}
	s.Time = append(s.Time, end)
	s.Air = append(s.Air, air(end))
	return s
}

func steady(air float64) func(t float64) float64 { return func(float64) float64 { return air } }

// Mixed water behind a wall that stores nothing cools exponentially to 0 °C.
// Expected: T = Ta + (T0 − Ta)·exp(−t/RC), closed form.
func TestLumpedCooling(t *testing.T) {
	const (
		timeLimit        = 0.001 // of the time to first ice
		temperatureLimit = 0.01  // [K]
	)
	for _, c := range []struct{ od, wall, foam, film, start, air float64 }{
		{0.1143, 0.0060, 0, 10, 8, -10},
		{0.0483, 0.0037, 0.013, 15, 12, -20},
		{0.1071, 0.0019, 0.025, 8, 5, -2},
		{0.0422, 0.0036, 0, 40, 3, -30},
		{0.0889, 0.0055, 0.050, 20, 15, -5},
	} {
		t.Run(fmt.Sprintf("%g mm, %g mm foam", 1000*c.od, 1000*c.foam), func(t *testing.T) {
			cell := oneCell{size: pipe.Size{OutsideDiameter: c.od, Wall: c.wall, Material: weightless(0.19)}, film: &c.film, start: c.start, standing: 1}
			bore, outside := c.od-2*c.wall, c.od+2*c.foam
			resistance := heat.LayerResistance(bore/2, c.od/2, 0.19) + heat.FilmResistance(outside, c.film)
			if c.foam > 0 {
				cell.insulation = []pipe.Insulation{{Thickness: c.foam, Material: weightless(0.036)}}
				resistance += heat.LayerResistance(c.od/2, outside/2, 0.036)
			}
			capacity := heat.WaterDensity * heat.LiquidHeat * math.Pi / 4 * bore * bore
			want := capacity * resistance * math.Log((c.start-c.air)/-c.air)
			cell.weather = rows(1.01*want, want/20, steady(c.air))
			r := cell.run(t, sim.Settings{})
			first := r.Segments[0].FirstIce
			if first == nil {
				t.Fatalf("no ice; want it after %g s", want)
			}
			worst := 0.0
			for i, at := range r.Hourly.Time {
				if at < want {
					exact := c.air + (c.start-c.air)*math.Exp(-at/(capacity*resistance))
					worst = math.Max(worst, math.Abs(r.Hourly.Segments[0].Water[i]-exact))
				}
			}
			t.Logf("first ice after %.4f h; want %.4f h (%+.4f %%); water off by %.4f K at most", *first/3600, want/3600, 100*(*first/want-1), worst)
			if math.Abs(*first/want-1) > timeLimit || worst > temperatureLimit {
				t.Errorf("first ice after %g s; want %g s within %g %%; water off by %g K; limit %g K", *first, want, 100*timeLimit, worst, temperatureLimit)
			}
		})
	}
}

// A full pipe at 0 °C freezes inward as London & Seban 1943 have it (Trans. ASME 65:771), who leave
// out the sensible heat of the ice: with it ice comes later, by less than the Stefan number, and
// the difference goes with that number to nothing.
func TestInwardFreezingTendsToQuasiSteady(t *testing.T) {
	const limit = 0.005 // of the time, extrapolated to Stefan number 0
	size := pipe.Size{OutsideDiameter: 0.1143, Wall: 0.0060, Material: weightless(0.19)}
	bore := size.Bore()
	for _, film := range []float64{5, 60} {
		resistance := heat.LayerResistance(bore/2, size.OutsideDiameter/2, 0.19) + heat.FilmResistance(size.OutsideDiameter, film)
		over := func(air float64) [3]float64 { // time over the quasi-steady one at 10, 50 and 90 %
			quasi := func(share float64) float64 {
				return heat.InwardFreezingTime(bore/2, bore/2*math.Sqrt(1-share), heat.WaterDensity*heat.Fusion, heat.IceConductivity, resistance, air)
			}
			end := 1.1 * quasi(0.95)
			r := oneCell{size: size, film: &film, standing: 1, weather: rows(end, end/200, steady(air))}.run(t, sim.Settings{})
			var out [3]float64
			for k, at := range []*float64{r.Segments[0].Ice10, r.Segments[0].Ice50, r.Segments[0].Ice90} {
				if at == nil {
					t.Fatalf("film %g, air %g: level %d of ice never reached", film, air, k)
				}
				out[k] = *at / quasi([]float64{0.1, 0.5, 0.9}[k])
				if ste := heat.IceHeat * -air / heat.Fusion; out[k] < 1-limit || out[k] > 1+ste+limit {
					t.Errorf("film %g, air %g: %.5f of the quasi-steady time; want 1 to %.5f", film, air, out[k], 1+ste)
				}
			}
			return out
		}
		a, b, c := over(-8), over(-4), over(-2)
		for k, share := range []float64{10, 50, 90} {
			none := 2*c[k] - b[k] // straight line through −4 and −2 °C to 0
			t.Logf("film %2g, %g %% ice: %.5f, %.5f, %.5f of the quasi-steady time at −8, −4, −2 °C; at 0: %.5f", film, share, a[k], b[k], c[k], none)
			if math.Abs(none-1) > limit {
				t.Errorf("film %g, %g %% ice: %.5f of the quasi-steady time in the limit; want 1 within %g", film, share, none, limit)
			}
		}
	}
}

// The same pipe with the sensible heat of the ice, in dimensionless form, against the table
// of an independent solver (verify.InwardCases): the share frozen at which the front stands, where
// the table gives a front; the whole pipe has no last moment on any grid.
func TestInwardFreezingWithSensibleHeat(t *testing.T) {
	size := pipe.Size{OutsideDiameter: 0.102, Wall: 0.001, Material: weightless(50)}
	size.Material.Density = 100 // 1 % of the water's heat capacity by volume, and of the pipe little
	r, diffusivity := size.Bore()/2, heat.IceConductivity/(heat.WaterDensity*heat.IceHeat)
	ran := 0
	for _, c := range verify.InwardCases() {
		air := -c.Stefan * heat.Fusion / heat.IceHeat
		if c.Front == 0 || math.IsNaN(c.Biot) {
			continue
		}
		ran++
		// The table's film lies on the bore: what the wall resists is taken off it.
		resistance := heat.FilmResistance(2*r, c.Biot*heat.IceConductivity/r) - heat.LayerResistance(r, size.OutsideDiameter/2, size.Material.Conductivity)
		film := 1 / (resistance * math.Pi * size.OutsideDiameter)
		want := c.Time * r * r / (c.Stefan * diffusivity)
		share := 1 - c.Front*c.Front
		s := rows(1.02*want, want/4, steady(air))
		for k := range 41 { // rows close together around the wanted time, to read it off
			s = insertRow(s, want*(0.98+0.001*float64(k)), air)
		}
		res := oneCell{size: size, film: &film, standing: 1, weather: s}.run(t, sim.Settings{})
		got := math.NaN()
		ice := res.Hourly.Segments[0].Ice
		for i := 1; i < len(ice) && math.IsNaN(got); i++ {
			if ice[i] >= share {
				a, b := res.Hourly.Time[i-1], res.Hourly.Time[i]
				got = a + (b-a)*(share-ice[i-1])/(ice[i]-ice[i-1])
			}
		}
		t.Logf("%s: %.2f h; want %.2f h (%+.3f %%)", c.ID, got/3600, want/3600, 100*(got/want-1))
		if !(math.Abs(got/want-1) <= c.Limit) {
			t.Errorf("%s: ice of %g after %g s; want %g s within %g %%", c.ID, share, got, want, 100*c.Limit)
		}
	}
	if ran < 8 {
		t.Errorf("only %d cases ran", ran)
	}
}

// insertRow adds a row to a record whose air is steady.
func insertRow(s *weather.Series, at, air float64) *weather.Series {
	i := 0
	for i < len(s.Time) && s.Time[i] < at {
		i++
	}
	if i < len(s.Time) && s.Time[i] == at {
		return s
	}
	s.Time = append(s.Time[:i], append([]float64{at}, s.Time[i:]...)...)
	s.Air = append(s.Air, air)
	return s
}

// halfSpace is wet soil at 4 °C whose surface is held at −6 °C.
func halfSpace() verify.Neumann {
	return verify.Neumann{
		Surface: -6, Start: 4, Frozen: wetSoil.ConductivityFrozen, Unfrozen: wetSoil.ConductivityUnfrozen,
		FrozenCap: wetSoil.HeatCapacityFrozen, UnfrozenCap: wetSoil.HeatCapacityUnfrozen, Latent: wetSoil.Latent,
	}.Solve()
}

// slab is a planar row of even volumes, 1.5 m of soil to the surface at its outer edge.
func slab(soil pipe.Soil, n int, start float64, s sim.Stepping) *sim.Row {
	var v []sim.TestVolume
	for i := 1; i <= n; i++ {
		v = append(v, sim.TestVolume{
			Outer: slabDepth * float64(i) / float64(n), CapLiquid: soil.HeatCapacityUnfrozen, CapFrozen: soil.HeatCapacityFrozen,
			Latent: soil.Latent, Liquid: soil.ConductivityUnfrozen, Frozen: soil.ConductivityFrozen,
		})
	}
	return sim.NewRow(0, v, false, start, s)
}

const slabDepth = 1.5 // [m]; what happens in two days does not reach the other side

// held is a surface at a temperature [°C], behind a resistance of no account.
func held(surface float64) func(t float64) (float64, float64) {
	return func(float64) (float64, float64) { return 1e-5, surface }
}

// A planar front in the program's volumes against Neumann's solution (Carslaw & Jaeger 1959,
// sec. 11.2): its depth through two days, the heat given up, and the temperatures.
func TestNeumannFront(t *testing.T) {
	const (
		frontLimit       = 0.01 // of the depth, which is that of the radial cases
		heatLimit        = 0.01
		temperatureLimit = 0.10 // [K], of the 10 K from start to surface
	)
	exact := halfSpace()
	r := slab(wetSoil, 150, exact.Start, sim.Stepping{})
	at := 0.0
	for _, hours := range []float64{6, 12, 24, 48} {
		if err := r.March(held(exact.Surface), at, hours*3600); err != nil {
			t.Fatal(err)
		}
		at = hours * 3600
		front, wantFront := r.Ice(), exact.Front(at)
		heat, wantHeat := -r.HeatIn(), 2*exact.Flux(at)*at // the flux goes with 1/√t
		worst := 0.0
		for i := range 150 {
			z := slabDepth - r.Centre(i)
			if math.Abs(z-wantFront) > 0.01 { // beyond the volume in which the front stands
				worst = math.Max(worst, math.Abs(r.Temperature(i)-exact.Temperature(z, at)))
			}
		}
		t.Logf("%2g h: front %.4f m (%+.3f %%), heat %.4g J/m² (%+.3f %%), worst temperature %.4f K",
			hours, front, 100*(front/wantFront-1), heat, 100*(heat/wantHeat-1), worst)
		if math.Abs(front/wantFront-1) > frontLimit || math.Abs(heat/wantHeat-1) > heatLimit || worst > temperatureLimit {
			t.Errorf("%g h: front %g m, want %g; heat %g J/m², want %g; worst temperature %g K, limit %g",
				hours, front, wantFront, heat, wantHeat, worst, temperatureLimit)
		}
	}
}

// order is the power of the step with which an error falls between neighbours of a row of
// errors, each made with a step `ratio` times shorter than the one before.
func order(errors []float64, ratio float64) (powers []float64) {
	for i := 1; i < len(errors); i++ {
		powers = append(powers, math.Log(errors[i-1]/errors[i])/math.Log(ratio))
	}
	return powers
}

// falls checks the orders of convergence of a row of errors.
func falls(t *testing.T, what string, errors []float64, ratio, least float64) {
	t.Helper()
	powers := order(errors, ratio)
	t.Logf("%s: errors %.3g, orders %.2f", what, errors, powers)
	for _, p := range powers {
		if !(p >= least) {
			t.Errorf("%s: errors %g fall with orders %.2f; want %g or more", what, errors, powers, least)
			return
		}
	}
}

// Volumes three times halved: the program's central differences are of second order where nothing
// freezes. Expected: Carslaw & Jaeger 1959, sec. 2.7 (film); 11.2 (freezing). With a front the
// order is that of a front known within its volume, at least the first.
func TestOrderOnGrids(t *testing.T) {
	fine := sim.Stepping{Tolerance: 1e-4, First: 0.1, Longest: 60}
	dry := wetSoil
	dry.Latent, dry.ConductivityFrozen, dry.HeatCapacityFrozen = 0, dry.ConductivityUnfrozen, dry.HeatCapacityUnfrozen
	const film, air, start, end = 10.0, 2.0, 12.0, 86400.0
	var errors []float64
	for _, n := range []int{15, 30, 60, 120} {
		r := slab(dry, n, start, fine)
		if err := r.March(func(float64) (float64, float64) { return 1 / film, air }, 0, end); err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i := range n {
			off := r.Temperature(i) - verify.FilmStepTemperature(slabDepth-r.Centre(i), end, dry.ConductivityUnfrozen, dry.HeatCapacityUnfrozen, film, air, start)
			sum += off * off / float64(n)
		}
		errors = append(errors, math.Sqrt(sum))
	}
	falls(t, "temperature, no ice [K]", errors, 2, 1.8)

	exact := halfSpace()
	errors = nil
	for _, n := range []int{15, 30, 60, 120} {
		r := slab(wetSoil, n, exact.Start, fine)
		at, sum, count := 0.0, 0.0, 0.0
		for at < 2*86400 { // mean over time: the error goes up and down as the front crosses a volume
			if err := r.March(held(exact.Surface), at, at+3600); err != nil {
				t.Fatal(err)
			}
			if at += 3600; at > 43200 {
				off := r.Ice()/exact.Front(at) - 1
				sum, count = sum+off*off, count+1
			}
		}
		errors = append(errors, math.Sqrt(sum/count))
	}
	falls(t, "depth of the front", errors, 2, 1)
}

// Step tolerances: the step's length goes with the root of the tolerance and the error of a second
// order method with the step's square, so it falls as fast as the tolerance does. Expected: the same
// row with a tolerance of 1e-6 K.
func TestOrderOfSteps(t *testing.T) {
	dry := wetSoil
	dry.Latent, dry.ConductivityFrozen, dry.HeatCapacityFrozen = 0, dry.ConductivityUnfrozen, dry.HeatCapacityUnfrozen
	march := func(tolerance float64) []float64 {
		r := slab(dry, 60, 12, sim.Stepping{Tolerance: tolerance, First: 1e-2, Longest: 1e9})
		wave := func(at float64) (float64, float64) { return 0.1, 5 - 10*math.Sin(2*math.Pi*at/86400) }
		if err := r.March(wave, 0, 4*86400); err != nil {
			t.Fatal(err)
		}
		var out []float64
		for i := range 60 {
			out = append(out, r.Temperature(i))
		}
		return out
	}
	want := march(1e-6)
	var errors []float64
	for _, tolerance := range []float64{0.1, 0.025, 0.00625, 0.0015625} {
		sum := 0.0
		for i, got := range march(tolerance) {
			sum += (got - want[i]) * (got - want[i]) / 60
		}
		errors = append(errors, math.Sqrt(sum))
	}
	falls(t, "temperature [K], steps twice halved each", errors, 2, 1.7)
}

// The program's own cell: the time of 90 % ice in a still pipe with its wall, on shells three times
// doubled and on four step tolerances. No exact solution is known. On shells the differences
// between neighbours must fall by the first order at least (where the front stands within its shell at 90 %
// weighs as much as the shells' number: 6, 12, 24 and 48 differ by 26, 7 and 18 s), and any number must come
// within 0.2 % of the finest; on steps, where the ice's way from shell to
// shell leaves a scatter, all must stay within a thousandth of the finest.
func TestOrderOfCell(t *testing.T) {
	film := 15.0
	wall := pipe.Material{Name: "PVC", Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	cell := oneCell{
		size: pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}, film: &film, start: 5, standing: 1,
		liquid: pipe.Still, weather: rows(20*3600, 1800, steady(-10)),
	}
	iced := func(s sim.Settings) float64 {
		r := cell.run(t, s).Segments[0]
		if r.Ice90 == nil {
			t.Fatal("90 % ice never reached")
		}
		return *r.Ice90
	}
	fine := sim.Stepping{Tolerance: 1e-3, First: 1, Longest: 30}
	var at, differences []float64
	for k := range 4 {
		at = append(at, iced(sim.Settings{Shells: sim.Shells{Water: 7 << k, Wall: 3}, Stepping: fine}))
		if k > 0 {
			differences = append(differences, math.Abs(at[k]-at[k-1]))
		}
	}
	falls(t, "time of 90 % ice on shells [s]", differences, 2, 1)
	for _, n := range []int{6, 9, 12, 24, 48} {
		off := iced(sim.Settings{Shells: sim.Shells{Water: n, Wall: 3}, Stepping: fine})/at[3] - 1
		t.Logf("%d shells: time of 90 %% ice %+.4f %% off", n, 100*off)
		if math.Abs(off) > 2e-3 {
			t.Errorf("%d shells: time of 90 %% ice off by %g; limit 0.002", n, off)
		}
	}
	finest := iced(sim.Settings{Stepping: fine})
	for _, tolerance := range []float64{0.4, 0.1, 0.025, 0.00625} {
		off := iced(sim.Settings{Stepping: sim.Stepping{Tolerance: tolerance}})/finest - 1
		t.Logf("tolerance %g K: time of 90 %% ice %+.4f %% off", tolerance, 100*off)
		if math.Abs(off) > 1e-3 {
			t.Errorf("tolerance %g K: time of 90 %% ice off by %g; limit 0.001", tolerance, off)
		}
	}
}
