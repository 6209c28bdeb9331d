package report

import (
	"cmp"
	"fmt"
	"html"
	"html/template"
	"image/color"
	"math"
	"slices"
	"strings"

	"winterline/pipe"
	"winterline/sim"
)

// The picture of the line: house, ground and pipes to scale, with what had frozen at the moment with most ice. Its parts
// carry numbers instead of names, so that nothing overlaps at thirty of them; the table below it names them.

const (
	pictureWidth  = 900.0 // of the drawing, in its own units, about a pixel each
	pictureTop    = 74.0  // above the ground's highest point: two rows of labels
	pictureDepth  = 380.0 // most that the section itself may be high
	mostPerMetre  = 130.0 // scale of a line that is very short
	thinnestPipe  = 6.0   // thickness down to which pipes are drawn true
	mostTags      = 30    // parts that carry a number
	partCells     = 40    // pieces in which a part is drawn, at most
	manyPartCells = 8     // the same where there are many parts
)

// Places indoors, which the profile does not know: the riser stands over the basin, behind the wall.
const (
	riserAt   = -0.95 // axis of indoor pipes [m]
	roomStart = -1.75 // where the drawn room ends [m]
)

// linePart is a part of the line as the picture shows it.
type linePart struct {
	cells  []sim.CellState // placed, in flow order
	number int             // its tag; 0: none
	state  string          // "clear", "iced" or "shut", over the whole winter
}

// lineDrawing draws the picture.
type lineDrawing struct {
	r        *sim.Result
	window   window
	perMetre float64 // along the line
	times    float64 // heights are drawn so many times larger
	height   float64
	parts    []linePart
	out      strings.Builder
}

// linePicture gives the picture as an inline SVG; nothing where the result has no profile.
func linePicture(r *sim.Result, s System) template.HTML {
	if r.Profile == nil || len(r.Profile.Segments) == 0 {
		return ""
	}
	d := &lineDrawing{r: r, parts: lineParts(r)}
	d.fit()
	d.open(s)
	d.room()
	d.groundLayers()
	d.rockPit()
	d.pipes()
	d.openings()
	d.labels()
	d.out.WriteString("</svg>")
	return template.HTML(d.out.String())
}

// lineParts gathers the cells by part and numbers the parts: all of them, or where they are many those that froze most.
func lineParts(r *sim.Result) []linePart {
	cells := r.Worst.Cells
	if len(cells) == 0 {
		cells = emptyCells(r)
	}
	parts := make([]linePart, len(r.Segments))
	for _, c := range placeIndoors(r, cells) {
		if c.X0 < 0 || c.X1 < 0 { // indoors and in the wall: farther back than charts put them
			c.X0, c.X1 = c.X0*riserAt/indoorPipe, c.X1*riserAt/indoorPipe
		}
		part := partOf(r, c)
		parts[part].cells = append(parts[part].cells, c)
	}
	most := partCells
	if len(parts) > mostTags {
		most = manyPartCells
	}
	for i := range parts {
		parts[i].state = partState(r.Segments[i])
		parts[i].cells = joinCells(parts[i].cells, most)
	}
	for n, i := range taggedParts(r) {
		parts[i].number = n + 1
	}
	return parts
}

// partOf is the index in Segments of the part that a cell belongs to. Cells of the standpipe and of the outlet's riser
// carry the segment that they belong to in the layout; the result tells them apart from it, by these names.
func partOf(r *sim.Result, c sim.CellState) int {
	if !c.Vertical || c.Segment >= len(r.Layout.Segments) {
		return c.Segment
	}
	if setting := r.Segments[c.Segment].Setting; setting == pipe.Indoor || setting == pipe.ThroughWall {
		return c.Segment
	}
	name := "outlet riser"
	if r.Layout.Standpipe != nil {
		if foot, _ := standpipeFoot(r); c.X0 <= foot {
			name = "standpipe"
		}
	}
	for i := len(r.Segments) - 1; i >= 0; i-- {
		if r.Segments[i].Name == name {
			return i
		}
	}
	return c.Segment
}

// partState says what became of a part in the winter.
func partState(seg sim.SegmentResult) string {
	switch {
	case seg.Closed != nil:
		return "shut"
	case seg.FirstIce != nil:
		return "iced"
	}
	return "clear"
}

// flowOrder gives the indices of the parts from the pump outwards: the result lists the upright ones last.
func flowOrder(r *sim.Result) []int {
	order, place := make([]int, len(r.Segments)), make([]int, len(r.Segments))
	for i := range order {
		order[i], place[i] = i, -1
	}
	for n, c := range r.Worst.Cells {
		if i := partOf(r, c); place[i] < 0 {
			place[i] = n
		}
	}
	for i := range place {
		if place[i] < 0 && i > 0 {
			place[i] = place[i-1] // it has no cell: behind the one before it
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(place[a], place[b]) })
	return order
}

// taggedParts are the indices of the parts that carry a number, from the pump outwards.
func taggedParts(r *sim.Result) []int {
	order := flowOrder(r)
	if len(order) <= mostTags {
		return order
	}
	worst := slices.SortedStableFunc(slices.Values(order), func(a, b int) int {
		x, y := r.Segments[a], r.Segments[b]
		return cmp.Or(cmp.Compare(y.HoursClosed, x.HoursClosed), cmp.Compare(y.LargestIce, x.LargestIce))
	})[:mostTags]
	return slices.DeleteFunc(order, func(i int) bool { return !slices.Contains(worst, i) })
}

// joinCells joins neighbours to at most n pieces that keep the most ice and what is shut.
func joinCells(cells []sim.CellState, n int) []sim.CellState {
	if len(cells) <= n {
		return cells
	}
	out := make([]sim.CellState, 0, n)
	for k := range n {
		run := cells[k*len(cells)/n : (k+1)*len(cells)/n]
		joined := run[0]
		fill := 0.0
		for _, c := range run {
			joined.X1, joined.Z1 = c.X1, c.Z1
			joined.Ice = math.Max(joined.Ice, c.Ice)
			joined.Closed = joined.Closed || c.Closed
			fill += c.Fill / float64(len(run))
		}
		joined.Fill = fill
		out = append(out, joined)
	}
	return out
}

// fit chooses window and scale: lengths fill the width, heights are drawn larger only where the line is so long that its
// pipes could not be seen, and that is said.
func (d *lineDrawing) fit() {
	w := wholeWindow(d.r)
	w.z0, w.z1 = w.z0-0.1, w.z1+0.05
	if fromHouse(d.r) {
		w.x0 = roomStart
		if b := d.r.Layout.Basin; b != nil {
			w.z0 = math.Min(w.z0, -b.FloorBelowGround-b.BottomBelowFloor-0.15)
		}
		for _, p := range d.parts {
			for _, c := range p.cells {
				w.z0 = math.Min(w.z0, math.Min(c.Z0, c.Z1)-0.1)
				w.z1 = math.Max(w.z1, math.Max(c.Z0, c.Z1)+0.1)
			}
		}
	}
	d.perMetre = math.Min(mostPerMetre, pictureWidth/(w.x1-w.x0))
	d.times = 1
	for _, e := range exaggerations {
		if d.perMetre*e*(w.z1-w.z0) > pictureDepth {
			break
		}
		d.times = e
		if d.perMetre*e*usualPipe >= thinnestPipe {
			break
		}
	}
	d.perMetre = math.Min(d.perMetre, pictureDepth/(w.z1-w.z0)/d.times)
	spare := pictureWidth/d.perMetre - (w.x1 - w.x0)
	w.x0, w.x1 = w.x0-spare/2, w.x1+spare/2
	d.window = w
	d.height = pictureTop + (w.z1-w.z0)*d.perMetre*d.times
}

func (d *lineDrawing) x(x float64) float64 { return (x - d.window.x0) * d.perMetre }
func (d *lineDrawing) y(z float64) float64 {
	return pictureTop + (d.window.z1-z)*d.perMetre*d.times
}

// open begins the picture with its name and what it shows, for those who cannot see it.
func (d *lineDrawing) open(s System) {
	scale, told := "to scale", chartTeller{r: d.r, s: s}
	if d.times > 1 {
		scale = "heights drawn " + number(d.times, 0) + " times lengths"
	}
	fmt.Fprintf(&d.out, `<svg class="line" viewBox="0 0 %s %s" role="img" aria-labelledby="line-title line-words">`, svgNumber(pictureWidth), svgNumber(d.height))
	fmt.Fprintf(&d.out, `<title id="line-title">The line with where it froze, %s</title><desc id="line-words">%s</desc>`, scale, html.EscapeString(profileTale(told)+" "+iceTale(told)))
	fmt.Fprintf(&d.out, `<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="%s" stroke-width="2.4"/></pattern></defs>`, hexColor(white))
	fmt.Fprintf(&d.out, `<rect width="%s" height="%s" fill="%s"/>`, svgNumber(pictureWidth), svgNumber(d.height), hexColor(white))
}

func svgNumber(v float64) string { return trimZeros(fixed(v, 1)) }

func trimZeros(s string) string { return strings.TrimSuffix(s, ".0") }

func hexColor(c color.RGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// shape puts down a closed shape of points in pairs; extra holds further attributes.
func (d *lineDrawing) shape(fill, extra string, points ...float64) {
	fmt.Fprintf(&d.out, `<path fill="%s"%s d="%sZ"/>`, fill, extra, pathOf(points))
}

// trace puts down a line through points in pairs.
func (d *lineDrawing) trace(c color.RGBA, width float64, extra string, points ...float64) {
	fmt.Fprintf(&d.out, `<path fill="none" stroke="%s" stroke-width="%s"%s d="%s"/>`, hexColor(c), svgNumber(width), extra, pathOf(points))
}

func pathOf(points []float64) string {
	var path strings.Builder
	for i := 0; i+1 < len(points); i += 2 {
		step := "L"
		if i == 0 {
			step = "M"
		}
		path.WriteString(step + svgNumber(points[i]) + " " + svgNumber(points[i+1]))
	}
	return path.String()
}

// rect is a shape between two places [m].
func (d *lineDrawing) rect(c color.RGBA, x0, z0, x1, z1 float64) {
	d.shape(hexColor(c), "", d.x(x0), d.y(z0), d.x(x1), d.y(z0), d.x(x1), d.y(z1), d.x(x0), d.y(z1))
}

// room draws the house: the room, its wall, the floor and the basin.
func (d *lineDrawing) room() {
	if !fromHouse(d.r) {
		return
	}
	w := d.window
	d.rect(houseTone, w.x0, w.z0, wallBack, w.z1)
	b := d.r.Layout.Basin
	if b == nil {
		return
	}
	floor, bottom, half := -b.FloorBelowGround, -b.FloorBelowGround-b.BottomBelowFloor, math.Sqrt(b.Area/math.Pi)
	half = math.Min(half, 0.5)
	d.rect(wallTone, w.x0, w.z0, wallBack, floor)
	d.rect(dryTone, riserAt-half, bottom, riserAt+half, floor)
	d.rect(waterTone, riserAt-half, bottom, riserAt+half, bottom+math.Min(b.FloatOn, b.BottomBelowFloor))
	d.trace(ink, 1.2, "", d.x(w.x0), d.y(floor), d.x(riserAt-half), d.y(floor), d.x(riserAt-half), d.y(bottom), d.x(riserAt+half), d.y(bottom), d.x(riserAt+half), d.y(floor), d.x(wallBack), d.y(floor))
}

// groundLayers draws soil, frozen ground, snow and the surface, and the wall before them.
func (d *lineDrawing) groundLayers() {
	frost, snow := d.r.Worst.Frost, d.r.Worst.Snow
	d.between(soilTone, "", func(float64) float64 { return d.window.z0 }, func(z float64) float64 { return z })
	if frost > 0 {
		d.between(frostTone, "", func(z float64) float64 { return math.Max(d.window.z0, z-frost) }, func(z float64) float64 { return z })
		d.trace(faint, 1, ` stroke-dasharray="6 4"`, d.surface(func(z float64) float64 { return z - frost })...)
	}
	if snow > 0 {
		d.between(snowTone, "", func(z float64) float64 { return z }, func(z float64) float64 { return z + snow })
	}
	d.trace(ink, 1.4, "", d.surface(func(z float64) float64 { return z })...)
	if fromHouse(d.r) {
		d.rect(wallTone, wallBack, d.window.z0, wallFace, d.window.z1)
	}
}

// surface is a line at a level that depends on the ground's.
func (d *lineDrawing) surface(level func(ground float64) float64) []float64 {
	const steps = 40
	from := d.window.x0
	if fromHouse(d.r) {
		from = wallFace
	}
	var points []float64
	for i := range steps + 1 {
		x := from + (d.window.x1-from)*float64(i)/steps
		points = append(points, d.x(x), d.y(level(d.r.Profile.Ground(x))))
	}
	return points
}

func (d *lineDrawing) between(c color.RGBA, extra string, low, high func(ground float64) float64) {
	points, top := d.surface(low), d.surface(high)
	for i := len(top) - 2; i >= 0; i -= 2 {
		points = append(points, top[i], top[i+1])
	}
	d.shape(hexColor(c), extra, points...)
}

// rockPit draws the rock pit and the water in it.
func (d *lineDrawing) rockPit() {
	half, floor, ok := pocketBox(d.r)
	if !ok {
		return
	}
	end := d.r.Profile.Segments[len(d.r.Profile.Segments)-1]
	top := floor + d.r.Layout.Pocket.Depth
	d.rect(stoneTone, end.X1-half, floor, end.X1+half, top)
	d.rect(waterTone, end.X1-half, floor, end.X1+half, floor+math.Min(1, pocketFull(d.r))*(top-floor))
	const pitch = 11.0 // between stones
	for row, y := 0, d.y(floor)-pitch/2; y > d.y(top)+4; row, y = row+1, y-pitch {
		for x := d.x(end.X1-half) + pitch*(0.5+0.5*float64(row%2)); x < d.x(end.X1+half)-4; x += pitch {
			fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="3.4" fill="none" stroke="%s" stroke-width="0.8"/>`, svgNumber(x), svgNumber(y), hexColor(faint))
		}
	}
	d.trace(faint, 1, "", d.x(end.X1-half), d.y(top), d.x(end.X1-half), d.y(floor), d.x(end.X1+half), d.y(floor), d.x(end.X1+half), d.y(top))
}

// pipes draws walls first, then what stands in them, then the ice over it.
func (d *lineDrawing) pipes() {
	for _, p := range d.parts {
		for _, c := range p.cells {
			d.shape(hexColor(ink), "", d.outline(c, 1, 1.6)...)
		}
	}
	for _, p := range d.parts {
		for _, c := range p.cells {
			d.shape(hexColor(dryTone), "", d.outline(c, 1, 0)...)
		}
	}
	for _, p := range d.parts {
		for _, c := range p.cells {
			d.content(c)
		}
	}
}

// content draws the water and ice that stand in a cell: ice is darker the more of it there is, and hatched; where the
// bore is shut a frame of the colour of harm stands around it.
func (d *lineDrawing) content(c sim.CellState) {
	if !(c.Fill > 0) {
		return
	}
	shape := d.outline(c, c.Fill, 0)
	tone := waterTone
	if c.Ice > 0 {
		tone = iceColor(0.3 + 0.7*c.Ice)
	}
	if c.Closed {
		tone = brick
		shape = d.outline(c, 1, 2.6)
	}
	d.shape(hexColor(tone), "", shape...)
	if c.Ice > 0 || c.Closed {
		d.shape("url(#hatch)", fmt.Sprintf(` class="ice" opacity="%s"`, fixed(0.35+0.4*math.Min(1, c.Ice), 2)), shape...)
	}
}

// outline is the shape of a cell's bore up to a share of it, grown by a rim all round. Pipes that would be too thin to
// see are drawn thicker.
func (d *lineDrawing) outline(c sim.CellState, fill, rim float64) []float64 {
	fill = math.Min(1, fill)
	if c.Vertical {
		half := math.Max(c.Bore*d.perMetre, thinnestPipe)/2 + rim
		x0, x1 := d.x(c.X0), d.x(c.X1)
		y0, y1 := d.y(c.Z0), d.y(c.Z0+fill*(c.Z1-c.Z0))
		return []float64{x0 - half, y0, x0 + half, y0, x1 + half, y1, x1 - half, y1}
	}
	bore := math.Max(c.Bore*d.perMetre*d.times, thinnestPipe)
	up := bore
	if fill < 1 {
		up = bore * pipe.SegmentDepth(1, fill*math.Pi/4)
	}
	x0, x1, y0, y1 := d.x(c.X0), d.x(c.X1), d.y(c.Z0), d.y(c.Z1)
	return []float64{x0, y0 + rim, x1, y1 + rim, x1, y1 - up - rim, x0, y0 - up - rim}
}

// openings draws relief openings and the lid.
func (d *lineDrawing) openings() {
	for _, o := range d.r.Layout.Reliefs {
		x, z := reliefPlace(d.r, o)
		y0 := d.y(z)
		y1 := math.Min(d.y(z+o.OpeningHeight), y0-5)
		d.trace(white, 7, "", d.x(x), y0, d.x(x), y1)
		d.trace(ochre, 4.5, "", d.x(x), y0, d.x(x), y1)
	}
	if d.r.Layout.Outlet.Kind == pipe.Lid {
		x, z := lidLevel(d.r)
		d.trace(ink, 3.5, "", d.x(x)-9, d.y(z), d.x(x)+9, d.y(z))
	}
}
