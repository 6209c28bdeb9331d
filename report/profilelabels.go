package report

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/pipe"
	"winterline/sim"
)

// distances names distances from the wall below a section, in metres and feet.
func (p *panel) distances(walled bool) {
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	ticks, decimals := niceTicks(math.Max(0, p.x0), p.x1, max(2, int(p.Size().X/70)))
	for _, x := range ticks {
		words := number(x, decimals) + " m (" + US.length(x) + ")"
		if x == 0 && walled {
			words = "wall"
		}
		at := vg.Point{X: p.X(x), Y: p.Min.Y - 5}
		if at.X+style.Width(words)/2 > p.Max.X+rightMargin {
			continue
		}
		p.StrokeLine2(stroke(ink, 0.8), at.X, p.Min.Y, at.X, p.Min.Y-3)
		p.FillText(style, at, words)
	}
}

// labelReaches names the segments outdoors below the line, where their names find room,
// and ground, snow and frost at the right; the details below give their figures.
func labelReaches(p *panel, r *sim.Result) {
	style := lettering(smallSize, ink, draw.XCenter, draw.YTop)
	var taken []interval
	for i, reach := range r.Profile.Segments {
		name := r.Layout.Segments[i].Name
		width := style.Width(name)
		at := vg.Point{
			X: (p.X(reach.X0) + p.X(reach.X1)) / 2,
			Y: p.Y((reach.Z0+reach.Z1)/2) - 9,
		}
		if length := p.X(reach.X1) - p.X(reach.X0); length > 0 {
			fall := vg.Length(math.Abs(float64(p.Y(reach.Z1) - p.Y(reach.Z0))))
			at.Y -= fall / length * width / 2
		}
		room := interval{at.X - width/2 - 6, at.X + width/2 + 6}
		short := p.X(reach.X1)-p.X(reach.X0) < width*0.7
		if reach.X1 <= 0 || short || !free(taken, room) || at.Y < p.Min.Y+smallSize {
			continue
		}
		taken = append(taken, room)
		haloed(p.Canvas, style, at, name)
	}
	surfaceLabels(p, r)
}

// surfaceLabels names ground, snow and frost near the right edge of a section.
func surfaceLabels(p *panel, r *sim.Result) {
	ground := r.Profile.Ground(p.x1)
	labels := []pointLabel{{p.x1, ground, "ground"}}
	if r.Worst.Frost > 0 {
		labels = append(labels, pointLabel{p.x1, ground - r.Worst.Frost, "frost"})
	}
	if r.Worst.Snow > 0 {
		labels = append(labels, pointLabel{p.x1, ground + r.Worst.Snow, "snow"})
	}
	slices.SortStableFunc(labels, func(a, b pointLabel) int { return cmp.Compare(a.z, b.z) })
	style := lettering(smallSize, ink, draw.XRight, -0.5)
	wanted := make([]vg.Length, len(labels))
	for i, l := range labels {
		wanted[i] = p.Y(l.z)
	}
	for i, y := range spread(wanted, smallSize+3, p.Min.Y+8, p.Max.Y-8) {
		haloed(p.Canvas, style, vg.Point{X: p.Max.X - 5, Y: y}, labels[i].words)
	}
}

// pointLabel names a point of the section [m].
type pointLabel struct {
	x, z  float64
	words string
}

func wallLabels(r *sim.Result) []pointLabel {
	labels := []pointLabel{{wallWindow(r).x1 - 0.1, r.Profile.Ground(wallWindow(r).x1), "ground"}}
	if s := r.Layout.Standpipe; s != nil {
		x, foot := standpipeFoot(r)
		half := s.Size.OutsideDiameter / 2
		labels = append(labels,
			pointLabel{x + half, s.Rim, "top of the standpipe, " + SI.bothLengths(s.Rim)},
			pointLabel{x, s.HousePipeEnd, "house pipe ends, " + SI.bothLengths(s.HousePipeEnd)},
			pointLabel{x + half, foot, "start of the buried line"})
	}
	for _, opening := range r.Layout.Reliefs {
		if opening.Segment < 0 && r.Layout.Standpipe != nil {
			x, z := reliefPlace(r, opening)
			labels = append(labels, pointLabel{x, z, "relief opening, " + SI.bothLengths(opening.Height)})
		}
	}
	return append(labels, coldLabels(r, 0.7)...)
}

// coldLabels names snow and frost at a distance from the wall.
func coldLabels(r *sim.Result, x float64) []pointLabel {
	var labels []pointLabel
	ground := r.Profile.Ground(x)
	if r.Worst.Snow > 0 {
		labels = append(labels, pointLabel{x, ground + r.Worst.Snow, "snow, " + SI.bothLengths(r.Worst.Snow)})
	}
	if r.Worst.Frost > 0 {
		labels = append(labels, pointLabel{x, ground - r.Worst.Frost, "frost, " + SI.bothLengths(r.Worst.Frost) + " deep"})
	}
	return labels
}

func outletLabels(r *sim.Result) []pointLabel {
	x, z := lidLevel(r)
	end := r.Profile.Segments[len(r.Profile.Segments)-1]
	labels := []pointLabel{}
	beside := end.X1 + 0.4 // where snow and frost are named: past the rock pit
	if r.Layout.Outlet.Kind == pipe.Lid {
		labels = append(labels, pointLabel{x + 0.08, z, "outlet lid"})
		if weep := r.Layout.Outlet.Weep; weep != nil {
			labels = append(labels, pointLabel{end.X1 + 0.05, end.Z1, "weep slot, " + SI.bothLengths(weep.Height)})
		}
	} else {
		labels = append(labels, pointLabel{end.X1, end.Z1, "open end"})
	}
	if half, floor, ok := pocketBox(r); ok {
		labels = append(labels, pointLabel{end.X1 + half, floor + r.Layout.Pocket.Depth/2,
			"rock pit, " + percent(pocketFull(r)) + " full"})
		beside = math.Max(beside, end.X1+half+0.08)
	}
	return append(labels, coldLabels(r, beside)...)
}

// detailLabelWidth is the room for words beside a detail.
const detailLabelWidth = vg.Length(168)

// drawDetail draws a part of the section at true scale, with labels at its right for the points that it shows.
func drawDetail(c draw.Canvas, r *sim.Result, title string, w window, labels []pointLabel) {
	c.FillText(bold(lettering(textSize, ink, draw.XLeft, draw.YTop)), vg.Point{X: c.Min.X, Y: c.Max.Y}, title)
	frame := draw.Crop(c, 0, -detailLabelWidth, 0, -textSize-6)
	w.square(&frame)
	labels = slices.DeleteFunc(labels, func(l pointLabel) bool { return l.z < w.z0 || l.z > w.z1 })
	p := &panel{Canvas: frame, x0: w.x0, x1: w.x1, y0: w.z0, y1: w.z1, dataEnd: w.x1}
	newSection(p, r).draw()
	p.frame()

	style := lettering(smallSize, ink, draw.XLeft, -0.5)
	slices.SortStableFunc(labels, func(a, b pointLabel) int { return cmp.Compare(a.z, b.z) })
	wanted := make([]vg.Length, len(labels))
	for i, l := range labels {
		wanted[i] = p.Y(l.z)
	}
	for i, y := range spread(wanted, smallSize+4, c.Min.Y+6, p.Max.Y-6) {
		l := labels[i]
		from := vg.Point{X: min(p.X(l.x), p.Max.X), Y: max(p.Min.Y, min(p.Max.Y, p.Y(l.z)))}
		p.StrokeLines(stroke(ink, 0.6), []vg.Point{from, {X: p.Max.X + 8, Y: y}, {X: p.Max.X + 11, Y: y}})
		p.FillPolygon(ink, corners(box(from.X-1.3, from.Y-1.3, from.X+1.3, from.Y+1.3)))
		p.FillText(style, vg.Point{X: p.Max.X + 14, Y: y}, shorten(style, l.words, detailLabelWidth-14))
	}
}

// square widens a window to the shape of a canvas, so that both scales are the same.
func (w *window) square(c *draw.Canvas) {
	perMetre := min(c.Size().X/vg.Length(w.x1-w.x0), c.Size().Y/vg.Length(w.z1-w.z0))
	spareX := float64(c.Size().X/perMetre) - (w.x1 - w.x0)
	spareZ := float64(c.Size().Y/perMetre) - (w.z1 - w.z0)
	w.x0, w.x1 = w.x0-spareX/2, w.x1+spareX/2
	w.z0, w.z1 = w.z0-spareZ/2, w.z1+spareZ/2
}
