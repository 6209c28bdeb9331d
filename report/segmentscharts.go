package report

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// segmentsPerPage is how many segments a page of their charts holds.
const segmentsPerPage = 6

// Heights of what a page of segments consists of.
const (
	segmentTitle = textSize + 5
	segmentWater = vg.Length(52)
	segmentFill  = vg.Length(22)
	segmentGap   = vg.Length(5)  // between the two
	segmentAfter = vg.Length(11) // below them
	segmentPump  = vg.Length(28)
	segmentOther = vg.Length(110) // heading, key and dates
)

// segmentsCharts shows each segment that held water by itself: its temperature, how full it stood and how much of that was
// ice, in flow order, on as many pages as it takes.
func segmentsCharts(r *sim.Result) (charts []chart) {
	var wet []int
	for i := range r.Hourly.Segments {
		if _, row := lowest(r.Hourly.Segments[i].Water); row >= 0 {
			wet = append(wet, i)
		}
	}
	pages := (len(wet) + segmentsPerPage - 1) / segmentsPerPage
	for page := range pages {
		shown := wet[page*len(wet)/pages : (page+1)*len(wet)/pages] // evenly full
		name := "segments"
		if pages > 1 {
			name += "-" + strconv.Itoa(page+1)
		}
		note := ""
		if pages > 1 {
			note = "page " + strconv.Itoa(page+1) + " of " + strconv.Itoa(pages)
		} else if dry := len(r.Hourly.Segments) - len(wet); dry > 0 {
			note = "no water stood in " + dryWords(r, waterTracks(r), dry)
		}
		height := segmentOther + vg.Length(len(shown))*(segmentTitle+segmentWater+segmentGap+segmentFill+segmentAfter)
		if len(r.Cycles) > 0 {
			height += segmentPump
		}
		charts = append(charts, chart{name, height, func(page draw.Canvas) { drawSegments(page, r, shown, note) }})
	}
	return charts
}

func drawSegments(page draw.Canvas, r *sim.Result, shown []int, note string) {
	area := heading(page, r, "Temperature, water and ice, segment by segment", note)
	drawSegmentKey(&area, r)
	area.Max.Y += 2
	below := func(height, gap vg.Length) *panel { // takes a panel off the top of the area
		frame := draw.Crop(area, leftMargin, -rightMargin, area.Size().Y-height, 0)
		area.Max.Y -= height + gap
		t0, t1 := recordSpan(r)
		return &panel{Canvas: frame, x0: t0, x1: t1, y1: 1, dataEnd: t1}
	}
	coldest, any := coldestNight(r)
	spans := closedSpans(r)
	for k, i := range shown {
		at := vg.Point{X: area.Min.X + leftMargin, Y: area.Max.Y}
		name := bold(lettering(textSize, ink, draw.XLeft, draw.YTop))
		title := shorten(name, r.Segments[i].Name, 220)
		area.FillText(name, at, title)
		at.X += name.Width(title) + 10
		summary := lettering(smallSize, faint, draw.XLeft, draw.YTop)
		area.FillText(summary, vg.Point{X: at.X, Y: at.Y - 1.2}, shorten(summary, segmentSummary(r, i), area.Max.X-rightMargin-at.X))
		area.Max.Y -= segmentTitle
		upper := below(segmentWater, segmentGap)
		lower := below(segmentFill, segmentAfter)
		last := k == len(shown)-1 && len(r.Cycles) == 0
		for _, p := range []*panel{upper, lower} {
			if any {
				p.darken(coldest)
			}
			p.timeTicks(r.Start, p == lower && last)
		}
		drawSegmentWater(upper, r, i)
		drawSegmentFill(lower, r, i, spans[i])
	}
	if len(r.Cycles) > 0 {
		p := below(segmentPump, 0)
		p.timeTicks(r.Start, true)
		drawCycles(p, r)
		p.frame()
	}
}

// drawSegmentWater draws the temperature of a segment's water.
func drawSegmentWater(p *panel, r *sim.Result, i int) {
	water := r.Hourly.Segments[i].Water
	low, high := extent(water)
	p.y0, p.y1 = rangeOf(math.Min(low, 0), math.Max(high, 0), 0.08)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "")
	p.right(fahrenheitAxis())
	p.rule(0, frostStroke)
	p.swing(r, water, bystander, navy)
	p.frame()
}

// drawSegmentFill draws how full a segment stood, and how much of that was ice.
func drawSegmentFill(p *panel, r *sim.Result, i int, shut []span) {
	track := r.Hourly.Segments[i]
	ice := make([]float64, len(track.Fill))
	for row, fill := range track.Fill {
		ice[row] = fill * at(track.Ice, row)
	}
	p.y0, p.y1 = 0, math.Max(1, greatest(track.Fill))
	p.area(waterTone, r.Hourly.Time, track.Fill)
	p.area(iceColor(1), r.Hourly.Time, ice)
	for _, s := range shut {
		drawShut(p, p.X(s.from), p.X(s.to), p.Min.Y, p.Max.Y)
	}
	style := lettering(smallSize, ink, draw.XRight, -0.5)
	p.FillText(style, vg.Point{X: p.Min.X - 5, Y: p.Max.Y - 4}, "full")
	p.FillText(style, vg.Point{X: p.Min.X - 5, Y: p.Min.Y + 4}, "empty")
	p.frame()
}

// segmentSummary sums a segment up.
func segmentSummary(r *sim.Result, i int) string {
	s := r.Segments[i]
	words := []string{"coldest " + SI.bothTemperatures(s.LowestWater)}
	if s.FirstIce != nil {
		words = append(words, "first ice "+spokenTime(r.Start, *s.FirstIce))
	}
	ice := iceSummary(s)
	if s.LargestIce > 0 {
		ice = "ice " + ice
	}
	return strings.Join(append(words, ice), "  ·  ")
}

// drawSegmentKey explains the signs.
func drawSegmentKey(area *draw.Canvas, r *sim.Result) {
	entries := []keyEntry{
		{"lowest temperature of water or ice", lineSign(stroke(navy, 1.2))},
		{"freezing", lineSign(frostStroke)},
		{"water in the pipe", toneSign(waterTone)},
		{"ice", toneSign(iceColor(1))},
	}
	if byDay(r) {
		entries[0] = keyEntry{"water or ice, coldest to warmest of each day", areaSign(func(c draw.Canvas, b vg.Rectangle) {
			c.FillPolygon(bystander, corners(b))
			c.StrokeLine2(stroke(navy, 1.2), b.Min.X, b.Min.Y, b.Max.X, b.Min.Y)
			c.StrokeLine2(stroke(navy, 1.2), b.Min.X, b.Max.Y, b.Max.X, b.Max.Y)
		})}
	}
	if r.Verdict.Closed != nil {
		entries = append(entries, keyEntry{"frozen shut", func(c draw.Canvas, b vg.Rectangle) {
			c.FillPolygon(brick, corners(box(b.Min.X, b.Min.Y+2, b.Max.X, b.Max.Y-2)))
		}})
	}
	if _, any := coldestNight(r); any {
		entries = append(entries, keyEntry{"coldest night", func(c draw.Canvas, b vg.Rectangle) { c.FillPolygon(nightTone, corners(b)) }})
	}
	drawKey(area, entries)
}
