package report

import (
	"math"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

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

// acrossAt draws a level axis above (1) or below (-1) a panel, without signs: words at the ends say which way is which.
func (p *panel) acrossAt(a yAxis, side vg.Length) {
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	edge := p.Min.Y
	if side > 0 {
		edge, style.YAlign = p.Max.Y, draw.YBottom
	}
	ticks, decimals := niceTicks(a.show(p.x0), a.show(p.x1), 9)
	for _, v := range ticks {
		x := p.X(a.back(v))
		p.StrokeLine2(stroke(ink, 0.8), x, edge, x, edge+3*side)
		p.FillText(style, vg.Point{X: x, Y: edge + 5*side}, number(math.Abs(v), decimals))
	}
	style.XAlign = draw.XRight
	p.FillText(style, vg.Point{X: p.Max.X + rightMargin - 2, Y: edge + 5*side}, a.unit)
}

// dates writes the dates below a panel without a grid over what it shows.
func (p *panel) dates(start time.Time) {
	below := *p
	below.Canvas.Max.Y = below.Canvas.Min.Y
	below.timeTicks(start, true)
}
