package flow_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"winterline/sim/flow"
)

func TestColebrookLeavesNoResidual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(3.4, 8).Draw(t, "lg Re"))
		rough := rapid.Float64Range(0, 0.05).Draw(t, "roughness")
		x := 1 / math.Sqrt(flow.FrictionColebrook(re, rough))
		if miss := x + 2*math.Log10(rough/3.7+2.51*x/re); math.Abs(miss) > 1e-12*x {
			t.Fatalf("residual %g at 1/√f = %g", miss, x)
		}
	})
}

// Haaland 1983 states 2 %.
func TestHaalandStaysNearColebrook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(3.7, 8).Draw(t, "lg Re"))
		rough := rapid.Float64Range(0, 0.05).Draw(t, "roughness")
		exact, near := flow.FrictionColebrook(re, rough), flow.FrictionHaaland(re, rough)
		if math.Abs(near-exact) > 0.02*exact {
			t.Fatalf("Haaland %g, Colebrook %g", near, exact)
		}
	})
}

func TestHeadLossRisesWithFlowAcrossTheTransition(t *testing.T) {
	last := 0.0
	for q := 1e-6; q < 1e-3; q *= 1.002 {
		h := flow.HeadLoss(q, 0.041, 10, 1.5e-6, 1.4e-6)
		if h <= last {
			t.Fatalf("loss %g m at %g m³/s after %g m", h, q, last)
		}
		last = h
	}
}

func TestFullPipeFlowInvertsHeadLoss(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.01, 0.15).Draw(t, "bore")
		length := rapid.Float64Range(0.1, 200).Draw(t, "length")
		rough := rapid.Float64Range(0, 2e-3).Draw(t, "roughness") * d / 0.15
		loss := rapid.Float64Range(0, 20).Draw(t, "loss")
		head := math.Pow(10, rapid.Float64Range(-6, 1.5).Draw(t, "lg head"))
		q := flow.FullPipeFlow(head, d, length, rough, 1.4e-6, loss)
		back := flow.HeadLoss(q, d, length, rough, 1.4e-6) + loss*flow.VelocityHead(q, d)
		if math.Abs(back-head) > 1e-9*head {
			t.Fatalf("head %g, back %g at %g m³/s", head, back, q)
		}
	})
	if q := flow.FullPipeFlow(0, 0.1, 1, 0, 1e-6, 1); q != 0 {
		t.Errorf("%g m³/s without head", q)
	}
}

func TestNormalDepthInvertsDischarge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.02, 0.5).Draw(t, "bore")
		slope := rapid.Float64Range(1e-4, 0.1).Draw(t, "slope")
		depth := d * rapid.Float64Range(0.005, 0.935).Draw(t, "fill")
		back, ok := flow.NormalDepth(flow.Discharge(d, slope, 0.009, depth), d, slope, 0.009)
		if !ok || math.Abs(back-depth) > 1e-8*d {
			t.Fatalf("depth %g, back %g (%v)", depth, back, ok)
		}
	})
	if depth, ok := flow.NormalDepth(1, 0.1, 0.01, 0.009); ok || depth != 0.1 {
		t.Errorf("too much for the pipe: depth %g, %v; want the full bore, false", depth, ok)
	}
	if depth, ok := flow.NormalDepth(1e-6, 0.1, 0, 0.009); ok || depth != 0.1 {
		t.Errorf("level pipe: depth %g, %v; want the full bore, false", depth, ok)
	}
}

// Halving between 0 and the depth that carries most finds the same depth: to 1e-12 of the bore, or as near as the
// digits of the flow tell depths apart, which near that depth is less. More flow never stands less deep, but for rounding.
func TestNormalDepthAgainstHalving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.02, 0.5).Draw(t, "bore")
		slope := math.Pow(10, rapid.Float64Range(-5, 0).Draw(t, "lg slope"))
		q := flow.Discharge(d, slope, 0.009, flow.GreatestFill*d)
		if rapid.Bool().Draw(t, "little") {
			q *= math.Pow(10, rapid.Float64Range(-12, 0).Draw(t, "lg share"))
		} else {
			q *= 1 - math.Pow(10, rapid.Float64Range(-15, 0).Draw(t, "lg rest"))
		}
		depth, ok := flow.NormalDepth(q, d, slope, 0.009)
		if !ok || depth < 0 || depth > flow.GreatestFill*d*(1+1e-15) {
			t.Fatalf("depth %g of %g, %v", depth, d, ok)
		}
		halved := func(q float64) float64 {
			low, high := 0.0, flow.GreatestFill*d
			for high-low > 1e-13*d {
				if mid := (low + high) / 2; flow.Discharge(d, slope, 0.009, mid) < q {
					low = mid
				} else {
					high = mid
				}
			}
			return (low + high) / 2
		}
		const digits = 2e-15
		if below, above := halved(q*(1-digits)), halved(q*(1+digits)); depth < below-1e-12*d || depth > above+1e-12*d {
			t.Fatalf("depth %.17g; halving gives %.17g to %.17g", depth, below, above)
		}
		more, ok := flow.NormalDepth(q*(1+rapid.Float64Range(1e-13, 1e-3).Draw(t, "more")), d, slope, 0.009)
		if ok && more < depth-1e-15*d {
			t.Fatalf("depth %.17g falls to %.17g", depth, more)
		}
	})
}

func TestOpeningsPassMoreUnderMoreHead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(0.005, 0.1).Draw(t, "size")
		level := rapid.Float64Range(0, 0.5).Draw(t, "level")
		more := level + rapid.Float64Range(1e-5, 0.1).Draw(t, "rise")
		if flow.SideHoleFlow(0.61, size, more) <= flow.SideHoleFlow(0.61, size, level) ||
			flow.SlotFlow(0.61, 0.05, size, more) <= flow.SlotFlow(0.61, 0.05, size, level) ||
			flow.RimFlow(size, more) <= flow.RimFlow(size, level) {
			t.Fatalf("less flow at %g than at %g", more, level)
		}
	})
}

func TestSideHoleJoinsTheOrifice(t *testing.T) {
	// Deep under water the level at the centre tells all; at ten diameters the remaining
	// difference is (d/h)²/128, below 1e-4 (series of the integral).
	d := 0.03
	deep := flow.SideHoleFlow(0.61, d, 10*d+d/2)
	simple := flow.OrificeFlow(0.61, math.Pi/4*d*d, 10*d)
	if math.Abs(deep-simple) > 2e-4*simple {
		t.Errorf("hole %g, orifice %g m³/s", deep, simple)
	}
}

func TestSideHoleAgainstFineIntegral(t *testing.T) {
	for _, level := range []float64{0.001, 0.02, 0.0499, 0.05, 0.0501, 0.06, 0.3} {
		const d, strips = 0.05, 200_000
		sum, wet := 0.0, min(level, d)
		for i := range strips {
			z := wet * (float64(i) + 0.5) / strips
			sum += 2 * math.Sqrt(z*(d-z)) * math.Sqrt(2*flow.Gravity*(level-z)) * wet / strips
		}
		want := 0.61 * sum
		if got := flow.SideHoleFlow(0.61, d, level); math.Abs(got-want) > 1e-5*want {
			t.Errorf("level %g: %g; want %g m³/s", level, got, want)
		}
	}
}

func TestFillingTimeAgainstSmallSteps(t *testing.T) {
	const area, cd, hole, inflow, target = 0.0082, 0.61, 3.1e-4, 0.0012618, 0.3
	h, time, dt := 0.0, 0.0, 1e-5
	for h < target {
		h += dt * (inflow - flow.OrificeFlow(cd, hole, h)) / area
		time += dt
	}
	if got := flow.FillingTime(area, cd, hole, inflow, target); math.Abs(got-time) > 1e-3*time {
		t.Errorf("%g s; stepping takes %g s", got, time)
	}
	jet := inflow / (cd * hole)
	steady := jet * jet / (2 * flow.Gravity)
	if !math.IsInf(flow.FillingTime(area, cd, hole, inflow, steady*1.01), 1) {
		t.Error("a level above the steady one is never reached")
	}
}

// A hole so small that it takes nothing to speak of leaves the time in which the inflow alone fills the tank, and a little
// larger one lengthens it by two thirds of the share that leaves at the end (the first term of the series).
func TestFillingTimeWithNextToNoHole(t *testing.T) {
	const area, cd, inflow, head = 0.0082, 0.61, 0.0012618, 0.3
	for _, hole := range []float64{0, 1e-20, 1e-14, 1e-10, 1e-8, 3e-8, 1e-7} {
		x := flow.OrificeFlow(cd, hole, head) / inflow
		want := area * head / inflow * (1 + 2.0/3*x)
		if got := flow.FillingTime(area, cd, hole, inflow, head); math.Abs(got-want) > (x*x+1e-11)*want {
			t.Errorf("hole %g m²: %.12g s; want %.12g", hole, got, want)
		}
	}
}

// Early on, x − ln(1 + x) is summed by its series x²/2 − x³/3 + …, which loses no digits.
func TestGreenAmptKeepsItsDigitsEarly(t *testing.T) {
	for lg := -14.0; lg <= -4; lg += 0.25 {
		tau := math.Pow(10, lg)
		x := flow.GreenAmpt(1, 1, tau)
		sum, power := 0.0, x
		for n := 2.0; n < 12; n++ {
			power *= -x
			sum -= power / n
		}
		if math.Abs(sum-tau) > 1e-13*tau {
			t.Errorf("time %g: the equation is missed by %.1g of it", tau, math.Abs(sum-tau)/tau)
		}
	}
}

func TestGreenAmptSolvesItsEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := math.Pow(10, rapid.Float64Range(-9, -3).Draw(t, "lg K"))
		pull := rapid.Float64Range(1e-4, 0.5).Draw(t, "pull")
		time := math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "lg time"))
		depth := flow.GreenAmpt(k, pull, time)
		x, tau := depth/pull, k*time/pull
		// x − ln(1+x) cancels at small x, where it is x²/2: allow for its rounding.
		if miss := x - math.Log1p(x) - tau; math.Abs(miss) > 1e-9*tau+4e-16*x {
			t.Fatalf("residual %g of %g at depth %g", miss, tau, depth)
		}
		if later := flow.GreenAmpt(k, pull, 1.1*time); later <= depth {
			t.Fatalf("depth %g falls to %g", depth, later)
		}
	})
}

var sink float64

func TestRelationsDoNotAllocate(t *testing.T) {
	n := testing.AllocsPerRun(100, func() {
		depth, _ := flow.NormalDepth(1e-3, 0.1, 0.01, 0.009)
		sink += depth + flow.SideHoleFlow(0.61, 0.05, 0.04) + flow.FullPipeFlow(2, 0.04, 10, 1.5e-6, 1.4e-6, 4)
	})
	if n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkFrictionColebrook(b *testing.B) {
	for b.Loop() {
		sink += flow.FrictionColebrook(5e4, 1e-4)
	}
}

func BenchmarkNormalDepth(b *testing.B) {
	for b.Loop() {
		depth, _ := flow.NormalDepth(1e-3, 0.1, 0.01, 0.009)
		sink += depth
	}
}

func BenchmarkFullPipeFlow(b *testing.B) {
	for b.Loop() {
		sink += flow.FullPipeFlow(2, 0.04, 10, 1.5e-6, 1.4e-6, 4)
	}
}

func BenchmarkSideHoleFlow(b *testing.B) {
	for b.Loop() {
		sink += flow.SideHoleFlow(0.61, 0.05, 0.04)
	}
}

// Between laminar and turbulent flow the friction factor goes straight from 64/2300 to Colebrook's at 4000, rough or not.
func TestFrictionBetweenTheLaws(t *testing.T) {
	for _, rough := range []float64{0, 0.001, 0.05} {
		turbulent := flow.FrictionColebrook(4000, rough)
		if got, want := flow.FrictionFactor(3150, rough), (64.0/2300+turbulent)/2; math.Abs(got-want) > 1e-12 {
			t.Errorf("roughness %g, half way: %g; want %g", rough, got, want)
		}
		if got := flow.FrictionFactor(3999.9999, rough); math.Abs(got-turbulent) > 1e-6 {
			t.Errorf("roughness %g, end: %g; want %g", rough, got, turbulent)
		}
	}
}
