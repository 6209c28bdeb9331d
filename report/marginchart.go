package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
	"winterline/sim/answers"
)

// MarginCharts gives the picture of how close it was: margin, what became of the same winter at every shift that was tried.
func MarginCharts(r *sim.Result, m answers.Margin, shifts []answers.Shift, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	if c, ok := marginChart(r, m, shifts); ok {
		return []File{c.file(o)}
	}
	return nil
}

func marginChart(r *sim.Result, m answers.Margin, shifts []answers.Shift) (chart, bool) {
	return chart{"margin", figureHeight, func(page draw.Canvas) { drawMargin(page, r, m, shifts) }}, len(shifts) > 1
}

// marginNames is the room for the names of rows.
const marginNames = vg.Length(96)

func drawMargin(page draw.Canvas, r *sim.Result, m answers.Margin, shifts []answers.Shift) {
	area := heading(page, r, "The same winter, warmer and colder: what it would have done", howCloseWords(r, &m, SI)...)
	drawMarginKey(&area)
	area = draw.Crop(area, marginNames, -rightMargin, bottomMargin+16, -20)
	upper, lower := area, area
	upper.Min.Y = area.Max.Y - 0.62*area.Size().Y
	lower.Max.Y = upper.Min.Y - 12
	x0, x1 := rangeOf(math.Min(shifts[0].Colder, 0), math.Max(shifts[len(shifts)-1].Colder, 0), 0.04)
	curve := &panel{Canvas: upper, x0: x0, x1: x1, y0: -0.03, y1: 1.08, dataEnd: x1}
	rows := &panel{Canvas: lower, x0: x0, x1: x1, y0: 0, y1: 2, dataEnd: x1}
	kelvins, fahrenheits := scaledAxis("°C", 1), scaledAxis("°F", 1.8)
	curve.acrossAt(fahrenheits, 1)
	rows.acrossAt(kelvins, -1)
	for _, p := range []*panel{curve, rows} {
		ticks, _ := niceTicks(x0, x1, 9)
		for _, v := range ticks {
			p.StrokeLine2(stroke(grid, 0.7), p.X(v), p.Min.Y, p.X(v), p.Max.Y)
		}
		p.StrokeLine2(stroke(ink, 1), p.X(0), p.Min.Y, p.X(0), p.Max.Y)
	}
	drawNarrowing(curve, shifts)
	drawFates(rows, shifts)
	drawMarginMarks(rows, r, m)
	curve.frame()
	rows.frame()
	nameMarginEnds(rows, shifts)
}

// drawNarrowing draws how far ice came on the way to shutting the line: a line through the winters that stayed open.
func drawNarrowing(p *panel, shifts []answers.Shift) {
	p.grid(scaledAxis("%", 100))
	p.side(scaledAxis("%", 100), p.Min.X, -1)
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	style.Rotation = math.Pi / 2
	p.FillText(style, vg.Point{X: p.Min.X - marginNames + 14, Y: p.Center().Y}, "narrowed by ice, %")
	p.rule(1, stroke(brick, 1.1))
	var xs, ys []float64
	for _, s := range shifts {
		if !math.IsNaN(s.Narrowest) {
			xs, ys = append(xs, s.Colder), append(ys, s.Narrowest)
		}
	}
	p.line(stroke(navy, 1.6), xs, ys)
	for i := range xs {
		p.DrawGlyph(heldGlyph, p.at(xs[i], ys[i]))
	}
	for _, s := range shifts {
		if s.Shut == answers.Failed {
			p.DrawGlyph(failedGlyph, p.at(s.Colder, 1))
		}
	}
	words := lettering(smallSize, brick, draw.XLeft, draw.YBottom)
	at := vg.Point{X: p.Min.X + 6, Y: p.Y(1) - smallSize - 3}
	haloed(p.Canvas, words, at, "shut")
}

// drawFates draws, in a row for the line and one for the basement, what is known of every winter that was tried.
func drawFates(p *panel, shifts []answers.Shift) {
	p.rule(1, stroke(bystander, 0.8))
	names := lettering(textSize, ink, draw.XRight, -0.5)
	for row, name := range []string{"basement dry", "line open"} {
		y := float64(row) + 0.36
		p.FillText(names, vg.Point{X: p.Min.X - 6, Y: p.Y(float64(row) + 0.5)}, name)
		for _, s := range shifts {
			fate := s.Wet
			if row == 1 {
				fate = s.Shut
			}
			switch fate {
			case answers.Held:
				p.DrawGlyph(heldGlyph, p.at(s.Colder, y))
			case answers.Failed:
				p.DrawGlyph(failedGlyph, p.at(s.Colder, y))
			}
		}
	}
}

// drawMarginMarks names the margins where they stand.
func drawMarginMarks(p *panel, r *sim.Result, m answers.Margin) {
	style := bold(lettering(smallSize, teal, draw.XCenter, draw.YBottom))
	for row, b := range []answers.Bound{m.Dry, m.Open} {
		words := marginWords(b)
		half := style.Width(words) / 2
		x := p.X(math.Max(p.x0, math.Min(b.K, p.x1)))
		foot := p.Y(float64(row))
		if !b.Beyond {
			p.StrokeLine2(stroke(teal, 1.4, 4, 2.5), x, foot+1, x, foot+0.62*p.Size().Y/2)
		}
		at := vg.Point{X: max(p.Min.X+half+3, min(x, p.Max.X-half-3)), Y: foot + 0.64*p.Size().Y/2}
		haloed(p.Canvas, style, at, words)
	}
}

// marginWords put a margin into few words.
func marginWords(b answers.Bound) string {
	far := SI.bothDifferences(math.Abs(b.K))
	switch {
	case b.Beyond && b.K < 0:
		return "not even " + far + " warmer"
	case b.Beyond:
		return "more than " + far + " colder"
	case b.K < 0:
		return far + " warmer would do"
	}
	return "holds to " + far + " colder"
}

// nameMarginEnds says which way is which, where winters that way were tried.
func nameMarginEnds(p *panel, shifts []answers.Shift) {
	style := lettering(smallSize, faint, draw.XCenter, draw.YTop)
	y := p.Min.Y - 5 - textSize - 4
	half := style.Width("as it was") / 2
	p.FillText(style, vg.Point{X: max(p.Min.X+half, min(p.X(0), p.Max.X-half)), Y: y}, "as it was")
	if shifts[0].Colder < 0 {
		style.XAlign = draw.XLeft
		p.FillText(style, vg.Point{X: p.Min.X, Y: y}, "← warmer")
	}
	if shifts[len(shifts)-1].Colder > 0 {
		style.XAlign = draw.XRight
		p.FillText(style, vg.Point{X: p.Max.X, Y: y}, "colder →")
	}
}

// drawMarginKey explains the signs.
func drawMarginKey(area *draw.Canvas) {
	drawKey(area, []keyEntry{
		{"held in a winter so much warmer or colder", glyphSign(heldGlyph)},
		{"did not", glyphSign(failedGlyph)},
		{"where the margin ends", lineSign(stroke(teal, 1.4, 4, 2.5))},
	})
}
