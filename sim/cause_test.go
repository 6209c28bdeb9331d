package sim_test

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
)

// scenarioResult simulates a scenario under one of the shared weathers.
func scenarioResult(t *testing.T, name, under string) *sim.Result {
	t.Helper()
	return resultOf(t, scenarioUnder(t, name, under))
}

// What holds the water is what the first sentence of each scenario's layout says.
func TestClosureBarriers(t *testing.T) {
	for _, c := range []struct {
		name, weather, where string
		want                 sim.Barrier
		mound                bool
	}{
		{"sag", "hard-week.csv", "yard run", sim.BarrierSag, false},
		{"relief-takes-over", "hard-week.csv", "outlet riser", sim.BarrierLid, false},
		{"pocket-in-clay", "hard-week.csv", "outlet riser", sim.BarrierPocket, false},
		{"closes-from-the-bed", "noons-above-freezing.csv", "shaded run", sim.BarrierLaid, false},
		{"riser-before-run", "hard-week.csv", "outlet riser", sim.BarrierLid, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := scenarioResult(t, c.name, c.weather)
			if len(r.Closures) == 0 {
				t.Fatal("nothing shut")
			}
			first := r.Closures[0]
			if got := r.Segments[first.Where].Name; got != c.where || first.Stood.Barrier != c.want || first.Mound != c.mound {
				t.Errorf("first in the %s, held by %s, mound %v; want %s, %s, %v", got, first.Stood.Barrier, first.Mound, c.where, c.want, c.mound)
			}
			if v := r.Verdict; v.Closed == nil || *v.Closed != first.Shut || v.ClosedWhere != first.Where || first.After != -1 {
				t.Errorf("first at %g s in part %d, after %d; the verdict has another", first.Shut, first.Where, first.After)
			}
		})
	}
}

// A standpipe that freezes after the riser stood full because the riser was shut: nothing ran past it any more, and
// the relief carried all that the pump lifted, 50 L twenty-four times by the layout's plan.
func TestClosureAfterAnother(t *testing.T) {
	r := scenarioResult(t, "relief-takes-over", "hard-week.csv")
	if len(r.Closures) < 2 {
		t.Fatalf("%d closures", len(r.Closures))
	}
	riser, stand := r.Closures[0], r.Closures[1]
	if got := r.Segments[stand.Where].Name; got != "standpipe" || stand.After != 0 || stand.Stood.Barrier != sim.BarrierPlug {
		t.Errorf("then the %s, after %d, held by %s", got, stand.After, stand.Stood.Barrier)
	}
	if d := riser.During; d.ReliefRuns != d.Cycles || math.Abs(d.Relief-0.050*float64(d.Cycles)) > 0.01*d.Relief || d.Rim != 0 || d.Refused != 0 {
		t.Errorf("while the riser was shut: %+v", d)
	}
	// The weather is 5 °C for a day, then −15 °C; wind 3 m/s, of which the layout lets 0.4 through. The mean of a day first
	// is below 0 °C at 30 h, when six hours of −15 °C (and the hour that leads there) outweigh the rest: frost since 6 h.
	m := riser.Met
	if m.Air != -15 || m.LowestSince != -15 || math.Abs(m.Wind-1.2) > 1e-9 || m.Spell != 6*3600 {
		t.Errorf("met %+v", m)
	}
}

// The books of each cell that shut close: what it holds changed by what came through its sides and with water.
func TestClosureBooks(t *testing.T) {
	for name, under := range map[string]string{
		"sag": "hard-week.csv", "relief-takes-over": "hard-week.csv", "pocket-in-clay": "hard-week.csv",
		"downspout-joins": "rain-then-hard-week.csv", "closes-from-the-bed": "noons-above-freezing.csv",
	} {
		r := scenarioResult(t, name, under)
		if len(r.Closures) == 0 {
			t.Errorf("%s: nothing shut", name)
		}
		for _, c := range r.Closures {
			booksClose(t, &c)
		}
	}
}

// booksClose checks the book of heat of the cell that shut first.
func booksClose(t *testing.T, c *sim.Closure) {
	t.Helper()
	const limit = 1e-9 // of all that moved: rounding
	s := c.Spent
	all := math.Abs(s.Content) + math.Abs(s.Outside) + math.Abs(s.Surface) + math.Abs(s.Ground) + math.Abs(s.Carried)
	still := c.Mound || c.Warm.Time >= s.Until // no time has passed since
	if miss := s.Content - s.Outside - s.Surface - s.Ground - s.Carried; !(math.Abs(miss) <= limit*all) || all == 0 != still {
		t.Errorf("shut at %.1f h: %g J of %g are missing", c.Shut/3600, miss, all)
	}
}

// causesHold checks what must be so of the closures of any result.
func causesHold(t *testing.T, k *sim.Case, r *sim.Result) {
	t.Helper()
	end := k.Weather.End()
	if (len(r.Closures) > 0) != (r.Verdict.Closed != nil) {
		t.Errorf("%d closures, and the line shut: %v", len(r.Closures), r.Verdict.Closed != nil)
	}
	for i, c := range r.Closures {
		times(t, "closure", end, &c.Shut, c.Reopened)
		times(t, "closure", end, &c.Shut, &c.Grew)
		booksClose(t, &c)
		sum := 0.0
		for _, l := range c.Layers {
			if sum += l.Share; !(l.Resistance >= 0) {
				t.Errorf("closure %d: %s of %g m K/W", i, l.Kind, l.Resistance)
			}
		}
		if !c.Mound && math.Abs(sum-1) > 1e-9 {
			t.Errorf("closure %d: shares of %g in all", i, sum)
		}
		s := c.Stood
		if c.Where < 0 || c.Where >= len(r.Segments) || c.After >= i || s.Barrier == "" || (s.Part < 0) != math.IsNaN(s.At) {
			t.Errorf("closure %d in part %d, after %d, held by %q in part %d", i, c.Where, c.After, s.Barrier, s.Part)
		}
		if !(s.Volume >= 0) || s.Fill > 1+1e-9 || s.Stretch < s.Volume*(1-1e-9) || c.Warm.Time > c.Spent.Until && !c.Mound {
			t.Errorf("closure %d: %+v, warm water at %g s of %g", i, s, c.Warm.Time, c.Shut)
		}
		if h := c.Heat; h.AboveZero < 0 || h.ToShut < 0 || h.Loss < 0 || h.LossToIce < 0 || h.IceBefore > 1+1e-9 {
			t.Errorf("closure %d: %+v", i, h)
		}
		if m := c.Met; m.LowestSince > m.MeanSince+1e-9 || m.MeanSpell >= 0 || m.LowestSpell > m.MeanSpell {
			t.Errorf("closure %d met %+v", i, m)
		}
		causeNaN(t, k, &c)
	}
}

// causeNaN checks that figures of a closure are NaN just where there is none.
func causeNaN(t *testing.T, k *sim.Case, c *sim.Closure) {
	t.Helper()
	check := func(name string, none bool, figures ...float64) {
		for _, f := range figures {
			if math.IsNaN(f) != none {
				t.Errorf("shut at %.1f h, %s: %g of %v", c.Shut/3600, name, f, figures)
			}
		}
	}
	w, h, m := c.Warm, c.Heat, c.Met
	check("warm water", math.IsNaN(w.Time), w.Temperature, w.Volume)
	check("barrier", c.Stood.Part < 0, c.Stood.At, c.Stood.Depth)
	check("frost", math.IsNaN(m.Spell), m.LowestSpell, m.MeanSpell)
	check("depth", math.IsNaN(m.Ground), m.Depth)
	check("snow", k.Weather.SnowDepth == nil && k.Weather.Snow().Depth == nil, m.Snow)
	check("relief", c.During.ReliefRuns == 0, c.During.FirstRelief)
	check("rim", c.During.Rim == 0, c.During.FirstOver)
	if c.Mound {
		return
	}
	since := w.Time
	if math.IsNaN(since) {
		since = 0
	}
	check("ice", false, h.FirstIce)
	check("loss to ice", h.FirstIce <= since, h.LossToIce)
	check("loss", c.Shut <= since, h.Loss)
	for _, l := range c.Layers {
		check(l.Kind, l.Kind == sim.LayerIce || l.Kind == sim.LayerAir || l.Kind == sim.LayerCover, l.Thickness)
	}
}

// A metre of full pipe in the open that freezes from 5 °C in air of −10 °C behind a film of 20 W/(m² K) and an
// inch of foam of 0.036 W/(m K), by hand: 1-1/2 in schedule 40 pipe is 1.900 in wide with a wall of 0.145 in (ASTM
// D1785, from memory) of 0.16 W/(m K) (CIBSE Guide A).
func TestClosureByHand(t *testing.T) {
	const inch = 0.0254
	size, ok := pipe.FindSize("1-1/2 in sch 40 PVC")
	if !ok {
		t.Fatal("no such size")
	}
	film := 20.0
	foam := pipe.Material{Name: "foam", Conductivity: 0.036, Density: 1, HeatCapacity: 500}
	size.Material.Density, size.Material.HeatCapacity = 1, 500 // stores nothing: the closed form below has the water's heat alone
	r := oneCell{
		size: size, insulation: []pipe.Insulation{{Thickness: inch, Material: foam}}, film: &film, start: 5, standing: 1,
		liquid: pipe.Mixed, weather: rows(60*3600, 3600, steady(-10)),
	}.run(t, sim.Settings{})
	if len(r.Closures) != 1 {
		t.Fatalf("%d closures", len(r.Closures))
	}
	c := r.Closures[0]
	bore, outside, foamed := 0.805*inch, 0.95*inch, 1.95*inch
	wall := math.Log(outside/bore) / (2 * math.Pi * 0.16)
	layer := math.Log(foamed/outside) / (2 * math.Pi * 0.036)
	air := 1 / (20 * 2 * math.Pi * foamed)
	// Ice swells by 9 %: it fills the bore once 1/1.0905 of the water has frozen, and the front then stands at the root of
	// the rest of the radius squared.
	frozen := 1 / (1 + heat.IceExpansion)
	ice := math.Log(1/math.Sqrt(1-frozen)) / (2 * math.Pi * heat.IceConductivity)
	for i, want := range []struct {
		kind       string
		resistance float64
		limit      float64
	}{{sim.LayerIce, ice, 0.15}, {sim.LayerWall, wall, 1e-3}, {sim.LayerInsulation, layer, 1e-3}, {sim.LayerAir, air, 1e-3}} {
		if got := c.Layers[i]; got.Kind != want.kind || math.Abs(got.Resistance/want.resistance-1) > want.limit {
			t.Errorf("layer %d: %s of %.4f m K/W; want %s of %.4f within %g", i, got.Kind, got.Resistance, want.kind, want.resistance, want.limit)
		}
	}
	sum := 0.0
	for _, l := range c.Layers {
		sum += l.Share
	}
	if len(c.Layers) != 4 || math.Abs(sum-1) > 1e-12 {
		t.Errorf("%d layers, shares of %g in all", len(c.Layers), sum)
	}
	if l, _ := c.Weakest(); l.Kind != sim.LayerAir && air < wall {
		t.Errorf("the weakest layer is the %s", l.Kind)
	}
	if l, _ := c.Strongest(); l.Kind != sim.LayerInsulation {
		t.Errorf("the strongest layer is the %s", l.Kind)
	}
	// The water cools as exp(−t/RC); its mean loss to 0 °C is its heat over that time. Then it freezes.
	if c.Length != 0.5 {
		t.Fatalf("a cell of %g m", c.Length)
	}
	kg := math.Pi * bore * bore * 1000 * c.Length
	total := (wall + layer + air) / c.Length
	cool := total * kg * heat.LiquidHeat * math.Log(15.0/10)
	byHand(t, "water [m³]", c.Stood.Volume, kg/1000, 1e-3)
	byHand(t, "heat above 0 °C [J]", c.Heat.AboveZero, kg*heat.LiquidHeat*5, 1e-3)
	byHand(t, "first ice [s]", c.Heat.FirstIce, cool, 2e-3)
	byHand(t, "loss to first ice [W]", c.Heat.LossToIce, kg*heat.LiquidHeat*5/cool, 3e-3)
	if full := kg * heat.Fusion * frozen; c.Heat.ToShut > full || c.Heat.ToShut < 0.95*full { // it counts as shut a little before the bore is full
		t.Errorf("heat to freeze shut: %g J; want just under %g", c.Heat.ToShut, full)
	}
	byHand(t, "loss [W]", c.Heat.Loss, (c.Heat.AboveZero+c.Heat.ToShut)/c.Shut, 1e-12)
	if !math.IsNaN(c.Warm.Time) || c.Stood.Barrier != sim.BarrierWritten {
		t.Errorf("warm water at %g s, held by %s", c.Warm.Time, c.Stood.Barrier)
	}
}

// byHand checks a figure against one that is not of this program, within a share of it.
func byHand(t *testing.T, what string, got, want, limit float64) {
	t.Helper()
	if !(math.Abs(got/want-1) <= limit) {
		t.Errorf("%s: %g; want %g within %g of it", what, got, want, limit)
	}
}

// The soil over a buried pipe resists as that of a half-space does, acosh(z/r)/(2πk) (Carslaw and Jaeger 1959), by the
// conductivities of soil that is thawed and soil that is frozen.
func TestClosureSoil(t *testing.T) {
	r := scenarioResult(t, "sag", "hard-week.csv")
	c := r.Closures[0]
	soil := r.Layout.Site.SoilAt(c.Met.Depth)
	radius := r.Layout.Segments[c.Where].Size.OutsideDiameter / 2
	shape := math.Acosh(c.Met.Depth/radius) / (2 * math.Pi)
	got := c.Layers[2]
	if got.Kind != sim.LayerSoil || got.Resistance < shape/soil.ConductivityFrozen*(1-1e-9) || got.Resistance > shape/soil.ConductivityUnfrozen {
		t.Errorf("%s of %g m K/W; want soil from %g, frozen, to %g", got.Kind, got.Resistance, shape/soil.ConductivityFrozen, shape/soil.ConductivityUnfrozen)
	}
	if last := c.Layers[len(c.Layers)-1]; !last.Beyond || last.Kind != sim.LayerCover {
		t.Errorf("over the ground lies %+v", last)
	}
	if c.Met.Frost < c.Met.Depth || c.Met.Ground >= 0 {
		t.Errorf("frost to %g m at %g °C beside a pipe %g m deep that froze", c.Met.Frost, c.Met.Ground, c.Met.Depth)
	}
}

// Cells that shut one after the other are one plug, those apart are not.
func TestClosurePlugs(t *testing.T) {
	const hour = 3600.0
	shut := func(cell int, h float64) sim.Turned { return sim.Turned{Cell: cell, Shut: true, At: h * hour} }
	open := func(cell int, h float64) sim.Turned { return sim.Turned{Cell: cell, At: h * hour} }
	for _, c := range []struct {
		name  string
		turns []sim.Turned
		want  [][4]float64 // from and to [m], shut and reopened [h]; −1: not
	}{
		{"neighbours, a day apart", []sim.Turned{shut(3, 1), shut(4, 25), open(3, 30), open(4, 31)}, [][4]float64{{3, 5, 1, 31}}},
		{"the same water, within hours", []sim.Turned{shut(3, 1), shut(7, 6)}, [][4]float64{{3, 8, 1, -1}}},
		{"the same water, a day apart", []sim.Turned{shut(3, 1), shut(7, 25)}, [][4]float64{{3, 4, 1, -1}, {7, 8, 25, -1}}},
		{"other water", []sim.Turned{shut(3, 1), shut(15, 2)}, [][4]float64{{3, 4, 1, -1}, {15, 16, 2, -1}}},
		{"it moves on to the next cell", []sim.Turned{shut(3, 1), open(3, 5), shut(4, 5)}, [][4]float64{{3, 5, 1, -1}}},
		{"it thaws and freezes again", []sim.Turned{shut(3, 1), open(3, 5), shut(3, 9)}, [][4]float64{{3, 4, 1, 5}, {3, 4, 9, -1}}},
	} {
		got := sim.Plugs(20, 0, 10, c.turns...)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d plugs, want %d", c.name, len(got), len(c.want))
			continue
		}
		for i, p := range got {
			back := -1.0
			if p.Reopened != nil {
				back = *p.Reopened / hour
			}
			if now := [4]float64{p.From, p.To, p.Shut / hour, back}; now != c.want[i] {
				t.Errorf("%s: plug %d is %v, want %v", c.name, i, now, c.want[i])
			}
		}
	}
}
