package report

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim/answers"
)

// SizeCharts gives the picture of an answer on sizing: size, the margin against the quantity. Two quantities have none.
func SizeCharts(a *SizeAnswer, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	if a.Sized == nil || len(sizePoints(a.Sized)) < 2 {
		return nil
	}
	c := chart{"size", figureHeight, func(page draw.Canvas) { drawSize(page, a) }}
	return []File{c.file(o)}
}

// sizePoints are the values that were possible, in order, the least that does it among them.
func sizePoints(z *answers.Sized) (points []answers.Tried) {
	least := z.Least
	for _, t := range z.Curve {
		if least != nil && least.Value <= t.Value {
			if least.Value < t.Value && least.Margin != nil {
				points = append(points, *least)
			}
			least = nil
		}
		if t.Margin != nil {
			points = append(points, t)
		}
	}
	return points
}

// sizeAxes are the axes of a quantity, US customary above and SI below.
func sizeAxes(q answers.Quantity) (si, us yAxis) {
	switch q {
	case answers.BySlope:
		return scaledAxis("%", 100), scaledAxis("in/ft", 12)
	case answers.ByPocket:
		return scaledAxis("m³", 1), scaledAxis("ft³", math.Pow(metresPerFoot, -3))
	case answers.ByInsulation:
		return scaledAxis("mm", 1000), scaledAxis("in", 1/metresPerInch)
	}
	return scaledAxis("cm", 100), scaledAxis("in", 1/metresPerInch)
}

func drawSize(page draw.Canvas, a *SizeAnswer) {
	z := a.Sized
	area := headed(page, a.Invented, sizeTitle(a), a.Name, datesOf(a.Weather.Start, a.Weather.Time), acrossWords(z.Vary, a.Layout))
	points := sizePoints(z)
	drawKey(&area, sizeKey(z, points))
	area = draw.Crop(area, leftMargin, -rightMargin, bottomMargin, -16)
	low, high := math.Min(0, z.Keep.Margin), math.Max(0, z.Keep.Margin)
	for _, t := range points {
		low, high = math.Min(low, t.Margin.K), math.Max(high, t.Margin.K)
	}
	p := &panel{Canvas: area, x0: points[0].Value, x1: points[len(points)-1].Value, dataEnd: points[len(points)-1].Value}
	p.x0, p.x1 = rangeOf(p.x0, p.x1, 0.03)
	p.dataEnd = p.x1
	p.y0, p.y1 = rangeOf(low, high, 0.10)
	kelvins, fahrenheits := scaledAxis("°C", 1), scaledAxis("°F", 1.8)
	si, us := sizeAxes(z.Vary.Quantity)
	p.across(si, us)
	p.grid(kelvins)
	p.left(kelvins, "how much colder until it fails")
	p.right(fahrenheits)
	p.rule(0, stroke(ink, 1))
	if z.Keep.Margin > 0 {
		p.rule(z.Keep.Margin, askedStroke)
	}
	p.drawSized(z, points)
	p.frame()
}

// sizeTitle says the answer in one line.
func sizeTitle(a *SizeAnswer) string {
	z := a.Sized
	goal := goalWords(answers.Keep{Goal: z.Keep.Goal}, SI)
	if z.Least == nil {
		return "Nothing tried is enough to " + goal
	}
	return "Enough to " + goal + ": " + sizePhrase(z.Vary, a.Layout, sizeValue(z.Vary.Quantity, z.Least.Value, SI))
}

// across draws a quantity's axis below, and the other unit's above.
func (p *panel) across(below, above yAxis) {
	ticks, _ := niceTicks(below.show(p.x0), below.show(p.x1), 9)
	for _, v := range ticks {
		x := p.X(below.back(v))
		p.StrokeLine2(stroke(grid, 0.7), x, p.Min.Y, x, p.Max.Y)
	}
	p.acrossAt(below, -1)
	p.acrossAt(above, 1)
}

// askedStroke is the line of the margin that was asked for.
var askedStroke = stroke(brick, 1.2, 6, 3)

// sizeSign is how a value is drawn: a dot where it does it, a cross where it does not, a triangle where the margin lies
// beyond what was looked for.
func sizeSign(t answers.Tried) draw.GlyphStyle {
	switch {
	case !t.Survives:
		return failedGlyph
	case t.Margin.Beyond:
		return beyondSign(heldGlyph)
	}
	return heldGlyph
}

// sizeKey explains the signs that are there.
func sizeKey(z *answers.Sized, points []answers.Tried) (key []keyEntry) {
	for _, sign := range []struct {
		style draw.GlyphStyle
		words string
	}{
		{heldGlyph, "enough"}, {beyondSign(heldGlyph), "enough, with 25 °C (45 °F) or more to spare"}, {failedGlyph, "not enough"},
	} {
		if slices.ContainsFunc(points, func(t answers.Tried) bool { return sizeSign(t) == sign.style }) {
			key = append(key, keyEntry{sign.words, glyphSign(sign.style)})
		}
	}
	if z.Keep.Margin > 0 {
		key = append(key, keyEntry{"margin asked for", lineSign(askedStroke)})
	}
	return key
}

// drawSized draws the curve with a sign for every value, and names the least that does it.
func (p *panel) drawSized(z *answers.Sized, points []answers.Tried) {
	var xs, ys []float64
	for _, t := range points {
		xs, ys = append(xs, t.Value), append(ys, t.Margin.K)
	}
	p.line(stroke(navy, 1.6), xs, ys)
	for _, t := range points {
		p.DrawGlyph(sizeSign(t), p.at(t.Value, t.Margin.K))
	}
	if z.Least == nil || z.Least.Margin == nil {
		return
	}
	at := p.at(z.Least.Value, z.Least.Margin.K)
	p.StrokeLine2(stroke(teal, 1, 4, 2.5), at.X, p.Min.Y, at.X, at.Y)
	name := bold(lettering(textSize, teal, draw.XLeft, draw.YBottom))
	label := "least: " + sizeValue(z.Vary.Quantity, z.Least.Value, SI)
	x := min(at.X+6, p.Max.X-name.Width(label)-4)
	haloed(p.Canvas, name, vg.Point{X: x, Y: p.Min.Y + 6}, label)
}
