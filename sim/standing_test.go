package sim_test

import (
	"math"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
	"winterline/weather"
)

// atRest reads a layout, and lets its line come to rest under cold air without snow.
func atRest(t *testing.T, text string, shut func(c sim.StandingCell) bool) []sim.StandingCell {
	t.Helper()
	l, profile := readLayout(t, text)
	s := &weather.Series{Source: "test", Start: recordStart, Time: []float64{0, 3600}, Air: []float64{-5, -5}}
	k, err := sim.NewCase("rest", l, profile, s, sim.Supply{Given: true})
	if err != nil {
		t.Fatal(err)
	}
	return sim.AtRest(k, shut)
}

// levelsAre checks the level beside every cell of a segment [m], upright cells apart, and that the
// cell holds the water of a circle's segment filled to it above its mid invert.
func levelsAre(t *testing.T, cells []sim.StandingCell, segment int, want func(c sim.StandingCell) float64) {
	t.Helper()
	seen := 0
	for _, c := range cells {
		if c.Segment != segment || c.Upright {
			continue
		}
		seen++
		level := want(c)
		if c.Level != level && math.Abs(c.Level-level) > 1e-9 {
			t.Errorf("segment %d, %.2f to %.2f m: level %.6f m; want %.6f", segment, c.X0, c.X1, c.Level, level)
		}
		if lying := math.Abs(c.Z1-c.Z0) <= 0.5*c.Length; lying {
			area := pipe.SegmentArea(c.Bore, level-(c.Z0+c.Z1)/2)
			if math.Abs(c.Mass-area*heat.WaterDensity) > 1e-9 {
				t.Errorf("segment %d, %.2f to %.2f m: %.6f kg/m; want %.6f", segment, c.X0, c.X1, c.Mass, area*heat.WaterDensity)
			}
		}
	}
	if seen == 0 {
		t.Errorf("segment %d has no lying cells", segment)
	}
}

// litres is what stands in a segment.
func litres(cells []sim.StandingCell, segment int) float64 {
	sum := 0.0
	for _, c := range cells {
		if c.Segment == segment && !c.Upright {
			sum += c.Mass * c.Length
		}
	}
	return sum / heat.WaterDensity * 1000
}

func is(level float64) func(sim.StandingCell) float64 {
	return func(sim.StandingCell) float64 { return level }
}

// openYard is a line of 10 m in the open, ending at level −0.2 m.
const openYard = `title = "yard"
[[segment]]
name = "yard"
pipe = "4 in D3034"
length = "10 m"
setting = "open-air"
[outlet]
kind = "open"
level = "-0.2 m"
`

// yard adds keys to it.
func yard(keys string) string {
	return strings.Replace(openYard, `setting = "open-air"`, `setting = "open-air"`+"\n"+keys, 1)
}

// A level pipe with a belly of 40 mm holds water to its end's invert, −0.2 m, all along. By hand,
// the depth at share s is 4s(1 − s)·40 mm, and the volume the integral of the segment's area over
// it (Simpson's rule); the cells take each half metre at one depth, within 1 %.
func TestStandingInASag(t *testing.T) {
	cells := atRest(t, yard("drop = \"0 m\"\nsag = \"40 mm\""), nil)
	levelsAre(t, cells, 0, is(-0.2))
	const n = 1000
	want := 0.0
	for i := range n + 1 {
		s := float64(i) / n
		w := []float64{2, 4}[i%2]
		if i == 0 || i == n {
			w = 1
		}
		want += w / 3 / n * 10 * pipe.SegmentArea(cells[0].Bore, 4*s*(1-s)*0.04) * 1000
	}
	near(t, "litres in the sag", litres(cells, 0), want, 0.01)
}

// With 1 % of fall the belly of 40 mm has its lowest point at s = 0.8125, and the water that the
// end at s = 1 holds back reaches up to s = 0.625 (0.16 s² − 0.26 s + 0.10 = 0): 6.25 m. Above that
// each cell's own lower end is its sill, and it is dry.
func TestStandingInASagOnAFall(t *testing.T) {
	cells := atRest(t, yard("drop = \"0.1 m\"\nsag = \"40 mm\""), nil)
	for _, c := range cells {
		wet := c.Mass > 0
		if mid := (c.X0 + c.X1) / 2; wet != (mid > 6.25) && math.Abs(mid-6.25) > 0.1 {
			t.Errorf("%.2f to %.2f m: %.4f kg/m; the pool begins at 6.25 m", c.X0, c.X1, c.Mass)
		}
	}
	levelsAre(t, cells, 0, func(c sim.StandingCell) float64 { return math.Max(-0.2, c.Z1) })
}

// A line that falls evenly to its end is dry.
func TestStandingOnAnEvenFall(t *testing.T) {
	if got := litres(atRest(t, yard("drop = \"0.1 m\""), nil), 0); got != 0 {
		t.Errorf("%g L stand in a line that falls to its end", got)
	}
}

// A stretch that rises by 30 mm before one that falls holds water to its crest; the one before it,
// which falls by 50 mm to its foot, holds it as far back as the crest's level reaches.
func TestStandingBeforeARise(t *testing.T) {
	cells := atRest(t, `title = "rise"
[[segment]]
name = "down"
pipe = "4 in D3034"
length = "5 m"
drop = "50 mm"
setting = "open-air"
[[segment]]
name = "up"
pipe = "4 in D3034"
length = "3 m"
rise = "30 mm"
setting = "open-air"
[[segment]]
name = "out"
pipe = "4 in D3034"
length = "4 m"
drop = "40 mm"
setting = "open-air"
[outlet]
kind = "open"
level = "0 m"
`, nil)
	const crest = 0.04 // of the last segment's fall, over its end at 0
	levelsAre(t, cells, 1, is(crest))
	levelsAre(t, cells, 0, func(c sim.StandingCell) float64 { return math.Max(crest, c.Z1) })
	levelsAre(t, cells, 2, func(c sim.StandingCell) float64 { return c.Z1 })
	if got := litres(cells, 2); got != 0 {
		t.Errorf("%g L stand behind the crest", got)
	}
}

// toLid is a house pipe into a standpipe, a buried line of 6 m and a lid at ground level; the line
// starts 0.45 m under ground (0.40 m of cover and the pipe) and falls by 60 mm.
const toLid = `title = "lid"
[site]
soil = "loam"
ground_slope = "0 %"
[basin]
floor_below_ground = "2 m"
check_valve = true
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2.9 m"
rise = "2.9 m"
setting = "indoor"
[[segment]]
name = "stub"
pipe = "1-1/2 in sch 40 PVC"
length = "0.5 m"
drop = "10 mm"
setting = "through-wall"
[[segment]]
name = "run"
pipe = "4 in D3034"
length = "6 m"
drop = "60 mm"
cover = ["0.40 m", "0.46 m"]
setting = "buried"
[standpipe]
after = "stub"
pipe = "4 in D3034"
house_pipe_end = "0.30 m"
rim = "0.35 m"
[[relief]]
at = "standpipe"
height = "0.15 m"
width = "50 mm"
opening_height = "20 mm"
[outlet]
kind = "lid"
level = "0 m"
`

// Behind a lid at ground level, 0 m, line and standpipe stand full to 0 m. Of the house pipe the
// stub falls to its open end and is dry, and the riser is held full by the check valve: its level
// is its own top, 0.30 m + 10 mm.
func TestStandingBehindALid(t *testing.T) {
	cells := atRest(t, toLid, nil)
	levelsAre(t, cells, 2, is(0))
	uprightLevel(t, cells, 0)
	levelsAre(t, cells, 1, func(c sim.StandingCell) float64 { return c.Z1 })
	levelsAre(t, cells, 0, is(0.31))
	bore := cells[0].Bore
	near(t, "litres in the riser", litres(cells, 0), math.Pi/4*bore*bore*2.9*1000, 1e-9)
}

// A weep slot in the elbow drains the line to its end's invert; what falls evenly to it is dry.
func TestStandingOverAWeepSlot(t *testing.T) {
	cells := atRest(t, strings.Replace(toLid, "level = \"0 m\"\n", "level = \"0 m\"\nweep = \"10 mm x 50 mm\"\n", 1), nil)
	if got := litres(cells, 2); got != 0 {
		t.Errorf("%g L stand in a line that a slot drains", got)
	}
}

// Ice that shuts the run in its middle leaves the water behind it at the lid's level; before it,
// and in the standpipe, water stands up to the relief opening's bottom, 0.15 m.
func TestStandingBeforeIce(t *testing.T) {
	plug := func(c sim.StandingCell) bool { return c.Segment == 2 && !c.Upright && c.X0 <= 3 && 3 < c.X1 }
	cells := atRest(t, toLid, plug)
	levelsAre(t, cells, 2, func(c sim.StandingCell) float64 {
		if c.X0 > 3 {
			return 0
		}
		return 0.15
	})
	for _, c := range cells {
		if c.Upright && c.X0 < 1 && math.Abs(c.Level-0.15) > 1e-9 {
			t.Errorf("standpipe, %.2f to %.2f m: level %g; want 0.15", c.Z0, c.Z1, c.Level)
		}
	}
}

// uprightLevel checks the level beside standpipe and riser to the lid, and that a slice holds
// water over the share of its height below it.
func uprightLevel(t *testing.T, cells []sim.StandingCell, level float64) {
	t.Helper()
	for _, c := range cells {
		if !c.Upright {
			continue
		}
		full := math.Pi / 4 * c.Bore * c.Bore * heat.WaterDensity
		share := math.Min(1, math.Max(0, (level-c.Z0)/(c.Z1-c.Z0)))
		if math.Abs(c.Level-level) > 1e-9 || math.Abs(c.Mass-share*full) > 1e-9 {
			t.Errorf("slice from %.3f to %.3f m: level %g, %g kg/m; want %g and %g", c.Z0, c.Z1, c.Level, c.Mass, level, share*full)
		}
	}
}

// glued is a line without a joint: a riser of 2.5 m in the house, then 4 m that fall to an open end.
func glued(valve string) string {
	return `title = "glued"
[basin]
floor_below_ground = "2 m"
check_valve = ` + valve + `
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2.5 m"
rise = "2.5 m"
setting = "indoor"
[[segment]]
name = "out"
pipe = "1-1/2 in sch 40 PVC"
length = "4 m"
drop = "40 mm"
setting = "open-air"
[outlet]
kind = "open"
level = "0 m"
`
}

// With a check valve the riser of a glued line stands full to its crest, 40 mm over the open end;
// without one it runs back into the basin. The line behind falls to its end and is dry either way.
func TestStandingInAGluedLine(t *testing.T) {
	held := atRest(t, glued("true"), nil)
	levelsAre(t, held, 0, is(0.04))
	bore := held[0].Bore
	near(t, "litres in the riser", litres(held, 0), math.Pi/4*bore*bore*2.5*1000, 1e-9)
	back := atRest(t, glued("false"), nil)
	for _, c := range append(held, back...) {
		if c.Segment == 1 && c.Mass != 0 {
			t.Errorf("%.2f to %.2f m behind the crest: %g kg/m; want none", c.X0, c.X1, c.Mass)
		}
	}
	if got := litres(back, 0); got != 0 {
		t.Errorf("%g L stand in a riser without a check valve", got)
	}
}
