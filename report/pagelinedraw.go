package report

import (
	"fmt"
	"image/color"
	"math"

	"winterline/pipe"
	"winterline/sim"
)

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
