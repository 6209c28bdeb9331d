package verify_test

import (
	"math"
	"testing"

	"winterline/sim/heat"
	"winterline/sim/verify"
)

// loam is a half space that freezes along a curve.
func loam() verify.FreezingStep {
	return verify.FreezingStep{
		Surface: -6, Start: 4, Point: -0.03, Frozen: 1.9, Unfrozen: 1.2, FrozenCap: 2.1e6, UnfrozenCap: 2.8e6,
		Latent: 1e8, Liquid: verify.PowerLiquid(-0.03, 0.25),
	}
}

// With a straight freezing curve and a conductivity for each zone the integrated solution is
// Lunardini's, which is closed.
func TestFreezingStepHasThreeZones(t *testing.T) {
	const limit = 3e-4 // of the depth: the integration steps over the corner of the curve
	for _, frozen := range []float64{-4, -1} {
		z := verify.ThreeZones{
			Surface: -6, Start: 4, Frozen: frozen, Freezing: 0,
			Conductivity: [3]float64{3.4, 2.9, 2.4}, Capacity: [3]float64{0.7e6, 0.7e6, 0.7e6}, Latent: 68e6,
		}.Solve()
		p := verify.FreezingStep{
			Surface: -6, Start: 4, Point: 0, Unfrozen: 2.4, FrozenCap: 0.7e6, UnfrozenCap: 0.7e6, Latent: 68e6,
			Liquid: func(at float64) (share, slope float64) {
				if at <= frozen {
					return 0, 0
				}
				return 1 - at/frozen, -1 / frozen
			},
			Conducts: func(at float64) float64 {
				if at <= frozen {
					return 3.4
				}
				return 2.9
			},
		}.Solve()
		got, want := p.Front(86400), z.Front(86400)
		t.Logf("water frozen at %g °C: front at %.5f m after a day; closed %.5f", frozen, got, want)
		if math.Abs(got/want-1) > limit {
			t.Errorf("front at %g m; want %g", got, want)
		}
	}
}

// A curve so steep that all water freezes within a millikelvin of 0 °C is Neumann's problem; no
// latent heat and one set of properties is the error function.
func TestFreezingStepHasNeumannsLimit(t *testing.T) {
	const time = 30 * 86400.0
	p := loam()
	p.Point, p.Liquid = -1e-4, verify.PowerLiquid(-1e-4, 4)
	p = p.Solve()
	n := verify.Neumann{Surface: p.Surface, Start: p.Start, Frozen: p.Frozen, Unfrozen: p.Unfrozen, FrozenCap: p.FrozenCap, UnfrozenCap: p.UnfrozenCap, Latent: p.Latent}.Solve()
	near(t, "front [m]", p.Front(time), n.Front(time), 1e-4)
	near(t, "flux [W/m²]", p.Flux(time), n.Flux(time), 1e-4*n.Flux(time))
	for _, z := range []float64{0.1, 0.4, 1, 3} {
		near(t, "temperature [°C]", p.Temperature(z, time), n.Temperature(z, time), 2e-3)
	}

	dry := loam()
	dry.Latent, dry.Frozen, dry.FrozenCap = 0, dry.Unfrozen, dry.UnfrozenCap
	dry = dry.Solve()
	for _, z := range []float64{0.1, 0.4, 1, 3} {
		near(t, "dry [°C]", dry.Temperature(z, time), verify.StepTemperature(z, time, dry.Unfrozen/dry.UnfrozenCap, dry.Surface, dry.Start), 1e-5)
	}
}

// The heat that has left through the surface is what the ground has lost: its enthalpy below the
// start's, summed over depth from the solution's own temperatures.
func TestFreezingStepKeepsItsHeat(t *testing.T) {
	const time, dz = 30 * 86400.0, 1e-3
	p := loam().Solve()
	lost := 0.0
	for z := dz / 2; z < 12; z += dz {
		at := p.Temperature(z, time)
		lost += dz * p.UnfrozenCap * (p.Start - at)
		if at < p.Point {
			// Ice shares f(T) = 1 − x^−¼, x = T/point; ∫f dT from the point on = point·(x − 1 − (x^¾ − 1)/¾).
			x := at / p.Point
			ice := p.Point * (x - 1 - (math.Pow(x, 0.75)-1)/0.75)
			lost += dz * (p.Latent*(1-math.Pow(x, -0.25)) + (p.UnfrozenCap-p.FrozenCap)*ice)
		}
	}
	near(t, "heat [MJ/m²]", lost/1e6, 2*p.Flux(time)*time/1e6, 0.01)
}

// A thaw is a freezing seen from below zero.
func TestThawMirrorsFreezing(t *testing.T) {
	const time = 20 * 86400.0
	n := verify.Neumann{Surface: -5, Start: 4, Frozen: 1.9, Unfrozen: 1.2, FrozenCap: 2e6, UnfrozenCap: 2.6e6, Latent: 8e7}
	w := verify.Thaw{Neumann: verify.Neumann{Surface: 5, Start: -4, Frozen: 1.2, Unfrozen: 1.9, FrozenCap: 2.6e6, UnfrozenCap: 2e6, Latent: 8e7}}.Solve()
	n = n.Solve()
	near(t, "front [m]", w.Front(time), n.Front(time), 1e-9)
	near(t, "flux [W/m²]", w.Flux(time), -n.Flux(time), 1e-9)
	for _, z := range []float64{0.1, 1} {
		near(t, "temperature [°C]", w.Temperature(z, time), -n.Temperature(z, time), 1e-9)
	}
}

// Deep ground of one soil has the damped wave; a layer of the same soil changes nothing; and a
// surface resistance R is worth R·k of soil that stores nothing.
func TestLayeredWaveHasTheDampedWave(t *testing.T) {
	const k, c, at = 0.75, 2.5e6, 40 * 86400.0
	deep := verify.LayeredWave{Layers: []verify.WaveLayer{{Thickness: 40, Conductivity: k, Capacity: c}}, Mean: 8, Swing: 14}
	two := deep
	two.Layers = []verify.WaveLayer{{Thickness: 0.7, Conductivity: k, Capacity: c}, {Thickness: 39.3, Conductivity: k, Capacity: c}}
	covered, resisted := deep, deep
	covered.Layers = append([]verify.WaveLayer{{Thickness: 0.15, Conductivity: k, Capacity: 1}}, deep.Layers...)
	resisted.Resistance = 0.15 / k
	for _, z := range []float64{0, 0.1, 0.7, 2, 6} {
		want := heat.AnnualWave(z, at, 8, 14, 0, k/c)
		near(t, "one layer [°C]", deep.Temperature(z, at), want, 1e-9)
		near(t, "two layers [°C]", two.Temperature(z, at), want, 1e-9)
		near(t, "resistance [°C]", resisted.Temperature(z, at), covered.Temperature(z+0.15, at), 1e-5)
	}
}

func near(t *testing.T, what string, got, want, limit float64) {
	t.Helper()
	if !(math.Abs(got-want) <= limit) {
		t.Errorf("%s: %.8g; want %.8g within %g", what, got, want, limit)
	}
}
