package report

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// keyEntry is one sign of a chart's key with its words.
type keyEntry struct {
	words string
	sign  func(c draw.Canvas, r vg.Rectangle)
}

// lineSign is the sign of a line.
func lineSign(style draw.LineStyle) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, r vg.Rectangle) {
		y := (r.Min.Y + r.Max.Y) / 2
		c.StrokeLine2(style, r.Min.X, y, r.Max.X, y)
	}
}

// areaSign is the sign of an area, framed.
func areaSign(fill func(c draw.Canvas, r vg.Rectangle)) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, r vg.Rectangle) {
		fill(c, r)
		c.StrokeLines(stroke(faint, 0.5), append(corners(r), r.Min))
	}
}

// toneSign is the sign of an area of one colour.
func toneSign(tone color.Color) func(draw.Canvas, vg.Rectangle) {
	return areaSign(func(c draw.Canvas, r vg.Rectangle) { c.FillPolygon(tone, corners(r)) })
}

// glyphSign is the sign of a point.
func glyphSign(style draw.GlyphStyle) func(draw.Canvas, vg.Rectangle) {
	return func(c draw.Canvas, r vg.Rectangle) {
		c.DrawGlyph(style, vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2})
	}
}

// drawKey explains the signs of a chart above it, in as many rows as it takes, and takes its
// room off the area.
func drawKey(area *draw.Canvas, entries []keyEntry) {
	const wide, height, apart = vg.Length(22), vg.Length(9), vg.Length(18)
	text := lettering(smallSize, ink, draw.XLeft, -0.5)
	x, y := area.Min.X, area.Max.Y-height/2
	for _, e := range entries {
		whole := wide + 6 + text.Width(e.words)
		if x > area.Min.X && x+whole > area.Max.X {
			x, y = area.Min.X, y-height-6
		}
		e.sign(*area, box(x, y-height/2, x+wide, y+height/2))
		area.FillText(text, vg.Point{X: x + wide + 6, Y: y}, e.words)
		x += whole + apart
	}
	area.Max.Y = y - height/2 - 12
}
