package report

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"

	"winterline/pipe"
	"winterline/sim"
)

// The profile counts distances from the wall and puts all that lies indoors or in the
// wall at 0. To show it, the drawing sets the house back behind the first outdoor pipe.
const (
	wallFace   = -0.09 // outer face of the house wall as drawn [m]
	wallBack   = -0.29 // its inner face
	indoorPipe = -0.45 // axis of indoor pipes
)

// section draws a part of the line's profile on a panel whose axes are distance from
// the wall and level, both in metres.
type section struct {
	*panel
	r     *sim.Result
	cells []sim.CellState
}

func newSection(p *panel, r *sim.Result) *section {
	cells := r.Worst.Cells
	if len(cells) == 0 {
		cells = emptyCells(r)
	}
	return &section{p, r, placeIndoors(r, cells)}
}

// placeIndoors gives the cells indoors and in the wall a place where they can be seen:
// risers upright behind the wall, the stub from there through the wall. Level runs
// indoors have no place in the profile and are left out.
func placeIndoors(r *sim.Result, cells []sim.CellState) []sim.CellState {
	inWall := 0
	for _, c := range cells {
		if r.Segments[c.Segment].Setting == pipe.ThroughWall {
			inWall++
		}
	}
	var placed []sim.CellState
	nth := 0
	for _, c := range cells {
		upright := math.Abs(c.Z1-c.Z0) > 0 && c.X0 == c.X1
		switch setting := r.Segments[c.Segment].Setting; {
		case setting == pipe.ThroughWall:
			c.X0 = indoorPipe * (1 - float64(nth)/float64(inWall))
			nth++
			c.X1 = indoorPipe * (1 - float64(nth)/float64(inWall))
			c.Vertical = false
		case upright && (setting == pipe.Indoor || setting == pipe.Sheltered && c.X1 == 0):
			c.X0, c.X1, c.Vertical = indoorPipe, indoorPipe, true
		case c.X0 == c.X1 && !upright:
			continue
		case c.X0 == c.X1:
			c.Vertical = true
		}
		placed = append(placed, c)
	}
	return placed
}

// emptyCells stands in for a snapshot where none was taken: the pipes alone.
func emptyCells(r *sim.Result) []sim.CellState {
	var cells []sim.CellState
	for i, reach := range r.Profile.Segments {
		cells = append(cells, sim.CellState{
			Segment: i, X0: reach.X0, X1: reach.X1, Z0: reach.Z0, Z1: reach.Z1,
			Bore: r.Layout.Segments[i].Size.Bore(), Temperature: math.NaN(), Vertical: reach.X0 == reach.X1,
		})
	}
	return cells
}

// draw puts down everything from the back to the front.
func (s *section) draw() {
	s.house()
	s.ground()
	s.pocket()
	for _, c := range s.cells {
		s.polygon(ink, s.outline(c, wallOf(c)))
	}
	for _, c := range s.cells {
		s.polygon(dryTone, s.outline(c, 0))
	}
	for _, c := range s.cells {
		if c.Fill > 0 {
			s.polygon(iceColor(c.Ice), s.content(c))
		}
	}
	s.openings()
	s.shutMarks()
}

// wallOf is how thick a pipe's wall is drawn [m]: about that of common plastic pipe.
func wallOf(c sim.CellState) float64 { return 0.06*c.Bore + 0.001 }

func (s *section) polygon(c color.Color, points []vg.Point) {
	if clipped := s.ClipPolygonXY(points); len(clipped) > 2 {
		s.FillPolygon(c, clipped)
	}
}

func (s *section) stroke(c color.Color, width vg.Length, points []vg.Point, dashes ...vg.Length) {
	s.StrokeLines(stroke(c, width, dashes...), s.ClipLinesXY(points)...)
}

func (s *section) rect(c color.Color, x0, z0, x1, z1 float64) {
	s.polygon(c, []vg.Point{s.at(x0, z0), s.at(x1, z0), s.at(x1, z1), s.at(x0, z1)})
}

// outline is the shape of a cell's bore, grown by a wall.
func (s *section) outline(c sim.CellState, wall float64) []vg.Point {
	x0, x1 := c.X0, c.X1
	if c.Vertical {
		half := c.Bore/2 + wall
		return []vg.Point{s.at(x0-half, c.Z0), s.at(x0+half, c.Z0), s.at(x1+half, c.Z1), s.at(x1-half, c.Z1)}
	}
	return []vg.Point{s.at(x0, c.Z0-wall), s.at(x1, c.Z1-wall), s.at(x1, c.Z1+c.Bore+wall), s.at(x0, c.Z0+c.Bore+wall)}
}

// content is the shape of the water and ice that stand in a cell: up to the depth that
// holds so much in a round pipe, or up the height of a vertical one.
func (s *section) content(c sim.CellState) []vg.Point {
	fill := math.Min(1, c.Fill)
	if c.Vertical {
		c.Z1 = c.Z0 + fill*(c.Z1-c.Z0)
		return s.outline(c, 0)
	}
	if fill < 1 {
		c.Bore = pipe.SegmentDepth(c.Bore, fill*math.Pi/4*c.Bore*c.Bore)
	}
	return s.outline(c, 0)
}

// house draws the wall with the room behind it, where the line comes out of a house.
func (s *section) house() {
	if !fromHouse(s.r) {
		return
	}
	s.rect(houseTone, s.x0, s.y0, wallBack, s.y1)
	s.rect(wallTone, wallBack, s.y0, wallFace, s.y1)
}

// fromHouse says whether the layout has a house: a basin, or pipe within its walls.
func fromHouse(r *sim.Result) bool {
	for _, seg := range r.Segments {
		if seg.Setting == pipe.Indoor || seg.Setting == pipe.ThroughWall {
			return true
		}
	}
	return r.Layout.Basin != nil
}

// ground draws soil, its frozen top, snow, and the surface.
func (s *section) ground() {
	frost, snow := s.r.Worst.Frost, s.r.Worst.Snow
	s.layer(soilTone, func(z float64) float64 { return s.y0 }, func(z float64) float64 { return z })
	if frost > 0 {
		s.layer(frostTone, func(z float64) float64 { return z - frost }, func(z float64) float64 { return z })
		s.stroke(faint, 1, s.surface(func(z float64) float64 { return z - frost }), 6, 3)
	}
	if snow > 0 {
		s.layer(snowTone, func(z float64) float64 { return z }, func(z float64) float64 { return z + snow })
		s.stroke(sky, 0.8, s.surface(func(z float64) float64 { return z + snow }))
	}
	s.stroke(ink, 1.3, s.surface(func(z float64) float64 { return z }))
}

// surface is a line at a level that depends on the ground's.
func (s *section) surface(level func(ground float64) float64) []vg.Point {
	const steps = 60
	from := wallFace
	if !fromHouse(s.r) {
		from = s.x0
	}
	var points []vg.Point
	for i := range steps + 1 {
		x := from + (s.x1-from)*float64(i)/steps
		points = append(points, s.at(x, level(s.r.Profile.Ground(x))))
	}
	return points
}

// layer fills between two levels that depend on the ground's.
func (s *section) layer(c color.Color, low, high func(ground float64) float64) {
	points := s.surface(low)
	top := s.surface(high)
	for i := range top {
		points = append(points, top[len(top)-1-i])
	}
	s.polygon(c, points)
}

// pocket draws the crushed rock with the water in it.
func (s *section) pocket() {
	half, floor, ok := pocketBox(s.r)
	if !ok {
		return
	}
	end := s.r.Profile.Segments[len(s.r.Profile.Segments)-1]
	top := floor + s.r.Layout.Pocket.Depth
	s.rect(stoneTone, end.X1-half, floor, end.X1+half, top)
	if full := pocketFull(s.r); full > 0 {
		s.rect(waterTone, end.X1-half, floor, end.X1+half, floor+math.Min(1, full)*(top-floor))
	}
	s.stones(end.X1-half, floor, end.X1+half, top)
	s.stroke(faint, 0.8, []vg.Point{s.at(end.X1-half, top), s.at(end.X1-half, floor), s.at(end.X1+half, floor), s.at(end.X1+half, top)})
}

// stones scatters rings over the pocket so that it reads as rock.
func (s *section) stones(x0, z0, x1, z1 float64) {
	const pitch = 0.11
	for row := 0; ; row++ {
		z := z0 + pitch*(float64(row)+0.5)
		if z > z1-pitch/3 {
			return
		}
		for x := x0 + pitch*(0.5+0.5*float64(row%2)); x < x1-pitch/3; x += pitch {
			const r = 0.035
			s.stroke(faint, 0.6, []vg.Point{s.at(x-r, z), s.at(x-r/2, z+r), s.at(x+r/2, z+0.8*r), s.at(x+r, z-0.2*r), s.at(x, z-r), s.at(x-r, z)})
		}
	}
}

// pocketFull is how full the pocket stood at the moment of the snapshot.
func pocketFull(r *sim.Result) float64 {
	full := 0.0
	for i, v := range r.Hourly.Pocket {
		if r.Hourly.Time[i] > r.Worst.Time {
			break
		}
		full = v
	}
	return full
}

// openings draws what the cells do not say: relief openings, the lid and its slot.
func (s *section) openings() {
	for _, opening := range s.r.Layout.Reliefs {
		x, z := reliefPlace(s.r, opening)
		s.stroke(white, 3, []vg.Point{s.at(x, z), s.at(x, z+opening.OpeningHeight)})
		s.stroke(ochre, 2, []vg.Point{s.at(x, z), s.at(x, z+opening.OpeningHeight)})
	}
	if s.r.Layout.Outlet.Kind == pipe.Lid {
		x, z := lidLevel(s.r)
		half := 0.08
		s.stroke(ink, 2.5, []vg.Point{s.at(x-half, z), s.at(x+half, z)})
	}
}

// reliefPlace is the face of a relief opening: its distance from the wall, and the
// level of its lip.
func reliefPlace(r *sim.Result, opening pipe.Relief) (x, z float64) {
	if st := r.Layout.Standpipe; opening.Segment < 0 && st != nil {
		x, _ = standpipeFoot(r)
		side := st.Size.OutsideDiameter / 2
		if opening.FacesHouse {
			side = -side
		}
		return x + side, r.Profile.Ground(x) + opening.Height
	}
	x = opening.DistanceToHouse
	return x, r.Profile.Ground(x) + opening.Height
}

// shutMarks puts the mark of "frozen shut", as on the ice map, below closed cells.
func (s *section) shutMarks() {
	for _, c := range s.cells {
		if !c.Closed {
			continue
		}
		low := s.at(c.X0, c.Z0-wallOf(c))
		high := s.at(c.X1, c.Z1-wallOf(c))
		if c.Vertical {
			x := s.X(c.X0+c.Bore/2+wallOf(c)) + 2
			s.polygon(brick, []vg.Point{{X: x, Y: low.Y}, {X: x + 3, Y: low.Y}, {X: x + 3, Y: s.Y(c.Z1)}, {X: x, Y: s.Y(c.Z1)}})
			continue
		}
		s.polygon(brick, []vg.Point{{X: low.X, Y: low.Y - 5}, {X: high.X, Y: high.Y - 5}, {X: high.X, Y: high.Y - 2}, {X: low.X, Y: low.Y - 2}})
	}
}
