package report

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// panel is a plotting area: a frame on the page with a data range. Margins are the
// same for every panel of a page, so panels with one time axis stand exactly above
// each other.
type panel struct {
	draw.Canvas             // of the frame
	x0, x1      float64     // data at its left and right edge
	y0, y1      float64     // data at its bottom and top
	dataEnd     float64     // grid and ticks stop here; labels may stand beyond
	hairlines   []vg.Length // upright lines that words keep clear of
}

// Room beside a frame for the words on its axes.
const (
	leftMargin   = vg.Length(56)
	rightMargin  = vg.Length(54)
	bottomMargin = vg.Length(30)
)

func (p *panel) X(x float64) vg.Length { return p.Canvas.X((x - p.x0) / (p.x1 - p.x0)) }

func (p *panel) Y(y float64) vg.Length { return p.Canvas.Y((y - p.y0) / (p.y1 - p.y0)) }

func (p *panel) at(x, y float64) vg.Point {
	return vg.Point{X: p.X(x), Y: p.Y(y)}
}

// timePanels gives panels above each other over the record of a result.
func timePanels(page draw.Canvas, r *sim.Result, reserve vg.Length, shares ...float64) []*panel {
	t0, t1 := recordSpan(r)
	return panelsOver(page, t0, t1, reserve, shares...)
}

// panelsOver divides a page into panels above each other by their share of the height,
// the first on top, all from time t0 to t1 [s]. reserve is the width kept free at the
// right, within the frames, for labels at the ends of lines.
func panelsOver(page draw.Canvas, t0, t1 float64, reserve vg.Length, shares ...float64) []*panel {
	const between = vg.Length(12)
	area := draw.Crop(page, leftMargin, -rightMargin, bottomMargin, 0)
	sum := 0.0
	for _, s := range shares {
		sum += s
	}
	height := area.Size().Y - between*vg.Length(len(shares)-1)
	top := area.Max.Y
	kept := float64(reserve / area.Size().X)
	panels := make([]*panel, len(shares))
	for i, s := range shares {
		h := height * vg.Length(s/sum)
		frame := area
		frame.Rectangle = box(area.Min.X, top-h, area.Max.X, top)
		panels[i] = &panel{Canvas: frame, x0: t0, x1: t0 + (t1-t0)/(1-kept), y1: 1, dataEnd: t1}
		top -= h + between
	}
	return panels
}

// recordSpan is the time from the first weather row to the last [s]; a single row is
// given an hour, so that there is something to draw on.
func recordSpan(r *sim.Result) (t0, t1 float64) { return spanOf(r.Hourly.Time) }

func spanOf(times []float64) (t0, t1 float64) {
	n := len(times)
	if n == 0 {
		return 0, 3600
	}
	t0, t1 = times[0], times[n-1]
	if t1 <= t0 {
		t1 = t0 + 3600
	}
	return t0, t1
}

// frame draws the outline.
func (p *panel) frame() {
	p.StrokeLines(stroke(ink, 0.8), append(corners(p.Rectangle), p.Min))
}

// inside moves a place so that what reaches half to either side stays within the record.
func (p *panel) inside(x, half vg.Length) vg.Length {
	return max(p.Min.X+half, min(x, p.X(p.dataEnd)-half))
}
