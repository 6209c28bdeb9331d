package report

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// plotWatcher is a canvas that is told which series a panel shows.
type plotWatcher interface{ plotted(p *panel, ys []float64) }

// tell tells the canvas of a series, if it asks.
func (p *panel) tell(ys []float64) {
	if w, asks := p.Canvas.Canvas.(plotWatcher); asks {
		w.plotted(p, ys)
	}
}

// line draws a series, thinned to the pixels there are and broken where it has no number.
func (p *panel) line(style draw.LineStyle, xs, ys []float64) {
	p.tell(ys)
	xs, ys = decimate(xs, ys, int(p.Size().X*160/72))
	var runs [][]vg.Point
	var run []vg.Point
	for i := range xs {
		if math.IsNaN(ys[i]) {
			runs, run = append(runs, run), nil
			continue
		}
		run = append(run, p.at(xs[i], ys[i]))
	}
	for _, run := range append(runs, run) {
		switch len(run) {
		case 0:
		case 1: // a single hour between two gaps
			p.DrawGlyph(draw.GlyphStyle{Color: style.Color, Radius: style.Width, Shape: draw.CircleGlyph{}}, run[0])
		default:
			p.StrokeLines(style, p.ClipLinesXY(run)...)
		}
	}
}

// area fills between the series and the bottom of the panel.
func (p *panel) area(c color.Color, xs, ys []float64) {
	p.tell(ys)
	xs, ys = decimate(xs, ys, int(p.Size().X*160/72))
	if len(xs) == 0 {
		return
	}
	points := []vg.Point{{X: p.X(xs[0]), Y: p.Min.Y}}
	for i := range xs {
		if !math.IsNaN(ys[i]) {
			points = append(points, p.at(xs[i], math.Max(p.y0, ys[i])))
		}
	}
	points = append(points, vg.Point{X: p.X(xs[len(xs)-1]), Y: p.Min.Y})
	p.FillPolygon(c, points)
}

// band fills between two series that share their times, broken where either has no number.
func (p *panel) band(c color.Color, xs, low, high []float64) {
	p.tell(low)
	p.tell(high)
	for from := 0; from < len(xs); {
		to := from
		for to < len(xs) && !math.IsNaN(low[to]) && !math.IsNaN(high[to]) {
			to++
		}
		var points []vg.Point
		for i := from; i < to; i++ {
			points = append(points, p.at(xs[i], low[i]))
		}
		for i := to - 1; i >= from; i-- {
			points = append(points, p.at(xs[i], high[i]))
		}
		if len(points) > 2 {
			p.FillPolygon(c, points)
		}
		from = to + 1
	}
}

// rule draws a level line across the record.
func (p *panel) rule(y float64, style draw.LineStyle) {
	if y >= p.y0 && y <= p.y1 {
		p.StrokeLine2(style, p.Min.X, p.Y(y), p.X(p.dataEnd), p.Y(y))
	}
}

// roomAbove raises the upper end of the axis so that words find room above a level.
func (p *panel) roomAbove(y float64) {
	const room = smallSize + 7
	least := y + (y-p.y0)*float64(room/max(1, p.Size().Y-room))
	p.y1 = math.Max(p.y1, least)
}

// swing draws a series that goes up and down: row by row in a short record, in a long one the band that it moves
// through each day.
func (p *panel) swing(r *sim.Result, ys []float64, fill, edge color.Color) {
	if !byDay(r) {
		p.line(stroke(edge, 1.2), r.Hourly.Time, ys)
		return
	}
	xs, low, high := daily(r.Hourly.Time, ys)
	p.band(fill, xs, low, high)
	p.line(stroke(edge, 0.8), xs, low)
	p.line(stroke(edge, 0.8), xs, high)
}
