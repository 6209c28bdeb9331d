package report

import (
	"math"
	"time"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/weather"
)

// degreeDaysChart sets the winters of a record beside each other by their freezing
// degree-days.
func degreeDaysChart(r *weatherRecord) (chart, bool) {
	bars := winterBars(r)
	most := 0.0
	for _, b := range bars {
		most = math.Max(most, b.degreeDays)
	}
	return chart{"degree-days", 4.8 * vg.Inch, func(page draw.Canvas) { drawDegreeDays(page, r, bars) }}, most > 0
}

// winterBar is the bar of a winter.
type winterBar struct {
	name       string
	degreeDays float64 // [°C day]
	part       bool    // the record has but a part of the months in which it freezes
}

func winterBars(r *weatherRecord) (bars []winterBar) {
	for _, w := range r.Winters {
		bars = append(bars, winterBar{recordWinter(r.Digest, w), w.DegreeDays, !r.Typical && !r.whole(w)})
	}
	return bars
}

// whole says whether the record has nearly all of a winter's November to March.
func (r *weatherRecord) whole(w weather.WinterCold) bool {
	const nearly = 0.95
	from := r.since(time.Date(w.Ends-1, time.November, 1, 0, 0, 0, 0, time.UTC))
	to := r.since(time.Date(w.Ends, time.April, 1, 0, 0, 0, 0, time.UTC))
	there := 0.0
	for _, e := range r.Spans {
		there += math.Max(0, math.Min(to, r.since(e.End))-math.Max(from, r.since(e.Start)))
	}
	return there >= nearly*(to-from)
}

// degreeDaysTitle names the coldest winter, of those that are whole if any is.
func degreeDaysTitle(bars []winterBar) string {
	best := -1
	for i, b := range bars {
		if best < 0 || !b.part && bars[best].part || b.part == bars[best].part && b.degreeDays > bars[best].degreeDays {
			best = i
		}
	}
	sum := SI.degreeDays(bars[best].degreeDays) + " (" + US.degreeDays(bars[best].degreeDays) + ")"
	switch {
	case bars[best].name == typicalWinter:
		return "Freezing degree-days of the typical year: " + sum
	case len(bars) == 1:
		return "Freezing degree-days of the winter " + bars[0].name + ": " + sum
	}
	return "Freezing degree-days: the coldest winter is " + bars[best].name + " with " + sum
}

func drawDegreeDays(page draw.Canvas, r *weatherRecord, bars []winterBar) {
	area := headed(page, false, degreeDaysTitle(bars), r.facts("how far each day's mean lies below freezing, summed from July to June")...)
	drawKey(&area, degreeDaysKey(bars))
	p := panelsOver(area, 0, float64(len(bars)), 0, 1)[0]
	l := layBars(p, bars)
	p.Canvas.Min.Y += l.below
	most := 0.0
	for _, b := range bars {
		most = math.Max(most, b.degreeDays)
	}
	p.y1 = most / (1 - float64((l.above+6)/p.Size().Y))
	p.grid(scaledAxis("°C days", 1))
	p.left(scaledAxis("°C days", 1), "")
	p.right(scaledAxis("°F days", 1.8))
	names := make([]string, len(bars))
	for i, b := range bars {
		l.draw(p, i, b)
		names[i] = b.name
	}
	l.names.draw(p, names)
	p.frame()
}

// degreeDaysKey explains the tones of the bars, where there are two.
func degreeDaysKey(bars []winterBar) []keyEntry {
	entries := []keyEntry{{"winter with all of November to March in the record", toneSign(navy)}, {"a part of it only", toneSign(dayTone)}}
	whole, part := false, false
	for _, b := range bars {
		whole, part = whole || !b.part, part || b.part
	}
	switch {
	case !whole:
		entries[1].words = "the record has only a part of November to March"
		return entries[1:]
	case !part:
		return entries[:1]
	}
	return entries
}

// barLayout is how bars and their words share the width.
type barLayout struct {
	pitch, width vg.Length
	size         vg.Length // of the numbers
	upright      bool      // numbers stand on end
	names        columnNames
	above, below vg.Length // room for numbers above the bars and for names below, besides the usual
}

func layBars(p *panel, bars []winterBar) barLayout {
	const widest = vg.Length(64)
	l := barLayout{pitch: p.Size().X / vg.Length(len(bars)), size: smallSize}
	l.width = min(widest, 0.72*l.pitch)
	style := lettering(l.size, ink, draw.XCenter, draw.YBottom)
	long := vg.Length(0)
	for _, b := range bars {
		long = max(long, style.Width(number(b.degreeDays, 0)))
	}
	l.above = smallSize + 2
	if l.upright = long+4 > l.pitch; l.upright {
		l.size = min(smallSize, max(5, l.pitch-0.5))
		l.above = long*l.size/smallSize + 4
	}
	l.names = nameColumns(l.pitch, &l.below)
	return l
}

// draw draws bar i with its number above.
func (l barLayout) draw(p *panel, i int, b winterBar) {
	x := p.X(float64(i) + 0.5)
	tone := navy
	if b.part {
		tone = dayTone
	}
	top := p.Y(b.degreeDays)
	p.FillPolygon(tone, corners(box(x-l.width/2, p.Min.Y, x+l.width/2, top)))

	words := lettering(l.size, ink, draw.XCenter, draw.YBottom)
	at := vg.Point{X: x, Y: top + 2}
	if l.upright {
		words, at.X = turned(words, draw.XLeft, x)
		at.Y++
	}
	p.FillText(words, at, number(b.degreeDays, 0))
}

// turned sets words upwards over x; along says which end stands at the point. A line of words
// has room for descenders, which digits do not use: at is where they stand over the middle.
func turned(s text.Style, along draw.XAlignment, x vg.Length) (upwards text.Style, at vg.Length) {
	s.Rotation = math.Pi / 2
	s.XAlign, s.YAlign = along, draw.YCenter
	return s, x - 0.14*s.Font.Size
}
