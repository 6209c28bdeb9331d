package answers

import (
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
)

// What a rock pit and a weep slot that are added look like (common practice, no source) [m].
const (
	pocketLength = 1.0
	pocketWidth  = 0.6
	pocketDepth  = 0.6
	pocketVoid   = 0.40 // [-]
	weepHeight   = 0.010
	weepWidth    = 0.050
)

// slot writes a weep slot as a layout takes it.
func slot(height, width float64) string { return metres(height) + " x " + metres(width) }

// pockets make the rock pit larger, or add one.
func (m *maker) pockets() {
	if m.layout.Outlet.Kind != pipe.Lid {
		return
	}
	if m.layout.Pocket != nil && m.layout.Outlet.Weep != nil {
		m.add(m.toPocket(2 * volume(*m.layout.Pocket)))
		m.add(m.toPocket(4 * volume(*m.layout.Pocket)))
		return
	}
	c := m.toPocket(volume(m.pocket()))
	c.Key, c.Kind = key(AddPocket), AddPocket
	m.add(c)
}

// pocket is the layout's rock pit, or the one that would be added.
func (m *maker) pocket() pipe.Pocket {
	if p := m.layout.Pocket; p != nil {
		return *p
	}
	return pipe.Pocket{Length: pocketLength, Width: pocketWidth, Depth: pocketDepth, Void: pocketVoid}
}

// volume is that of a pocket, rock and all [m³].
func volume(p pipe.Pocket) float64 { return p.Length * p.Width * p.Depth }

// toPocket gives the pocket another volume [m³]: longer and wider alike, for its depth is that of the elbow above it.
// One that is not there is added, and a weep slot to feed it where there is none.
func (m *maker) toPocket(to float64) Change {
	p := m.pocket()
	grow := math.Sqrt(to / volume(p))
	c := Change{Key: key(EnlargePocket, fmt.Sprintf("%.3g m3", to)), Kind: EnlargePocket, Segment: -1, Amount: to, Takes: TakesOwner | TakesDig}
	if m.layout.Outlet.Weep == nil {
		c.Edits = append(c.Edits, pipe.Edit{Path: "outlet.weep", Value: slot(weepHeight, weepWidth)})
	}
	if m.layout.Pocket == nil {
		c.Edits = append(c.Edits, pipe.Edit{Path: "pocket.depth", Value: metres(p.Depth)}, pipe.Edit{Path: "pocket.void", Value: quantity(units.Fraction, p.Void)})
	}
	c.Edits = append(c.Edits, pipe.Edit{Path: "pocket.length", Value: metres(p.Length * grow)}, pipe.Edit{Path: "pocket.width", Value: metres(p.Width * grow)})
	return c
}

// weeps make the weep slot twice as high and wide.
func (m *maker) weeps() {
	if w := m.layout.Outlet.Weep; w != nil {
		m.add(Change{Kind: EnlargeWeep, Segment: -1, Amount: 2 * w.Height, Takes: TakesOwner,
			Edits: []pipe.Edit{{Path: "outlet.weep", Value: slot(2*w.Height, 2*w.Width)}}})
	}
}

// longestReach is how much longer a line is made to come out of the ground [m].
const longestReach = 30.0

// daylight opens the line's end instead of its lid.
func (m *maker) daylight() {
	if m.layout.Outlet.Kind != pipe.Lid {
		return
	}
	c := Change{Kind: OpenOutlet, Segment: -1, Takes: TakesOwner | TakesDig | TakesApproval, Risks: RiskErosion | RiskDraught,
		Edits: []pipe.Edit{{Path: "outlet.kind", Value: "open"}, {Path: "outlet.level"}, {Path: "outlet.lid_opening_head"}, {Path: "outlet.weep"}, {Path: "pocket"}}}
	last := len(m.layout.Segments) - 1
	deep := m.profile.Ground(m.profile.Segments[last].X1) - m.profile.Segments[last].Z1
	switch {
	case deep <= sameLevel:
	case !m.layout.Site.GroundWritten:
		c.Takes |= TakesGround
	default:
		m.outOfGround(&c, last)
	}
	m.add(c)
}

// outOfGround makes the last segment longer until it comes out of ground that falls faster than it does.
func (m *maker) outOfGround(c *Change, last int) {
	s, r := m.layout.Segments[last], m.profile.Segments[last]
	slope := s.Drop / s.Length
	for c.Amount = 0.5; c.Amount <= longestReach; c.Amount += 0.5 {
		run := c.Amount * math.Sqrt(1-slope*slope)
		if m.profile.Ground(r.X1+run) > r.Z1-slope*c.Amount+sameLevel {
			continue
		}
		c.Edits = append(c.Edits, m.edit(last, "length", metres(s.Length+c.Amount)), m.edit(last, "slope", quantity(units.Slope, slope)),
			pipe.Edit{Path: "outlet.distance_to_house", Value: metres(m.layout.Outlet.DistanceToHouse + run)})
		if s.Cover != nil { // its end has none
			c.Edits = append(c.Edits, m.edit(last, "cover", metres(m.profile.CoverAt(last, 0))))
		}
		return
	}
	c.Amount, c.Barred = 0, BarOutletLow
}
