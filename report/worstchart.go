package report

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// mostTracks is how many segments the chart of the worst hours follows.
const mostTracks = 4

// worstChart shows the worst 72 hours in detail: air, the coldest segments' water and ice, and which way each pump run went.
func worstChart(r *sim.Result) (chart, bool) {
	if len(r.Hourly.Time) == 0 {
		return chart{}, false
	}
	t0, t1, reason := worstWindow(r)
	cut := within(r, t0, t1)
	return chart{"worst-72-hours", 7.4 * vg.Inch, func(page draw.Canvas) { drawWorst(page, cut, reason) }}, len(waterTracks(cut)) > 0
}

func drawWorst(page draw.Canvas, r *sim.Result, reason string) {
	tracks := waterTracks(r)
	followed := tracks[:min(mostTracks, len(tracks))]
	note := ""
	if len(followed) < len(tracks) {
		note = "the " + number(mostTracks, 0) + " coldest of " + number(float64(len(tracks)), 0) + " segments with water"
	}
	t0, t1 := recordSpan(r)
	title := "The " + number((t1-t0)/3600, 0) + " hours in which " + reason
	area := heading(page, r, title, note)
	series := make([][]float64, len(r.Hourly.Segments))
	for i, s := range r.Hourly.Segments {
		series[i] = s.Water
	}
	labels := waterLabels(r, followed, r.Hourly.Time, series)
	room := endLabelRoom(labels)
	words := lettering(smallSize, ink, draw.XLeft, 0)
	for _, way := range waysOf(r.Cycles) {
		room = max(room, words.Width(way.words(r))+besideWay+8)
	}
	for _, line := range worstIceWords {
		room = max(room, words.Width(line)+16)
	}
	marks := markRecord(&area, r, room)
	parts := []func(*panel){
		func(p *panel) { p.air(r, "coldest of these nights") },
		func(p *panel) { drawWorstWater(p, r, followed, labels, series) },
		func(p *panel) { drawWorstIce(p, r, followed) },
	}
	shares := []float64{1.7, 2.2, 1.2}
	if len(r.Cycles) > 0 {
		parts = append(parts, func(p *panel) { drawRuns(p, r) })
		shares = append(shares, 1.2)
	}
	for i, p := range timePanels(area, r, room, shares...) {
		marks.under(p, i == 0)
		p.timeTicks(r.Start, i == len(parts)-1)
		parts[i](p)
		p.frame()
	}
}

// drawWorstWater draws the water's temperature in the segments that are followed.
func drawWorstWater(p *panel, r *sim.Result, followed []waterTrack, labels []endLabel, series [][]float64) {
	p.y0, p.y1 = 0, 0
	var shown [][]float64
	for _, t := range followed {
		low, high := extent(series[t.segment])
		p.y0, p.y1 = math.Min(p.y0, low), math.Max(p.y1, high)
		shown = append(shown, series[t.segment])
	}
	p.y0, p.y1 = rangeOf(p.y0, p.y1, 0.08)
	p.roomAbove(0)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "coldest water")
	p.right(fahrenheitAxis())
	p.rule(0, frostStroke)
	for i, t := range slices.Backward(followed) {
		p.line(lineStyles[i], r.Hourly.Time, series[t.segment])
	}
	p.nameRule(0, "freezing", brick, r.Hourly.Time, shown...)
	labelEnds(p, labels)
}

// worstIceWords explain the panel of ice, beside it.
var worstIceWords = []string{"share of the water", "that is ice", "(lines as above)"}

// drawWorstIce draws how much of their water was ice.
func drawWorstIce(p *panel, r *sim.Result, followed []waterTrack) {
	p.y0, p.y1 = 0, 1.06
	p.grid(scaledAxis("%", 100))
	p.left(scaledAxis("%", 100), "ice")
	for i, t := range slices.Backward(followed) {
		ice := slices.Clone(r.Hourly.Segments[t.segment].Ice)
		for row, water := range r.Hourly.Segments[t.segment].Water {
			if math.IsNaN(water) {
				ice[row] = math.NaN()
			}
		}
		p.line(lineStyles[i], r.Hourly.Time, ice)
	}
	style := lettering(smallSize, faint, draw.XLeft, -0.5)
	for i, line := range worstIceWords {
		p.FillText(style, vg.Point{X: p.X(p.dataEnd) + 8, Y: p.Center().Y - vg.Length(i)*(smallSize+2)}, line)
	}
}

// runPart is what one way took of a pump run.
type runPart struct {
	way    waterWay
	volume float64 // [L]
}

// runParts divides a pump run by its ways, those that carried none left out.
func runParts(c sim.CycleRecord) (parts []runPart) {
	for _, p := range []runPart{{wayOutlet, c.Outlet}, {wayRelief, c.Relief}, {wayRim, c.Rim}, {wayFloor, c.Refused}} {
		if p.volume *= litresPerM3; p.volume > 0.005 {
			parts = append(parts, p)
		}
	}
	return parts
}

// waysOf are the ways that the water of pump runs took.
func waysOf(cycles []sim.CycleRecord) (ways []waterWay) {
	for _, c := range cycles {
		for _, part := range runParts(c) {
			if !slices.Contains(ways, part.way) {
				ways = append(ways, part.way)
			}
		}
	}
	slices.Sort(ways)
	return ways
}

// drawRuns draws each pump run as a bar, divided by the ways that its water took.
func drawRuns(p *panel, r *sim.Result) {
	most := 0.0
	for _, c := range r.Cycles {
		sum := 0.0
		for _, part := range runParts(c) {
			sum += part.volume
		}
		most = math.Max(most, sum)
	}
	p.y0, p.y1 = 0, math.Max(1, most*1.12)
	p.grid(scaledAxis("L", 1))
	p.left(scaledAxis("L", 1), "a pump run")
	p.right(scaledAxis("gal", gallons(1)))
	wide := vg.Length(4)
	if n := len(r.Cycles); n > 1 {
		wide = max(1.2, min(wide, 0.6*(p.X(p.dataEnd)-p.Min.X)/vg.Length(n)))
	}
	for _, c := range r.Cycles {
		foot, x := 0.0, p.X(c.Time)
		for _, part := range runParts(c) {
			bar := box(x-wide/2, p.Y(foot), x+wide/2, p.Y(foot+part.volume))
			part.way.fill(p.Canvas, bar)
			foot += part.volume
		}
	}
	p.nameWays(r, waysOf(r.Cycles))
}

// besideWay is where the words on a way stand, off the end of the record.
const besideWay = vg.Length(20)

// nameWays explains the colours of ways beside a panel, the last on top, as they stand in a bar.
func (p *panel) nameWays(r *sim.Result, used []waterWay) {
	style := lettering(smallSize, ink, draw.XLeft, -0.5)
	x := p.X(p.dataEnd) + 8
	wanted := make([]vg.Length, len(used))
	for i := range used {
		wanted[i] = p.Center().Y + (vg.Length(i)-vg.Length(len(used)-1)/2)*(smallSize+4)
	}
	for i, y := range spread(wanted, smallSize+2, p.Min.Y+6, p.Max.Y-6) {
		used[i].patch(p.Canvas, box(x, y-4, x+8, y+4))
		p.FillText(style, vg.Point{X: p.X(p.dataEnd) + besideWay, Y: y}, used[i].words(r))
	}
}
