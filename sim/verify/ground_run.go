package verify

import (
	"context"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// RunGround simulates a soil column as a user would have it: a short buried segment, the
// case's soil and surface resistance by hand, its mean and swing, and a record of its air
// from 100 days before the coldest one. It returns the frost depth [m] at each state. A
// daily wave is part of the record only; the simulation's spin-up has none.
func RunGround(ctx context.Context, c GroundCase) ([]float64, error) {
	const lead, day = 100, 86400.0
	last := c.States[len(c.States)-1].Time
	s := &weather.Series{Source: c.ID, Start: coldest.AddDate(0, 0, -lead)}
	step := day
	if c.DailySwing != 0 {
		step = day / 24
	}
	for t := 0.0; t <= last+lead*day; t += step {
		s.Time = append(s.Time, t)
		s.Air = append(s.Air, c.Air(t-lead*day))
	}
	r, err := simulate(ctx, c.ID, c.layout(), s)
	if err != nil {
		return nil, err
	}
	var frost []float64
	for _, state := range c.States {
		frost = append(frost, r.Hourly.Frost[int((state.Time+lead*day)/step+0.5)])
	}
	return frost, nil
}

// coldest is the day on which the simulation's annual wave is lowest, 20 days into the year.
var coldest = time.Date(2026, 1, 21, 0, 0, 0, 0, time.UTC)

// layout is half a metre of dry pipe in the case's ground.
func (c GroundCase) layout() *pipe.Layout {
	return &pipe.Layout{
		Title: c.ID,
		Site: pipe.Site{
			Soil: pipe.Soil{
				ConductivityUnfrozen: c.ConductivityUnfrozen, ConductivityFrozen: c.ConductivityFrozen,
				HeatCapacityUnfrozen: c.CapacityUnfrozen, HeatCapacityFrozen: c.CapacityFrozen, Latent: c.Latent,
			},
			GroundMean: &c.AirMean, GroundSwing: &c.AnnualSwing, SurfaceResistance: &c.SurfaceResistance,
		},
		Segments: []pipe.Segment{{
			Name: "run", Length: 0.5, Setting: pipe.Buried, Cover: &[2]float64{1, 1},
			Size: pipe.Size{OutsideDiameter: 0.1143, Wall: 0.00602, Material: pipe.Material{Name: "PVC", Conductivity: WallConductivity, Density: WallDensity, HeatCapacity: WallHeatCapacity}},
		}},
		Outlet: pipe.Outlet{Kind: pipe.Open},
	}
}

// MarchGround takes a column of the case's soil to its periodic state, 100 days before the
// coldest day, and then through its states.
func MarchGround(ctx context.Context, c GroundCase) ([]GroundState, error) {
	return marchColumn(ctx, c, sim.NewSoilColumn(c.layout().Site.Soil, c.AirMean, sim.Stepping{Longest: 86400}), 1)
}

// marchColumn does so with a column at hand; steps multiplies its longest step.
func marchColumn(ctx context.Context, c GroundCase, column *sim.SoilColumn, steps float64) ([]GroundState, error) {
	const start, day, year, settle = -100 * 86400.0, 86400.0, 365 * 86400.0, 200
	annual := c
	annual.DailySwing = 0
	if _, err := column.SpinUp(annual.above, start, settle); err != nil {
		return nil, err
	}
	longest := day * steps
	if c.DailySwing > 0 {
		longest = day / 24 * steps
	}
	if err := column.March(c.above, start, start+year, longest); err != nil {
		return nil, err
	}
	var out []GroundState
	t := start // the year repeats
	for _, state := range c.States {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := column.March(c.above, t, state.Time, longest); err != nil {
			return nil, err
		}
		t = state.Time
		got := GroundState{Time: t, Frost: column.Frost()}
		for z, depth := range GroundDepths {
			got.Temperature[z] = column.TemperatureAt(depth)
		}
		out = append(out, got)
	}
	return out, nil
}

// above is what drives the column.
func (c GroundCase) above(t float64) (resistance, temperature float64) {
	return c.SurfaceResistance, c.Air(t)
}
