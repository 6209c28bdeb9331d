package sim_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// A line of 10 m of smooth pipe of 0.1 m bore, open at both ends, one 1 m above the other; air at
// 10 °C inside, for its walls are, and −10 °C outdoors.
//
// By hand: ideal gas, densities 353.05/T: 1.3416 and 1.2469 kg/m³; stack 9.80665 · 1 · 0.0947 =
// 0.929 Pa. Kinematic viscosity at −10 °C 1.24e-5 m²/s. Blasius f = 0.316/Re^0.25. At 0.50 m/s:
// Re 4060, f 0.0396; (1.5 + 0.0396 · 10/0.1) · 1.3416/2 · 0.505² = 0.934 Pa.
// With 3 m/s of wind and 0.3: 0.3 · 1.3416/2 · 9 = 1.811 Pa more, 2.740 Pa. At 0.91 m/s: Re 7370,
// f 0.0341; (1.5 + 3.41) · 0.6708 · 0.912² = 2.739 Pa.
func TestDraughtAgainstHandCalculation(t *testing.T) {
	const plenty = 1e6 // W/K: the air takes the wall's temperature
	way := sim.NewAirway(1, 1.5, sim.AirReach{Length: 10, Bore: 0.1, Conductance: plenty, Wall: 10})
	for _, c := range []struct{ wind, want float64 }{{0, 0.504}, {1.811, 0.912}} {
		if got := way.Speed(-10, c.wind); math.Abs(got-c.want) > 0.015*c.want {
			t.Errorf("wind pressure %.3f Pa: %.4f m/s; want %.3f", c.wind, got, c.want)
		}
	}
	// The lower end above the upper one is the same way turned over.
	if up, down := way.Speed(-10, 0), sim.NewAirway(-1, 1.5, sim.AirReach{Length: 10, Bore: 0.1, Conductance: plenty, Wall: 10}).Speed(-10, 0); up != down {
		t.Errorf("%g m/s one way up, %g the other", up, down)
	}
	if got := way.Speed(10, 0); got != 0 {
		t.Errorf("%g m/s without wind or difference of temperature", got)
	}
}

// The same flow is found from whichever flow the search sets out, and it is the one that scaling finds.
func TestDraughtFromAnyFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var reaches []sim.AirReach
		for range rapid.IntRange(1, 12).Draw(t, "reaches") {
			reaches = append(reaches, sim.AirReach{
				Length: rapid.Float64Range(0.1, 3).Draw(t, "length"), Bore: rapid.Float64Range(0.02, 0.15).Draw(t, "bore"),
				Conductance: rapid.Float64Range(0, 5).Draw(t, "conductance"), Wall: rapid.Float64Range(-10, 15).Draw(t, "wall"),
			})
		}
		way := sim.NewAirway(rapid.Float64Range(0, 3).Draw(t, "height"), 1.5, reaches...)
		outdoors, wind := rapid.Float64Range(-40, -10.5).Draw(t, "outdoors"), rapid.Float64Range(1e-3, 5).Draw(t, "wind")
		near := math.Pow(10, rapid.Float64Range(-7, 1).Draw(t, "lg near"))
		got, want := way.Flow(outdoors, wind, near), way.ScaledFlow(outdoors, wind)
		if math.Abs(got-want) > 1e-3*want {
			t.Fatalf("%g m³/s from %g; scaling finds %g", got, near, want)
		}
	})
}

// In a pipe of constant wall temperature the air's difference falls as exp(−hPx/(ṁ c)); its mean
// over a stretch is that function's integral. Halves and thirds of the pipe must not
// matter, and what the air loses is what the walls gain.
func TestAirAlongAPipeIsExponential(t *testing.T) {
	const outdoors, wall, conductance, rate = -20.0, 3.0, 18.0, 7.0 // W/K
	for _, n := range []int{1, 2, 3, 40} {
		var reaches []sim.AirReach
		for range n {
			reaches = append(reaches, sim.AirReach{Length: 10 / float64(n), Bore: 0.1, Conductance: conductance / float64(n), Wall: wall})
		}
		units := conductance / rate
		gained := 0.0
		for i, got := range sim.NewAirway(1, 1.5, reaches...).Means(outdoors, rate) {
			a, b := units*float64(i)/float64(n), units*float64(i+1)/float64(n)
			want := wall + (outdoors-wall)*(math.Exp(-a)-math.Exp(-b))/(b-a)
			if math.Abs(got-want) > 1e-10 {
				t.Errorf("reach %d of %d: %.9f °C; want %.9f", i, n, got, want)
			}
			gained += conductance / float64(n) * (got - wall)
		}
		if lost := rate * (outdoors - wall) * (1 - math.Exp(-units)); math.Abs(gained-lost) > 1e-10*math.Abs(lost) {
			t.Errorf("%d reaches: walls gain %.9f W, air loses %.9f", n, gained, lost)
		}
	}
}

// draughtLine is a glued line in the open with a relief opening near the house, `fall` lower at
// its open end, 4 in wide and 10 m long.
const draughtLine = `title = "draught"
[site]
wind_exposure = 1
wind_pressure_coefficient = %g
[[segment]]
name = "stub"
pipe = "4 in D3034"
length = "0.5 m"
drop = "0.01 m"
setting = "open-air"
[[segment]]
name = "yard"
pipe = "4 in D3034"
length = "10 m"
drop = "%g m"
sag = "%g m"
setting = "open-air"
start_temperature = "%g degC"
[[relief]]
at = "stub"
height = "0.3 m"
width = "100 mm"
opening_height = "80 mm"
snow_factor = 1
[outlet]
kind = "open"
level = "%g m"
`

// draughtCase is that line under steady weather.
type draughtCase struct {
	coefficient, fall, sag, wall, level float64
	air, wind, snow                     float64
}

// fairDraught is a line with a good draught in winter.
var fairDraught = draughtCase{coefficient: 0.3, fall: 0.6, wall: 5, level: -0.7, air: -10, wind: 3}

func (c draughtCase) make(t *testing.T) *sim.Case {
	t.Helper()
	l, profile := readLayout(t, fmt.Sprintf(draughtLine, c.coefficient, c.fall, c.sag, c.wall, c.level))
	s := &weather.Series{Source: "test", Start: recordStart}
	for i := range 25 {
		s.Time, s.Air = append(s.Time, 3600*float64(i)), append(s.Air, c.air)
		s.Wind, s.SnowDepth = append(s.Wind, c.wind), append(s.SnowDepth, c.snow)
	}
	k, err := sim.NewCase("draught", l, profile, s, sim.Supply{Given: true})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func (c draughtCase) drawn(t *testing.T) (float64, []sim.LyingCell) {
	t.Helper()
	speed, cells, err := sim.DrawnAir(c.make(t))
	if err != nil {
		t.Fatal(err)
	}
	return speed, cells
}

// The model's own range for a 4 in line that is open at both ends: 0.4 to 1 m/s.
func TestDraughtOfAnOpenLine(t *testing.T) {
	speed, _ := fairDraught.drawn(t)
	if speed < 0.4 || speed > 1 {
		t.Errorf("%.3f m/s; want 0.4 to 1", speed)
	}
}

// Cold air falls in at the low end while the line is warmer than the air, and at the high one
// while it is colder; the air there is nearest to that outdoors.
func TestDraughtTurnsWithTheSeason(t *testing.T) {
	for _, c := range []struct {
		name      string
		wall, air float64
		atOutlet  bool
	}{
		{"warm line", 5, -10, true},
		{"cold line", 2, 25, false},
	} {
		x := fairDraught
		x.wall, x.air = c.wall, c.air
		speed, cells := x.drawn(t)
		first, last := cells[0], cells[len(cells)-1]
		if speed <= 0 {
			t.Errorf("%s: no draught", c.name)
		}
		if atOutlet := math.Abs(last.Air-c.air) < math.Abs(first.Air-c.air); atOutlet != c.atOutlet {
			t.Errorf("%s: %.2f °C at the house, %.2f °C at the outlet, %.0f °C outdoors", c.name, first.Air, last.Air, c.air)
		}
		for i, cell := range cells {
			if cell.Air < math.Min(c.air, c.wall)-1e-9 || cell.Air > math.Max(c.air, c.wall)+1e-9 {
				t.Errorf("%s: cell %d: air %.3f °C is not between %g outdoors and %g at the wall", c.name, i, cell.Air, c.air, c.wall)
			}
		}
	}
}

func TestDraughtRisesWithWindAndHeight(t *testing.T) {
	last := -1.0
	for _, wind := range []float64{0, 1, 3, 8} {
		x := fairDraught
		x.wind = wind
		speed, _ := x.drawn(t)
		if speed <= last {
			t.Errorf("%.3f m/s in %g m/s of wind, %.3f in less", speed, wind, last)
		}
		last = speed
	}
	last = -1
	for _, fall := range []float64{0.1, 0.4, 0.8} {
		x := fairDraught
		x.wind, x.fall, x.level = 0, fall, -0.1-fall
		speed, _ := x.drawn(t)
		if speed <= last {
			t.Errorf("%.3f m/s with %g m of fall, %.3f with less", speed, fall, last)
		}
		last = speed
	}
	calm, windy := fairDraught, fairDraught
	calm.wind, windy.coefficient = 0, 0
	a, _ := calm.drawn(t)
	if b, _ := windy.drawn(t); a != b {
		t.Errorf("%g m/s in a calm, %g in wind that is switched off", a, b)
	}
}

// A sag of 0.3 m in a pipe of 0.1 m that falls 0.1 m over its length holds water up to the crown,
// one of 0.08 m does not; snow over the relief opening shuts the only opening at the house.
func TestDraughtStops(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(c *draughtCase)
		stops  bool
	}{
		{"sag full to the crown", func(c *draughtCase) { c.fall, c.sag, c.level = 0.1, 0.3, -0.2 }, true},
		{"sag part full", func(c *draughtCase) { c.fall, c.sag, c.level = 0.1, 0.08, -0.2 }, false},
		{"relief under snow", func(c *draughtCase) { c.snow = 0.4 }, true},
		{"relief half under snow", func(c *draughtCase) { c.snow = 0.34 }, false},
	} {
		x := fairDraught
		c.change(&x)
		speed, _ := x.drawn(t)
		if (speed == 0) != c.stops {
			t.Errorf("%s: %.3f m/s", c.name, speed)
		}
		r, err := sim.Run(context.Background(), x.make(t), sim.Settings{})
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if d := r.Draught; d == nil || (d.Hours == 0) != c.stops || (d.Greatest == 0) != c.stops || d.Mean > d.Greatest+1e-12 {
			t.Errorf("%s: %+v", c.name, d)
		}
	}
	half, free := fairDraught, fairDraught
	half.snow = 0.34
	a, _ := half.drawn(t)
	if b, _ := free.drawn(t); a >= b {
		t.Errorf("%.3f m/s with the opening half under snow, %.3f with all of it free", a, b)
	}
}

// Nothing is drawn where one end is shut: a lid without a slot, a line without any opening at the
// house.
func TestDraughtNeedsTwoEnds(t *testing.T) {
	text := fmt.Sprintf(draughtLine, 0.3, 0.6, 0.0, 5.0, -0.7)
	relief := text[strings.Index(text, "[[relief]]"):strings.Index(text, "[outlet]")]
	for name, text := range map[string]string{
		"shut lid": strings.ReplaceAll(text, "kind = \"open\"\nlevel = \"-0.7 m\"", "kind = \"lid\"\nlevel = \"-0.605 m\""),
		"glued":    strings.ReplaceAll(text, relief, ""),
	} {
		l, profile := readLayout(t, text)
		s := &weather.Series{Source: "test", Start: recordStart, Time: []float64{0, 3600}, Air: []float64{-5, -5}}
		k, err := sim.NewCase(name, l, profile, s, sim.Supply{Given: true})
		if err != nil {
			t.Fatal(err)
		}
		speed, _, err := sim.DrawnAir(k)
		if err != nil || speed != 0 {
			t.Errorf("%s: %g m/s, %v", name, speed, err)
		}
	}
}

func TestDraughtDoesNotAllocate(t *testing.T) {
	n, err := sim.NoAllocations(fairDraught.make(t), func(f func()) float64 { return testing.AllocsPerRun(20, f) })
	if err != nil || n != 0 {
		t.Errorf("%g allocations, %v", n, err)
	}
}

// buriedDraught is a buried line behind a standpipe, drained but for its sag.
const buriedDraught = `title = "buried"
[site]
soil = "sand"
ground_mean = "8 degC"
ground_swing = "5 K"
surface = "bare"
wind_exposure = 0.4
wind_pressure_coefficient = 0.3
[site.soil_override]
saturated_conductivity = "200 mm/h"
[[segment]]
name = "stub"
pipe = "1-1/2 in sch 40 PVC"
length = "0.5 m"
drop = "0.01 m"
setting = "through-wall"
[[segment]]
name = "yard"
pipe = "4 in D3034"
length = "8 m"
drop = "%g m"
sag = "%g m"
setting = "buried"
cover = "0.3 m"
[standpipe]
after = "stub"
pipe = "4 in D3034"
house_pipe_end = "0.35 m"
rim = "0.4 m"
[outlet]
`

// buriedCase runs it for ten cold days with a short pump run now and then, to daylight or to a lid.
func buriedCase(t *testing.T, open bool, fall, sag float64) *sim.Case {
	t.Helper()
	end := "kind = \"lid\"\nlevel = \"0.02 m\"\nweep = \"6 mm x 50 mm\"\n[pocket]\nlength = \"1 m\"\nwidth = \"1 m\"\ndepth = \"0.6 m\"\nvoid = \"40 %\"\n"
	if open {
		end = "kind = \"open\"\n"
	}
	l, profile := readLayout(t, fmt.Sprintf(buriedDraught, fall, sag)+end)
	s := &weather.Series{Source: "test", Start: recordStart}
	for i := range 241 {
		s.Time, s.Air, s.Wind = append(s.Time, 3600*float64(i)), append(s.Air, -12), append(s.Wind, 4)
	}
	temp := 6.0
	l.Water.Temperature = &temp
	k, err := sim.NewCase("buried", l, profile, s, sim.Supply{Cycles: []pipe.Cycle{{Start: s.Stamp(1800), Run: 60, Flow: 5e-4}}, Given: true})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// coldestWall is the lowest temperature of the bore's wall [°C].
func coldestWall(cells []sim.LyingCell) float64 {
	low := math.Inf(1)
	for _, c := range cells {
		low = math.Min(low, c.Wall)
	}
	return low
}

// The same drained line gets colder walls with an open outlet than under a shut lid, whose slot
// passes little air.
func TestOpenOutletCoolsADrainedLine(t *testing.T) {
	_, open, err := sim.AfterRun(buriedCase(t, true, 0.08, 0))
	if err != nil {
		t.Fatal(err)
	}
	_, lid, err := sim.AfterRun(buriedCase(t, false, 0.08, 0))
	if err != nil {
		t.Fatal(err)
	}
	if a, b := coldestWall(open), coldestWall(lid); a > b-1 {
		t.Errorf("coldest wall %.2f °C with an open outlet, %.2f °C under a lid", a, b)
	}
}

// A sag whose pool is half full freezes earlier with an open outlet; one that is full to the crown
// stops the draught.
func TestSagFreezesEarlierWithAnOpenOutlet(t *testing.T) {
	run := func(open bool, sag float64) *sim.Result {
		r, err := sim.Run(context.Background(), buriedCase(t, open, 0.08, sag), sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	open, lid, full := run(true, 0.07), run(false, 0.07), run(true, 0.3)
	a, b := open.Segments[1].FirstIce, lid.Segments[1].FirstIce
	if a == nil || b == nil || *a > *b-6*3600 {
		t.Errorf("first ice %v s with an open outlet, %v s under a lid", a, b)
	}
	if full.Draught.Hours > 0 {
		t.Errorf("a sag full to the crown: draught %+v", *full.Draught)
	}
	if c := full.Segments[1].FirstIce; c == nil || *c < *b {
		t.Errorf("first ice %v s in a sag full to the crown, %v s in a part-full one under a lid", c, b)
	}
}

// A lying pipe leaves the air what the water does not fill; water in an upright one of 0.1 m shuts
// it from a depth of 0.1 m on: 0.67 of a slice of 0.15 m.
func TestWaterLeavesTheAirAWay(t *testing.T) {
	for _, c := range []struct {
		fill     float64
		vertical bool
		want     float64
	}{
		{0, false, 1}, {0.3, false, 0.7}, {0.95, false, 0.05}, {1, false, 0},
		{0, true, 1}, {0.6, true, 1}, {0.7, true, 0}, {1, true, 0},
	} {
		if got := sim.FreeBore(0.1, c.fill, c.vertical); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("filled to %g, upright %t: %.9f of the bore is free; want %g", c.fill, c.vertical, got, c.want)
		}
	}
}
