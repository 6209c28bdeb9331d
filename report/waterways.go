package report

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// waterWay is a way that water took out of the line.
type waterWay int

// Ways of water, from the harmless to the harmful.
const (
	wayOutlet waterWay = iota
	waySoil
	wayRelief
	wayRim
	wayFloor
)

// color is that of a way in every chart. Neighbours alternate light and dark.
func (w waterWay) color() color.RGBA { return [...]color.RGBA{sky, navy, ochre, brick, ink}[w] }

// strokesApart is how far apart the strokes lie that mark a way besides its colour, since it prints as the same grey as
// another; 0: none.
func (w waterWay) strokesApart() vg.Length { return [...]vg.Length{0, 0, 5, 2.5, 0}[w] }

// fill fills a box with the colour and the strokes of a way.
func (w waterWay) fill(c draw.Canvas, b vg.Rectangle) {
	c.FillPolygon(w.color(), corners(b))
	if apart := w.strokesApart(); apart > 0 {
		for y := b.Min.Y + apart/2; y < b.Max.Y; y += apart {
			c.StrokeLine2(wayStroke, b.Min.X, y, b.Max.X, y)
		}
	}
}

// wayStroke is the stroke of hatching.
var wayStroke = stroke(ink, 0.6)

// patch is a framed sample of a way.
func (w waterWay) patch(c draw.Canvas, b vg.Rectangle) {
	w.fill(c, b)
	c.StrokeLines(stroke(ink, 0.5), append(corners(b), b.Min))
}

// words name a way.
func (w waterWay) words(r *sim.Result) string {
	return [...]string{
		"out at the far end", "into the soil round the rock pit", "out of the " + reliefWords(r), "out of the top, by the house", "on the basement floor",
	}[w]
}
