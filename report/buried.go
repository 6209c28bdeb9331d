package report

import (
	"math"

	"winterline/pipe"
	"winterline/sim"
)

// buriedRange is how deep a buried segment lies.
type buriedRange struct {
	name        string
	top, bottom float64 // its shallowest top and its deepest bottom below the ground [m]; 0 at least
	cover       pipe.Surface
	snowOn      float64 // share of the snow that lies over it [-]
}

// under says whether a segment lies under the surface that a result is for.
func (b buriedRange) under(s sim.GroundSurface) bool {
	return b.cover == s.Cover && b.snowOn == s.SnowOn
}

// groundOver is the ground that a segment lies in: under the surface over it, where that was
// computed.
func (b buriedRange) groundOver(r *sim.GroundResult) (*sim.GroundResult, bool) {
	if b.under(r.Surface) {
		return r, true
	}
	for _, other := range r.Others {
		if b.under(other.Surface) {
			return other, true
		}
	}
	return r, false
}

// buriedRanges gives the buried segments in flow order.
func buriedRanges(l *pipe.Layout, p *pipe.Profile) []buriedRange {
	const places = 20 // along a segment: ground may bend above it and the pipe sag below
	if l == nil || p == nil {
		return nil
	}
	var out []buriedRange
	for i, seg := range l.Segments {
		if seg.Setting != pipe.Buried || i >= len(p.Segments) {
			continue
		}
		b := buriedRange{name: seg.Name, top: math.Inf(1)}
		b.cover, b.snowOn = l.Over(i)
		for k := range places + 1 {
			cover := p.CoverAt(i, float64(k)/places)
			b.top = math.Min(b.top, math.Max(0, cover))
			b.bottom = math.Max(b.bottom, cover+seg.Size.OutsideDiameter)
		}
		out = append(out, b)
	}
	return out
}

// frostVisit says when frost stood at the depth of a segment, in the ground beside it.
type frostVisit struct {
	reached, below bool
	from, to       float64 // first and last row with frost at its depth [s]
	under          span    // first and last row with frost below its deepest point [s]
}

// visit follows the frost of one winter past a segment.
func (b buriedRange) visit(r *sim.GroundResult, winter sim.FrostSeason) frostVisit {
	var v frostVisit
	for i, t := range r.Time {
		top, bottom := r.FrostTop[i], r.FrostBottom[i]
		if t < winter.From || t > winter.To || !(bottom > b.top && top < b.bottom) {
			continue
		}
		if !v.reached {
			v.reached, v.from = true, t
		}
		v.to = t
		if bottom < b.bottom {
			continue
		}
		if !v.below {
			v.below, v.under.from = true, t
		}
		v.under.to = t
	}
	return v
}
