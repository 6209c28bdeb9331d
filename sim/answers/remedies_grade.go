package answers

import (
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
)

// Levels nearer than that are the same [m]; the layout's own tolerance is an inch.
const sameLevel = 0.02

// leastCover is the soil that a pipe is left with where its start is raised [m] (common practice, no source).
const leastCover = 0.10

// shortestPiece is what is left of a vertical piece that is cut [m].
const shortestPiece = 0.05

// slopes are those to which a run may be laid steeper: 1/8 and 1/4 in/ft.
var slopes = []float64{1.0 / 96, 1.0 / 48}

// moved says how far down each segment's start and end go [m]; negative: up.
type moved struct{ start, end []float64 }

func newMoved(n int) moved { return moved{make([]float64, n), make([]float64, n)} }

// covers are the edits that let covers say what a move of the line does, while the ground stays. A cover that was
// one value for both ends becomes two. Where the ground is not written the covers tell of it, so all are written
// that were.
func (m *maker) covers(by moved) (edits []pipe.Edit) {
	for i, s := range m.layout.Segments {
		if s.Setting == pipe.Buried && s.Cover != nil && (by.start[i] != 0 || by.end[i] != 0) {
			edits = append(edits, m.edit(i, "cover", pair(m.profile.CoverAt(i, 0)+by.start[i], m.profile.CoverAt(i, 1)+by.end[i])))
		}
	}
	return edits
}

// lineStart is the first segment behind the house's part of the line: behind the standpipe, else the first outdoors.
func (m *maker) lineStart() int {
	if sp := m.layout.Standpipe; sp != nil {
		return sp.After + 1
	}
	for i, s := range m.layout.Segments {
		if outdoors(s) {
			return i
		}
	}
	return len(m.layout.Segments)
}

// houseSide lengthens (up > 0) or shortens the pipe in front of segment i so that a glued line meets it where it
// comes to lie: a piece that falls outdoors, or else the riser in the house. ok is false where there is neither.
func (m *maker) houseSide(i int, up float64) (edits []pipe.Edit, ok bool) {
	best := -1
	for j, s := range m.layout.Segments[:i] {
		vertical := math.Abs(s.Drop) > s.Length/2
		if left := s.Drop - up; !vertical || left*s.Drop < 0 || math.Abs(left) < shortestPiece {
			continue
		}
		if best < 0 || outdoors(s) || !outdoors(m.layout.Segments[best]) && s.Length > m.layout.Segments[best].Length {
			best = j
		}
	}
	if best < 0 {
		return nil, false
	}
	s := m.layout.Segments[best]
	drop := s.Drop - up
	length := s.Length + math.Abs(drop) - math.Abs(s.Drop)
	fall := m.edit(best, "drop", metres(drop))
	if drop < 0 {
		fall = m.edit(best, "rise", metres(-drop))
	}
	return []pipe.Edit{m.edit(best, "length", metres(length)), fall}, true
}

// outletRoom is how far the line's end can go down before it lies under the ground there [m]: under a lid as far as
// one digs. known is false where nothing tells of the ground at an open end.
func (m *maker) outletRoom() (room float64, known bool) {
	if m.layout.Outlet.Kind == pipe.Lid {
		return math.Inf(1), true
	}
	last := m.profile.Segments[len(m.profile.Segments)-1]
	seg := m.layout.Segments[len(m.layout.Segments)-1]
	if m.layout.Outlet.Level != nil {
		return math.Max(0, *m.layout.Outlet.Level), true
	}
	if !m.layout.Site.GroundWritten && seg.Cover != nil {
		return math.Inf(1), false
	}
	return math.Max(0, last.Z1-m.profile.Ground(last.X1)), true
}

// lowerOutlet writes an open end's level anew where it was written.
func (m *maker) lowerOutlet(down float64) []pipe.Edit {
	if o := m.layout.Outlet; o.Kind == pipe.Open && o.Level != nil && down != 0 {
		return []pipe.Edit{{Path: "outlet.level", Value: metres(*o.Level - down)}}
	}
	return nil
}

// deeper lays the line deeper by 150 mm, and to depths that are common.
func (m *maker) deeper() {
	for _, i := range m.targets() {
		if m.layout.Segments[i].Setting != pipe.Buried {
			continue
		}
		has := m.leastCover(i)
		m.add(m.toCover(i, has+0.150))
		for _, to := range []float64{0.60, 1.00} {
			if to > has+0.150+2*sameLevel {
				m.add(m.toCover(i, to))
			}
		}
	}
}

// leastCover is the soil over the shallower end of a segment [m].
func (m *maker) leastCover(i int) float64 {
	return math.Min(m.profile.CoverAt(i, 0), m.profile.CoverAt(i, 1))
}

// toCover lays the whole line deeper, or shallower, so that a segment's shallower end has the cover given [m]. Its
// fall stays.
func (m *maker) toCover(i int, cover float64) Change {
	down := cover - m.leastCover(i)
	c := Change{Key: key(DeepenCover, m.layout.Segments[i].Name, mm(cover)), Kind: DeepenCover, Segment: i, Amount: cover,
		Takes: TakesOwner | TakesDig, Risks: m.deepWater(down)}
	start := m.lineStart()
	by := newMoved(len(m.layout.Segments))
	written := false
	for j := start; j < len(m.layout.Segments); j++ {
		s := m.layout.Segments[j]
		if s.Setting == pipe.Buried {
			by.start[j], by.end[j] = down, down
			written = written || s.Cover != nil
		}
	}
	c.Edits = m.covers(by)
	if !written {
		c.Edits = append(c.Edits, m.edit(i, "cover", pair(m.profile.CoverAt(i, 0)+down, m.profile.CoverAt(i, 1)+down)))
	}
	m.atOutlet(&c, down)
	if m.layout.Standpipe == nil {
		m.meet(&c, m.firstBuried(), -down)
	}
	return c
}

// deepWater is the risk of a line whose end goes down under a lid.
func (m *maker) deepWater(down float64) Risks {
	if down > 0 && m.layout.Outlet.Kind == pipe.Lid {
		return RiskDeepWater
	}
	return 0
}

// firstBuried is the first segment in the ground.
func (m *maker) firstBuried() int {
	for i, s := range m.layout.Segments {
		if s.Setting == pipe.Buried {
			return i
		}
	}
	return len(m.layout.Segments)
}

// meet lets the house's part of a glued line meet segment i, which goes up [m]; a hole in the wall may move with it.
func (m *maker) meet(c *Change, i int, up float64) {
	edits, ok := m.houseSide(i, up)
	if !ok {
		c.Barred = BarNoRiser
	}
	c.Takes |= TakesLicensed
	c.Edits = append(c.Edits, edits...)
}

// atOutlet lets the outlet go along when the line's end goes down or up, or bars the change.
func (m *maker) atOutlet(c *Change, down float64) {
	room, known := m.outletRoom()
	switch {
	case down <= 0:
	case !known:
		c.Takes |= TakesGround
	case down > room+sameLevel:
		c.Barred = BarOutletLow
	}
	c.Edits = append(c.Edits, m.lowerOutlet(down)...)
}

// steeper lays runs that fall little, and that shut, steeper.
func (m *maker) steeper() {
	for _, i := range m.targets() {
		s, r := m.layout.Segments[i], m.profile.Segments[i]
		if s.Setting != pipe.Buried || r.X1-r.X0 < s.Length/2 {
			continue
		}
		for _, slope := range slopes {
			if s.Drop/s.Length < slope*(1-1e-3) {
				m.add(m.toSlope(i, slope))
			}
		}
	}
}

// toSlope gives a run another slope: its end and all behind it go down as far as the outlet lets them, else its
// start and all before it go up.
func (m *maker) toSlope(i int, slope float64) Change {
	s := m.layout.Segments[i]
	c := Change{Key: key(Steepen, s.Name, fmt.Sprintf("%.1f %%", 100*slope)), Kind: Steepen, Segment: i, Amount: slope, Takes: TakesOwner | TakesDig,
		Edits: []pipe.Edit{m.edit(i, "slope", quantity(units.Slope, slope))}}
	down := slope*s.Length - s.Drop
	by := newMoved(len(m.layout.Segments))
	if room, known := m.outletRoom(); known && down <= room+sameLevel {
		by.end[i] = down
		for j := i + 1; j < len(by.end); j++ {
			by.start[j], by.end[j] = down, down
		}
		c.Risks |= m.deepWater(down)
		c.Edits = append(append(c.Edits, m.covers(by)...), m.lowerOutlet(down)...)
		return c
	}
	start := m.lineStart()
	by.start[i] = -down
	for j := start; j < i; j++ {
		by.start[j], by.end[j] = -down, -down
	}
	for j := start; j <= i; j++ {
		if m.layout.Segments[j].Setting == pipe.Buried && m.profile.CoverAt(j, 0)+by.start[j] < leastCover {
			c.Barred = BarNoFall
		}
	}
	c.Edits = append(c.Edits, m.covers(by)...)
	if m.layout.Standpipe == nil {
		m.meet(&c, start, down)
	}
	return c
}
