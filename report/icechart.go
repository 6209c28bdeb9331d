package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// span is a stretch of time [s].
type span struct{ from, to float64 }

// closedSpans gives, for each segment, when it was frozen shut: from a closed event until
// as many reopened events have come at the same place, or to the end of the record. Cells
// keep their own time, so one part of a segment can shut before another's opening counts.
func closedSpans(r *sim.Result) [][]span {
	_, end := recordSpan(r)
	out := make([][]span, len(r.Segments))
	for i, s := range r.Segments {
		shut, since := 0, 0.0
		for _, e := range r.Events {
			switch {
			case e.Where != s.Name:
			case e.Kind == sim.EventClosed:
				if shut == 0 {
					since = e.Time
				}
				shut++
			case e.Kind == sim.EventReopened && shut > 0:
				if shut--; shut == 0 {
					out[i] = append(out[i], span{since, e.Time})
				}
			}
		}
		if shut > 0 {
			out[i] = append(out[i], span{since, end})
		}
	}
	return out
}

// noWater marks a column of the map in which nothing stood in the segment.
const noWater = -1

// iceColumns gives a segment's largest ice share in each of n equal columns of time,
// noWater where none stood there.
func iceColumns(r *sim.Result, segment, n int) []float64 {
	track := r.Hourly.Segments[segment]
	return columnsOf(r, n, func(i int) float64 {
		if i >= len(track.Ice) || math.IsNaN(track.Ice[i]) || (i < len(track.Fill) && track.Fill[i] <= 0) {
			return noWater
		}
		return track.Ice[i]
	})
}

// columnsOf gives the largest value of the weather rows in each of n equal columns of time. A column between two
// rows takes the row before it.
func columnsOf(r *sim.Result, n int, value func(row int) float64) []float64 {
	t0, t1 := recordSpan(r)
	out := make([]float64, n)
	row := 0
	for c := range out {
		until := t0 + (t1-t0)*float64(c+1)/float64(n)
		if c == n-1 {
			until = math.Inf(1) // the last row stands on the edge
		}
		most := value(max(0, row-1))
		for first := true; row < len(r.Hourly.Time) && r.Hourly.Time[row] < until; row++ {
			if v := value(row); first || v > most {
				most, first = v, false
			}
		}
		out[c] = most
	}
	return out
}

// iceChart maps the ice in the line: segments in flow order downwards, time across.
func iceChart(r *sim.Result) (chart, bool) {
	const lowest, highest, others = vg.Length(14), vg.Length(60), vg.Length(150)
	n := vg.Length(max(1, len(r.Segments)))
	height := others + n*max(lowest, min(highest, (figureHeight-others)/n))
	return chart{"ice", height, func(page draw.Canvas) { drawIce(page, r) }},
		len(r.Hourly.Time) > 0 && len(r.Hourly.Segments) > 0
}

const iceSummaryWidth = vg.Length(112)

func drawIce(page draw.Canvas, r *sim.Result) {
	area := heading(page, r, iceTitle(r), "")
	drawIceKey(&area, r)
	names := lettering(textSize, ink, draw.XRight, -0.5)
	nameWidth := vg.Length(60)
	for _, s := range r.Segments {
		nameWidth = max(nameWidth, min(150, names.Width(s.Name)+8))
	}
	area.Min.X += nameWidth - leftMargin
	area.Max.X -= iceSummaryWidth - rightMargin
	p := timePanels(area, r, 0, 1)[0]
	p.y0, p.y1 = float64(len(r.Hourly.Segments)), 0 // downwards
	spans := closedSpans(r)
	for i := range r.Hourly.Segments {
		drawIceRow(p, r, i, spans[i])
		y := (p.Y(float64(i)) + p.Y(float64(i+1))) / 2
		p.FillText(names, vg.Point{X: p.Min.X - 6, Y: y}, shorten(names, r.Segments[i].Name, nameWidth-8))
		p.FillText(lettering(smallSize, ink, draw.XLeft, -0.5), vg.Point{X: p.Max.X + 6, Y: y}, iceSummary(r.Segments[i]))
	}
	p.dates(r.Start)
	p.frame()
}

func iceTitle(r *sim.Result) string {
	if worst, _ := mostIce(r); worst < 0 {
		return "No ice formed in the line"
	}
	return "How much of the standing water was ice, segment by segment"
}

// iceSummary sums a row up in words beside it.
func iceSummary(s sim.SegmentResult) string {
	switch {
	case math.IsNaN(s.LowestWater):
		return "no water"
	case s.LargestIce <= 0:
		return "no ice"
	case s.Closed != nil:
		return "up to " + percent(s.LargestIce) + ", shut " + shortDuration(s.HoursClosed)
	}
	return "up to " + percent(s.LargestIce)
}

func shortDuration(hours float64) string {
	if hours < 48 {
		return number(math.Ceil(hours), 0) + " h"
	}
	return number(hours/24, 0) + " d"
}

func drawIceRow(p *panel, r *sim.Result, i int, shut []span) {
	top, bottom := p.Y(float64(i))-0.6, p.Y(float64(i+1))+0.6
	drawShades(p, iceColumns(r, i, int(p.Size().X*2)), bottom, top)
	for _, s := range shut {
		drawShut(p, p.X(s.from), p.X(s.to), bottom, top)
	}
}

// drawShades fills a row across the panel with the colours of ice shares, one a column.
func drawShades(p *panel, columns []float64, bottom, top vg.Length) {
	n := len(columns)
	x := func(c int) vg.Length { return p.Min.X + p.Size().X*vg.Length(c)/vg.Length(n) }
	for from := 0; from < n; {
		// Equal neighbours become one rectangle; 1/128 is less than the eye can tell.
		to := from
		for to < n && shade(columns[to]) == shade(columns[from]) {
			to++
		}
		c := dryTone
		if columns[from] != noWater {
			c = iceColor(float64(shade(columns[from])) / 128)
		}
		p.FillPolygon(c, corners(box(x(from), bottom, min(x(to)+1.5, p.Max.X), top)))
		from = to
	}
}

func shade(share float64) int { return int(math.Round(share * 128)) }

// drawShut marks a stretch of time as frozen shut: a red bar with a white edge along
// the foot of the row, at least wide enough to be seen.
func drawShut(p *panel, from, to, bottom, top vg.Length) {
	to = max(to, from+1.5)
	height := min(5, (top-bottom)*0.4)
	bar := box(from, bottom, to, bottom+height)
	p.FillPolygon(brick, corners(bar))
	p.StrokeLines(stroke(white, 0.8), append(corners(bar), bar.Min))
}

// drawIceKey explains the colours, above the map, and takes its room off the area.
func drawIceKey(area *draw.Canvas, r *sim.Result) {
	const height, wide = vg.Length(9), vg.Length(150)
	text := lettering(smallSize, ink, draw.XLeft, -0.5)
	x, y := area.Min.X, area.Max.Y-height
	mid := y + height/2
	write := func(words string) {
		area.FillText(text, vg.Point{X: x, Y: mid}, words)
		x += text.Width(words) + 6
	}
	write("share of the standing water that is ice:   0 %")
	drawIceScale(*area, box(x, y, x+wide, y+height))
	x += wide + 6
	write("100 %")
	x += 14
	area.FillPolygon(dryTone, corners(box(x, y, x+18, y+height)))
	area.StrokeLines(stroke(ink, 0.5), append(corners(box(x, y, x+18, y+height)), vg.Point{X: x, Y: y}))
	x += 22
	write("no water")
	if r.Verdict.Closed != nil {
		x += 14
		bar := box(x, mid-2.5, x+18, mid+2.5)
		area.FillPolygon(brick, corners(bar))
		x += 22
		write("frozen shut")
	}
	area.Max.Y -= height + 10
}

// drawIceScale draws the ice scale, from none on the left to all on the right.
func drawIceScale(area draw.Canvas, key vg.Rectangle) {
	const steps = 64
	wide := key.Size().X
	for i := range steps {
		a, b := key.Min.X+wide*vg.Length(i)/steps, min(key.Max.X, key.Min.X+wide*vg.Length(i+1)/steps+1.5)
		area.FillPolygon(iceColor((float64(i)+0.5)/steps), corners(box(a, key.Min.Y, b, key.Max.Y)))
	}
	area.StrokeLines(stroke(ink, 0.5), append(corners(key), key.Min))
}
