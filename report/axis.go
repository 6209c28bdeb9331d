package report

import (
	"image/color"
	"math"
	"strings"
	"time"

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

// timeTicks draws the grid at round times, with dates below if named.
func (p *panel) timeTicks(start time.Time, named bool) {
	const spacing = vg.Length(48)
	most := max(2, int((p.X(p.dataEnd)-p.Min.X)/spacing))
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	for _, tick := range timeTicks(start, p.x0, p.dataEnd, most) {
		x := p.X(tick.t)
		p.StrokeLine2(stroke(grid, 0.7), x, p.Min.Y, x, p.Max.Y)
		if named {
			p.StrokeLine2(stroke(ink, 0.8), x, p.Min.Y, x, p.Min.Y-3)
			for i, line := range strings.Split(tick.label, "\n") {
				p.FillText(style, vg.Point{X: x, Y: p.Min.Y - 5 - vg.Length(i)*(textSize+1)}, line)
			}
		}
	}
}

// rangeOf widens the range of numbers by a share of it, for air above and below.
func rangeOf(low, high, share float64) (float64, float64) {
	if !(high > low) {
		return low - 1, high + 1
	}
	air := (high - low) * share
	return low - air, high + air
}

// niceTicks gives round values from low to high, about as many as asked for at most and
// two at least: steps of 1, 2 or 5 times a power of ten.
func niceTicks(low, high float64, most int) (ticks []float64, decimals int) {
	if !(high > low) || most < 1 {
		return []float64{low}, 0
	}
	magnitude := math.Floor(math.Log10((high - low) / float64(most)))
	step := math.Pow(10, magnitude)
	for _, factor := range []float64{1, 2, 5, 10} {
		wider := factor * math.Pow(10, magnitude)
		count := math.Floor(high/wider+1e-9) - math.Ceil(low/wider-1e-9) + 1
		if count < 2 {
			break // better a tick too many than an axis that cannot be read
		}
		step = wider
		if count <= float64(most) {
			break
		}
	}
	decimals = max(0, int(-math.Floor(math.Log10(step)+1e-9)))
	first := math.Ceil(low/step - 1e-9)
	for i := 0.0; (first+i)*step <= high+step*1e-9; i++ {
		ticks = append(ticks, (first+i)*step)
	}
	return ticks, decimals
}

// yAxis is one vertical axis: the unit that stands above it and how data become the
// numbers that it shows.
type yAxis struct {
	unit string
	show func(float64) float64 // increasing and straight
	back func(float64) float64
	// unsigned is for heights above and depths below one line: both count up from it.
	unsigned bool
}

func celsiusAxis() yAxis {
	same := func(v float64) float64 { return v }
	return yAxis{unit: "°C", show: same, back: same}
}

func fahrenheitAxis() yAxis {
	return yAxis{unit: "°F", show: fahrenheit, back: func(f float64) float64 { return (f - 32) * 5 / 9 }}
}

// scaledAxis shows data times a factor.
func scaledAxis(unit string, factor float64) yAxis {
	return yAxis{unit: unit, show: func(v float64) float64 { return v * factor }, back: func(v float64) float64 { return v / factor }}
}

// tickSpacing is the least distance between ticks of a vertical axis.
const tickSpacing = vg.Length(22)

// grid draws level lines at the ticks of an axis.
func (p *panel) grid(a yAxis) {
	ticks, _ := p.ticks(a)
	for _, v := range ticks {
		p.rule(a.back(v), stroke(grid, 0.7))
	}
}

// left draws an axis at the left edge.
func (p *panel) left(a yAxis, name string) {
	p.side(a, p.Min.X, -1)
	words := a.unit
	if name != "" {
		words = name + ", " + a.unit
	}
	p.nameLeft(words)
}

// nameLeft writes words upwards beside the left edge.
func (p *panel) nameLeft(words string) {
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	style.Rotation = math.Pi / 2
	if n := style.Width(words); n > p.Size().Y+24 {
		style.Font.Size = max(smallSize-1.5, style.Font.Size*(p.Size().Y+24)/n)
	}
	p.FillText(style, vg.Point{X: p.Min.X - leftMargin, Y: p.Center().Y}, words)
}

// right draws a second axis for the same data at the right edge.
func (p *panel) right(a yAxis) {
	p.side(a, p.Max.X, 1)
	style := lettering(textSize, ink, draw.XCenter, draw.YBottom)
	style.Rotation = math.Pi / 2
	p.FillText(style, vg.Point{X: p.Max.X + rightMargin - 2, Y: p.Center().Y}, a.unit)
}

// ticks gives the round numbers of an axis, in its own unit.
func (p *panel) ticks(a yAxis) (ticks []float64, decimals int) {
	return niceTicks(a.show(p.y0), a.show(p.y1), min(8, max(2, int(p.Size().Y/tickSpacing))))
}

func (p *panel) side(a yAxis, x vg.Length, direction vg.Length) {
	style := lettering(textSize, ink, draw.XRight, -0.5)
	if direction > 0 {
		style.XAlign = draw.XLeft
	}
	ticks, decimals := p.ticks(a)
	for _, v := range ticks {
		y := p.Y(a.back(v))
		p.StrokeLine2(stroke(ink, 0.8), x, y, x+3*direction, y)
		if a.unsigned {
			v = math.Abs(v)
		}
		p.FillText(style, vg.Point{X: x + 5*direction, Y: y}, number(v, decimals))
	}
}

// rule draws a level line across the record.
func (p *panel) rule(y float64, style draw.LineStyle) {
	if y >= p.y0 && y <= p.y1 {
		p.StrokeLine2(style, p.Min.X, p.Y(y), p.X(p.dataEnd), p.Y(y))
	}
}

// nameRule names a level line where the words come closest to none of the series.
func (p *panel) nameRule(y float64, words string, c color.Color, xs []float64, series ...[]float64) {
	const places = 40
	style := lettering(smallSize, c, draw.XLeft, draw.YBottom)
	width := style.Width(words)
	room := p.X(p.dataEnd) - p.Min.X - width - 8
	best, clearest := p.Min.X+4, -2*p.Size().X
	for i := range places {
		from := p.Min.X + 4 + room*vg.Length(i)/(places-1)
		clear := p.clearance(xs, series, from, from+width, p.Y(y)+2+smallSize/2)
		if clear > clearest+0.1 {
			best, clearest = from, clear
		}
	}
	haloed(p.Canvas, style, vg.Point{X: best, Y: p.Y(y) + 2}, words)
}

// clearance is how far the series stay from a height between two places along the panel.
func (p *panel) clearance(xs []float64, series [][]float64, from, to, height vg.Length) vg.Length {
	for _, x := range p.hairlines {
		if x > from-4 && x < to+4 {
			return -p.Size().X // farther than any other place is away
		}
	}
	nearest := p.Size().Y
	for _, ys := range series {
		for i := 1; i < len(xs); i++ {
			a, b := p.at(xs[i-1], ys[i-1]), p.at(xs[i], ys[i])
			if b.X < from-2 || a.X > to+2 || math.IsNaN(ys[i]) || math.IsNaN(ys[i-1]) {
				continue
			}
			low, high := min(a.Y, b.Y), max(a.Y, b.Y)
			nearest = min(nearest, max(low-height, height-high, 0))
		}
	}
	return nearest
}

// roomAbove raises the upper end of the axis so that words find room above a level.
func (p *panel) roomAbove(y float64) {
	const room = smallSize + 7
	least := y + (y-p.y0)*float64(room/max(1, p.Size().Y-room))
	p.y1 = math.Max(p.y1, least)
}

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
