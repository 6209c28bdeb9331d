package report

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
	"winterline/sim/answers"
)

// WintersCharts gives the pictures of many winters: for each layout winters, what became of it winter by winter, and return-period, how
// often how much cold comes. With several layouts their numbers, from 1, stand behind the names.
func WintersCharts(a *answers.WintersAnswer, o ChartOptions) (files []File) {
	if o.Format == "" {
		o.Format = PNG
	}
	for i := range a.About.Layouts {
		for _, make := range []func(*answers.WintersAnswer, int) (chart, bool){wintersChart, returnPeriodChart} {
			c, ok := make(a, i)
			if !ok {
				continue
			}
			if len(a.About.Layouts) > 1 {
				c.name += fmt.Sprintf("-%d", i+1)
			}
			files = append(files, c.file(o))
		}
	}
	return files
}

// wintersChart shows a layout's winters beside each other: their outcome as a sign, how long there was ice and how long the line was
// shut, how much colder each could have been and in how many of a hundred draws the line shut.
func wintersChart(a *answers.WintersAnswer, layout int) (chart, bool) {
	all := a.Of(layout)
	return chart{"winters", 7.2 * vg.Inch, func(page draw.Canvas) { drawWinters(page, a, layout, all) }}, len(all) > 0
}

// outcomeSign is how an outcome is drawn: shapes tell them apart without colour, and are the heavier the worse it was.
type outcomeSign struct {
	words string
	style draw.GlyphStyle
}

// outcomeSigns are by state, mildest first.
var outcomeSigns = []outcomeSign{
	sim.Clear:        {"no ice", draw.GlyphStyle{Color: faint, Radius: 2.5, Shape: heavyRing{}}},
	sim.Iced:         {"ice, stayed open", draw.GlyphStyle{Color: navy, Radius: 4, Shape: heavyRing{}}},
	sim.ShutRelieved: {"frozen shut", draw.GlyphStyle{Color: navy, Radius: 4.5, Shape: draw.BoxGlyph{}}},
	sim.Spilled:      {"water beside the house", draw.GlyphStyle{Color: brick, Radius: 5.5, Shape: draw.PyramidGlyph{}}},
	sim.Flooded:      {"floor wet", draw.GlyphStyle{Color: brick, Radius: 5.5, Shape: heavyCross{}}},
}

// stateNamed is the state that a winter's word names.
func stateNamed(word string) sim.State {
	for s := range outcomeSigns {
		if sim.State(s).String() == word {
			return sim.State(s)
		}
	}
	return sim.Flooded
}

// wintersTitle says of a layout in how many winters the line froze shut.
func wintersTitle(c answers.WintersCount) string {
	words := fmt.Sprintf("The line froze shut in %d of %d winters", c.Shut, c.Winters)
	if c.Wet > 0 {
		return words + fmt.Sprintf("; water came where it should not in %d", c.Wet)
	}
	return words
}

// wintersFacts head a chart of many winters.
func wintersFacts(a *answers.WintersAnswer, layout int, last string) []string {
	n := len(a.About.Winters)
	return []string{a.About.Layouts[layout].Name, "winters " + a.About.Winters[0] + " to " + a.About.Winters[n-1], last}
}

func drawWinters(page draw.Canvas, a *answers.WintersAnswer, layout int, all []answers.WinterOutcome) {
	area := headed(page, a.About.Layouts[layout].Invented, wintersTitle(a.CountOf(layout)), wintersFacts(a, layout, "one column a winter, July to June")...)
	drawKey(&area, wintersKey(a, all))
	// Columns have names of one length, as those of degree-days.
	shares := []float64{2.2}
	margins, drawn := all[0].Margin != nil, a.DrawnOf(layout)
	if margins {
		shares = append(shares, 2.2)
	}
	if drawn != nil {
		shares = append(shares, 1.4)
	}
	below := vg.Length(0)
	size := panelsOver(area, 0, float64(len(all)), 0, 1)[0].Size().X
	names := nameColumns(size/vg.Length(len(all)), &below)
	area.Min.Y += below
	const signRow = vg.Length(18)
	area.Max.Y -= signRow
	panels := panelsOver(area, 0, float64(len(all)), 0, shares...)
	for i, o := range all {
		page.DrawGlyph(outcomeSigns[stateNamed(o.State)].style, vg.Point{X: panels[0].X(float64(i) + 0.5), Y: panels[0].Max.Y + signRow/2})
	}
	panels[0].iceDays(all)
	next := 1
	if margins {
		panels[next].marginStems(all)
		next++
	}
	if drawn != nil {
		panels[next].drawnShares(drawn, a.About.Draws)
	}
	for i, p := range panels {
		if i == len(panels)-1 {
			names.draw(p, a.About.Winters)
		}
		p.frame()
	}
}

// wintersKey explains the signs that are there, and the bars.
func wintersKey(a *answers.WintersAnswer, all []answers.WinterOutcome) (key []keyEntry) {
	key = outcomeKey(all)
	key = append(key, keyEntry{"days with ice", toneSign(snowTone)}, keyEntry{"days shut", toneSign(navy)})
	if all[0].Margin != nil {
		key = append(key, keyEntry{"until the line shuts", glyphSign(openSign)}, keyEntry{"until water comes out", glyphSign(drySign)})
		for _, o := range all {
			if o.Margin.Open.Beyond || o.Margin.Dry.Beyond {
				key = append(key, keyEntry{"at the edge: 25 °C (45 °F) or more", glyphSign(beyondSign(openSign))})
				break
			}
		}
	}
	return key
}

// outcomeKey explains the signs of the outcomes that there were.
func outcomeKey(all []answers.WinterOutcome) (key []keyEntry) {
	for state, sign := range outcomeSigns {
		if slices.ContainsFunc(all, func(o answers.WinterOutcome) bool { return stateNamed(o.State) == sim.State(state) }) {
			key = append(key, keyEntry{sign.words, glyphSign(sign.style)})
		}
	}
	return key
}

// column is the middle of a winter's column and the width of a bar in it.
func (p *panel) column(i int) (x, wide vg.Length) {
	return p.X(float64(i) + 0.5), min(40, 0.72*(p.X(1)-p.X(0)))
}

// iceDays draws bars of the days with ice, and inside them of the days shut.
func (p *panel) iceDays(all []answers.WinterOutcome) {
	const day = 86400
	most := 5.0
	for _, o := range all {
		most = math.Max(most, math.Max(o.IceFor, o.ShutFor)/day)
	}
	p.y1 = most * 1.06
	days := scaledAxis("days", 1)
	p.grid(days)
	p.left(days, "ice and shut")
	for i, o := range all {
		x, wide := p.column(i)
		if o.IceFor > 0 {
			r := box(x-wide/2, p.Min.Y, x+wide/2, p.Y(o.IceFor/day))
			p.FillPolygon(snowTone, corners(r))
			p.StrokeLines(stroke(faint, 0.6), append(corners(r), r.Min))
		}
		if o.ShutFor > 0 {
			p.FillPolygon(navy, corners(box(x-0.3*wide, p.Min.Y, x+0.3*wide, p.Y(o.ShutFor/day))))
		}
	}
}

// Signs of the two margins.
var (
	openSign = draw.GlyphStyle{Color: navy, Radius: 3.2, Shape: draw.CircleGlyph{}}
	drySign  = draw.GlyphStyle{Color: brick, Radius: 3.6, Shape: heavySquare{}}
)

// marginStems draws how close each winter was, to the line's shutting and to water, from the level at which it happens.
func (p *panel) marginStems(all []answers.WinterOutcome) {
	low, high := 0.0, 0.0
	for _, o := range all {
		for _, b := range []answers.Bound{o.Margin.Open, o.Margin.Dry} {
			low, high = math.Min(low, b.K), math.Max(high, b.K)
		}
	}
	p.y0, p.y1 = rangeOf(low, high, 0.1)
	kelvins := scaledAxis("°C", 1)
	p.grid(kelvins)
	p.left(kelvins, "colder by")
	p.right(scaledAxis("°F", 1.8))
	p.rule(0, stroke(ink, 1.2))
	apart := min(vg.Length(5), 0.2*(p.X(1)-p.Min.X))
	for i, o := range all {
		x := p.X(float64(i) + 0.5)
		for _, one := range []struct {
			b     answers.Bound
			sign  draw.GlyphStyle
			aside vg.Length
		}{{o.Margin.Open, openSign, -apart}, {o.Margin.Dry, drySign, apart}} {
			sign := one.sign
			if one.b.Beyond {
				sign = beyondSign(sign)
			}
			at := vg.Point{X: x + one.aside, Y: p.Y(one.b.K)}
			p.StrokeLine2(stroke(one.sign.Color, 1), at.X, p.Y(0), at.X, at.Y)
			p.DrawGlyph(sign, at)
		}
	}
}

// drawnShares draws in how many of a hundred draws each winter shut the line.
func (p *panel) drawnShares(drawn []answers.DrawnCount, draws int) {
	p.y1 = 105
	shares := scaledAxis("of 100", 1)
	p.grid(shares)
	p.left(shares, "drawn shut")
	for i, c := range drawn {
		x, wide := p.column(i)
		p.FillPolygon(teal, corners(box(x-wide/2, p.Min.Y, x+wide/2, p.Y(100*float64(c.Shut)/float64(draws)))))
	}
}

// columnNames says how the names of columns stand below them.
type columnNames struct {
	upright bool
	every   int
}

// nameColumns chooses it for columns so far apart, and adds the room that they need besides the usual.
func nameColumns(pitch vg.Length, below *vg.Length) columnNames {
	const wide = vg.Length(46)
	n := columnNames{every: 1}
	if n.upright = wide > pitch; n.upright {
		*below += 16
		n.every = int(math.Ceil(float64((smallSize + 2) / pitch)))
	}
	return n
}

// draw names the columns of a panel.
func (n columnNames) draw(p *panel, names []string) {
	for i, words := range names {
		if i%n.every != 0 {
			continue
		}
		x := p.X(float64(i) + 0.5)
		style, at := lettering(textSize, ink, draw.XCenter, draw.YTop), vg.Point{X: x, Y: p.Min.Y - 5}
		if n.upright {
			style, at.X = turned(lettering(smallSize, ink, 0, 0), draw.XRight, x)
		}
		p.FillText(style, at, words)
	}
}
