package verify

import (
	"context"
	"math"
	"time"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// The pipe on which the inward cases are run: their figures are dimensionless, so that any
// radius serves.
const (
	inwardRadius = 0.05  // [m]
	inwardSkin   = 1e-5  // wall thick enough to be a wall, too thin to matter [m]
	inwardHeld   = 1e7   // film that holds the wall at the outside temperature [W/(m² K)]
	inwardClosed = 1e-5  // radius squared, over the pipe's, at which the front counts as closed [-]
	inwardSpan   = 1.05  // the record ends this much after the expected time [-]
	inwardRows   = 200.0 // of the record
)

// RunInward simulates a case on a pipe whose water starts at 0 °C and returns the
// dimensionless time at which the front reaches its radius; NaN if it does not.
func RunInward(ctx context.Context, c InwardCase) (float64, error) {
	air := -c.Stefan * heat.Fusion / heat.IceHeat
	unit := inwardRadius * inwardRadius * heat.WaterDensity * heat.IceHeat / heat.IceConductivity / c.Stefan // [s]
	s := &weather.Series{Source: c.ID, Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for k := 0.0; k <= inwardRows; k++ {
		s.Time = append(s.Time, inwardSpan*c.Time*unit*k/inwardRows)
		s.Air = append(s.Air, air)
	}
	r, err := simulate(ctx, c.ID, c.layout(), s)
	if err != nil {
		return math.NaN(), err
	}
	level := 1 - math.Max(c.Front*c.Front, inwardClosed)
	at := crossing(r.Hourly.Time, r.Hourly.Segments[0].Ice, level)
	if at == nil {
		return math.NaN(), nil
	}
	return *at / unit, nil
}

// layout is one metre of pipe with next to no wall, full of water at 0 °C.
func (c InwardCase) layout() *pipe.Layout {
	skin := pipe.Material{Name: "skin", Conductivity: 10, Density: 100, HeatCapacity: 1000}
	film, start, full := inwardHeld, 0.0, 1.0
	if !math.IsNaN(c.Biot) {
		film = c.Biot * heat.IceConductivity / inwardRadius
	}
	return &pipe.Layout{Title: c.ID, Outlet: pipe.Outlet{Kind: pipe.Open}, Segments: []pipe.Segment{{
		Name: "cell", Length: 1, Setting: pipe.OpenAir, FilmCoefficient: &film, StartTemperature: &start, Standing: &full,
		Size: pipe.Size{OutsideDiameter: 2 * (inwardRadius + inwardSkin), Wall: inwardSkin, Material: skin},
	}}}
}
