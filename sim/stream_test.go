package sim_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/heat"
	"winterline/sim/verify"
)

// drawStream draws up to n parcels of moving water, slush included.
func drawStream(t *rapid.T, n int) []sim.Parcel {
	one := rapid.Custom(func(t *rapid.T) sim.Parcel {
		return sim.Parcel{Mass: rapid.Float64Range(1e-3, 50).Draw(t, "mass"), U: rapid.Float64Range(-20, 15).Draw(t, "u")}
	})
	return rapid.SliceOfN(one, 1, n).Draw(t, "stream")
}

// total is the mass and the heat [K kg] of parcels.
func total(streams ...[]sim.Parcel) (mass, warmth float64) {
	for _, s := range streams {
		for _, p := range s {
			mass += p.Mass
			warmth += p.Mass * p.U
		}
	}
	return mass, warmth
}

// kept checks that mass and heat are those from before, to rounding.
func kept(t *rapid.T, before, after [2]float64) {
	t.Helper()
	if math.Abs(after[0]-before[0]) > 1e-12*before[0] || math.Abs(after[1]-before[1]) > 1e-12*before[0]*20 {
		t.Fatalf("mass and heat %v became %v", before, after)
	}
}

func books(streams ...[]sim.Parcel) [2]float64 {
	m, w := total(streams...)
	return [2]float64{m, w}
}

func TestGatherKeepsMassAndHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStream(t, 30)
		out := sim.Gather(s)
		kept(t, books(s), books(out))
		if len(out) > sim.ParcelLimit || len(s) <= sim.ParcelLimit && len(out) != len(s) {
			t.Fatalf("%d parcels of %d; at most %d", len(out), len(s), sim.ParcelLimit)
		}
	})
}

// The last kilograms come off; what goes on keeps its order, and is the stream's front.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStream(t, 8)
		all, _ := total(s)
		want := rapid.Float64Range(0, 1.2).Draw(t, "share") * all
		on, stay := sim.Split(s, want)
		kept(t, books(s), books(on, stay))
		if got, _ := total(stay); math.Abs(got-math.Min(want, all)) > 1e-9 {
			t.Fatalf("%g kg stay; want %g of %g", got, want, all)
		}
		for i, p := range on {
			if p.U != s[i].U || p.Mass > s[i].Mass {
				t.Fatalf("parcel %d of what goes on is %v; the stream has %v", i, p, s[i])
			}
		}
		if len(stay) > 0 && stay[0].U != s[len(s)-1].U {
			t.Fatalf("%v stays first; the stream ends with %v", stay[0], s[len(s)-1])
		}
	})
}

// The front comes off in the stream's order, and so does the rest.
func TestSplitFront(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawStream(t, 8)
		all, _ := total(s)
		want := rapid.Float64Range(0, 1).Draw(t, "share") * all
		rest, front := sim.SplitFront(s, want)
		kept(t, books(s), books(front, rest))
		if got, _ := total(front); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%g kg in front; want %g", got, want)
		}
		joined := append(slices.Clone(front), rest...)
		at := 0
		for _, p := range joined { // one parcel of the stream may be cut in two
			for at < len(s) && s[at].U != p.U {
				at++
			}
			if at == len(s) {
				t.Fatalf("front %v and rest %v are not in the order of %v", front, rest, s)
			}
		}
	})
}

// Layers spread over shells of equal mass, settled or let be of one temperature: nothing is lost.
func TestLayersKeepMassAndHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawStream(t, 12)
		before := books(l)
		n := rapid.IntRange(1, 24).Draw(t, "shells")
		var shells []sim.Parcel
		for _, u := range sim.FillShells(l, n) {
			shells = append(shells, sim.Parcel{Mass: before[0] / float64(n), U: u})
		}
		kept(t, before, books(shells))
		settled := sim.SettleLayers(l)
		kept(t, before, books(settled))
		if !slices.IsSortedFunc(settled, func(a, b sim.Parcel) int { return cmpFloat(a.U, b.U) }) {
			t.Fatalf("not settled: %v", settled)
		}
		even := sim.EqualiseLayers(settled)
		kept(t, before, books(even))
		oneTemperature(t, even)
	})
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// oneTemperature checks that no mixed water is above 0 °C while there is ice, and that all water
// above it has one temperature.
func oneTemperature(t *rapid.T, l []sim.Parcel) {
	t.Helper()
	ice, warm := 0.0, math.NaN()
	for _, p := range l {
		ice = math.Min(ice, p.U)
		if p.U > 1e-9 {
			if !math.IsNaN(warm) && math.Abs(p.U-warm) > 1e-9 {
				t.Fatalf("two temperatures in mixed water: %v", l)
			}
			warm = p.U
		}
	}
	if ice < -1e-9 && !math.IsNaN(warm) {
		t.Fatalf("ice beside water at %g °C: %v", warm, l)
	}
}

// By hand: 2 kg at 10 K over 1 kg of ice at −5 K and 3 kg at −8 K (from the wall −8, −5, 10): the
// 20 K kg melt the 5 of the inner layer, then 15 of the outer's 24, which keeps −9/3 = −3 K.
func TestEqualiseByHand(t *testing.T) {
	got := sim.EqualiseLayers([]sim.Parcel{{Mass: 3, U: -8}, {Mass: 1, U: -5}, {Mass: 2, U: 10}})
	for i, want := range []float64{-3, 0, 0} {
		if math.Abs(got[i].U-want) > 1e-12 {
			t.Errorf("layer %d: %g; want %g", i, got[i].U, want)
		}
	}
}

// Water through a cell that stands part full and part frozen: mass is kept exactly, and heat to
// rounding, with what came through wall and surface meanwhile.
func TestPassKeepsMassAndHeat(t *testing.T) {
	film := 12.0
	wall := pipe.Material{Name: "PVC", Conductivity: verify.WallConductivity, Density: verify.WallDensity, HeatCapacity: verify.WallHeatCapacity}
	s := pipe.Segment{Size: pipe.Size{OutsideDiameter: 0.114, Wall: 0.006, Material: wall}, FilmCoefficient: &film}
	air := sim.NewOpenAir(airSeries(1, func(float64) float64 { return -15 }))
	iced, slush := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s.Liquid = rapid.SampledFrom([]pipe.Liquid{pipe.Mixed, pipe.Still}).Draw(t, "liquid")
		c := air.Pipe(s, 0, sim.Shells{})
		c.Begin(rapid.Float64Range(0, 1).Draw(t, "fill"), rapid.Float64Range(0, 3).Draw(t, "start"))
		hours := rapid.IntRange(0, 20).Draw(t, "hours")
		for i := range hours {
			if err := c.March(i, hour*float64(i), hour*float64(i+1)); err != nil {
				t.Fatal(err)
			}
		}
		ice := 0.0
		c.Followed(func(_, f float64) { ice = f })
		if ice > 0.05 {
			iced++
		}
		in := drawStream(t, 4)
		if in[0].U < 0 {
			slush++
		}
		inMass, inHeat := total(in)
		before, came, stood := c.Books()
		run := rapid.SampledFrom([]float64{0, 5, 60, 900}).Draw(t, "run")
		out, joined, err := c.Pass(hours, hour*float64(hours), run, in, rapid.Float64Range(0, 1).Draw(t, "left"))
		if err != nil {
			t.Fatal(err)
		}
		after, since, stands := c.Books()
		outMass, outHeat := total(out)
		if miss := stood + inMass - stands - outMass; math.Abs(miss) > 1e-9*(stood+inMass) {
			t.Fatalf("%g kg missing of %g", miss, stood+inMass)
		}
		scale := math.Abs(before) + math.Abs(after) + heat.LiquidHeat*20*(inMass+outMass)
		if miss := before + (since - came) + heat.LiquidHeat*(inHeat-outHeat) + joined - after; math.Abs(miss) > 1e-9*scale {
			t.Fatalf("%g J missing of %g", miss, scale)
		}
	})
	if iced == 0 || slush == 0 {
		t.Errorf("%d draws with ice, %d with slush: the test misses what it is for", iced, slush)
	}
}
