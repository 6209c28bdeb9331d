package sim

import (
	"cmp"
	"math"
	"slices"

	"winterline/pipe"
)

// riser is a part of the line that heave lifts.
type riser struct {
	foot, grip float64 // depths below which all growing ice lifts it, at the low and at the high end of the range [m]
	lift       Lift
	bounds     []bound
	below      struct{ foot, grip int } // indices of the two depths in heaving.below
}

// bound is a lift to watch for.
type bound struct {
	at    float64 // [m]
	limit *Limit
}

// stands finds the riser's place in the ground; false: frost never comes below it.
func (r *riser) stands(h *heaving) bool {
	r.below.foot, r.below.grip = h.index(r.foot), h.index(r.grip)
	return min(r.below.foot, r.below.grip) < len(h.slices)
}

// take looks at the lift at an instant t [s].
func (r *riser) take(h *heaving, t float64) {
	low, high := h.below[r.below.foot][0], h.below[r.below.grip][1]
	r.lift.Low = max(r.lift.Low, low)
	if high > r.lift.High {
		r.lift.High, r.lift.At = high, t
	}
	for _, b := range r.bounds {
		first(&b.limit.Surely, low > b.at, t)
		first(&b.limit.May, high > b.at, t)
	}
}

// first keeps the first time at which something held.
func first(kept **float64, holds bool, t float64) {
	if holds && *kept == nil {
		*kept = at(t)
	}
}

// mover gathers the parts of the line that heave lifts, by the ground in which they stand.
type mover struct {
	w      *winter
	risers map[*ground][]*riser
}

// follow takes all parts that stand in a ground through the record; false: the class of the soil is not known.
func follow(g *ground, all []*riser) bool {
	h, ok := newHeaving(g.frostRecord())
	if !ok {
		return false
	}
	var moved []*riser
	for _, r := range all {
		if r.stands(h) || len(r.bounds) > 0 {
			moved = append(moved, r)
		}
	}
	h.follow(func(row int) {
		for _, r := range moved {
			r.take(h, g.s.Time[row])
		}
	})
	return true
}

// frostRecord is the ground's own record.
func (g *ground) frostRecord() *frostRecord {
	tracks := slices.Clone(g.order)
	slices.SortStableFunc(tracks, func(a, b *track) int { return cmp.Compare(a.depth, b.depth) })
	r := &frostRecord{
		time: g.s.Time, frost: g.frost,
		temperature: func(k, row int) float64 { return tracks[k].law.temperature(tracks[k].u[row]) },
		soil:        func(z float64) pipe.Soil { return g.site.SoilUnder(g.key.cover, z) },
	}
	for _, t := range tracks {
		r.depths = append(r.depths, t.depth)
	}
	return r
}

// add adds a part of the line.
func (m *mover) add(g *ground, foot, grip float64) *riser {
	r := &riser{foot: foot, grip: grip}
	m.risers[g] = append(m.risers[g], r)
	return r
}

// joint finds where the house's pipe meets the buried line; nil: nowhere.
func (m *mover) joint(out *Movement) *riser {
	l, p := m.w.k.Layout, m.w.k.Profile
	if s := l.Standpipe; s != nil && s.After+1 < len(l.Segments) {
		r := m.add(m.w.ground.own(), p.CoverAt(s.After+1, 0), 0)
		out.Joint = &JointMovement{Travel: s.SlipTravel}
		r.bounds = append(r.bounds, bound{s.SlipTravel, &out.Joint.Limit})
		if clear, ok := airGap(l, p); ok {
			out.Gap = &GapMovement{Clear: clear}
			r.bounds = append(r.bounds, bound{clear, &out.Gap.Limit})
		}
		return r
	}
	for i, seg := range l.Segments {
		if seg.Setting != pipe.Buried {
			continue
		}
		out.Joint = &JointMovement{Glued: true}
		foot := p.CoverAt(i, 0)
		grip := foot // it comes through the wall, below the surface
		if i > 0 && l.Segments[i-1].Setting != pipe.ThroughWall && l.Segments[i-1].Setting != pipe.Indoor {
			grip = 0 // it comes down through the surface
		}
		return m.add(m.over(i), foot, grip)
	}
	return nil
}

// airGap is how high the house pipe's end stands above the bottom of the lowest relief opening in the
// standpipe [m]; false where there is none, or it lies no lower.
func airGap(l *pipe.Layout, p *pipe.Profile) (float64, bool) {
	after := l.Standpipe.After
	ground := p.Ground(p.X(after, 1))
	lowest := math.Inf(1)
	for _, r := range l.Reliefs {
		if r.Segment < 0 {
			lowest = min(lowest, ground+r.Height)
		}
	}
	clear := p.Invert(after, 1) - lowest
	return clear, clear > 0
}

// outlet is the far end of a line that ends in the ground; nil otherwise.
func (m *mover) outlet() *riser {
	last := len(m.w.k.Layout.Segments) - 1
	if m.w.k.Layout.Segments[last].Setting != pipe.Buried {
		return nil
	}
	return m.add(m.over(last), m.w.k.Profile.CoverAt(last, 1), 0)
}

// buriedRun is a buried segment that runs along.
type buriedRun struct {
	segment int
	riser   *riser
}

// runs are the buried segments that run along the ground, each lifted by all ice that grows deeper than the shallowest
// point of its crown.
func (m *mover) runs() []buriedRun {
	var out []buriedRun
	p := m.w.k.Profile
	for i, seg := range m.w.k.Layout.Segments {
		if seg.Setting != pipe.Buried || p.Segments[i].X1-p.Segments[i].X0 < shortestRun {
			continue
		}
		cover := math.Inf(1)
		for k := range fallPoints + 1 {
			cover = min(cover, p.CoverAt(i, float64(k)/fallPoints))
		}
		out = append(out, buriedRun{i, m.add(m.over(i), cover, cover)})
	}
	return out
}

// over is the ground that segment i lies under; the site's own where that was not computed.
func (m *mover) over(i int) *ground {
	cover, snow := m.w.k.Layout.Over(i)
	for _, g := range m.w.ground.list {
		if g.key == (groundKey{cover, snow}) && g.frost != nil {
			return g
		}
	}
	return m.w.ground.own()
}
