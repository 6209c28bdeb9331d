package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// weatherChart shows what the winter did to the line: outdoor air, snow on the line,
// pump cycles, and when things happened.
func weatherChart(r *sim.Result) (chart, bool) {
	return chart{"weather", figureHeight, func(page draw.Canvas) { drawWeather(page, r) }}, len(r.Hourly.Time) > 0
}

func drawWeather(page draw.Canvas, r *sim.Result) {
	marks, left := eventMarks(r)
	note := ""
	if left > 0 {
		note = plural(float64(left), "more kind") + " of event in events.csv"
	}
	area := heading(page, r, "Outdoor air, snow on the line and when the pump ran", note)
	// Where labels stand depends on times only, so a first panel finds their rows.
	placed := placeMarks(marks, timePanels(area, r, 0, 1)[0])
	area.Max.Y -= markRow*vg.Length(markRows(placed)) + 4

	shares := []float64{3.2}
	snowed := len(r.Hourly.SnowDepth) > 0
	if snowed {
		shares = append(shares, 1.1)
	}
	pumped := len(r.Cycles) > 0
	if pumped {
		shares = append(shares, 0.55)
	}
	panels := timePanels(area, r, 0, shares...)
	drawAir(panels[0], r)
	drawMarks(panels[0], placed)
	if snowed {
		drawSnow(panels[1], r)
	}
	if pumped {
		drawCycles(panels[len(panels)-1], r)
	}
	for i, p := range panels {
		if last := i == len(panels)-1; last {
			nameDates(p, r)
		}
		p.frame()
	}
}

// nameDates writes the dates below the lowest panel.
func nameDates(p *panel, r *sim.Result) { p.timeTicks(r.Start, true) }

func drawAir(p *panel, r *sim.Result) {
	low, high := extent(r.Hourly.Air)
	p.y0, p.y1 = rangeOf(math.Min(low, 0), math.Max(high, 0), 0.06)
	p.timeTicks(r.Start, false)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "outdoor air")
	p.right(fahrenheitAxis())
	p.rule(0, stroke(brick, 1.1))
	p.line(stroke(navy, 1.1), r.Hourly.Time, r.Hourly.Air)
	p.nameRule(0, "freezing", brick, r.Hourly.Time, r.Hourly.Air)
}

func drawSnow(p *panel, r *sim.Result) {
	_, high := extent(r.Hourly.SnowDepth)
	p.y0, p.y1 = 0, math.Max(0.05, high*1.15)
	p.timeTicks(r.Start, false)
	p.grid(scaledAxis("cm", 100))
	p.left(scaledAxis("cm", 100), "snow")
	p.right(scaledAxis("in", 1/metresPerInch))
	p.area(sky, r.Hourly.Time, r.Hourly.SnowDepth)
	if high <= 0 {
		words := "no snow lay on the line"
		if r.Layout.Site.SnowOnLine == 0 {
			words = "the line is kept clear of snow"
		}
		p.FillText(lettering(textSize, faint, draw.XCenter, draw.YCenter), p.Center(), words)
	}
}

// drawCycles marks every start of the pump, or counts them by the day where the marks
// would run into one another.
func drawCycles(p *panel, r *sim.Result) {
	p.timeTicks(r.Start, false)
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
	p.FillText(style, vg.Point{X: p.Min.X - 6, Y: p.Center().Y}, "pump\nstarts\na day")
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

// extent is the lowest and the highest number of a series; 0 and 0 if it has none.
func extent(series []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range series {
		if !math.IsNaN(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		return 0, 0
	}
	return low, high
}
