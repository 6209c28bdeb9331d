package report

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// GroundCharts gives the pictures of the ground: ground, temperature and frost by depth and
// time, and ground-measured where the weather file has soil temperatures. A picture
// that would have nothing to show is left out.
func GroundCharts(r *sim.GroundResult, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	var files []File
	for _, make := range []func(*sim.GroundResult) (chart, bool){groundChart, groundMeasuredChart} {
		if c, ok := make(r); ok {
			files = append(files, c.file(o))
		}
	}
	return files
}

// groundChart shows the ground by depth, with air and snow above it and pipes in it.
func groundChart(r *sim.GroundResult) (chart, bool) {
	return chart{"ground", 7.4 * vg.Inch, func(page draw.Canvas) { drawGround(page, r) }},
		len(r.Time) > 0 && len(r.Field.Time) > 0 && len(r.Field.Depths) > 1
}

func drawGround(page draw.Canvas, r *sim.GroundResult) {
	note := ""
	if groundByDay(r) {
		note = "of each day: mean temperature, deepest frost, deepest thaw"
	}
	area := headed(page, r.Invented, groundTitle(r), r.Name, datesOf(r.Start, r.Time), note)
	frost := frostLineOf(r)
	pipes := buriedRanges(r.Layout, r.Profile)
	depth := shownDepth(r, pipes)
	field := newFieldPicture(r, &frost, depth)
	drawBandKey(&area, field.bands, "ground temperature")

	air, snow, ground := groundPanels(area, r, depth, pipeRoom(pipes))
	drawGroundAir(air, r)
	if snow != nil {
		drawSnowPanel(snow, r)
		snow.frame()
	}
	drawField(ground, field, depth)
	drawPipes(ground, pipes)
	frost.draw(ground)
	drawSurface(ground, r)
	ground.depthAxes(depth)
	labelFrost(ground, r)
	air.frame()
	ground.frame()
	ground.dates(r.Start)
}

// groundPanels divides the page. Snow lies upon the ground on the scale of depth; only where
// it is so deep that this would leave too little for the ground, it has a panel.
func groundPanels(area draw.Canvas, r *sim.GroundResult, depth float64, room vg.Length) (air, snow, ground *panel) {
	const tooDeep = 0.6 // of the depth shown
	t0, t1 := spanOf(r.Time)
	_, most := extent(r.Snow)
	if most > tooDeep*depth {
		panels := panelsOver(area, t0, t1, room, 1.1, 0.7, 3.5)
		air, snow, ground = panels[0], panels[1], panels[2]
	} else {
		panels := panelsOver(area, t0, t1, room, 1.1, 4.2)
		air, ground = panels[0], panels[1]
	}
	ground.y0, ground.y1 = -depth, 0.02*depth
	if snow == nil && most > 0 {
		ground.y1 = math.Max(0.14*depth, most*1.1) // room for the word beside it
	}
	return air, snow, ground
}

// groundTitle says the answer in one line.
func groundTitle(r *sim.GroundResult) string {
	s, froze := deepestFrost(r)
	if !froze {
		return "No frost in the ground " + surfacePhrase(r, SI)
	}
	return "Frost in the ground " + surfacePhrase(r, SI) + " reached " + SI.bothDepths(s.Deepest)
}

// shownDepth is how far down the picture goes: past the frost and the pipes [m].
func shownDepth(r *sim.GroundResult, pipes []buriedRange) float64 {
	depth := 1.0
	below := func(z float64) {
		if z > depth { // nothing that is not a number gets past here
			depth = z
		}
	}
	s, _ := deepestFrost(r)
	below(1.4 * s.Deepest)
	for _, b := range pipes {
		below(1.15 * b.bottom)
	}
	return math.Min(depth, r.Field.Depths[len(r.Field.Depths)-1])
}

func drawGroundAir(p *panel, r *sim.GroundResult) {
	low, high := extent(r.Air)
	p.y0, p.y1 = rangeOf(math.Min(low, 0), math.Max(high, 0), 0.08)
	p.y1 = math.Max(p.y1, -0.25*p.y0) // room for the word on the line
	p.timeTicks(r.Start, false)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "air")
	p.right(fahrenheitAxis())
	p.rule(0, stroke(brick, 1.1))
	p.line(stroke(navy, 0.9), r.Time, r.Air)
	if p.dataEnd-p.x0 < manyWinters { // in more there is no room beside the line
		p.nameRule(0, "freezing", brick, r.Time, r.Air)
	}
}

func drawSnowPanel(p *panel, r *sim.GroundResult) {
	_, most := extent(r.Snow)
	p.y0, p.y1 = 0, most*1.15
	p.timeTicks(r.Start, false)
	p.grid(scaledAxis("cm", 100))
	p.left(scaledAxis("cm", 100), "snow")
	p.right(scaledAxis("in", 1/metresPerInch))
	p.area(sky, r.Time, r.Snow)
}

func drawField(p *panel, field *fieldPicture, depth float64) {
	const perPoint = 2 // pixels
	rect := box(p.X(p.x0), p.Y(-depth), p.X(p.dataEnd), p.Y(0))
	p.DrawImage(rect, field.image(p.x0, p.dataEnd, depth, int(rect.Size().X*perPoint), int(rect.Size().Y*perPoint)))
}

// drawSurface draws the ground's surface and, where there is room above it, the snow upon it
// on the scale of depths.
func drawSurface(p *panel, r *sim.GroundResult) {
	if _, most := extent(r.Snow); most > 0 && most < p.y1 {
		above := *p
		above.Canvas.Min.Y, above.y0 = p.Y(0), 0
		above.area(snowTone, r.Time, r.Snow)
		above.line(stroke(sky, 1), r.Time, r.Snow)
		above.nameLeft("snow")
	}
	p.StrokeLine2(stroke(ink, 1.3), p.X(p.x0), p.Y(0), p.X(p.dataEnd), p.Y(0))
	if r.Surface.Depth > 0 {
		p.rule(-r.Surface.Depth, stroke(ink, 0.8, 4, 2))
	}
}

// depthAxes names depths in centimetres and inches, in deep ground in metres and feet.
func (p *panel) depthAxes(depth float64) {
	const deep = 3
	left, right := scaledAxis("cm", 100), scaledAxis("in", 1/metresPerInch)
	if depth > deep {
		left, right = scaledAxis("m", 1), scaledAxis("ft", 1/metresPerFoot)
	}
	left.unsigned, right.unsigned = true, true
	p.side(left, p.Min.X, -1)
	below := *p
	below.Canvas.Max.Y = p.Y(0)
	below.nameLeft("depth below the ground, " + left.unit)
	p.right(right)
}

// labelFrost writes the deepest frost of every winter and its day below the place, the
// deepest first; what finds no room is left out.
func labelFrost(p *panel, r *sim.GroundResult) {
	winters := slices.Clone(r.Seasons)
	slices.SortStableFunc(winters, func(a, b sim.FrostSeason) int { return cmp.Compare(b.Deepest, a.Deepest) })
	style := lettering(smallSize, ink, draw.XCenter, draw.YTop)
	heavy := bold(style)
	var taken []interval
	for i, w := range winters {
		words := SI.bothDepths(w.Deepest)
		day := spokenDate(r.Start, w.DeepestAt)
		half := max(heavy.Width(words), style.Width(day))/2 + 3
		at := p.at(w.DeepestAt, -w.Deepest)
		x := p.inside(at.X, half)
		room := interval{x - half, x + half}
		if i > 0 && !free(taken, room) {
			continue
		}
		taken = append(taken, room)
		p.DrawGlyph(draw.GlyphStyle{Color: ink, Radius: 3, Shape: draw.CircleGlyph{}}, at)
		haloed(p.Canvas, heavy, vg.Point{X: x, Y: at.Y - 6}, words)
		haloed(p.Canvas, style, vg.Point{X: x, Y: at.Y - 6 - smallSize - 2}, day)
	}
}
