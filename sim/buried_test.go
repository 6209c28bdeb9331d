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

// wetSoil is a soil that freezes sharply, with a lot of water in it.
var wetSoil = pipe.Soil{
	ConductivityUnfrozen: 1.2, ConductivityFrozen: 1.9,
	HeatCapacityUnfrozen: 2.6e6, HeatCapacityFrozen: 2.0e6, Latent: 80e6,
}

// surfaceFilm is a resistance that holds the ground's surface within some percent of a kelvin of the
// air [m² K/W].
const surfaceFilm = 1e-3

// bareSite is ground of one soil whose surface is held at the air's temperature.
func bareSite(s pipe.Soil) *pipe.Site {
	resistance := surfaceFilm
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

// A buried cell filled with its own soil disturbs nothing: it reads the temperature of the
// undisturbed ground at its axis, also while the ground freezes and thaws.
func TestInertBuriedCellFollowsTheGround(t *testing.T) {
	wave := func(mean, swing, daily float64) func(t float64) float64 {
		return func(t float64) float64 {
			day := t / 86400
			return mean - swing*math.Sin(2*math.Pi*day/180) - daily*math.Cos(2*math.Pi*day)
		}
	}
	steps := func(t float64) float64 { // plunges and thaws of nine days
		return []float64{-6, 3, -12, 2, -20, 8, -3, 10}[int(t/86400/9)%8]
	}
	for _, c := range []struct {
		name       string
		air        func(t float64) float64
		start      float64
		everFrozen bool
	}{
		{"unfrozen waves", wave(14, 5, 6), 14, false},
		{"freezing waves", wave(2, 9, 6), 4, true},
		{"freezing steps", steps, 5, true},
	} {
		t.Run(c.name, func(t *testing.T) { followGround(t, airSeries(100, c.air), c.start, c.everFrozen) })
	}
}

// follower is an inert cell and how far it strays.
type follower struct {
	axis                float64
	cell                *sim.BuriedCell
	told, apart         float64 // from what cells are told, and from the fine column [K]
	atFront             float64 // the same while ice ends within frontNear of the axis [K]
	lowest, frozenHours float64
}

// frontNear is the distance of the axis from the edge of the frost within which the ground
// column, whose volumes are 1 to 3 cm thick, cannot tell on which side of it the axis lies [m].
const frontNear = 0.035

// followGround holds inert cells at three depths against two readings of the ground at every
// weather row: the one that cells are told, and that of a column twice as fine, which nothing
// but its solver ties to them.
func followGround(t *testing.T, s *weather.Series, start float64, everFrozen bool) {
	t.Helper()
	cells := []*follower{{axis: 0.15, lowest: math.Inf(1)}, {axis: 0.40, lowest: math.Inf(1)}, {axis: 0.80, lowest: math.Inf(1)}}
	g, err := sim.NewGround(bareSite(wetSoil), s, start, 0.15, 0.40, 0.80)
	if err != nil {
		t.Fatal(err)
	}
	fine := fineGround(wetSoil, start)
	for _, f := range cells {
		f.cell = g.Inert(0.055, f.axis)
	}
	for i := range len(s.Time) - 1 {
		from, to := s.Time[i], s.Time[i+1]
		air := func(t float64) (float64, float64) {
			return surfaceFilm, s.Air[i] + (s.Air[i+1]-s.Air[i])*(t-from)/(to-from)
		}
		if err := fine.March(air, from, to); err != nil {
			t.Fatal(err)
		}
		for _, f := range cells {
			if err := f.cell.March(i); err != nil {
				t.Fatal(err)
			}
			f.compare(g.Temperature(f.axis, i+1), fine)
		}
	}
	for _, f := range cells {
		t.Logf("axis at %.2f m: lowest %.2f °C, frozen %.0f h; off by %.2g K from what cells are told, %.4f K from the fine column, %.3f K as the frost passes",
			f.axis, f.lowest, f.frozenHours, f.told, f.apart, f.atFront)
		if f.told > inertLimit {
			t.Errorf("axis at %.2f m: off by %.4f K; limit %g K", f.axis, f.told, inertLimit)
		}
		// Frost that thaws from above, near the surface, and volumes of 3 cm, deep down, are the
		// column's own affair: there the log tells how well it resolves them.
		if (!everFrozen || f.axis == 0.40) && f.apart > inertLimit {
			t.Errorf("axis at %.2f m: off by %.4f K from the fine column; limit %g K", f.axis, f.apart, inertLimit)
		}
		if everFrozen != (f.frozenHours > 0) {
			t.Errorf("axis at %.2f m: frozen for %g h; want ice: %v", f.axis, f.frozenHours, everFrozen)
		}
	}
}

// compare holds all volumes of the cell against both readings.
func (f *follower) compare(told float64, fine *sim.Row) {
	want := depthTemperature(fine, f.axis)
	above, below := depthTemperature(fine, f.axis-frontNear), depthTemperature(fine, f.axis+frontNear)
	f.lowest = math.Min(f.lowest, want)
	if want < 0 {
		f.frozenHours++
	}
	for _, at := range f.cell.Temperatures() {
		f.told = math.Max(f.told, math.Abs(at-told))
		if off := math.Abs(at - want); above*below > 0 {
			f.apart = math.Max(f.apart, off)
		} else {
			f.atFront = math.Max(f.atFront, off)
		}
	}
}

// groundBottom is where the fine column ends [m].
const groundBottom = 10.0

// fineGround is a column of 5 mm volumes to 1 m and coarser ones below, deepest first.
func fineGround(s pipe.Soil, start float64) *sim.Row {
	var heights []float64
	for z, dz := 0.0, 0.005; z < groundBottom; z += dz {
		heights = append(heights, groundBottom-z)
		if z > 1 {
			dz *= 1.1
		}
	}
	var v []sim.TestVolume
	for i := len(heights) - 1; i >= 0; i-- {
		v = append(v, sim.TestVolume{
			Outer: heights[i], CapLiquid: s.HeatCapacityUnfrozen, CapFrozen: s.HeatCapacityFrozen,
			Latent: s.Latent, Liquid: s.ConductivityUnfrozen, Frozen: s.ConductivityFrozen,
		})
	}
	return sim.NewRow(0, v, false, start, sim.Stepping{})
}

// depthTemperature reads a fine column at a depth, straight between its volumes [°C].
func depthTemperature(r *sim.Row, depth float64) float64 {
	height := groundBottom - depth
	i := 0
	for r.Centre(i+1) < height {
		i++
	}
	a, b := r.Centre(i), r.Centre(i+1)
	return r.Temperature(i) + (r.Temperature(i+1)-r.Temperature(i))*(height-a)/(b-a)
}
