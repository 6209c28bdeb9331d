package sim_test

import (
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// inertLimit is how far a cell filled with its own soil may stray from the undisturbed ground
// (model definition) [K].
const inertLimit = 0.05

// bareSite is ground of one soil whose surface is held at the air's temperature.
func bareSite(s pipe.Soil) *pipe.Site {
	resistance := 1e-6
	return &pipe.Site{Soil: s, SurfaceResistance: &resistance}
}

// airSeries is an hourly record of air alone.
func airSeries(days float64, air func(t float64) float64) *weather.Series {
	s := &weather.Series{Source: "test", Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for t := 0.0; t <= days*86400; t += 3600 {
		s.Time = append(s.Time, t)
		s.Air = append(s.Air, air(t))
	}
	return s
}

// A buried cell filled with its own soil disturbs nothing: it reads T(z,t) of the column,
// also while the ground around it freezes and thaws. Expected is the column's own temperature at
// that depth, read straight between its volumes.
func TestInertBuriedCellFollowsTheGround(t *testing.T) {
	soil := pipe.Soil{ConductivityUnfrozen: 1.2, ConductivityFrozen: 1.9, HeatCapacityUnfrozen: 2.6e6, HeatCapacityFrozen: 2.0e6, Latent: 80e6}
	wave := func(mean, swing, daily float64) func(t float64) float64 {
		return func(t float64) float64 {
			day := t / 86400
			return mean - swing*math.Sin(2*math.Pi*day/180) - daily*math.Cos(2*math.Pi*day)
		}
	}
	steps := func(t float64) float64 { // plunges and thaws of some days
		return []float64{-6, 3, -12, 2, -20, 8, -3, 10}[int(t/86400/9)%8]
	}
	for _, c := range []struct {
		name  string
		air   func(t float64) float64
		start float64
	}{
		{"unfrozen waves", wave(14, 5, 6), 14},
		{"freezing waves", wave(2, 9, 6), 4},
		{"freezing steps", steps, 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, axis := range []float64{0.15, 0.4, 0.8} {
				followGround(t, soil, airSeries(150, c.air), c.start, axis)
			}
		})
	}
}

// followGround compares an inert cell with the column at every weather row.
func followGround(t *testing.T, soil pipe.Soil, s *weather.Series, start, axis float64) {
	t.Helper()
	g, err := sim.NewGround(bareSite(soil), s, start, axis)
	if err != nil {
		t.Fatal(err)
	}
	cell := g.Inert(0.055, axis)
	worst, when, frozen := 0.0, 0, 0.0
	low, high := math.Inf(1), math.Inf(-1)
	for i := range len(s.Time) - 1 {
		if err := cell.March(i); err != nil {
			t.Fatal(err)
		}
		ground, err := g.Read(i, axis)
		if err != nil {
			t.Fatal(err)
		}
		low, high, frozen = min(low, ground[0]), max(high, ground[0]), max(frozen, g.Frost(i))
		for _, at := range cell.Temperatures() {
			if off := math.Abs(at - ground[0]); off > worst {
				worst, when = off, i+1
			}
		}
	}
	t.Logf("axis at %.2f m: ground %.2f … %.2f °C, frost to %.2f m; worst %.4f K at hour %d", axis, low, high, frozen, worst, when)
	if worst > inertLimit {
		t.Errorf("axis at %.2f m: off by %.4f K at hour %d; limit %g K", axis, worst, when, inertLimit)
	}
}
