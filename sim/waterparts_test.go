package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/heat"
)

// A basin of 0.2 m² between floats at 15 and 35 cm stands at 25 cm on average; what waits lifts it, and what it cannot
// hold under a floor 60 cm over its bottom wets the floor.
func TestBasinByHand(t *testing.T) {
	b := newBasin(&pipe.Basin{Area: 0.2, BottomBelowFloor: 0.6, FloatOn: 0.35, FloatOff: 0.15})
	within(t, "level with 50 L more [m]", b.levelWith(0.05*heat.WaterDensity), 0.5, 1e-12)
	if b.keep(0.06 * heat.WaterDensity) {
		t.Error("60 L wet the floor; there is room for 70")
	}
	within(t, "level [m]", b.level(), 0.55, 1e-12)
	if !b.keep(0.03 * heat.WaterDensity) {
		t.Error("90 L do not wet the floor; there is room for 70")
	}
	within(t, "on the floor [L]", b.floor/heat.WaterDensity*1000, 20, 1e-9)
}

// A pump whose curve falls straight from 2 L/s to nothing at 8 m, 2 m below, delivers at 3 m three eighths of 2 L/s through a
// pipe that loses nothing.
func TestPumpLiftsFromItsWater(t *testing.T) {
	p := &lift{curve: []pipe.CurvePoint{{Head: 0, Flow: 2e-3}, {Head: 8, Flow: 0}}, from: -2}
	within(t, "flow [m³/s]", p.to(3), 0.75e-3, 1e-11)
	within(t, "shut-off level [m]", p.shutOff(), 6, 0)
}

// Snow over the lower part of an opening leaves a lower one: a weir over the snow until the level reaches the top, then a
// large orifice, 2/3 cd b √2g (h² − (h−a)²) with powers of 3/2.
func TestOpeningOverSnow(t *testing.T) {
	o := opening{bottom: 0.20, top: 0.25, width: 0.1, snowFactor: 1}
	k := 2.0 / 3 * 0.61 * 0.1 * math.Sqrt(2*9.80665)
	power := func(h float64) float64 { return math.Pow(h, 1.5) }
	within(t, "free of snow [m³/s]", o.flow(0.27, 0), k*(power(0.07)-power(0.02)), 1e-12)
	within(t, "2 cm under snow, weir [m³/s]", o.flow(0.24, 0.22), k*power(0.02), 1e-12)
	within(t, "2 cm under snow, orifice [m³/s]", o.flow(0.27, 0.22), k*(power(0.05)-power(0.02)), 1e-12)
}

// What leaves by an opening that faces the house, or lies within ten feet of it, can run back.
func TestWhatRunsBackToTheHouse(t *testing.T) {
	o := opening{bottom: 0.20, top: 0.25, width: 0.1, distance: 9}
	facing, near, far := o, o, o
	facing.facesHouse, near.distance, far.distance = true, 3.0, 3.1
	for _, c := range []struct {
		openings []opening
		want     float64
	}{{[]opening{o, o}, 0}, {[]opening{facing, o}, 0.5}, {[]opening{near, o}, 0.5}, {[]opening{far, o}, 0}, {[]opening{near, facing, o, far}, 0.5}} {
		j := &joint{reliefs: c.openings}
		within(t, "share", j.nearHouse(0.24, 0), c.want, 1e-12)
	}
}

// Three parts of rain at 6 °C and one of melt at 0 °C make 4.5 °C; below 0 °C all comes at 0 °C.
func TestRoofWaterIsMixed(t *testing.T) {
	r := &roof{rain: []float64{0.003, 0.003, 0}, melt: []float64{0.001, 0, 0.001}}
	within(t, "rain and melt [°C]", r.warmth(0, 6), 4.5, 1e-12)
	within(t, "rain alone [°C]", r.warmth(1, 6), 6, 1e-12)
	within(t, "melt alone [°C]", r.warmth(2, 6), 0, 0)
	within(t, "rain in frost [°C]", r.warmth(1, -1), 0, 0)
}

// A store whose outflow goes with a power of its content empties as small steps say.
func TestDrainTimeBySmallSteps(t *testing.T) {
	for _, power := range []float64{0.5, 1, 1.6} {
		const steps = 200000
		sum, h := 0.0, (1-0.4)/steps
		for i := range steps {
			sum += h / math.Pow(1-(float64(i)+0.5)*h, power)
		}
		within(t, "time", drainTime(1, 0.4, 1, math.Pow(0.4, power)), sum, 1e-8)
	}
}

// demonstrated is the demonstration's winter at its first row.
func demonstrated(t *testing.T) *winter {
	t.Helper()
	w, err := readyWinter(demonstration(t))
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The weep slot takes what a weir of its width does, 2/3 cd b √2g h^(3/2), as long as the level stands under its top.
func TestWeepByHand(t *testing.T) {
	w := demonstrated(t)
	const head, lasts = 6e-3, 5.0
	slot := w.k.Layout.Outlet.Weep
	w.sill = w.line.slot + head
	before := w.sill
	want := 2.0 / 3 * 0.61 * slot.Width * math.Sqrt(2*9.80665) * math.Pow(head, 1.5) * lasts * heat.WaterDensity
	r := w.rest()
	for i, mass := range w.line.massAt(w.line.levels(r)) {
		w.line.cells[i].shape(mass)
	}
	if head >= slot.Height || w.line.standingFrom(w.looseFrom(r)) < want {
		t.Fatalf("a slot of %g m over %g kg does not show it", slot.Height, w.line.standingFrom(0))
	}
	within(t, "water into the pit [kg]", w.weep(lasts), want, 1e-9*want)
	if w.sill >= before {
		t.Errorf("the level stays at %g m", w.sill)
	}
}

// A ring of ice thicker than the slot is high covers it. Of 100 mm of bore, 30 % of the water frozen, swollen by 9.07 %,
// leaves a hole of 100 mm √(1 − 0.327): 9.0 mm of ice all round.
func TestIceOverTheWeepSlot(t *testing.T) {
	c, _ := metreInAir(1, 0)
	c.freezeShells(func(int) float64 { return 0.3 })
	ring := c.bore / 2 * (1 - math.Sqrt(1-0.3*999.84/916.7))
	for _, share := range []float64{0.99, 1.01} {
		k := &Case{Layout: &pipe.Layout{Outlet: pipe.Outlet{Weep: &pipe.Slot{Height: share * ring, Width: 0.05}}}}
		w := &winter{k: k, line: &line{cells: []*cell{c.cell}, elbow: 1}, shut: []bool{false}}
		if got := w.slotIced(); got != (share < 1) {
			t.Errorf("slot of %g of the ring's thickness: covered %v", share, got)
		}
	}
}

// Air enters the standpipe by its relief opening, at the middle of what snow leaves free, and by its mouth, at the rim.
func TestDraughtEntersByReliefAndMouth(t *testing.T) {
	w := demonstrated(t)
	p, r := w.k.Layout.Standpipe, w.k.Layout.Reliefs[0]
	ground := w.k.Profile.Ground(w.k.Profile.X(p.After, 1))
	house := w.k.Layout.Segments[p.After].Size.OutsideDiameter
	neck := math.Pi / 4 * (p.Size.Bore()*p.Size.Bore() - house*house)
	open := r.Width * r.OpeningHeight
	area, level := w.houseOpening(0)
	within(t, "area [m²]", area, open+neck, 1e-12)
	within(t, "level [m]", level, ground+(open*(r.Height+r.OpeningHeight/2)+neck*p.Rim)/(open+neck), 1e-9)
}
