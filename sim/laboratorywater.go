package sim

import "winterline/pipe"

// The parts of a run that decide where water goes, to be set beside published figures one by one.
// A run uses the same pumps, joints and pockets.

// PumpLine is a pump that lifts water from level 0 through a run of pipe.
type PumpLine struct{ lift }

// NewPumpLine lays segments behind a pump with the given curve, for water of a kinematic viscosity
// [m²/s].
func NewPumpLine(curve []pipe.CurvePoint, segments []pipe.Segment, viscosity float64) PumpLine {
	d := equivalent(segments)
	d.viscosity = viscosity
	return PumpLine{lift{curve: curve, duct: d}}
}

// FlowTo is the flow that it lifts to a level [m³/s].
func (p PumpLine) FlowTo(level float64) float64 { return p.to(level) }

// HeadLost is what the pipe with its fittings loses at a flow [m].
func (p PumpLine) HeadLost(flow float64) float64 { return p.duct.head(flow) }

// Opening is a relief opening: levels of its bottom, its top and the ground beside it, its width, and how thick the ice on
// that ground is, all in m; snow counts with SnowFactor times its depth.
type Opening struct{ Bottom, Top, Width, Ground, SnowFactor, Ice float64 }

// Joint is where water can leave the line before its end.
type Joint struct{ j *joint }

// NewJoint makes a standpipe of the given bottom, rim and bore [m].
func NewJoint(bottom, rim, bore float64, openings ...Opening) *Joint {
	j := &joint{bottom: bottom, rim: rim, bore: bore}
	for _, o := range openings {
		j.reliefs = append(j.reliefs, opening{bottom: o.Bottom, top: o.Top, width: o.Width, ground: o.Ground, snowFactor: o.SnowFactor, ice: o.Ice})
	}
	return &Joint{j}
}

// Parting is how an inflow leaves the joint [m³/s], and the level at which it does [m].
type Parting struct{ Level, Line, Relief, Rim float64 }

// Part finds how an inflow [m³/s] leaves beside so much snow [m]; line is what the line takes at a level [m³/s].
func (j *Joint) Part(snow, inflow float64, line func(level float64) float64) Parting {
	p := j.j.part(snow, j.j.rim+1, func(float64) float64 { return inflow }, line)
	return Parting{p.level, p.line, p.relief, p.rim}
}

// RockPocket is the rock pit of a layout, without the heat in it.
type RockPocket struct{ p *pocket }

// NewRockPocket is nil where nothing feeds it.
func NewRockPocket(l *pipe.Layout) *RockPocket {
	p := newPocket(l, l.Pocket.Depth)
	if p == nil {
		return nil
	}
	return &RockPocket{p}
}

// Fill sets the share of its void that is full [-].
func (p *RockPocket) Fill(share float64) { p.p.held = share * p.p.capacity() }

// Drain lets the unfrozen soil drink for dt [s] and returns what it took [kg].
func (p *RockPocket) Drain(dt float64) float64 { return p.p.drain(dt, 1) }

// Held is the water in it [kg].
func (p *RockPocket) Held() float64 { return p.p.held }

// Capacity is the water that it can hold [kg].
func (p *RockPocket) Capacity() float64 { return p.p.capacity() }
