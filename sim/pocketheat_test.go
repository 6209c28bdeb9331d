package sim_test

import (
	"math"
	"testing"

	"winterline/sim"
	"winterline/sim/heat"
)

// A dry pocket of 1 m³ of stone and void, in ground that stays at 4 °C: its warmth goes as
// exp(−t/τ) with τ = C/(S·k), C = 0.6 · 1.92 MJ/K; S = 4πr/(1 − r/2z) with the 6 m² of a cube,
// r = √(6/4π) = 0.69099 m, z = 1.2 m: 8.68323/(1 − 0.28791) = 12.1940 m.
func TestPocketFollowsTheGround(t *testing.T) {
	const k, day = 1.2, 86400.0
	p := sim.NewPocketWarmth(1, 1, 1, 0.4, 1.2, k, 4)
	near(t, "shape factor", p.Reach(), 12.1940, 1e-4)
	p.Begin(10)
	for range 24 * 4 {
		p.March(3600, 0)
	}
	tau := 0.6 * 1.92e6 / (12.1940 * k)
	got, _ := p.State(0)
	near(t, "excess after four days", got-4, 6*math.Exp(-4*day/tau), 1e-4)
}

// 100 kg of water at 0 °C in ground of −3 °C freeze once the ground has taken their heat of
// fusion: 100 · 333,427 J at S·k·3 K, frozen ground conducting as stated.
func TestPocketFreezes(t *testing.T) {
	const k, water = 1.9, 100.0
	p := sim.NewPocketWarmth(1, 1, 1, 0.4, 1.2, k, -3)
	p.Begin(0)
	want := water * 333427 / (12.1940 * k * 3)
	for range int(want / 600 / 2) {
		p.March(600, water)
	}
	if _, ice := p.State(water); math.Abs(ice-0.5) > 0.005 {
		t.Errorf("ice share %.3f half way", ice)
	}
	for range int(want/600/2) + 20 {
		p.March(600, water)
	}
	if got, ice := p.State(water); ice != 1 || !(got < 0 && got > -3) {
		t.Errorf("ice share %.3f at %.2f °C after all of the heat", ice, got)
	}
	if carried := p.Take(0, water); carried != 0 {
		t.Errorf("nothing taken carries %g J", carried)
	}
}

// Water that leaves at 5 °C carries its heat, and leaves the rest at 5 °C.
func TestPocketWaterCarriesItsHeat(t *testing.T) {
	p := sim.NewPocketWarmth(1, 1, 1, 0.4, 1.2, 1.2, 5)
	p.Begin(5)
	p.Add(80 * heat.LiquidHeat * 5)
	near(t, "carried", p.Take(30, 80), 30*heat.LiquidHeat*5, 1e-12)
	got, _ := p.State(50)
	near(t, "temperature left", got, 5, 1e-12)
}
