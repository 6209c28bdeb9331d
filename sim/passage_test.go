package sim

import (
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// metreInAir is a metre of 2 in pipe in still air of −15 °C, all of it at one temperature [°C].
func metreInAir(fill, start float64) (*OpenCell, *OpenAir) {
	air := NewOpenAir(&weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC), Time: []float64{0, 864000}, Air: []float64{-15, -15}})
	wall := pipe.Material{Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	c := air.Pipe(pipe.Segment{Size: pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}}, start, Shells{})
	c.even = &evenFlow{bore: c.bore, manning: 0.009, fall: 0.01}
	c.Begin(fill, start)
	return c, air
}

// freezeShells makes shares of the standing water's shells ice, from the core outwards.
func (c *cell) freezeShells(ice func(i int) float64) {
	for i := range c.mesh.water {
		c.u[i] = -ice(i) * c.mesh.phase[i].plateau
	}
	c.changed()
}

// Water that runs over a bare bed gives C (1 − exp(−UA/C)) for each kelvin at the inlet (uniform wall temperature, as in
// Incropera and DeWitt, from memory): film and the wall's inner half in series over what it wets, and no more.
func TestRunningWaterByHand(t *testing.T) {
	c, air := metreInAir(0, 1)
	const rate = 2e-5
	p := passage{rate: rate, area: 0.3 * c.boreArea()}
	e, _ := c.washEnds(air.sky, p, parcel{1, 6}, c.mesh.water, 10)
	wetted := pipe.WettedPerimeter(c.bore, pipe.SegmentDepth(c.bore, p.area))
	film := heat.FilmInside(6, 4*p.area/wetted, 1, rate/p.area)
	ring := c.mesh.inLiquid[c.mesh.water] * math.Pi * c.bore / wetted
	carries := heat.WaterDensity * rate * heat.LiquidHeat
	want := carries * -math.Expm1(-1/(1/(film*wetted)+ring)/carries)
	within(t, "heat given for each kelvin [W/K]", e.tieG, want, 1e-9*want)
}

// Slush of which half is ice can freeze but its other half to a cold bed.
func TestRunningSlushByHand(t *testing.T) {
	c, air := metreInAir(0.3, -5)
	for i := range c.mesh.water {
		c.u[i] = c.mesh.phase[i].enthalpy(-5)
	}
	const rate = 1e-9
	e, _ := c.washEnds(air.sky, passage{rate: rate, area: 0.1 * c.boreArea()}, parcel{1, -fusion / 2}, 0, 10)
	want := heat.WaterDensity * rate * heat.Fusion / 2
	within(t, "heat given to the bed [W]", e.tieG*5*c.share*c.length, want, 1e-9*want)
}

// How fast water runs follows from what comes and how long it takes, whatever the pump sent out.
func TestRunningWaterIsWhatComes(t *testing.T) {
	var left [2]float64
	for i, sent := range []float64{1e-4, 4e-4} {
		c, air := metreInAir(0, -8)
		in := stream{{5, 6}}
		if err := c.wash(air.step, air.sky, passage{run: 50, rate: sent}, in, c.mesh.water); err != nil {
			t.Fatal(err)
		}
		left[i] = in[0].u
	}
	if left[0] != left[1] || left[0] >= 6 || left[0] < 0 {
		t.Errorf("5 L in 50 s come out at %g and %g °C", left[0], left[1])
	}
}

// Shells with a trace of loose ice run with the water; the first that holds more is bed.
func TestBedIsWhatHoldsIce(t *testing.T) {
	c, _ := metreInAir(1, 0)
	for _, x := range []struct {
		inner float64
		first int
	}{{0.015, 6}, {0.025, 0}} {
		c.freezeShells(func(i int) float64 {
			if i < 6 {
				return x.inner
			}
			return 0.8
		})
		if got := c.bedStart(); got != x.first {
			t.Errorf("inner shells of %g ice: the bed begins with shell %d; want %d", x.inner, got, x.first)
		}
	}
}

// The sheet of ice over a pool is as thick as its ice over its free surface, and stands between water and air.
func TestSheetOverAPool(t *testing.T) {
	c, _ := metreInAir(0.4, 0)
	c.freezeShells(func(i int) float64 {
		if i < 3 {
			return 1
		}
		return 0
	})
	area := 0.4 * c.boreArea()
	width := pipe.TopWidth(c.bore, pipe.SegmentDepth(c.bore, area))
	want := area * (c.mesh.part[0] + c.mesh.part[1] + c.mesh.part[2]) / width
	node, sheet := c.surfaceSheet()
	if node != 3 {
		t.Errorf("the sheet ends at shell %d; want 3", node)
	}
	within(t, "thickness [m]", sheet, want, 1e-9)
	e := ends{}
	c.tieToAir(&e)
	within(t, "conductance to the air [W/(m K)]", e.tieG*c.share, width/(1/5.0+want/2.16), 1e-9)
}

// Over a pool the air meets its surface and the wall that the pool leaves bare.
func TestAirMeetsPoolAndWall(t *testing.T) {
	c, _ := metreInAir(0.4, 4)
	area := 0.4 * c.boreArea()
	depth := pipe.SegmentDepth(c.bore, area)
	dry := math.Pi*c.bore - pipe.WettedPerimeter(c.bore, depth)
	wall := c.mesh.inLiquid[c.mesh.water] * math.Pi * c.bore / dry
	want := 1/(1/(5*dry)+wall) + 5*pipe.TopWidth(c.bore, depth)
	got, at := c.meets()
	within(t, "conductance [W/K]", got, want, 1e-9)
	within(t, "temperature [°C]", at, 4, 1e-12)
}
