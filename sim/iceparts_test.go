package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/heat"
)

// Ice on the ground shuts what it lies before when it is as thick as the edge, and lets go of it at nine tenths of that. When
// it does is read off straight between two looks.
func TestMoundShutsAndLetsGo(t *testing.T) {
	m := newMound("outlet", 2, 0.05)
	thick := func(h, at float64) (turned bool, when float64) {
		m.mass = 1000
		m.u, m.time = -h*heat.IceDensity*m.area*heat.Fusion, at
		return m.judge()
	}
	for _, c := range []struct {
		h, at  float64
		turned bool
		when   float64
	}{{0.03, 100, false, 0}, {0.07, 200, true, 150}, {0.046, 300, false, 0}, {0.044, 400, true, 350}, {0.049, 500, false, 0}} {
		turned, when := thick(c.h, c.at)
		if turned != c.turned {
			t.Errorf("%g m at %g s: turned %v", c.h, c.at, turned)
		}
		within(t, "when [s]", when, c.when, 1e-6)
	}
}

// The instant at which a cell shut lies straight between the steps that it fell between: of ice that grows evenly over
// 1000 s, at the share that blocks.
func TestShutWithinTheStep(t *testing.T) {
	c, _ := metreInAir(1, 0)
	w := &winter{}
	d := driveHead{head: 0.5, flow: 1e-3}
	blocked := c.blockingShare(0, 1, d)
	mass := c.mass * c.length
	c.tally.track = []icePoint{{0, 0, mass}, {400, 0.4 * mass, mass}, {1000, mass, mass}}
	if blocked < 0.5 {
		t.Fatalf("blocks at %g already", blocked)
	}
	within(t, "shut [s]", w.turnTime(c.cell, 1, d, 1000), 1000*blocked, 1e-6)
}

// In a rigid length the water that is left is squeezed by what ice swells: 0.0907 of the water frozen, over its own volume,
// by 5.1e-10 a pascal.
func TestTrappedWaterIsSqueezedByWhatFroze(t *testing.T) {
	c, _ := metreInAir(1, 0)
	plug, _ := metreInAir(1, 0)
	for i := range plug.mesh.water {
		plug.u[i] = plug.mesh.phase[i].enthalpy(-8)
	}
	plug.changed()
	w := &winter{line: &line{cells: []*cell{plug.cell, c.cell, plug.cell}}, shut: []bool{false, false, false}}
	left := c.mass * c.length
	x := &spell{frozen: 0.1 * left}
	w.squeeze(x, closedLength{from: 1, to: 2})
	within(t, "pressure [MPa]", x.Pressure/1e6, (999.84/916.7-1)*0.1/5.1e-10/1e6, 1e-9)
	if !x.Rigid || math.Abs(x.Coldest+8) > 1e-9 {
		t.Errorf("rigid %v, ice of %g °C beside it", x.Rigid, x.Coldest)
	}
}

// What has to leave for a cell to shut is the heat of fusion of what froze since the last warm water, not of ice that was there.
func TestHeatToShutIsOfNewIce(t *testing.T) {
	k := lastWarm{known: true, end: 100, standing: 10, ice: 2, above: 5e4}
	h := k.held(3700, 7)
	within(t, "heat to shut [J]", h.ToShut, 5*333427, 1e-6)
	within(t, "ice before", h.IceBefore, 0.2, 1e-12)
	within(t, "mean [°C]", h.Mean, 5e4/(8*4219), 1e-12)
	within(t, "loss [W]", h.Loss, (5e4+5*333427)/3600, 1e-9)
}

// Lots that follow at once are one run, whose water is told of together; after a pause a new one begins.
func TestLotsOfOneRun(t *testing.T) {
	c, _ := metreInAir(0, 5)
	lot := func(start, run, mass, u float64) WarmWater {
		p := passage{start: start, run: run}
		in := stream{{mass, u}}
		c.passed(p, arrives(p, in), in, 0, 0)
		return c.last.warm()
	}
	lot(0, 20, 10, 8)
	two := lot(20, 20, 30, 4)
	within(t, "temperature [°C]", two.Temperature, 5, 1e-12)
	within(t, "volume [L]", two.Volume*heat.WaterDensity, 40, 1e-9)
	later := lot(500, 20, 30, 4)
	within(t, "temperature of the next run [°C]", later.Temperature, 4, 1e-12)
	within(t, "volume of the next run [L]", later.Volume*heat.WaterDensity, 30, 1e-9)
}

// A rock pit of 1 m × 0.6 m × 0.5 m with 40 % of voids holds 0.18 m³ of stone; ground whose water, 20 % by volume of a
// pore space of 40 %, is all ice, drinks a thousandth of what it does thawed.
func TestPitInFrozenGround(t *testing.T) {
	w := demonstrated(t)
	p := w.k.Layout.Pocket
	within(t, "stone [J/K]", w.pocket.warmth.stone, p.Length*p.Width*p.Depth*(1-p.Void)*1.92e6, 1e-6)
	h := &pocketHeat{
		soil:   pipe.Soil{Latent: 0.2 * heat.WaterDensity * heat.Fusion, Porosity: 0.4},
		ground: &track{sky: &sky{time: []float64{0, 1e6}}, law: phase{plateau: 30, ratio: 1.2}, u: []float64{-40, -40}},
	}
	within(t, "share of the thawed rate", h.slowed(0), 1e-3, 1e-12)
}

// At the low end lenses grow by the ground's own water alone: of silt three quarters full, half of the class's potential.
func TestLowEndOfLensesIsOfOwnWater(t *testing.T) {
	soil := heaveSoil(t, "silt", 0.75)
	class, _ := FrostClassOf(soil.Texture)
	s, ok := newSlice(soil)
	if !ok || class.Low <= 0 {
		t.Fatalf("class %+v", class)
	}
	share := (saturationOf(soil) - lensesNone) / (lensesFull - lensesNone)
	if share < 0.1 || share > 0.9 {
		t.Fatalf("share %g does not show it", share)
	}
	within(t, "low end", s.potential[0], class.Low*share, 1e-18)
	within(t, "high end", s.potential[1], class.High, 0)
}

// Before a rise at its far end water stands all along a level run: its first point counts for half a stretch, its last is
// the rise itself.
func TestPoolBeforeARise(t *testing.T) {
	var inverts points
	const bore, rise = 0.1, 0.04
	inverts[fallPoints] = rise
	area := pipe.SegmentArea(bore, rise) * (fallPoints - 0.5)
	within(t, "water", poolArea(&inverts, bore), area, 1e-12)
	if bound := poolBound(&inverts, bore); bound < area || bound > 1.1*area {
		t.Errorf("bound %g of %g", bound, area)
	}
}
