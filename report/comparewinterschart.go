package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawComparedWinters draws a row of winters for each layout, and above them, where they are known, their margins.
func drawComparedWinters(page draw.Canvas, c *Comparison) {
	n := len(c.About.Winters)
	area := headed(page, c.About.Layouts[0].Invented, compareTitle(c),
		fmt.Sprintf("%d winters, %s to %s", n, c.About.Winters[0], c.About.Winters[n-1]), "across: winters, by their years")
	drawKey(&area, outcomeKey(c.Outcomes))
	above, rows := comparePanels(area, c, 0, float64(n), c.About.Margins)
	if above != nil {
		drawMarginsOf(above, c)
	}
	for i := range c.About.Layouts {
		for w := range n {
			sign := outcomeSigns[stateNamed(c.outcome(w, i).State)].style
			sign.Radius *= min(1, (rows.X(1)-rows.X(0))/13) // beside each other where winters stand close
			rows.DrawGlyph(sign, rows.at(float64(w)+0.5, float64(i)+0.5))
		}
	}
	nameRivals(rows, c, c.manySummary)
	nameWinters(rows, c.About.Winters)
	rows.frame()
}

// manySummary sums up what became of a layout in all winters.
func (c *Comparison) manySummary(i int) (above, below string) {
	count := c.CountOf(i)
	above = fmt.Sprintf("shut in %d of %d", count.Shut, count.Winters)
	below = fmt.Sprintf("floor wet in %d", count.Flooded)
	if count.Spilled > 0 {
		below += fmt.Sprintf(", by house in %d", count.Spilled)
	}
	return above, below
}

// drawMarginsOf draws how much colder each winter could have been until the line shut, a line a layout.
func drawMarginsOf(p *panel, c *Comparison) {
	low, high := 0.0, 0.0
	for _, o := range c.Outcomes {
		low, high = math.Min(low, o.Margin.Open.K), math.Max(high, o.Margin.Open.K)
	}
	p.y0, p.y1 = rangeOf(low, high, 0.08)
	kelvins, fahrenheits := scaledAxis("°C", 1), scaledAxis("°F", 1.8)
	p.grid(kelvins)
	p.left(kelvins, "colder until it shuts")
	p.right(fahrenheits)
	p.rule(0, stroke(brick, 1.1))
	var wanted []rivalEnd
	for i := range c.About.Layouts {
		var xs, ys []float64
		for w, o := range c.Of(i) {
			xs, ys = append(xs, float64(w)+0.5), append(ys, o.Margin.Open.K)
		}
		style := lineStyles[i%len(lineStyles)]
		p.line(style, xs, ys)
		for k := range xs {
			p.DrawGlyph(draw.GlyphStyle{Color: style.Color, Radius: 2.2, Shape: draw.CircleGlyph{}}, p.at(xs[k], ys[k]))
		}
		wanted = append(wanted, rivalEnd{i, p.Y(ys[len(ys)-1])})
	}
	p.nameEnds(wanted)
	p.frame()
}

// nameWinters writes as many winters' names below the rows as have room.
func nameWinters(p *panel, winters []string) {
	style := lettering(smallSize, ink, draw.XCenter, draw.YTop)
	each := p.X(1) - p.X(0)
	step := max(1, int(math.Ceil(float64((style.Width("2014-15")+8)/each))))
	for w := 0; w < len(winters); w += step {
		x := p.X(float64(w) + 0.5)
		p.StrokeLine2(stroke(ink, 0.8), x, p.Min.Y, x, p.Min.Y-3)
		p.FillText(style, vg.Point{X: x, Y: p.Min.Y - 5}, winters[w])
	}
}

// rivalEnd is where the line of a layout ends.
type rivalEnd struct {
	layout int
	y      vg.Length
}

// nameEnds writes the letters of layouts at the ends of their lines, kept apart, right of the axis on that side.
func (p *panel) nameEnds(ends []rivalEnd) {
	slices.SortStableFunc(ends, func(a, b rivalEnd) int { return cmp.Compare(a.y, b.y) })
	var wanted []vg.Length
	for _, e := range ends {
		wanted = append(wanted, e.y)
	}
	for k, y := range spread(wanted, textSize+2, p.Min.Y+4, p.Max.Y-4) {
		style := lineStyles[ends[k].layout%len(lineStyles)]
		x := p.Max.X + rightMargin + 6
		p.StrokeLine2(style, x, y, x+26, y)
		p.FillText(bold(lettering(textSize, ink, draw.XLeft, -0.5)), vg.Point{X: x + 32, Y: y}, rivalKey(ends[k].layout))
	}
}
