package report

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim/answers"
	"winterline/weather/chance"
)

// returnPeriodChart shows how seldom a winter comes in which how little is left: the winters' margins against their return periods,
// the law where one is fitted with the band in which it lies, and where it happens. Winters without margins have none.
func returnPeriodChart(a *answers.WintersAnswer, layout int) (chart, bool) {
	all := a.Of(layout)
	views := []returnView{}
	if len(all) > 1 && all[0].Margin != nil {
		s := a.Summarize(layout)
		views = []returnView{
			newReturnView("until the line freezes shut", openSign, s.Shut, all, openBound, a.About.Seed),
			newReturnView("until water comes out beside the house or on the floor", drySign, s.Wet, all, dryBound, a.About.Seed),
		}
	}
	return chart{"return-period", 7.4 * vg.Inch, func(page draw.Canvas) { drawReturns(page, a, layout, views) }}, len(views) > 0
}

// returnView is what one panel of the chart shows. Margins are in K, rarest first.
type returnView struct {
	words    string
	sign     draw.GlyphStyle
	often    chance.Frequency
	periods  []float64 // of the winters
	margins  []answers.Bound
	at       []float64 // periods at which the law is drawn; nil: none is fitted
	law      []float64 // its margins there
	low, top []float64 // of the band
}

// returnSteps is how many points a curve has.
const returnSteps = 60

func newReturnView(words string, sign draw.GlyphStyle, often chance.Frequency, all []answers.WinterOutcome, of func(answers.Margin) answers.Bound, seed uint64) returnView {
	v := returnView{words: words, sign: sign, often: often}
	for _, o := range all {
		v.margins = append(v.margins, of(*o.Margin))
	}
	slices.SortFunc(v.margins, func(a, b answers.Bound) int { return cmp.Compare(a.K, b.K) })
	for i := range v.margins {
		v.periods = append(v.periods, chance.PlottingPeriod(i+1, len(all)))
	}
	if often.Basis != chance.Fitted {
		return v
	}
	first, last := v.periods[len(all)-1], math.Max(v.periods[0], 2*float64(len(all)))
	for i := range returnSteps + 1 {
		v.at = append(v.at, first*math.Pow(last/first, float64(i)/returnSteps))
	}
	low, high := chance.Band(often.Law, len(all), seed, v.at)
	for i, period := range v.at {
		v.law = append(v.law, -often.Law.Level(period))
		v.low, v.top = append(v.low, -high[i]), append(v.top, -low[i])
	}
	return v
}

// basisWords say why no law is fitted.
var basisWords = map[chance.Basis]string{
	chance.FewWinters: "counted: fewer than ten winters", chance.AtLimit: "counted: too many winters lie beyond 25 °C (45 °F)", chance.NoSpread: "counted: all winters are alike",
	chance.TooRare: "counted: too rare for so few winters", chance.Disagrees: "counted: the law does not agree with the count",
}

func drawReturns(page draw.Canvas, a *answers.WintersAnswer, layout int, views []returnView) {
	title := "The line freezes shut: " + views[0].often.String()
	area := headed(page, a.About.Layouts[layout].Invented, title, wintersFacts(a, layout, "how much colder a winter could have been, against how seldom so little was left")...)
	key := []keyEntry{{"a winter of the record", glyphSign(openSign)}}
	low, high := 0.0, 0.0
	for _, v := range views {
		for _, b := range v.margins {
			low, high = math.Min(low, b.K), math.Max(high, b.K)
		}
		for _, m := range v.law {
			low, high = math.Min(low, m), math.Max(high, m)
		}
	}
	if slices.ContainsFunc(views, func(v returnView) bool { return v.at != nil }) {
		key = append(key, keyEntry{"fitted law of extremes", lineSign(lawStroke)},
			keyEntry{"where it lies in 90 of 100 cases", toneSign(frostTone)})
	}
	if slices.ContainsFunc(views, func(v returnView) bool {
		return slices.ContainsFunc(v.margins, func(b answers.Bound) bool { return b.Beyond })
	}) {
		key = append(key, keyEntry{"25 °C (45 °F) or more", glyphSign(beyondSign(openSign))})
	}
	drawKey(&area, key)
	n := len(views[0].periods)
	first, last := views[0].periods[n-1], math.Max(views[0].periods[0], 2*float64(n))
	x0, x1 := rangeOf(chance.ReducedVariate(first), chance.ReducedVariate(last), 0.02)
	area.Min.Y += 14
	panels := panelsOver(area, x0, x1, 0, 1, 1)
	for i, p := range panels {
		p.y0, p.y1 = rangeOf(low, high, 0.12)
		p.y1 += (p.y1 - p.y0) * float64(returnWords/(p.Size().Y-returnWords)) // no winter stands behind the words
		p.drawReturn(views[i], i == len(panels)-1, last)
	}
}

// lawStroke is the line of a fitted law.
var lawStroke = stroke(ink, 1.6)

// returnWords is the room for a panel's words, at its upper edge.
const returnWords = 5 + 3*(textSize+3)

// drawReturn draws one panel.
func (p *panel) drawReturn(v returnView, named bool, last float64) {
	kelvins := scaledAxis("°C", 1)
	if v.at != nil {
		xs := make([]float64, len(v.at))
		for i, period := range v.at {
			xs[i] = chance.ReducedVariate(period)
		}
		p.band(frostTone, xs, clamped(v.low, p.y0, p.y1), clamped(v.top, p.y0, p.y1))
		p.grid(kelvins)
		p.returnTicks(last, named)
		for _, edge := range [][]float64{v.low, v.top} {
			p.line(stroke(faint, 0.8, 4, 3), xs, inside(edge, p.y0, p.y1))
		}
		p.line(lawStroke, xs, v.law)
	} else {
		p.grid(kelvins)
		p.returnTicks(last, named)
	}
	p.left(kelvins, "how much colder")
	p.right(scaledAxis("°F", 1.8))
	p.rule(0, stroke(brick, 1.4))
	for i, b := range v.margins {
		sign := v.sign
		if b.Beyond {
			sign = beyondSign(sign)
		}
		p.DrawGlyph(sign, p.at(chance.ReducedVariate(v.periods[i]), b.K))
	}
	words := []string{v.words, v.often.String()}
	if v.at == nil {
		words = append(words, basisWords[v.often.Basis])
	}
	for i, line := range words {
		style := lettering(smallSize, faint, draw.XRight, draw.YTop)
		if i == 0 {
			style = bold(lettering(textSize, ink, draw.XRight, draw.YTop))
		}
		haloed(p.Canvas, style, vg.Point{X: p.Max.X - 6, Y: p.Max.Y - 5 - vg.Length(i)*(textSize+3)}, line)
	}
	haloed(p.Canvas, lettering(smallSize, brick, draw.XLeft, draw.YTop), vg.Point{X: p.Min.X + 4, Y: p.Y(0) - 2}, "below: it happened")
	p.frame()
}

// clamped keeps a series within the panel.
func clamped(series []float64, low, high float64) []float64 {
	out := make([]float64, len(series))
	for i, v := range series {
		out[i] = math.Min(math.Max(v, low), high)
	}
	return out
}

// inside is a series without what lies out of the panel.
func inside(series []float64, low, high float64) []float64 {
	out := make([]float64, len(series))
	for i, v := range series {
		if out[i] = v; v < low || v > high {
			out[i] = math.NaN()
		}
	}
	return out
}

// returnTicks draws the grid at round return periods, named below.
func (p *panel) returnTicks(last float64, named bool) {
	style := lettering(textSize, ink, draw.XCenter, draw.YTop)
	for _, period := range []float64{1.1, 1.5, 2, 3, 5, 10, 20, 30, 50, 100, 200} {
		x := p.X(chance.ReducedVariate(period))
		if period > last || x < p.Min.X {
			continue
		}
		p.StrokeLine2(stroke(grid, 0.7), x, p.Min.Y, x, p.Max.Y)
		if named {
			p.StrokeLine2(stroke(ink, 0.8), x, p.Min.Y, x, p.Min.Y-3)
			p.FillText(style, vg.Point{X: x, Y: p.Min.Y - 5}, shortest(period))
		}
	}
	if named {
		p.FillText(style, vg.Point{X: p.Center().X, Y: p.Min.Y - 5 - textSize - 4}, "so little is left, or less, once in so many winters")
	}
}
