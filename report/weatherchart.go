package report

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// weatherChart shows what the winter did to the line: outdoor air, wind, snow on the line and frost below it, pump
// cycles, and when things happened.
func weatherChart(r *sim.Result) (chart, bool) {
	height := figureHeight
	if len(weatherPanels(r)) > 2 {
		height = 7.4 * vg.Inch
	}
	return chart{"weather", height, func(page draw.Canvas) { drawWeather(page, r) }}, len(r.Hourly.Time) > 0
}

// weatherPanel is one panel of the chart of the winter.
type weatherPanel struct {
	share float64 // of the height
	draw  func(*panel, *sim.Result)
}

// weatherPanels are those that a record has something for, the air first.
func weatherPanels(r *sim.Result) []weatherPanel {
	panels := []weatherPanel{{3.2, drawAir}}
	if least, most := extent(r.Hourly.Wind); most > least { // else one speed is supposed
		panels = append(panels, weatherPanel{1, drawWind})
	}
	if len(r.Hourly.SnowDepth) > 0 || frosty(r) {
		panels = append(panels, weatherPanel{1.7, drawCover})
	}
	if len(r.Cycles) > 0 {
		panels = append(panels, weatherPanel{0.6, drawCycles})
	}
	return panels
}

func drawWeather(page draw.Canvas, r *sim.Result) {
	note := ""
	if _, left := eventMarks(r); left > 0 {
		note = plural(float64(left), "more kind") + " of event in events.csv"
	}
	area := heading(page, r, weatherTitle(r), note)
	marks := markRecord(&area, r, 0)
	wanted := weatherPanels(r)
	var shares []float64
	for _, w := range wanted {
		shares = append(shares, w.share)
	}
	for i, p := range timePanels(area, r, 0, shares...) {
		marks.under(p, i == 0)
		p.timeTicks(r.Start, i == len(wanted)-1)
		wanted[i].draw(p, r)
		p.frame()
	}
}

// weatherTitle names what the panels show.
func weatherTitle(r *sim.Result) string {
	title := "Outdoor air"
	if least, most := extent(r.Hourly.Wind); most > least {
		title += ", wind"
	}
	if len(r.Hourly.SnowDepth) > 0 {
		title += ", snow"
	}
	if frosty(r) {
		title += ", frost"
	}
	title = strings.Replace(title, ", frost", " and frost", 1)
	if len(r.Cycles) > 0 {
		title += ", and when the pump ran"
	}
	return title
}

func drawAir(p *panel, r *sim.Result) { p.air(r, "coldest night") }

// air draws it and names the coldest night.
func (p *panel) air(r *sim.Result, coldest string) {
	low, high := extent(r.Hourly.Air)
	p.y0, p.y1 = rangeOf(math.Min(low, 0), math.Max(high, 0), 0.06)
	p.roomAbove(0)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "outdoor air")
	p.right(fahrenheitAxis())
	p.rule(0, frostStroke)
	p.line(stroke(navy, 1.1), r.Hourly.Time, r.Hourly.Air)
	p.nameRule(0, "freezing", brick, r.Hourly.Time, r.Hourly.Air)
	if n, ok := coldestNight(r); ok {
		level := make([]float64, len(r.Hourly.Time)) // of the freezing line, which has its own words
		cold := SI.bothTemperatures(n.low)
		p.nameNear(p.at(n.at, n.low), coldest+", down to "+cold, cold, lettering(smallSize, ink, draw.XLeft, draw.YBottom), r.Hourly.Time, r.Hourly.Air, level)
	}
}

// drawWind draws the wind at the pipe.
func drawWind(p *panel, r *sim.Result) {
	_, high := extent(r.Hourly.Wind)
	p.y0, p.y1 = 0, high*1.15
	metres, miles := scaledAxis("m/s", 1), scaledAxis("mph", 3600/metresPerMile)
	p.grid(metres)
	p.left(metres, "wind")
	p.right(miles)
	p.swing(r, r.Hourly.Wind, bystander, faint)
}

// frosty says whether the ground froze.
func frosty(r *sim.Result) bool {
	_, deepest := extent(r.Hourly.Frost)
	return deepest > 0
}

// drawCover draws the snow on the line upwards from the ground, and the frost below it downwards, on one scale.
func drawCover(p *panel, r *sim.Result) {
	_, snow := extent(r.Hourly.SnowDepth)
	_, frost := extent(r.Hourly.Frost)
	p.y0, p.y1 = -frost*1.15, math.Max(snow*1.3, 0.3*frost)
	if p.y1 < 0.05 {
		p.y1 = 0.05
	}
	centimetres, inches := scaledAxis("cm", 100), scaledAxis("in", 1/metresPerInch)
	centimetres.unsigned, inches.unsigned = true, true
	p.grid(centimetres)
	p.side(centimetres, p.Min.X, -1)
	p.nameLeft("frost, snow, cm")
	p.right(inches)
	below, ground := make([]float64, len(r.Hourly.Frost)), make([]float64, len(r.Hourly.Frost))
	for i, deep := range r.Hourly.Frost {
		below[i] = -deep
	}
	p.band(frozenTone, r.Hourly.Time, below, ground)
	p.line(stroke(navy, 1), r.Hourly.Time, below)
	if len(r.Hourly.SnowDepth) > 0 {
		p.band(sky, r.Hourly.Time, ground, r.Hourly.SnowDepth)
	}
	p.rule(0, stroke(ink, 1.2))
	p.nameCover(r, below, ground)
}

// nameCover says how deep snow and frost came, or that there was none.
func (p *panel) nameCover(r *sim.Result, below, ground []float64) {
	style := lettering(smallSize, ink, draw.XLeft, draw.YBottom)
	name := func(part *panel, words string, row int, series []float64) {
		size := SI.bothLengths(math.Abs(series[row]))
		part.nameNear(part.at(r.Hourly.Time[row], series[row]), words+size, size, style, r.Hourly.Time, series, ground)
	}
	if at, row := lowest(below); row >= 0 && at < 0 {
		soil := *p
		soil.Canvas.Max.Y, soil.y1 = p.Y(0), 0
		name(&soil, "frost down to ", row, below)
	}
	_, most := extent(r.Hourly.SnowDepth)
	above := *p
	above.Canvas.Min.Y, above.y0 = p.Y(0), 0
	switch {
	case most > 0:
		name(&above, "snow on the line up to ", slices.Index(r.Hourly.SnowDepth, most), r.Hourly.SnowDepth)
	case len(r.Hourly.SnowDepth) == 0:
		p.nameRule(0, "no snow in the weather", faint, r.Hourly.Time, below)
	case r.Layout.Site.SnowOnLine == 0:
		p.nameRule(0, "the line is kept clear of snow", faint, r.Hourly.Time, below)
	default:
		p.nameRule(0, "no snow lay on the line", faint, r.Hourly.Time, below)
	}
}

// drawCycles marks every start of the pump, or counts them by the day where the marks
// would run into one another.
func drawCycles(p *panel, r *sim.Result) {
	style := lettering(textSize, ink, draw.XRight, draw.YCenter)
	const apart = vg.Length(1.4)
	if vg.Length(len(r.Cycles))*apart <= p.Size().X {
		for _, c := range r.Cycles {
			x := p.X(c.Time)
			p.StrokeLine2(stroke(navy, 0.7), x, p.Min.Y+2, x, p.Max.Y-2)
		}
		p.FillText(style, vg.Point{X: p.Min.X - 6, Y: p.Center().Y}, "pump\nstarts")
		return
	}
	counts := startsByDay(r)
	most := 0
	for _, n := range counts {
		most = max(most, n)
	}
	p.y1 = float64(most) * 1.1
	for day, n := range counts {
		t := float64(day) * 86400
		p.FillPolygon(navy, corners(box(p.X(t), p.Min.Y, p.X(math.Min(t+86400, p.dataEnd)), p.Y(float64(n)))))
	}
	words := "pump\nstarts\na day"
	if p.Size().Y < style.Height(words) {
		words = "starts\na day"
	}
	p.FillText(style, vg.Point{X: p.Min.X - 6, Y: p.Center().Y}, words)
	p.FillText(lettering(textSize, ink, draw.XLeft, draw.YCenter),
		vg.Point{X: p.Max.X + 5, Y: p.Y(float64(most))}, number(float64(most), 0))
}

// startsByDay counts pump cycles by the day of the record.
func startsByDay(r *sim.Result) []int {
	_, end := recordSpan(r)
	counts := make([]int, int(math.Ceil(end/86400)))
	for _, c := range r.Cycles {
		if day := int(c.Time / 86400); day >= 0 && day < len(counts) {
			counts[day]++
		}
	}
	return counts
}
