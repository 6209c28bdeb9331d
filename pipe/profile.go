package pipe

import (
	"fmt"
	"math"
	"sort"

	"winterline/pipe/units"
)

// tolerance is how far levels, falls, covers and ground may disagree before the layout is refused [m].
const tolerance = 0.0254

// Profile is the line's geometry worked out from the layout: where each segment
// starts and ends. Distances [m] from the house wall (indoor parts at 0), levels
// [m] with the ground at the wall as 0.
type Profile struct {
	Segments []Reach // one a segment, same order
	ground   []GroundPoint
}

// Reach is the geometry of one segment.
type Reach struct {
	X0, X1 float64 // distance from the wall at start and end
	Z0, Z1 float64 // invert level at start and end, on the straight grade
	Sag    float64 // belly below the straight grade at mid length [m]
	Top    float64 // top of the pipe above its invert, the outside diameter less one wall [m]
}

// Invert returns the level of the lowest point of the bore [m] at the share s of a segment's
// length, 0 at its start and 1 at its end, the sag included as a parabola.
func (p *Profile) Invert(seg int, s float64) float64 {
	r := p.Segments[seg]
	return r.Z0 + (r.Z1-r.Z0)*s - 4*s*(1-s)*r.Sag
}

// X returns the distance from the wall [m] at the share s of a segment's length.
func (p *Profile) X(seg int, s float64) float64 {
	r := p.Segments[seg]
	return r.X0 + (r.X1-r.X0)*s
}

// Ground returns the level of the ground surface [m] at a distance x [m] from the wall: the line
// through the points known, level before the first and after the last.
func (p *Profile) Ground(x float64) float64 {
	g := p.ground
	i := sort.Search(len(g), func(i int) bool { return g[i].Distance > x })
	switch {
	case len(g) == 0:
		return 0
	case i == 0:
		return g[0].Level
	case i == len(g):
		return g[i-1].Level
	}
	a, b := g[i-1], g[i]
	return a.Level + (b.Level-a.Level)*(x-a.Distance)/(b.Distance-a.Distance)
}

// CoverAt returns the depth of soil [m] from the ground surface to the top of the pipe at the share
// s of a segment's length; below 0 where the pipe stands out of the ground.
func (p *Profile) CoverAt(seg int, s float64) float64 {
	return p.Ground(p.X(seg, s)) - p.Invert(seg, s) - p.Segments[seg].Top
}

// reach returns how far segment i takes the line from the wall [m]. What lies indoors or in the
// wall does not count.
func (l *Layout) reach(i int) float64 {
	seg := l.Segments[i]
	if seg.Setting == Indoor || seg.Setting == ThroughWall || seg.Setting == Sheltered && !l.outdoorsBefore(i) {
		return 0
	}
	return math.Sqrt(max(0, seg.Length*seg.Length-seg.Drop*seg.Drop))
}

// outdoorsBefore says whether the line has left the house before segment i.
func (l *Layout) outdoorsBefore(i int) bool {
	for _, seg := range l.Segments[:i] {
		if seg.Setting == ThroughWall || seg.Setting == OpenAir || seg.Setting == Buried {
			return true
		}
	}
	return false
}

// profiler works a profile out and collects what disagrees.
type profiler struct {
	*Profile
	l        *Layout
	file     string
	anchor   int // buried segment whose written cover sets the level of its chain; -1: none
	problems units.Problems
}

// MakeProfile works out where the line lies. The level of the house side follows from that of the
// house pipe's open end. The level of the line after the standpipe, or of a whole glued line, follows
// from the cover of its first buried segment with one; else from the level of an open outlet; else,
// glued, from the bottom of the basin; else the line starts at the ground. file names the layout in messages; where falls, covers, ground and outlet
// disagree by over 1 in there is a Problem with both values, and the profile is nil.
func (l *Layout) MakeProfile(file string) (*Profile, units.Problems) {
	p := &profiler{Profile: &Profile{}, l: l, file: file, anchor: -1}
	p.lay()
	p.writtenGround()
	split := 0
	if l.Standpipe != nil {
		split = l.Standpipe.After + 1
		p.shift(0, split, l.Standpipe.HousePipeEnd-p.Segments[split-1].Z1)
	}
	p.hang(split)
	p.groundFromCovers()
	p.check(split)
	if len(p.problems) > 0 {
		return nil, p.problems
	}
	return p.Profile, nil
}

// lay strings the segments together from level 0.
func (p *profiler) lay() {
	x, z := 0.0, 0.0
	for i, seg := range p.l.Segments {
		r := Reach{X0: x, Z0: z, Sag: seg.Sag, Top: seg.Size.OutsideDiameter - seg.Size.Wall}
		x += p.l.reach(i)
		z -= seg.Drop
		r.X1, r.Z1 = x, z
		p.Segments = append(p.Segments, r)
	}
}

// shift moves the segments from..to−1 up by dz.
func (p *profiler) shift(from, to int, dz float64) {
	for i := from; i < to; i++ {
		p.Segments[i].Z0 += dz
		p.Segments[i].Z1 += dz
	}
}

// writtenGround takes the ground that the layout gives.
func (p *profiler) writtenGround() {
	site := &p.l.Site
	if len(site.GroundPoints) > 0 {
		if site.GroundPoints[0].Distance > 0 {
			p.ground = append(p.ground, GroundPoint{})
		}
		p.ground = append(p.ground, site.GroundPoints...)
		return
	}
	p.ground = append(p.ground, GroundPoint{})
	if far := p.Segments[len(p.Segments)-1].X1; site.GroundSlope != 0 && far > 0 {
		far *= 2 // past the outlet, where its water runs
		p.ground = append(p.ground, GroundPoint{far, -site.GroundSlope * far})
	}
}

// hang gives the chain that starts at segment split its level.
func (p *profiler) hang(split int) {
	n := len(p.Segments)
	last := p.Segments[n-1]
	for i := split; i < n; i++ {
		if seg := p.l.Segments[i]; seg.Setting == Buried && seg.Cover != nil {
			r := p.Segments[i]
			p.anchor = i
			p.shift(split, n, p.Ground(r.X0)-seg.Cover[0]-r.Top-r.Z0)
			return
		}
	}
	switch o := p.l.Outlet; {
	case o.Kind == Open && o.Level != nil:
		p.shift(split, n, p.Ground(last.X1)+*o.Level-last.Z1)
	case split == 0 && p.l.Basin != nil:
		p.shift(0, n, -(p.l.Basin.FloorBelowGround + p.l.Basin.BottomBelowFloor))
	case split > 0 && p.l.Segments[split].Setting == Buried:
		p.shift(split, n, p.Ground(p.Segments[split].X0)-p.l.Segments[split].Size.OutsideDiameter)
	}
}

// groundFromCovers lets written covers shape a ground that the layout does not give.
func (p *profiler) groundFromCovers() {
	if p.l.Site.GroundWritten {
		return
	}
	slope := p.ground
	p.ground = p.ground[:1:1]
	for i, seg := range p.l.Segments {
		if seg.Setting != Buried || seg.Cover == nil {
			continue
		}
		r := p.Segments[i]
		p.addGround(r.X0, r.Z0+r.Top+seg.Cover[0])
		if r.X1-r.X0 > tolerance { // a vertical piece says nothing of the ground at its foot
			p.addGround(r.X1, r.Z1+r.Top+seg.Cover[1])
		}
	}
	if len(p.ground) == 1 {
		p.ground = slope
	}
}

// addGround adds a point at or after the last. Two covers that meet at a joint are averaged: a
// single cover is a rounded figure for a whole stretch.
func (p *profiler) addGround(x, z float64) {
	last := &p.ground[len(p.ground)-1]
	switch {
	case x > last.Distance:
		p.ground = append(p.ground, GroundPoint{x, z})
	case len(p.ground) > 1:
		last.Level = (last.Level + z) / 2
	}
	// At the wall itself the ground is 0 by definition.
}

// check compares what the layout says twice.
func (p *profiler) check(split int) {
	for i, seg := range p.l.Segments {
		if seg.Setting == Buried {
			p.checkCover(i, seg)
		}
	}
	if split > 0 && p.l.Standpipe.HousePipeEnd < p.Segments[split].Z0-tolerance {
		p.disagree(p.l.Standpipe.Line, "standpipe.house_pipe_end", "a house pipe ending at "+both(p.l.Standpipe.HousePipeEnd),
			"an end above the invert of the line it feeds, "+both(p.Segments[split].Z0))
	}
	p.checkOutlet()
}

func (p *profiler) checkCover(i int, seg Segment) {
	key := segmentPath(seg.Name, i) + ".cover"
	for end := range 2 {
		place := [...]string{"start", "end"}[end]
		from := p.CoverAt(i, float64(end))
		lastEnd := end == 1 && i == len(p.Segments)-1
		switch {
		case seg.Cover != nil && (seg.CoverPair || end == 0 && p.l.Site.GroundWritten):
			if math.Abs(from-seg.Cover[end]) > tolerance && i != p.anchorAt(end) {
				p.disagree(seg.Line, key, "a cover of "+both(seg.Cover[end])+" at the "+place,
					both(from)+" there, from the line's fall and the ground; they may differ by 1 in")
			}
		case from < -tolerance && !(lastEnd && p.l.Outlet.Kind == Open):
			p.disagree(seg.Line, key, "the pipe's top "+both(-from)+" above the ground at the "+place, "a buried segment under the ground")
		}
	}
}

// anchorAt returns the segment whose start needs no check, as its level was taken from it.
func (p *profiler) anchorAt(end int) int {
	if end == 0 {
		return p.anchor
	}
	return -1
}

func (p *profiler) checkOutlet() {
	o := p.l.Outlet
	if o.Level == nil {
		return
	}
	last := p.Segments[len(p.Segments)-1]
	seg := p.l.Segments[len(p.Segments)-1]
	level := p.Ground(last.X1) + *o.Level
	// Where only covers tell of the ground, an open end comes out of a bank that nothing describes.
	known := p.l.Site.GroundWritten || seg.Cover == nil
	switch {
	case o.Kind == Open && known && math.Abs(level-last.Z1) > tolerance:
		p.disagree(o.Line, "outlet.level", "an open end "+both(*o.Level)+" above the ground there, level "+both(level),
			"level "+both(last.Z1)+", at which the line arrives; they may differ by 1 in")
	case o.Kind == Lid && level < last.Z1-tolerance:
		p.disagree(o.Line, "outlet.level", "a lid at level "+both(level), "a lid above the line's end, whose invert is at level "+both(last.Z1))
	}
}

func (p *profiler) disagree(line int, key, found, expected string) {
	p.problems = append(p.problems, units.Problem{File: p.file, Line: line, Key: key, Found: found, Expected: expected})
}

// both shows a length in both unit systems.
func both(m float64) string { return fmt.Sprintf("%.1f in (%.3f m)", m/0.0254, m) }
