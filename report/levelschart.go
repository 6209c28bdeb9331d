package report

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// levelMark is a named level line in a panel.
type levelMark struct {
	level float64 // [m]
	words string
	color color.RGBA
}

// levelNamed makes a mark whose words end in its level.
func levelNamed(level float64, words string, c color.RGBA) levelMark {
	return levelMark{level, words + ", " + SI.bothLengths(level), c}
}

// standpipeMarks are the levels in the standpipe that people ask about.
func standpipeMarks(r *sim.Result) []levelMark {
	s := r.Layout.Standpipe
	if s == nil {
		return nil
	}
	marks := []levelMark{
		{0, "ground at the wall", faint},
		levelNamed(s.HousePipeEnd, "house pipe ends", violet),
		levelNamed(s.Rim, "top of the standpipe", brick),
	}
	for _, opening := range r.Layout.Reliefs {
		if opening.Segment < 0 {
			marks = append(marks, levelNamed(opening.Height, "relief opening", ochre))
		}
	}
	return marks
}

// basinMarks are the levels in the basin, above its bottom.
func basinMarks(r *sim.Result) []levelMark {
	b := r.Layout.Basin
	if b == nil {
		return nil
	}
	return []levelMark{
		levelNamed(b.FloatOff, "pump stops", faint),
		levelNamed(b.FloatOn, "pump starts", navy),
		levelNamed(b.BottomBelowFloor, "basement floor", brick),
	}
}

// levelsChart shows how full pocket, standpipe and basin stood.
func levelsChart(r *sim.Result) (chart, bool) {
	panels := levelPanels(r)
	return chart{"levels", figureHeight, func(page draw.Canvas) { drawLevels(page, r, panels) }},
		len(panels) > 0 && len(r.Hourly.Time) > 0
}

type levelPanel struct {
	name  string
	share float64 // of the height
	draw  func(*panel)
}

func levelPanels(r *sim.Result) []levelPanel {
	h := r.Hourly
	var panels []levelPanel
	if len(h.Standpipe) > 0 && r.Layout.Standpipe != nil {
		panels = append(panels, levelPanel{"standpipe", 2, func(p *panel) {
			drawStandpipe(p, r)
		}})
	}
	if len(h.Pocket) > 0 {
		panels = append(panels, levelPanel{"rock pit", 1, func(p *panel) { drawPocket(p, r) }})
	}
	// Given pump cycles leave the basin as it is: a level that stands still tells nothing.
	if low, high := extent(h.Basin); high-low > 0.001 {
		panels = append(panels, levelPanel{"basin", 1.3, func(p *panel) {
			drawBasin(p, r)
		}})
	}
	return panels
}

func drawLevels(page draw.Canvas, r *sim.Result, panels []levelPanel) {
	var names []string
	var shares []float64
	for _, l := range panels {
		names, shares = append(names, l.name), append(shares, l.share)
	}
	note := ""
	if slices.Contains(names, "standpipe") {
		note = "standpipe: above ground at the wall; dots: top of each pump run"
	}
	area := heading(page, r, "How high the water stood in the "+list(names), note, shadedWords(r))
	const room = 168
	marks := markRecord(&area, r, room)
	for i, p := range timePanels(area, r, room, shares...) {
		marks.under(p, i == 0)
		p.timeTicks(r.Start, i == len(panels)-1)
		panels[i].draw(p)
		p.frame()
	}
}

// levelAxes sets a panel up for levels with named lines, in centimetres and inches.
func levelAxes(p *panel, name string, marks []levelMark, series ...[]float64) {
	p.y0, p.y1 = math.Inf(1), math.Inf(-1)
	for _, ys := range series {
		if low, high := extent(ys); len(ys) > 0 {
			p.y0, p.y1 = math.Min(p.y0, low), math.Max(p.y1, high)
		}
	}
	for _, m := range marks {
		p.y0, p.y1 = math.Min(p.y0, m.level), math.Max(p.y1, m.level)
	}
	p.y0, p.y1 = rangeOf(p.y0, p.y1, 0.08)
	p.grid(scaledAxis("cm", 100))
	p.left(scaledAxis("cm", 100), name)
	p.right(scaledAxis("in", 1/metresPerInch))
}

func drawMarkLines(p *panel, marks []levelMark) {
	for _, m := range marks {
		p.rule(m.level, stroke(m.color, 1, 5, 2.5))
	}
	labelMarks(p, marks)
}

// drawStandpipe draws the level and how far each pump run rose.
func drawStandpipe(p *panel, r *sim.Result) {
	marks := standpipeMarks(r)
	var peaks []float64
	for _, c := range r.Cycles {
		peaks = append(peaks, c.Level)
	}
	levelAxes(p, "standpipe", marks, r.Hourly.Standpipe, peaks)
	p.swing(r, r.Hourly.Standpipe, waterTone, teal)
	drawMarkLines(p, marks)
	for i, c := range r.Cycles {
		if !math.IsNaN(peaks[i]) {
			p.DrawGlyph(draw.GlyphStyle{Color: navy, Radius: 1.2, Shape: draw.CircleGlyph{}}, p.at(c.Time, peaks[i]))
		}
	}
}

func drawBasin(p *panel, r *sim.Result) {
	marks := basinMarks(r)
	levelAxes(p, "basin", marks, r.Hourly.Basin)
	p.swing(r, r.Hourly.Basin, waterTone, teal)
	drawMarkLines(p, marks)
}

// labelMarks names level lines at the right, kept apart.
func labelMarks(p *panel, marks []levelMark) {
	style := lettering(smallSize, ink, draw.XLeft, -0.5)
	slices.SortStableFunc(marks, func(a, b levelMark) int { return cmp.Compare(a.level, b.level) })
	wanted := make([]vg.Length, len(marks))
	for i, m := range marks {
		wanted[i] = p.Y(m.level)
	}
	edge := p.X(p.dataEnd)
	for i, y := range spread(wanted, smallSize+2, p.Min.Y+6, p.Max.Y-6) {
		p.StrokeLine2(stroke(marks[i].color, 0.8), edge, wanted[i], edge+10, y)
		p.FillText(style, vg.Point{X: edge + 13, Y: y}, shorten(style, marks[i].words, p.Max.X-edge-15))
	}
}

func drawPocket(p *panel, r *sim.Result) {
	p.y0, p.y1 = 0, 1.08
	p.grid(scaledAxis("%", 100))
	p.left(scaledAxis("%", 100), "rock pit")
	p.rule(1, stroke(faint, 1, 5, 2.5))
	p.area(waterTone, r.Hourly.Time, r.Hourly.Pocket)
	p.line(stroke(teal, 1.2), r.Hourly.Time, r.Hourly.Pocket)
	labelMarks(p, []levelMark{{1, "full", faint}})
}
