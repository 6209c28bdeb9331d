package verify

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// CellRun is what the simulation made of a RadialCase; the fields are those of the case.
type CellRun struct {
	FirstIce     float64
	Ice          [4]float64
	HeatFirstIce float64
	Heat         [4]float64
	IceAtEnd     float64
}

// RunCell simulates a radial freezing case as a user would have it: a layout of one
// segment that stands full, an open outlet, no pump cycle, and a weather record. Shells
// and steps are the defaults. Levels of ice that are not reached give NaN.
func RunCell(ctx context.Context, c RadialCase) (CellRun, error) {
	run := CellRun{FirstIce: math.NaN(), HeatFirstIce: math.NaN(), IceAtEnd: math.NaN()}
	end := c.End
	if math.IsNaN(end) {
		end = 1.02 * c.Ice[3]
	}
	r, err := c.simulate(ctx, end)
	if err != nil {
		return run, err
	}
	s := r.Segments[0]
	if s.FirstIce != nil {
		run.FirstIce, run.HeatFirstIce = *s.FirstIce, s.HeatLostFirstIce
	}
	ice := r.Hourly.Segments[0].Ice
	run.IceAtEnd = ice[len(ice)-1]
	for k, at := range []*float64{s.Ice10, s.Ice50, s.Ice90, crossing(r.Hourly.Time, ice, RadialLevels[3])} {
		run.Ice[k], run.Heat[k] = math.NaN(), math.NaN()
		if at == nil {
			continue
		}
		run.Ice[k] = *at
		part, err := c.simulate(ctx, *at) // the record ends when the level is reached
		if err != nil {
			return run, err
		}
		run.Heat[k] = part.Segments[0].HeatLost
	}
	return run, nil
}

// crossing returns when a series first reaches a level, straight between its rows.
func crossing(t, v []float64, level float64) *float64 {
	for i := 1; i < len(v); i++ {
		if v[i] >= level {
			at := t[i-1] + (t[i]-t[i-1])*(level-v[i-1])/(v[i]-v[i-1])
			return &at
		}
	}
	return nil
}

// simulate runs the case up to a time [s].
func (c RadialCase) simulate(ctx context.Context, end float64) (*sim.Result, error) {
	return simulate(ctx, c.ID, c.layout(), c.weather(end))
}

// simulate runs a layout without pump cycles under a weather record.
func simulate(ctx context.Context, id string, l *pipe.Layout, s *weather.Series) (*sim.Result, error) {
	profile, problems := l.MakeProfile(id)
	if len(problems) > 0 {
		return nil, fmt.Errorf("%s: %w", id, problems)
	}
	k, err := sim.NewCase(id, l, profile, s, sim.Supply{Given: true})
	if err != nil {
		return nil, err
	}
	return sim.Run(ctx, k, sim.Settings{})
}

// layout is one metre of pipe that stands full.
func (c RadialCase) layout() *pipe.Layout {
	wall := pipe.Material{Name: "PVC", Conductivity: WallConductivity, Density: WallDensity, HeatCapacity: WallHeatCapacity}
	foam := pipe.Material{Name: "closed-cell foam", Conductivity: FoamConductivity, Density: FoamDensity, HeatCapacity: FoamHeatCapacity}
	full := 1.0
	s := pipe.Segment{
		Name: "cell", Length: 1, Setting: pipe.OpenAir,
		Size:             pipe.Size{Name: c.Size, OutsideDiameter: c.OutsideDiameter, Wall: c.Wall, Material: wall},
		FilmCoefficient:  &c.Film,
		StartTemperature: &c.Start,
		Standing:         &full,
	}
	if c.Foam > 0 {
		s.Insulation = []pipe.Insulation{{Thickness: c.Foam, Material: foam}}
	}
	if c.Still {
		s.Liquid = pipe.Still
	}
	return &pipe.Layout{Title: c.ID, Segments: []pipe.Segment{s}, Outlet: pipe.Outlet{Kind: pipe.Open}}
}

const (
	steadyRows = 3600.0 // spacing of the rows of steady air [s], as weather usually has it
	sineRows   = 360.0  // of a sine's, whose chords then miss it by 1e-3 K at most [s]
	lastRows   = 40     // rows close together around the last of the ice, to read its time off
)

// weather is the air that the case prescribes, up to a time [s].
func (c RadialCase) weather(end float64) *weather.Series {
	step := steadyRows
	if c.AirSwing != 0 {
		step = sineRows
	}
	var at []float64
	for t := 0.0; t < end; t += step {
		at = append(at, t)
	}
	if last := c.Ice[3]; !math.IsNaN(last) {
		for k := range lastRows {
			at = append(at, last*(0.98+0.04*float64(k)/lastRows))
		}
	}
	at = append(at, end)
	slices.Sort(at)
	s := &weather.Series{Source: c.ID, Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for i, t := range at {
		if t <= end && (i == 0 || t > at[i-1]) {
			s.Time = append(s.Time, t)
			s.Air = append(s.Air, c.Air(t))
		}
	}
	return s
}
