package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Signs of a winter that held and of one that did not.
var (
	heldGlyph   = draw.GlyphStyle{Color: navy, Radius: 3.2, Shape: draw.CircleGlyph{}}
	failedGlyph = draw.GlyphStyle{Color: brick, Radius: 3.6, Shape: heavyCross{}}
)

// heavyCross is a cross that stays one when a page is printed at half its width.
type heavyCross struct{}

// DrawGlyph draws it.
func (heavyCross) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	for _, way := range []vg.Length{1, -1} {
		c.StrokeLine2(stroke(s.Color, 1.6), at.X-s.Radius, at.Y-way*s.Radius, at.X+s.Radius, at.Y+way*s.Radius)
	}
}

// heavyTriangle is likewise an open triangle.
type heavyTriangle struct{}

// DrawGlyph draws it.
func (heavyTriangle) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	corner := func(x, y vg.Length) vg.Point { return vg.Point{X: at.X + x*s.Radius, Y: at.Y + y*s.Radius} }
	outline := []vg.Point{corner(-0.9, -0.6), corner(0.9, -0.6), corner(0, 1), corner(-0.9, -0.6)}
	c.FillPolygon(white, outline)
	c.StrokeLines(stroke(s.Color, 1.4), outline)
}

// beyondSign is the sign of a margin that lies beyond what was looked for.
func beyondSign(s draw.GlyphStyle) draw.GlyphStyle {
	s.Shape, s.Radius = heavyTriangle{}, s.Radius+0.8
	return s
}

// heavyRing and heavySquare are likewise open ones.
type heavyRing struct{}
type heavySquare struct{}

// DrawGlyph draws it.
func (heavyRing) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	var circle vg.Path
	circle.Move(vg.Point{X: at.X + s.Radius, Y: at.Y})
	circle.Arc(at, s.Radius, 0, 2*math.Pi)
	circle.Close()
	c.SetLineStyle(stroke(s.Color, 1.2))
	c.Stroke(circle)
}

// DrawGlyph draws it.
func (heavySquare) DrawGlyph(c *draw.Canvas, s draw.GlyphStyle, at vg.Point) {
	half := 0.85 * s.Radius
	square := corners(box(at.X-half, at.Y-half, at.X+half, at.Y+half))
	c.StrokeLines(stroke(s.Color, 1.2), append(square, square[0]))
}
