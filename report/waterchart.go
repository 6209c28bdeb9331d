package report

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// waterTrack is one segment's line on the chart of water temperatures.
type waterTrack struct {
	segment int
	lowest  float64 // [°C]
}

// waterTracks gives the segments that held water, the coldest first; of two that were
// equally cold the one with more ice, then the one upstream.
func waterTracks(r *sim.Result) []waterTrack {
	var tracks []waterTrack
	for i, s := range r.Hourly.Segments {
		if low, row := lowest(s.Water); row >= 0 {
			tracks = append(tracks, waterTrack{i, low})
		}
	}
	slices.SortStableFunc(tracks, func(a, b waterTrack) int {
		return cmp.Or(cmp.Compare(a.lowest, b.lowest),
			cmp.Compare(r.Segments[b.segment].LargestIce, r.Segments[a.segment].LargestIce))
	})
	return tracks
}

// waterChart shows the lowest water temperature in each segment. With more segments
// than styles the coldest are named and the others stay grey behind them.
func waterChart(r *sim.Result) (chart, bool) {
	tracks := waterTracks(r)
	return chart{"water-temperature", figureHeight, func(page draw.Canvas) { drawWater(page, r, tracks) }}, len(tracks) > 0
}

func drawWater(page draw.Canvas, r *sim.Result, tracks []waterTrack) {
	named := tracks[:min(len(lineStyles), len(tracks))]
	rest := tracks[len(named):]
	xs, series := waterSeries(r)
	area := heading(page, r, "Lowest temperature of the water, or of its ice, in each segment", append(waterNotes(r, tracks, rest), shadedWords(r))...)
	labels := waterLabels(r, named, xs, series)
	marks := markRecord(&area, r, endLabelRoom(labels))
	p := timePanels(area, r, endLabelRoom(labels), 1)[0]
	marks.under(p, true)
	p.y0, p.y1 = 0, 0
	for _, t := range tracks {
		low, high := extent(series[t.segment])
		p.y0, p.y1 = math.Min(p.y0, low), math.Max(p.y1, high)
	}
	p.y0, p.y1 = rangeOf(p.y0, p.y1, 0.06)
	p.roomAbove(0)
	p.timeTicks(r.Start, true)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "water")
	p.right(fahrenheitAxis())
	p.rule(0, frostStroke)
	for _, t := range rest {
		p.line(stroke(bystander, 0.6), xs, series[t.segment])
	}
	// The coldest comes last, on top of the others.
	for i, t := range slices.Backward(named) {
		p.line(lineStyles[i], xs, series[t.segment])
	}
	p.nameRule(0, "freezing", brick, xs, series...)
	p.frame()
	labelEnds(p, labels)
}

// waterSeries gives what is drawn: each row of a short record, the lowest of each day
// of a long one, where the warm water of every pump cycle would blur the line.
func waterSeries(r *sim.Result) (xs []float64, series [][]float64) {
	series = make([][]float64, len(r.Hourly.Segments))
	for i, s := range r.Hourly.Segments {
		xs, series[i] = r.Hourly.Time, s.Water
		if byDay(r) {
			xs, series[i], _ = daily(r.Hourly.Time, s.Water)
		}
	}
	return xs, series
}

// waterNotes say which of each day's temperatures is drawn, and which segments are not named.
func waterNotes(r *sim.Result, tracks, rest []waterTrack) (notes []string) {
	if byDay(r) {
		notes = append(notes, "the lowest of each day")
	}
	if len(rest) > 0 {
		notes = append(notes, "the "+number(float64(len(tracks)-len(rest)), 0)+" coldest named, "+number(float64(len(rest)), 0)+" others grey")
	}
	if dry := len(r.Hourly.Segments) - len(tracks); dry > 0 {
		notes = append(notes, "no water stood in "+dryWords(r, tracks, dry))
	}
	return notes
}

// dryWords names the segments that never held water, or counts them when they are many.
func dryWords(r *sim.Result, tracks []waterTrack, dry int) string {
	if dry > 2 {
		return number(float64(dry), 0) + " segments"
	}
	var names []string
	for i := range r.Hourly.Segments {
		if !slices.ContainsFunc(tracks, func(t waterTrack) bool { return t.segment == i }) {
			names = append(names, r.Segments[i].Name)
		}
	}
	return list(names)
}

// endLabel is a label for the end of a line.
type endLabel struct {
	x, y  float64 // data: where the line ends
	words string
	style draw.LineStyle
}

func waterLabels(r *sim.Result, named []waterTrack, xs []float64, series [][]float64) []endLabel {
	labels := make([]endLabel, len(named))
	for i, t := range named {
		last := len(xs) - 1
		for last > 0 && math.IsNaN(series[t.segment][last]) {
			last--
		}
		labels[i] = endLabel{
			x: xs[last], y: series[t.segment][last],
			words: r.Segments[t.segment].Name, style: lineStyles[i],
		}
	}
	return labels
}

// Room for the stub of a line before its label, and the most that a label may take.
const (
	endStub      = vg.Length(34)
	longestLabel = vg.Length(150)
)

// endLabelRoom is the width that the labels need at the right of a panel.
func endLabelRoom(labels []endLabel) vg.Length {
	widest := vg.Length(0)
	for _, l := range labels {
		widest = max(widest, lettering(textSize, ink, draw.XLeft, 0).Width(l.words))
	}
	return min(widest, longestLabel) + endStub + 6
}

// labelEnds names lines in the free strip at the right of the panel: a stub in the
// line's own style, joined to its end by a hairline, then the words, kept apart.
func labelEnds(p *panel, labels []endLabel) {
	style := lettering(textSize, ink, draw.XLeft, -0.5)
	slices.SortStableFunc(labels, func(a, b endLabel) int { return cmp.Compare(a.y, b.y) })
	wanted := make([]vg.Length, len(labels))
	for i, l := range labels {
		wanted[i] = p.Y(l.y)
	}
	edge := p.X(p.dataEnd)
	for i, y := range spread(wanted, textSize+2.5, p.Min.Y+textSize, p.Max.Y-textSize) {
		l := labels[i]
		p.StrokeLine2(stroke(faint, 0.5), p.X(l.x), p.Y(l.y), edge+8, y)
		p.StrokeLine2(l.style, edge+8, y, edge+30, y)
		at := vg.Point{X: edge + endStub, Y: y}
		p.FillText(style, at, shorten(style, l.words, p.Max.X-at.X-2))
	}
}
