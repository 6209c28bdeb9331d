package sim

import (
	"math"

	"winterline/sim/flow"
)

// joint is where water can leave the line before its end: the standpipe with its relief
// openings and its rim, or the relief opening of a glued line.
type joint struct {
	bottom  float64 // invert of the line there [m]
	rim     float64 // [m]; +Inf: there is none
	bore    float64 // of the standpipe [m]
	gap     float64 // level of the house pipe's open end [m]; +Inf: there is none
	reliefs []opening
}

// opening is one relief opening.
type opening struct {
	bottom, top, width float64 // levels and width [m]
	ground             float64 // level of the ground beside it [m]
	snowFactor         float64
	facesHouse         bool
	distance           float64 // to the house [m]
	ice                float64 // thickness of the ice on the ground before it [m]
}

const openingFlow = flow.SharpOrifice // discharge coefficient of a relief opening or weep slot [-]

// newJoint reads the joint from a layout.
func newJoint(k *Case, l *line) *joint {
	j := &joint{rim: math.Inf(1), gap: math.Inf(1), bottom: l.cells[l.entry()].z0}
	x := 0.0
	if p := k.Layout.Standpipe; p != nil {
		x = k.Profile.X(p.After, 1)
		j.rim, j.bore = k.Profile.Ground(x)+p.Rim, p.Size.Bore()
		j.gap = k.Profile.Invert(p.After, 1)
	}
	for _, r := range k.Layout.Reliefs {
		at := x
		if r.Segment >= 0 {
			at = k.Profile.X(r.Segment, 0.5)
		}
		g := k.Profile.Ground(at)
		j.reliefs = append(j.reliefs, opening{g + r.Height, g + r.Height + r.OpeningHeight, r.Width, g, r.SnowFactor, r.FacesHouse, r.DistanceToHouse, 0})
	}
	return j
}

// clear is the lowest level at which an opening is free of snow and ice [m].
func (o opening) clear(snow float64) float64 {
	return max(o.bottom, o.ground+max(snow*o.snowFactor, o.ice))
}

// buried reports whether snow stands over all of the opening.
func (o opening) buried(snow float64) bool { return o.ground+snow*o.snowFactor >= o.top }

// flow out of the opening at a water level [m³/s]; snow and ice shut the share that they
// stand over.
func (o opening) flow(level, snow float64) float64 {
	low := o.clear(snow)
	if low >= o.top || level <= low {
		return 0
	}
	return flow.SlotFlow(openingFlow, o.width, o.top-low, level-low)
}

// lip is the level to which water stands when the line behind is shut [m]: the lowest
// way out that is free of snow and ice; +Inf when there is none.
func (j *joint) lip(snow float64) float64 {
	lip := j.rim
	for _, o := range j.reliefs {
		if clear := o.clear(snow); clear < o.top {
			lip = min(lip, clear)
		}
	}
	return lip
}

// relief is the flow out of all relief openings at a level [m³/s].
func (j *joint) relief(level, snow float64) float64 {
	sum := 0.0
	for _, o := range j.reliefs {
		sum += o.flow(level, snow)
	}
	return sum
}

// over is the flow over the rim at a level [m³/s].
func (j *joint) over(level float64) float64 {
	if math.IsInf(j.rim, 1) {
		return 0
	}
	return flow.RimFlow(j.bore, level-j.rim)
}

// parting is how an inflow leaves the joint [m³/s], and the level at which it does [m].
type parting struct {
	level             float64
	line, relief, rim float64
}

const (
	// levelTolerance is how closely a water level is found [m].
	levelTolerance = 1e-9
	// levelTries is how often a bracket of levels is halved at most: enough for one of a kilometre.
	levelTries = 40
)

// part finds the level at which what arrives goes out: arriving(level), which does not
// rise with the level, against the line, the reliefs and the rim, which do not fall. One
// monotone root, by bisection between the joint's bottom and a level that no way out
// needs.
func (j *joint) part(snow, high float64, arriving, line func(level float64) float64) parting {
	low := j.bottom
	for i := 0; i < levelTries && high-low > levelTolerance; i++ {
		mid := 0.5 * (low + high)
		if line(mid)+j.relief(mid, snow)+j.over(mid) < arriving(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	p := parting{level: high, line: line(high), relief: j.relief(high, snow), rim: j.over(high)}
	return p.scaled(arriving(high))
}

// scaled makes the ways out add up to what arrives: where the line's capacity jumps at
// the root, as when its bore fills, the line takes the part that the others leave.
func (p parting) scaled(arriving float64) parting {
	total := p.line + p.relief + p.rim
	if total <= 0 {
		return parting{level: p.level}
	}
	if total > arriving && p.line >= total-arriving {
		p.line = arriving - p.relief - p.rim
		return p
	}
	k := arriving / total
	p.line, p.relief, p.rim = p.line*k, p.relief*k, p.rim*k
	return p
}

// beside is the share of the relief flow at a level that leaves towards the house [-].
func (j *joint) beside(level, snow float64) float64 {
	return j.reliefShare(level, snow, func(o *opening) bool { return o.facesHouse })
}

// reliefShare is the share of the relief flow at a level that leaves by openings of a kind [-]; 0 where none flows.
func (j *joint) reliefShare(level, snow float64, kind func(*opening) bool) float64 {
	some, all := 0.0, 0.0
	for i := range j.reliefs {
		o := &j.reliefs[i]
		q := o.flow(level, snow)
		all += q
		if kind(o) {
			some += q
		}
	}
	if all == 0 {
		return 0
	}
	return some / all
}

// reliefMargin is the least clearance of the relief openings' bottoms over the snow
// beside them [m].
func (j *joint) reliefMargin(snow float64) float64 {
	least := math.Inf(1)
	for _, o := range j.reliefs {
		least = min(least, o.bottom-(o.ground+snow*o.snowFactor))
	}
	return least
}
