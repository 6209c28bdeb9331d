package report

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/weather"
)

// Hours drawn before and after a cold spell.
const spellMargin = 24.0

// spellColumns is how many spells stand beside each other.
const spellColumns = 2

// spellsChart shows the coldest spells hour by hour, each with the day before and after it.
func spellsChart(r *weatherRecord) (chart, bool) {
	views := spellViews(r)
	rows := (len(views) + spellColumns - 1) / spellColumns
	height := 1.45*vg.Inch + 1.35*vg.Inch*vg.Length(max(2, rows))
	return chart{"cold-spells", height, func(page draw.Canvas) { drawSpells(page, r, views) }}, len(views) > 0
}

// spellView is a cold spell as its panel shows it.
type spellView struct {
	number     int       // in the table
	from       string    // when it begins
	mean       float64   // air temperature [°C]
	hours, air []float64 // hours from the beginning of the spell; air temperature [°C]
}

// spellViews gives the cold spells, coldest first.
func spellViews(r *weatherRecord) (views []spellView) {
	for i, spell := range r.Spells {
		s, from := r.holding(spell)
		if s == nil {
			continue
		}
		times, air := windowed(s, from-spellMargin*3600, from+weather.SpellLength+spellMargin*3600)
		hours := make([]float64, len(times))
		for k, t := range times {
			hours[k] = (t - from) / 3600
		}
		views = append(views, spellView{i + 1, r.moment(spell.Start), spell.Mean, hours, air})
	}
	return views
}

// holding finds the span in which a spell lies and when it begins there [s]; nil for none.
func (r *weatherRecord) holding(spell weather.DatedSpell) (s *weather.Series, from float64) {
	for _, s := range r.series {
		if from := spell.Start.Sub(s.Start).Seconds(); from >= 0 && from < s.End() {
			return s, from
		}
	}
	return nil, 0
}

func drawSpells(page draw.Canvas, r *weatherRecord, views []spellView) {
	title := "The " + plural(float64(len(views)), "coldest spell") + " of three days, hour by hour"
	if len(views) == 1 {
		title = "The coldest three days, hour by hour"
	}
	area := headed(page, false, title, r.facts("numbered as in the table")...)
	drawKey(&area, []keyEntry{
		{"air in the spell", lineSign(inSpell)},
		{"the day before and after", lineSign(outOfSpell)},
		{"freezing", lineSign(frostStroke)},
		{"-10 °C (14 °F), -20 °C (-4 °F)", lineSign(limitStroke)},
	})
	low, high := spellRange(views)
	panels := gridPanels(area, len(views))
	for i, p := range panels {
		p.x0, p.x1, p.dataEnd = -spellMargin, weather.SpellLength/3600+spellMargin, weather.SpellLength/3600+spellMargin
		p.y0, p.y1 = low, high
		below := i+spellColumns >= len(panels)
		last := i%spellColumns == spellColumns-1 || i == len(panels)-1
		drawSpell(p, views[i], i%spellColumns == 0, last, below)
	}
	style := lettering(textSize, ink, draw.XCenter, draw.YBottom)
	area.FillText(style, vg.Point{X: area.Center().X, Y: area.Min.Y}, "hours from the beginning of the spell")
}

// gridPanels divides a page into n panels in rows, with room for a line of words above each
// and for the hours below the lowest.
func gridPanels(area draw.Canvas, n int) []*panel {
	const words, beside, hours = smallSize + 9, vg.Length(34), vg.Length(36)
	columns := min(n, spellColumns)
	rows := (n + columns - 1) / columns
	inside := draw.Crop(area, leftMargin, -rightMargin, hours, 0)
	width := (inside.Size().X - beside*vg.Length(columns-1)) / vg.Length(columns)
	height := inside.Size().Y / vg.Length(rows)
	panels := make([]*panel, n)
	for i := range panels {
		x := inside.Min.X + (width+beside)*vg.Length(i%columns)
		top := inside.Max.Y - height*vg.Length(i/columns)
		frame := area
		frame.Rectangle = box(x, top-height, x+width, top-words)
		panels[i] = &panel{Canvas: frame, x1: 1, y1: 1, dataEnd: 1}
	}
	return panels
}

// spellRange is the range of temperatures that all panels share: with freezing and -10 °C
// always in it, and with room for words below the lowest.
func spellRange(views []spellView) (low, high float64) {
	low, high = -10, 0
	for _, v := range views {
		l, h := extent(v.air)
		low, high = math.Min(low, l), math.Max(high, h)
	}
	return low - 0.38*(high-low), high + 0.05*(high-low)
}

var (
	inSpell     = draw.LineStyle{Color: navy, Width: 1.7}
	outOfSpell  = draw.LineStyle{Color: bystander, Width: 1.5}
	limitStroke = draw.LineStyle{Color: faint, Width: 0.8, Dashes: []vg.Length{5, 3}}
)

// drawSpell draws one panel; left and right say on which sides it has an axis.
func drawSpell(p *panel, v spellView, left, right, below bool) {
	const day = 24
	p.FillPolygon(snowTone, corners(box(p.X(0), p.Min.Y, p.X(weather.SpellLength/3600), p.Max.Y)))
	for h := -spellMargin; h <= p.x1; h += day {
		p.StrokeLine2(stroke(grid, 0.8), p.X(h), p.Min.Y, p.X(h), p.Max.Y)
		if below {
			p.StrokeLine2(stroke(ink, 0.8), p.X(h), p.Min.Y, p.X(h), p.Min.Y-3)
			p.FillText(lettering(textSize, ink, draw.XCenter, draw.YTop), vg.Point{X: p.X(h), Y: p.Min.Y - 5}, number(h, 0))
		}
	}
	p.tens(left, right)
	p.line(outOfSpell, v.hours, v.air)
	inside, air := v.within()
	p.line(inSpell, inside, air)
	p.frame()
	p.nameSpell(v)
	if low, row := lowest(air); row >= 0 {
		p.nameLowest(inside[row], low)
	}
}

// nameLowest marks the lowest temperature and writes it below, clear of the limits.
func (p *panel) nameLowest(hour, low float64) {
	style := lettering(smallSize, ink, draw.XCenter, draw.YTop)
	words := SI.bothTemperatures(low)
	at := p.at(hour, low)
	p.DrawGlyph(spellGlyph, at)
	p.FillText(style, vg.Point{X: p.inside(at.X, style.Width(words)/2+3), Y: p.belowLimits(at.Y - 5)}, words)
}

// belowLimits lowers the top of a line of words that a limit would run through.
func (p *panel) belowLimits(top vg.Length) vg.Length {
	for _, limit := range weather.BelowLimits {
		if y := p.Y(limit); y <= top+1 && y > top-smallSize-1 {
			top = y - 1
		}
	}
	return top
}

// within is the spell itself.
func (v spellView) within() (hours, air []float64) {
	for i, h := range v.hours {
		if h >= 0 && h <= weather.SpellLength/3600 {
			hours, air = append(hours, h), append(air, v.air[i])
		}
	}
	return hours, air
}

// nameSpell writes above a panel its number and date, and at the right the mean.
func (p *panel) nameSpell(v spellView) {
	heavy := bold(lettering(textSize, brick, draw.XLeft, draw.YBottom))
	at := vg.Point{X: p.Min.X, Y: p.Max.Y + 2.5}
	words := strconv.Itoa(v.number)
	p.FillText(heavy, at, words)
	style := lettering(smallSize, ink, draw.XLeft, draw.YBottom)
	p.FillText(style, vg.Point{X: at.X + heavy.Width(words) + 7, Y: at.Y}, "from "+v.from)
	style.XAlign = draw.XRight
	p.FillText(style, vg.Point{X: p.Max.X, Y: at.Y}, "mean "+SI.bothTemperatures(v.mean))
}

// tens draws level lines at every 10 °C, freezing and the limits below it marked, and names
// them in °C at the left and °F at the right: both are whole numbers there.
func (p *panel) tens(left, right bool) {
	const step, room = 10.0, vg.Length(13)
	named := step
	if p.Y(step)-p.Y(0) < room {
		named = 2 * step
	}
	for v := step * math.Ceil(p.y0/step); v <= p.y1; v += step {
		style := stroke(grid, 0.7)
		switch v {
		case 0:
			style = frostStroke
		case -10, -20:
			style = limitStroke
		}
		p.rule(v, style)
		if math.Mod(v, named) != 0 {
			continue
		}
		y := p.Y(v)
		if left {
			p.StrokeLine2(stroke(ink, 0.8), p.Min.X, y, p.Min.X-3, y)
			p.FillText(lettering(smallSize, ink, draw.XRight, -0.5), vg.Point{X: p.Min.X - 5, Y: y}, number(v, 0)+" °C")
		}
		if right {
			p.StrokeLine2(stroke(ink, 0.8), p.Max.X, y, p.Max.X+3, y)
			p.FillText(lettering(smallSize, ink, draw.XLeft, -0.5), vg.Point{X: p.Max.X + 5, Y: y}, number(fahrenheit(v), 0)+" °F")
		}
	}
}
