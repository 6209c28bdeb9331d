package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// A pool frozen through raises the bed for what comes after it to the top of its ice, 9.07 % more than the water was; one that
// is not leaves it at the invert.
func TestFrozenPoolRaisesTheBed(t *testing.T) {
	c, _ := metreInAir(0.4, 0)
	c.z0, c.z1 = 0.31, 0.30
	for _, x := range []struct{ ice, depth float64 }{{0.98, 0}, {1, pipe.SegmentDepth(c.bore, 0.4*c.boreArea()*999.84/916.7)}} {
		c.freezeShells(func(int) float64 { return x.ice })
		within(t, "bed [m]", c.bedLevel(), max(0.31, 0.305+x.depth), 1e-9)
	}
}

// Water behind the joint runs back over what lies highest on its way: the way out at the joint, an invert, or a frozen pool.
func TestWaterRunsBackOverTheHighest(t *testing.T) {
	at := func(z, ice float64) *cell {
		c, _ := metreInAir(0.4, 0)
		c.z0, c.z1 = z, z
		c.freezeShells(func(int) float64 { return ice })
		return c.cell
	}
	frozen := at(0.48, 1)
	l := &line{jointAt: 1, standFrom: 1, standTo: 2, cells: []*cell{at(0.6, 0), at(0.2, 0), at(0.3, 0), frozen, at(0.1, 0)}}
	ceiling := make([]float64, len(l.cells))
	l.backTo(ceiling, rest{lip: 0.45, plugs: plugs{house: -1, first: -1, run: -1}})
	for i, want := range []float64{0, 0.45, 0.45, 0.48, frozen.bedLevel()} {
		within(t, "ceiling [m]", ceiling[i], want, 1e-12)
	}
	if frozen.bedLevel() <= 0.49 {
		t.Fatalf("the frozen pool's bed at %g m does not show it", frozen.bedLevel())
	}
}

// The float's pump lifts from half way between its levels: 40 cm over a bottom 1.9 m under the ground to a crest 30 cm over it makes
// 1.8 m; a curve that falls straight from 2 L/s to nothing at 8 m gives 1.55 L/s through a wide pipe.
func TestFloatPumpLiftsFromHalfWay(t *testing.T) {
	l := &pipe.Layout{
		Basin:    &pipe.Basin{Area: 0.2, BottomBelowFloor: 0.7, FloorBelowGround: 1.2, FloatOn: 0.5, FloatOff: 0.3},
		Pumps:    []pipe.Pump{{Role: pipe.MainPump, Curve: []pipe.CurvePoint{{Head: 0, Flow: 2e-3}, {Head: 8, Flow: 0}}}},
		Segments: []pipe.Segment{{Size: pipe.Size{OutsideDiameter: 10, Wall: 0.1}, Length: 1}},
	}
	p := &pipe.Profile{Segments: []pipe.Reach{{Z0: -1.9, Z1: 0.3}}}
	within(t, "flow [m³/s]", floatRate(l, p), 2e-3*(1-1.8/8), 1e-9)
}

// Air that leaves an open pipe loses its velocity head, air that enters half of it; through a slot it goes as water does.
func TestFarEndByHand(t *testing.T) {
	within(t, "out of a pipe", farEnd(pipe.Open, 0.002, true), 1/(0.002*0.002), 1e-6)
	within(t, "into a pipe", farEnd(pipe.Open, 0.002, false), 0.5/(0.002*0.002), 1e-6)
	for _, leaving := range []bool{false, true} {
		within(t, "slot", farEnd(pipe.Lid, 0.002, leaving), 1/math.Pow(0.61*0.002, 2), 1e-6)
	}
}

// The line behind the joint falls from the joint to its end, over all of its length.
func TestFallBehindTheJoint(t *testing.T) {
	w := demonstrated(t)
	l, p := w.k.Layout, w.k.Profile
	length, last := 0.0, len(l.Segments)-1
	for _, s := range l.Segments[l.Standpipe.After+1:] {
		length += s.Length
	}
	want := (p.Invert(l.Standpipe.After+1, 0) - p.Invert(last, 1)) / length
	within(t, "fall", newBehindJoint(w.k, w.line).fall, want, 1e-9)
}

// While a flow runs, each lying cell holds what Manning's even flow takes up there; it runs off as a reservoir of that mean depth
// does, by many small steps.
func TestLineHoldsAndDrainsEvenFlow(t *testing.T) {
	w := demonstrated(t)
	l := w.line
	const rate = 4e-4
	none := make([]float64, len(l.cells))
	held, mass := w.hold(none, rate), 0.0
	var first, last *cell
	for i, c := range l.cells {
		l.transit[i] = parcel{}
		if i < l.jointAt || c.vertical || c.z0 <= c.z1 || c.fill() > 0 {
			continue
		}
		depth, ok := flow.NormalDepth(rate, c.bore, (c.z0-c.z1)/c.length, c.manning)
		if !ok {
			t.Fatalf("cell %d runs full", i)
		}
		within(t, "held [kg]", held[i], pipe.SegmentArea(c.bore, depth)*c.length*heat.WaterDensity, 1e-6)
		l.transit[i], mass, last = parcel{held[i], 5}, mass+held[i], c
		if first == nil {
			first = c
		}
	}
	length := last.x1 - first.x0
	volume, fall := mass/heat.WaterDensity, (first.z0-last.z1)/length
	const steps = 1000
	time, h := 0.0, (1-tailShares[1])/steps
	for i := range steps {
		area := (1 - (float64(i)+0.5)*h) * volume / length
		time += h * volume / flow.Discharge(first.bore, fall, first.manning, pipe.SegmentDepth(first.bore, area))
	}
	var got tail
	got.follow(l, mass, 0, false)
	within(t, "time to two fifths [s]", got.curve[0].time, time, 0.02*time)
}

// What the ground right at the end does not keep runs on around it, with its heat: as warm as it came.
func TestWaterLetOutKeepsItsWarmth(t *testing.T) {
	w := demonstrated(t)
	m := w.mounds
	cold := make([]float64, len(w.sky.time))
	for i := range cold {
		cold[i] = -4
	}
	m.skin = &track{sky: w.sky, law: phase{ratio: 1}, u: cold}
	if m.outlet == nil {
		t.Fatal("no mound at the outlet")
	}
	const kg, warm = 30, 6.0
	m.letOut(0, kg, kg*heat.LiquidHeat*warm)
	kept := puddleDepth * m.lip.area * heat.WaterDensity
	within(t, "kept at the lip [kg]", m.lip.mass, kept, 1e-9)
	around := math.Min(kg-kept, puddleDepth*m.outlet.area*heat.WaterDensity)
	within(t, "kept around [kg]", m.outlet.mass, around, 1e-9)
	within(t, "temperature at the lip [°C]", m.lip.u/m.lip.mass/heat.LiquidHeat, warm, 1e-9)
	within(t, "temperature around [°C]", m.outlet.u/m.outlet.mass/heat.LiquidHeat, warm, 1e-9)
}

// In a closure's chain of resistances the air stands over the pipe's film over the wetted share of it, and all ice between
// front and wall counts: ln(r/front)/(2πk) of what is wetted.
func TestLayersOfAClosureByHand(t *testing.T) {
	c, air := metreInAir(0.4, 0)
	const front = 4 // shells from here on are ice
	c.freezeShells(func(i int) float64 {
		if i < front {
			return 0
		}
		return 1
	})
	k := &Case{Layout: &pipe.Layout{Segments: []pipe.Segment{{Size: pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039}}}}}
	w := &winter{k: k, sky: air.sky}
	got := w.layers(c.cell, 100)
	m := c.mesh
	// The innermost ring of ice counts from its edge; of the water before it nothing does.
	ice := m.scale[0] * math.Log(m.edge[m.water]/m.edge[front]) / (2 * math.Pi * heat.IceConductivity)
	within(t, "ice [m K/W]", got[0].Resistance, ice/c.share, 1e-9)
	r, _ := c.outside.atSurface(air.sky, 100, c.surfaceTemperature())
	last := got[len(got)-1]
	within(t, "air [m K/W]", last.Resistance, r/c.share, 1e-12)
	if got[0].Kind != LayerIce || last.Kind != LayerAir {
		t.Errorf("from %s to %s", got[0].Kind, last.Kind)
	}
}

// What lies over the ground counts as the soil of its resistance would, on top of what lies over the pipe: turf and film first,
// then snow, each what it adds to acosh(z/r)/(2πk) (Carslaw and Jaeger 1959).
func TestWhatLiesOverTheGroundByHand(t *testing.T) {
	w := demonstrated(t)
	for i := range w.sky.snow {
		if w.sky.snow[i] > 0.1 {
			w.sky.row = i
			break
		}
	}
	for _, c := range w.line.cells {
		if c.outside.setting != pipe.Buried {
			continue
		}
		f := w.surfaceOf(c).surface
		f.snowOn = 0.8 // the demonstration clears it
		depth, snow := f.snowAt(w.sky.row)
		got := w.overGround(c)
		if snow <= 0 || len(got) != 2 || got[1].Kind != LayerSnow || got[1].Thickness != depth {
			t.Fatalf("under %g m of snow: %+v", depth, got)
		}
		k, z, r := c.mesh.kFrozen[c.soil], c.outside.ground.depth, c.outside.radius
		under := func(more float64) float64 { return math.Acosh((z+k*more)/r) / (2 * math.Pi * k * c.share) }
		film := 1/20.0 + coverResistance[f.cover]
		within(t, "cover [m K/W]", got[0].Resistance, under(film)-under(0), 1e-9)
		within(t, "snow [m K/W]", got[1].Resistance, under(film+snow)-under(film), 1e-9)
	}
}
