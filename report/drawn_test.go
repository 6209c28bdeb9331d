package report

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawn is a canvas that keeps what is drawn on it as boxes on the page.
type drawn struct {
	size    vg.Rectangle
	words   []drawnWords
	upright []vg.Rectangle // dashed lines straight up
	shapes  int            // strokes, and fills in colours other than white
	outside []string       // series that leave the range of their panel
	scaled  bool           // boxes are then not where they are reckoned
	pen     pen
	kept    []pen
}

// pen is the state of a canvas that Push keeps and Pop brings back: place and turn of the axes, and the stroke.
type pen struct {
	at     vg.Point
	turn   float64
	dashed bool
	color  color.Color
}

type drawnWords struct {
	text string
	box  vg.Rectangle
}

func (p pen) onPage(at vg.Point) vg.Point {
	sin, cos := math.Sincos(p.turn)
	return vg.Point{X: p.at.X + at.X*vg.Length(cos) - at.Y*vg.Length(sin), Y: p.at.Y + at.X*vg.Length(sin) + at.Y*vg.Length(cos)}
}

func (d *drawn) SetLineWidth(vg.Length)                 {}
func (d *drawn) SetLineDash(p []vg.Length, _ vg.Length) { d.pen.dashed = len(p) > 0 }
func (d *drawn) SetColor(c color.Color)                 { d.pen.color = c }
func (d *drawn) Rotate(by float64)                      { d.pen.turn += by }
func (d *drawn) Translate(by vg.Point)                  { d.pen.at = d.pen.onPage(by) }
func (d *drawn) Scale(float64, float64)                 { d.scaled = true }
func (d *drawn) Push()                                  { d.kept = append(d.kept, d.pen) }
func (d *drawn) Pop()                                   { d.pen, d.kept = d.kept[len(d.kept)-1], d.kept[:len(d.kept)-1] }
func (d *drawn) DrawImage(vg.Rectangle, image.Image)    { d.shapes++ }

func (d *drawn) Stroke(p vg.Path) {
	d.shapes++
	if d.pen.dashed && len(p) == 2 && p[0].Pos.X == p[1].Pos.X {
		low, high := min(p[0].Pos.Y, p[1].Pos.Y), max(p[0].Pos.Y, p[1].Pos.Y)
		d.upright = append(d.upright, box(p[0].Pos.X, low, p[0].Pos.X, high))
	}
}

func (d *drawn) Fill(vg.Path) {
	if d.pen.color != color.Color(white) {
		d.shapes++
	}
}

// FillString keeps the box of words: from the baseline to the height of capitals, which is what the eye takes for it.
func (d *drawn) FillString(f font.Face, at vg.Point, words string) {
	const capital = 0.72 // of the size: a little more than the capitals of the charts' typeface, from memory
	a, b := d.pen.onPage(at), d.pen.onPage(at.Add(vg.Point{X: f.Width(words), Y: capital * f.Font.Size}))
	d.words = append(d.words, drawnWords{words, box(min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y))})
}

// plotted notes a series that its panel does not hold.
func (d *drawn) plotted(p *panel, ys []float64) {
	low, high := extent(ys)
	if low < p.y0 || high > p.y1 || !(p.y1 > p.y0) || !(p.x1 > p.x0) {
		d.outside = append(d.outside, SI.tenths(low)+" to "+SI.tenths(high))
	}
}

// drawnChart draws a chart on such a canvas.
func drawnChart(c chart) *drawn {
	d := &drawn{size: box(0, 0, figureWidth, c.height)}
	c.draw(draw.NewCanvas(d, figureWidth, c.height))
	return d
}

// overlap is how far two boxes reach into each other, both ways.
func overlap(a, b vg.Rectangle) (x, y vg.Length) {
	return min(a.Max.X, b.Max.X) - max(a.Min.X, b.Min.X), min(a.Max.Y, b.Max.Y) - max(a.Min.Y, b.Min.Y)
}

// faults lists what is wrong with a chart as it was drawn.
func (d *drawn) faults() (out []string) {
	if d.scaled {
		out = append(out, "the canvas was scaled, which this check does not follow")
	}
	if d.shapes < 10 || len(d.words) < 5 {
		out = append(out, "it is all but blank")
	}
	for _, series := range d.outside {
		out = append(out, "a series from "+series+" leaves its panel")
	}
	const touch = 0.3 // points that boxes may share
	for i, a := range d.words {
		if strings.TrimSpace(a.text) == "" {
			continue
		}
		if a.box.Min.X < 0 || a.box.Min.Y < 0 || a.box.Max.X > d.size.Max.X || a.box.Max.Y > d.size.Max.Y {
			out = append(out, "cut by the page: "+a.text)
		}
		for _, b := range d.words[:i] {
			if x, y := overlap(a.box, b.box); x > touch && y > touch && strings.TrimSpace(b.text) != "" {
				out = append(out, "one over the other: "+b.text+" / "+a.text)
			}
		}
		for _, line := range d.upright {
			if x, y := overlap(a.box, line); x > -0.5 && y > touch {
				out = append(out, "a hairline runs through: "+a.text)
			}
		}
	}
	return out
}

// The canvas sees what it is there to see.
func TestDrawnFindsFaults(t *testing.T) {
	words := lettering(textSize, ink, draw.XLeft, draw.YBottom)
	turned := words
	turned.Rotation = math.Pi / 2
	for name, c := range map[string]struct {
		draw func(draw.Canvas)
		want string
	}{
		"words over words": {func(page draw.Canvas) {
			page.FillText(words, vg.Point{X: 100, Y: 100}, "one")
			page.FillText(words, vg.Point{X: 110, Y: 104}, "two")
		}, "one over the other: one / two"},
		"turned words over words": {func(page draw.Canvas) {
			page.FillText(turned, vg.Point{X: 110, Y: 90}, "upwards")
			page.FillText(words, vg.Point{X: 90, Y: 110}, "across")
		}, "one over the other: upwards / across"},
		"words off the page": {func(page draw.Canvas) {
			page.FillText(words, vg.Point{X: 700, Y: 100}, "a long way to the right")
		}, "cut by the page: a long way to the right"},
		"a hairline": {func(page draw.Canvas) {
			page.FillText(words, vg.Point{X: 100, Y: 100}, "words")
			page.StrokeLine2(stroke(ink, 1, 3, 2), 110, 50, 110, 200)
		}, "a hairline runs through: words"},
		"data beyond the axis": {func(page draw.Canvas) {
			p := &panel{Canvas: page, x1: 1, y1: 1}
			p.line(stroke(ink, 1), []float64{0, 1}, []float64{0, 2})
		}, "a series from 0.0 °C to 2.0 °C leaves its panel"},
		"nothing": {func(draw.Canvas) {}, "it is all but blank"},
	} {
		faults := strings.Join(drawnChart(chart{"x", figureHeight, c.draw}).faults(), "\n")
		if !strings.Contains(faults, c.want) {
			t.Errorf("%s: found %q, want %q", name, faults, c.want)
		}
	}
	clean := drawnChart(chart{"x", figureHeight, func(page draw.Canvas) {
		for i := range 10 {
			page.FillText(words, vg.Point{X: 100, Y: 20 * vg.Length(i+1)}, "words")
			page.StrokeLine2(stroke(ink, 1, 3, 2), 90, 50, 90, 200)
		}
	}})
	if faults := clean.faults(); len(faults) > 0 {
		t.Errorf("a page without faults: %v", faults)
	}
}
