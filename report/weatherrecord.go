package report

import (
	"cmp"
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/weather"
)

// recordChart shows the whole record: air temperature with its gaps and cold spells, and the
// snow.
func recordChart(r *weatherRecord) (chart, bool) {
	return chart{"record", figureHeight, func(page draw.Canvas) { drawRecord(page, r) }}, true
}

// Signs of the record's chart.
var (
	dayTone      = color.RGBA{0xB4, 0xCA, 0xE2, 0xFF} // from the lowest to the highest
	meanStroke   = draw.LineStyle{Color: navy, Width: 0.8}
	stepStroke   = draw.LineStyle{Color: navy, Width: 2} // of few days
	hourlyStroke = draw.LineStyle{Color: teal, Width: 1}
	frostStroke  = draw.LineStyle{Color: brick, Width: 1.1}
)

func drawRecord(page draw.Canvas, r *weatherRecord) {
	days := r.periodDays()
	title := "Outdoor air: " + SI.bothTemperatures(r.Coldest.Value) + " in the coldest hour, " + r.moment(r.Coldest.Time)
	area := headed(page, false, title, r.facts()...)
	gaps := r.gaps()
	drawKey(&area, r.key(days, gaps))
	area.Max.Y -= spellRow
	shares := []float64{3.4}
	snow := r.hasSnow()
	if snow {
		shares = append(shares, 1)
	}
	panels := panelsOver(area, 0, math.Max(r.end(), 3600), 0, shares...)
	drawRecordAir(panels[0], r, days, gaps)
	drawSpellNumbers(panels[0], spellMarks(r))
	if snow {
		drawRecordSnow(panels[1], r, gaps)
	}
	panels[len(panels)-1].dates(r.start())
	for _, p := range panels {
		p.frame()
	}
}

// stepped says whether the record is so short that days are drawn as steps, with the rows
// themselves over them.
func (r *weatherRecord) stepped() bool { return r.end() <= longRecord }

// key explains the signs that the chart has.
func (r *weatherRecord) key(days int, gaps []recordGap) []keyEntry {
	name := periodName(days)
	mean := meanStroke
	if r.stepped() {
		mean = stepStroke
	}
	entries := []keyEntry{
		{"lowest to highest of each " + name, toneSign(dayTone)},
		{"mean of each " + name, lineSign(mean)},
	}
	if days > 7 {
		entries[0].words, entries[1].words = "lowest to highest of every "+name, "mean of every "+name
	}
	if r.stepped() {
		entries = append(entries, keyEntry{"as recorded", lineSign(hourlyStroke)})
	}
	entries = append(entries, keyEntry{"freezing", lineSign(frostStroke)})
	if len(r.Spells) > 0 {
		entries = append(entries, keyEntry{"lowest of each cold spell", func(c draw.Canvas, r vg.Rectangle) {
			c.DrawGlyph(spellGlyph, vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2})
		}})
	}
	for _, kind := range []struct {
		bridged bool
		words   string
	}{{false, "no record"}, {true, "missing, bridged"}} {
		if slices.ContainsFunc(gaps, func(g recordGap) bool { return g.bridged == kind.bridged }) {
			entries = append(entries, keyEntry{kind.words, areaSign(func(c draw.Canvas, r vg.Rectangle) { hatch(c, r, kind.bridged) })})
		}
	}
	return entries
}

// recordGap is a time without air temperature of its own.
type recordGap struct {
	from, to float64 // [s]
	bridged  bool    // values are joined across it
}

// gaps are the times between the spans, and what was bridged where it is wide enough to be
// seen.
func (r *weatherRecord) gaps() (gaps []recordGap) {
	const narrowest = 1.0 / 600 // of the record
	for i := 1; i < len(r.Spans); i++ {
		gaps = append(gaps, recordGap{r.since(r.Spans[i-1].End), r.since(r.Spans[i].Start), false})
	}
	for _, e := range r.Ledger {
		if !e.OfAir() {
			continue
		}
		g := recordGap{r.since(e.Time) - r.Step, r.since(e.Time) + 3600*e.Hours, true}
		if e.Column == "time" { // told at the row behind the gap
			g.from, g.to = g.from-3600*e.Hours, g.to-3600*e.Hours
		}
		g.from, g.to = math.Max(0, g.from), math.Min(r.end(), g.to)
		if g.to-g.from > narrowest*r.end() {
			gaps = append(gaps, g)
		}
	}
	return gaps
}

// hatch fills a gap: with strokes where there is no record, pale where it was bridged.
func hatch(c draw.Canvas, r vg.Rectangle, bridged bool) {
	c.FillPolygon(soilTone, corners(r))
	if bridged {
		return
	}
	const apart = vg.Length(7)
	inside := draw.Canvas{Canvas: c.Canvas, Rectangle: r}
	height := r.Size().Y
	for x := r.Min.X - height; x < r.Max.X; x += apart {
		slope := []vg.Point{{X: x, Y: r.Min.Y}, {X: x + height, Y: r.Max.Y}}
		c.StrokeLines(stroke(wallTone, 0.6), inside.ClipLinesXY(slope)...)
	}
}

func (p *panel) shade(gaps []recordGap) {
	for _, g := range gaps {
		hatch(p.Canvas, box(p.X(g.from), p.Min.Y, p.X(g.to), p.Max.Y), g.bridged)
	}
}

func drawRecordAir(p *panel, r *weatherRecord, days int, gaps []recordGap) {
	low, high := 0.0, 0.0
	for _, s := range r.series {
		l, h := extent(s.Air)
		low, high = math.Min(low, l), math.Max(high, h)
	}
	p.y0, p.y1 = rangeOf(low, high, 0.06)
	p.timeTicks(r.start(), false)
	p.shade(gaps)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "outdoor air")
	p.right(fahrenheitAxis())
	for _, s := range r.series {
		periods := r.periods(s, days)
		if r.stepped() {
			p.steps(periods)
			p.line(hourlyStroke, shifted(s.Time, r.since(s.Start)), s.Air)
		} else {
			p.periodBand(periods)
		}
	}
	p.rule(0, frostStroke)
}

// steps draws days as boxes from their lowest to their highest value, with their means.
func (p *panel) steps(periods []period) {
	for _, d := range periods {
		p.FillPolygon(dayTone, corners(box(p.X(d.from), p.Y(d.low), p.X(d.to), p.Y(d.high))))
		p.StrokeLine2(stepStroke, p.X(d.from), p.Y(d.mean), p.X(d.to), p.Y(d.mean))
	}
}

// periodBand draws the periods of a span as a band with the line of their means in it.
func (p *panel) periodBand(periods []period) {
	var at, low, mean, high []float64
	add := func(t float64, d period) {
		at, low, mean, high = append(at, t), append(low, d.low), append(mean, d.mean), append(high, d.high)
	}
	add(periods[0].from, periods[0])
	for _, d := range periods {
		add(d.middle(), d)
	}
	last := periods[len(periods)-1]
	add(last.to, last)
	p.band(dayTone, at, low, high)
	p.line(meanStroke, at, mean)
}

func shifted(times []float64, by float64) []float64 {
	out := make([]float64, len(times))
	for i, t := range times {
		out[i] = t + by
	}
	return out
}

func (r *weatherRecord) hasSnow() bool {
	for _, s := range r.series {
		if s.SnowDepth != nil {
			return true
		}
	}
	return false
}

func drawRecordSnow(p *panel, r *weatherRecord, gaps []recordGap) {
	most := 0.0
	for _, s := range r.series {
		_, high := extent(s.SnowDepth)
		most = math.Max(most, high)
	}
	p.y0, p.y1 = 0, math.Max(0.05, most*1.15)
	p.timeTicks(r.start(), false)
	p.shade(slices.DeleteFunc(slices.Clone(gaps), func(g recordGap) bool { return g.bridged }))
	p.grid(scaledAxis("cm", 100))
	p.left(scaledAxis("cm", 100), "snow")
	p.right(scaledAxis("in", 1/metresPerInch))
	for _, s := range r.series {
		if s.SnowDepth != nil {
			p.area(sky, shifted(s.Time, r.since(s.Start)), s.SnowDepth)
		}
	}
	if most <= 0 {
		p.FillText(lettering(textSize, faint, draw.XCenter, draw.YCenter), p.Center(), "no snow in the record")
	}
}

// spellRow is the height of the row of numbers above the air.
const spellRow = vg.Length(22)

var spellGlyph = draw.GlyphStyle{Color: brick, Radius: 2.6, Shape: draw.CircleGlyph{}}

// spellMark is a cold spell's place in the record.
type spellMark struct {
	number int     // in the table
	t, air float64 // when it was coldest [s], and how cold [°C]
}

// spellMarks gives the cold spells in order of time.
func spellMarks(r *weatherRecord) []spellMark {
	var marks []spellMark
	for i, spell := range r.Spells {
		s, from := r.holding(spell)
		if s == nil {
			continue
		}
		times, air := windowed(s, from, from+weather.SpellLength)
		if _, row := lowest(air); row >= 0 {
			marks = append(marks, spellMark{i + 1, r.since(s.Start) + times[row], air[row]})
		}
	}
	slices.SortStableFunc(marks, func(a, b spellMark) int { return cmp.Compare(a.t, b.t) })
	return marks
}

// numberPlaces are where the numbers of spells stand along the panel, so that none covers
// another.
func numberPlaces(p *panel, marks []spellMark) []vg.Length {
	const gap = vg.Length(16)
	var wanted []vg.Length
	for _, m := range marks {
		wanted = append(wanted, p.X(m.t))
	}
	return spread(wanted, gap, p.Min.X+gap/2, p.Max.X-gap/2)
}

// drawSpellNumbers writes the number of each spell above the panel, with a hairline to where
// it was coldest.
func drawSpellNumbers(p *panel, marks []spellMark) {
	style := bold(lettering(textSize, brick, draw.XCenter, draw.YBottom))
	hair := stroke(faint, 0.6, 2, 2)
	for i, x := range numberPlaces(p, marks) {
		m := marks[i]
		at := p.at(m.t, m.air)
		p.StrokeLine2(hair, x, p.Max.Y+8, at.X, p.Max.Y)
		p.StrokeLine2(hair, at.X, p.Max.Y, at.X, at.Y)
		p.DrawGlyph(spellGlyph, at)
		p.FillText(style, vg.Point{X: x, Y: p.Max.Y + 9}, strconv.Itoa(m.number))
	}
}
