package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// CompareCharts gives the picture of layouts side by side, compare: through the one winter, a row a layout below the
// outdoor air; or a row of winters for each, below their margins where these were asked for.
func CompareCharts(c *Comparison, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	return []File{compareChart(c).file(o)}
}

// compareChart is that picture.
func compareChart(c *Comparison) chart {
	const others = vg.Length(135)
	height := others + rivalRowHeight*vg.Length(len(c.About.Layouts))
	if c.Single != nil || c.About.Margins {
		height += upperHeight
	}
	paint := func(page draw.Canvas) { drawCompared(page, c) }
	if c.Single == nil {
		paint = func(page draw.Canvas) { drawComparedWinters(page, c) }
	}
	return chart{"compare", height, paint}
}

// Heights of the upper panel and of the row of a layout, as wanted.
const (
	upperHeight    = vg.Length(140)
	rivalRowHeight = vg.Length(42)
)

// Room beside the rows: for the layouts' names, and for what became of them.
const (
	rivalNames   = vg.Length(150)
	rivalSummary = vg.Length(150)
)

// comparePanels gives the upper panel, if there is to be one, and that of the rows.
func comparePanels(area draw.Canvas, c *Comparison, x0, x1 float64, upper bool) (above, rows *panel) {
	area.Min.X += rivalNames - leftMargin
	area.Max.X -= rivalSummary - rightMargin
	n := len(c.About.Layouts)
	shares := []float64{float64(rivalRowHeight) * float64(n)}
	if upper {
		shares = append([]float64{float64(upperHeight)}, shares...)
	}
	panels := panelsOver(area, x0, x1, 0, shares...)
	rows = panels[len(panels)-1]
	rows.y0, rows.y1 = float64(n), 0 // downwards
	if upper {
		above = panels[0]
	}
	return above, rows
}

// nameRivals writes the layouts' letters and names left of the rows, and on the right what became of each, in two lines.
func nameRivals(p *panel, c *Comparison, summary func(layout int) (above, below string)) {
	letter := bold(lettering(titleSize, ink, draw.XLeft, -0.5))
	name := lettering(smallSize, ink, draw.XLeft, draw.YTop)
	first := bold(lettering(textSize, ink, draw.XLeft, draw.YBottom))
	second := lettering(smallSize, ink, draw.XLeft, draw.YTop)
	left := p.Min.X - rivalNames + 2
	for i := range c.About.Layouts {
		y := (p.Y(float64(i)) + p.Y(float64(i+1))) / 2
		p.FillText(letter, vg.Point{X: left, Y: y}, rivalKey(i))
		lines := fold(name, c.shortName(i), rivalNames-28)
		const most = 3
		if len(lines) > most {
			lines = append(lines[:most-1], shorten(name, lines[most-1]+" …", rivalNames-28))
		}
		top := y + (smallSize+1)*vg.Length(len(lines))/2
		for k, line := range lines {
			p.FillText(name, vg.Point{X: left + 20, Y: top - (smallSize+1)*vg.Length(k)}, shorten(name, line, rivalNames-28))
		}
		above, below := summary(i)
		if below == "" {
			first.YAlign = -0.5
		}
		p.FillText(first, vg.Point{X: p.Max.X + 8, Y: y}, shorten(first, above, rivalSummary-10))
		p.FillText(second, vg.Point{X: p.Max.X + 8, Y: y - 2}, shorten(second, below, rivalSummary-10))
		if i > 0 {
			p.StrokeLine2(stroke(ink, 0.5), p.Min.X, p.Y(float64(i)), p.Max.X, p.Y(float64(i)))
		}
	}
}

// drawCompared draws the one winter.
func drawCompared(page draw.Canvas, c *Comparison) {
	r := c.Single[0] // the weather of all
	area := headed(page, c.About.Layouts[0].Invented, compareTitle(c), datesOf(r.Start, r.Hourly.Time))
	most := mostIceOf(c)
	drawCompareKey(&area, most)
	t0, t1 := recordSpan(r)
	above, rows := comparePanels(area, c, t0, t1, true)
	low, high := extent(r.Hourly.Air)
	above.y0, above.y1 = rangeOf(math.Min(low, 0), math.Max(high, 0), 0.06)
	above.timeTicks(r.Start, false)
	above.grid(celsiusAxis())
	above.left(celsiusAxis(), "outdoor air")
	above.right(fahrenheitAxis())
	above.rule(0, stroke(brick, 1.1))
	above.line(stroke(navy, 1.1), r.Hourly.Time, r.Hourly.Air)
	above.nameRule(0, "freezing", brick, r.Hourly.Time, r.Hourly.Air)
	above.frame()
	for i, r := range c.Single {
		drawRival(rows, r, i, math.Max(most, puddle))
	}
	nameRivals(rows, c, c.oneSummary)
	rows.dates(r.Start)
	rows.frame()
}

// drawCompareKey explains the rows, above the panels, and takes its room off the area.
func drawCompareKey(area *draw.Canvas, most float64) {
	const height, wide = vg.Length(9), vg.Length(90)
	style := lettering(smallSize, ink, draw.XLeft, -0.5)
	x, y := area.Min.X, area.Max.Y-height/2
	write := func(words string) {
		area.FillText(style, vg.Point{X: x, Y: y}, words)
		x += style.Width(words) + 6
	}
	write("ice in the line: none")
	drawIceScale(*area, box(x, y-height/2, x+wide, y+height/2))
	x += wide + 6
	write(pathTotal(math.Max(most, puddle) * litresPerM3))
	x += 8
	area.FillPolygon(brick, corners(box(x, y-2.5, x+16, y+2.5)))
	x += 20
	write("frozen shut")
	x += 8
	for i := range 4 {
		area.StrokeLine2(stroke(ochre, 1), x+4*vg.Length(i), y-4, x+4*vg.Length(i), y+4)
	}
	x += 18
	write("relief runs")
	for _, sign := range []struct {
		shape draw.GlyphDrawer
		words string
	}{{draw.PyramidGlyph{}, "first out of the top"}, {draw.BoxGlyph{}, "floor first wet"}} {
		x += 13
		area.DrawGlyph(draw.GlyphStyle{Color: ink, Radius: 5, Shape: sign.shape}, vg.Point{X: x, Y: y})
		x += 8
		write(sign.words)
	}
	area.Max.Y -= height + 10
}

// compareTitle says in one line with which layouts the line froze shut; of many winters, in how many.
func compareTitle(c *Comparison) string {
	if c.Single == nil {
		return "The line froze shut " + c.rangeOfWinters(c.shut)
	}
	return c.oneLine()
}

// rangeOfWinters is inWinters where that fits a title; else it gives the fewest and the most winters.
func (c *Comparison) rangeOfWinters(count func(layout int) int) string {
	const fits = 56 // letters of the largest title beside "The line froze shut"
	words := c.inWinters(count)
	if len(words) <= fits {
		return words
	}
	low, high := count(0), count(0)
	for i := range c.About.Layouts {
		low, high = min(low, count(i)), max(high, count(i))
	}
	return fmt.Sprintf("in %d to %d of %d winters, by layout", low, high, len(c.About.Winters))
}

// oneSummary sums up what became of a layout in the one winter, and its margin.
func (c *Comparison) oneSummary(i int) (above, below string) {
	o := c.Outcomes[i]
	above = map[bool]string{true: "shut " + shortDuration(o.ShutFor/3600), false: "stayed open"}[o.Shut != nil]
	switch {
	case o.Floor != nil:
		above += ", floor wet"
	case o.Spill != nil:
		above += ", spilled"
	}
	if o.Margin != nil {
		below = marginLeftWords(o.Margin.Open, SI)
	}
	return above, below
}

// iceVolumes gives the volume of the ice in the whole line at each weather row, as water [m³].
func iceVolumes(r *sim.Result) []float64 {
	sum := make([]float64, len(r.Hourly.Time))
	for s, track := range r.Hourly.Segments {
		_, fullest := extent(track.Fill)
		for i := range min(len(track.Ice), len(track.Fill)) {
			if track.Fill[i] > 0 && track.Ice[i] > 0 {
				sum[i] += track.Ice[i] * track.Fill[i] / fullest * r.Segments[s].Standing
			}
		}
	}
	return sum
}

// mostIceOf is the most ice that any layout had in its line, as water [m³].
func mostIceOf(c *Comparison) float64 {
	most := 0.0
	for _, r := range c.Single {
		_, high := extent(iceVolumes(r))
		most = math.Max(most, high)
	}
	return most
}

// shutSpans is when any segment was frozen shut.
func shutSpans(r *sim.Result) (joined []span) {
	all := slices.Concat(closedSpans(r)...)
	slices.SortFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for _, s := range all {
		if n := len(joined); n > 0 && s.from <= joined[n-1].to {
			joined[n-1].to = math.Max(joined[n-1].to, s.to)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// drawRival draws the row of a layout through the one winter: the line's ice, when it was shut, when relief openings
// ran, and the first water out of the top and on the floor.
func drawRival(p *panel, r *sim.Result, i int, most float64) {
	top, bottom := p.Y(float64(i))-2, p.Y(float64(i+1))+2
	height := top - bottom
	ice := iceVolumes(r)
	drawShades(p, columnsOf(r, int(p.Size().X*2), func(row int) float64 { return ice[row] / most }), bottom+0.1*height, top-0.22*height)
	for _, s := range shutSpans(r) {
		drawShut(p, p.X(s.from), p.X(s.to), bottom+0.1*height, top-0.3*height)
	}
	for _, cycle := range r.Cycles {
		if cycle.Relief > 0 {
			x := p.X(cycle.Time)
			p.StrokeLine2(stroke(ochre, 1), x, top-0.18*height, x, top)
		}
	}
	mark := func(t *float64, shape draw.GlyphDrawer) {
		if t != nil {
			at := vg.Point{X: p.X(*t), Y: bottom + 0.55*height}
			p.DrawGlyph(draw.GlyphStyle{Color: white, Radius: 6.5, Shape: shape}, at)
			p.DrawGlyph(draw.GlyphStyle{Color: ink, Radius: 5, Shape: shape}, at)
		}
	}
	mark(r.Verdict.Spill, draw.PyramidGlyph{})
	mark(r.Verdict.Floor, draw.BoxGlyph{})
}
