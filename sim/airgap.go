package sim

import "math"

// AirGap is the air between the house pipe's open end and the water in the standpipe, over a winter.
// All levels are above the ground at the wall [m].
type AirGap struct {
	End   float64 // lowest point of the house pipe's end
	Water float64 // highest water in the standpipe
	At    float64 // when it first stood there [s]
	// Lip is the level of the lowest way out that snow left free, where that was highest: before a shut line
	// water stands up to it.
	Lip float64
}

// OverWater is the least clearance of the house pipe's end over the water [m]; 0 or less: the gap was lost.
func (g *AirGap) OverWater() float64 { return g.End - g.Water }

// OverLip is its least clearance over the lowest way out, the relief opening free of snow, or
// the rim [m].
func (g *AirGap) OverLip() float64 { return g.End - g.Lip }

// Lost reports that water reached the house pipe's end.
func (g *AirGap) Lost() bool { return g.OverWater() <= 0 }

// newAirGap is nil where no house pipe ends open.
func newAirGap(w *winter) *AirGap {
	if w.line.house == 0 {
		return nil
	}
	return &AirGap{End: w.joint.gap, Water: math.Inf(-1), Lip: math.Inf(-1)}
}

// waterAt notes the level of the water in the standpipe at t [s].
func (r *recorder) waterAt(t, level float64) {
	g := r.airGap
	if g == nil || level <= g.Water {
		return
	}
	g.Water, g.At = level, t
	if g.Lost() && r.once("gap", true) {
		r.event(t, EventGapUsedUp, "standpipe", level, "m", "water in the standpipe reached the open end of the house pipe: the air gap was used up")
	}
}

// lipAt notes the lowest way out under a depth of snow in the open [m].
func (r *recorder) lipAt(snow float64) {
	if r.airGap != nil {
		r.airGap.Lip = math.Max(r.airGap.Lip, r.w.joint.lip(snow))
	}
}
