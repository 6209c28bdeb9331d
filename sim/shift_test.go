package sim_test

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// shiftedCase is a case that takes everything from the weather that a case can take: rain that the air makes snow of, sun
// that drives the ground, water as warm as the ground beside the basin, and a roof.
func shiftedCase(t *testing.T) *sim.Case {
	t.Helper()
	s := first(inventedWinter(3), 20*24)
	s.Start = s.Start.AddDate(0, 3, 0) // when the ground beside the basin is colder than its annual mean, and decides
	s.SnowDepth = nil                  // worked out from rain and air
	for i := range s.Time {
		hour := i % 24
		s.Rain = append(s.Rain, 0)
		if i%31 == 0 {
			s.Rain[i] = 2e-3
		}
		s.Sun = append(s.Sun, 300*math.Max(0, math.Sin(math.Pi*float64(hour-8)/8)))
	}
	k := scenarioCase(t, "downspout-joins")
	layout := *k.Layout
	basin := *layout.Basin
	basin.WaterTemperature = nil
	layout.Basin, layout.Site.Surface = &basin, pipe.Grass
	out, err := sim.NewCase("shifted", &layout, k.Profile, s, sim.Supply{})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func felt(t *testing.T, k *sim.Case) *sim.Felt {
	t.Helper()
	f, err := sim.FeltBy(k)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A shift moves air, dew point and sky, and nothing else that a winter takes from its weather: each by itself.
func TestShiftMovesAirAlone(t *testing.T) {
	k := shiftedCase(t)
	was := felt(t, k)
	for _, by := range []float64{-8, 5} {
		is := felt(t, k.Warmer(by))
		for _, c := range []struct {
			what   string
			a, b   []float64
			change float64
		}{
			{"air", was.Air, is.Air, by},
			{"dew point", was.DewPoint, is.DewPoint, by},
			{"wind", was.Wind, is.Wind, 0},
			{"snow depth", was.Snow, is.Snow, 0},
			{"snow density", was.Density, is.Density, 0},
			{"rain off the roof", was.Rain, is.Rain, 0},
			{"melt off the roof", was.Melt, is.Melt, 0},
			{"temperature of arriving water", was.Arriving, is.Arriving, 0},
			{"stress of the root zone", was.Stress, is.Stress, 0},
			{"lack of water in the root zone", was.Lack, is.Lack, 0},
		} {
			if len(c.a) == 0 || len(c.a) != len(c.b) {
				t.Fatalf("%s: %d and %d values", c.what, len(c.a), len(c.b))
			}
			if slices.Min(c.a) == slices.Max(c.a) && c.what != "snow depth" && !strings.Contains(c.what, "root zone") {
				t.Errorf("%s: always %g, which shows nothing", c.what, c.a[0])
			}
			for i := range c.a {
				if c.b[i] != c.a[i]+c.change {
					t.Errorf("%s, row %d: %g; want %g", c.what, i, c.b[i], c.a[i]+c.change)
					break
				}
			}
		}
		for i := range was.Sky {
			if d := is.Sky[i] - was.Sky[i]; d*by <= 0 || math.Abs(d) < 0.5*math.Abs(by) || math.Abs(d) > 2*math.Abs(by) {
				t.Fatalf("sky, row %d: moved by %g K for %g K of air", i, d, by)
			}
		}
	}
	// Weather that is so cold by itself has other snow, other rain and other water: the checks above can fail.
	cold := *k.Weather
	cold.Air = sim.ShiftedWeather(k.Weather, -8).Air
	other, err := sim.NewCase("cold", k.Layout, k.Profile, &cold, sim.Supply{})
	if err != nil {
		t.Fatal(err)
	}
	is := felt(t, other)
	for what, pair := range map[string][2][]float64{"snow": {was.Snow, is.Snow}, "rain": {was.Rain, is.Rain}, "melt": {was.Melt, is.Melt}, "water": {was.Arriving, is.Arriving}, "lack": {was.Lack, is.Lack}} {
		if slices.Equal(pair[0], pair[1]) {
			t.Errorf("%s: the same in a colder record", what)
		}
	}
}

// Roof water is as warm as the recorded air, and there is as much of it.
func TestShiftLeavesRoofWater(t *testing.T) {
	k := shiftedCase(t)
	a, b := mustRun(t, k.Warmer(4)), mustRun(t, k.Warmer(5))
	if a.Ledger.Extra != b.Ledger.Extra || a.Ledger.Extra == 0 {
		t.Errorf("%g and %g m³ off the roof", a.Ledger.Extra, b.Ledger.Extra)
	}
	warmth := func(r *sim.Result) float64 {
		i := slices.IndexFunc(r.Balance.Terms, func(x sim.HeatTerm) bool { return x.Name == "with water that joined from elsewhere" })
		return r.Balance.Terms[i].In
	}
	if warmth(a) != warmth(b) || warmth(a) == 0 {
		t.Errorf("with %g and %g J", warmth(a), warmth(b))
	}
}

// The ground begins the record as it would without a shift, with the same years before it, and feels the shift from then on.
func TestShiftedGroundStartsAsRecorded(t *testing.T) {
	k := shiftedCase(t)
	a, b := mustRun(t, k).Ground, mustRun(t, k.Warmer(-8)).Ground
	if a.SpinUpYears != b.SpinUpYears || a.SpinUpYears == 0 {
		t.Errorf("spin-up of %d and %d years", a.SpinUpYears, b.SpinUpYears)
	}
	for i, track := range a.Tracks {
		other := b.Tracks[i].Temp
		if track.Temp[0] != other[0] {
			t.Errorf("%g m at the first row: %g and %g °C", track.Depth, track.Temp[0], other[0])
		}
		if last := len(other) - 1; track.Depth < 0.3 && other[last] > track.Temp[last]-1 {
			t.Errorf("%g m at the last row: %g °C, and %g °C in air 8 K colder", track.Depth, track.Temp[last], other[last])
		}
	}
}

// A line in the open, with water of a written temperature, feels nothing but the air: shifting it is the same as
// writing other air into the record.
func TestShiftIsOtherAirInTheOpen(t *testing.T) {
	s := first(inventedWinter(1), 15*24)
	s.SnowDepth, s.Cloud = nil, nil
	text := strings.NewReplacer(`setting = "buried"`, `setting = "open-air"`, `cover = "30 cm"`, "", `kind = "lid"`, `kind = "open"`).Replace(openLine)
	k := caseOf(t, text, s, sim.Supply{})
	written := caseOf(t, text, sim.ShiftedWeather(s, -6), sim.Supply{})
	a, b := mustRun(t, k.Warmer(-6)), mustRun(t, written)
	if a.Verdict.FirstIce == nil {
		t.Error("no ice, which shows nothing")
	}
	a.Ground, b.Ground = nil, nil
	if where := difference(reflect.ValueOf(*a), reflect.ValueOf(*b), "Result"); where != "" {
		t.Errorf("differs in %s", where)
	}
}

// openLine is a short line in the open that keeps puddles.
const openLine = `[site]
soil = "clay"
soil_moisture = "20 %"
ground_mean = "8 degC"
ground_swing = "6 K"
surface = "bare"
snow_on_line = "cleared"
wind_exposure = 0.4
room_temperature = "18 degC"
[[segment]]
name = "yard run"
pipe = "3 in sch 40 PVC"
length = "6 m"
drop = "6 mm"
setting = "buried"
cover = "30 cm"
[outlet]
kind = "lid"
[water]
cycles = "every 8 h for 45 s"
water_temperature = "8 degC"
`

// Recorded radiation of the sky changes as that which is worked out does, and never outshines a black body of the air.
func TestShiftedLongWave(t *testing.T) {
	s := first(inventedWinter(2), 10*24)
	computed := sim.SkyRadiation(s)
	s.LongWave = computed
	shifted := sim.ShiftedWeather(s, -12)
	bare := *shifted
	bare.LongWave = nil
	for i, want := range sim.SkyRadiation(&bare) {
		if got := shifted.LongWave[i]; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("row %d: %g W/m²; want %g", i, got, want)
		}
	}
	dry := *s
	dry.DewPoint = nil
	shifted = sim.ShiftedWeather(&dry, -12)
	for i, v := range shifted.LongWave {
		if black := 5.670374419e-8 * math.Pow(shifted.Air[i]+273.15, 4); v >= black || v <= 0 { // constant: CODATA 2018
			t.Fatalf("row %d: %g W/m² under air that shines with %g as a black body", i, v, black)
		}
	}
	if same := sim.ShiftedWeather(s, 0); same != s {
		t.Error("no shift makes another record")
	}
}

// Shifted winters come out the same whether they share their ground or not, and share what a shift leaves alone.
func TestShiftedGroundShared(t *testing.T) {
	k := shiftedCase(t)
	store := sim.NewGroundStore()
	for _, by := range []float64{-4, 0, 3, -4} {
		alone := mustRun(t, k.Warmer(by))
		shared, err := sim.Run(context.Background(), k.Warmer(by), sim.Settings{Ground: store})
		if err != nil {
			t.Fatal(err)
		}
		if where := difference(reflect.ValueOf(*alone), reflect.ValueOf(*shared), "Result"); where != "" {
			t.Errorf("%g K: differs in %s", by, where)
		}
	}
	if n := store.Courses(); n != 3 {
		t.Errorf("%d courses; want one a shift", n)
	}
}
