package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Room right of the ground for the pipes in it.
const (
	pipeBar      = vg.Length(5) // width of the bar that stands for a pipe
	pipeStep     = pipeBar + 3
	pipeWords    = vg.Length(104)
	namedPipes   = 6 // more would not find room for their names
	ruledPipes   = 3 // with more the ground is full of lines
	pipeLeadRoom = vg.Length(14)
)

// namedRanges are the pipes that a chart names: all, or the first ones and the rest as one.
func namedRanges(pipes []buriedRange) []buriedRange {
	if len(pipes) <= namedPipes {
		return pipes
	}
	rest := pipes[namedPipes-1:]
	all := whole(rest)
	all.name = fmt.Sprintf("%d more", len(rest))
	return append(pipes[:namedPipes-1:namedPipes-1], all)
}

// whole is the range that holds all of several.
func whole(pipes []buriedRange) buriedRange {
	all := buriedRange{top: math.Inf(1)}
	for _, b := range pipes {
		all.top, all.bottom = math.Min(all.top, b.top), math.Max(all.bottom, b.bottom)
	}
	return all
}

// pipeRoom is the width that drawPipes needs.
func pipeRoom(pipes []buriedRange) vg.Length {
	if len(pipes) == 0 {
		return 0
	}
	_, columns := pipeColumns(namedRanges(pipes))
	return 6 + pipeStep*vg.Length(columns) + pipeLeadRoom + pipeWords
}

// pipeColumns stands the bars beside each other where they would cover one another.
func pipeColumns(pipes []buriedRange) (column []int, columns int) {
	taken := make([]interval, len(pipes))
	for i, b := range pipes {
		taken[i] = interval{vg.Length(b.top), vg.Length(b.bottom)}
	}
	column = rows(taken)
	for _, c := range column {
		columns = max(columns, c+1)
	}
	return column, columns
}

// drawPipes draws the depths of pipes: lines across the ground at top and bottom, and right
// of it a bar with name and depths for each.
func drawPipes(p *panel, pipes []buriedRange) {
	if len(pipes) == 0 {
		return
	}
	ruled := pipes
	if len(pipes) > ruledPipes {
		ruled = []buriedRange{whole(pipes)}
	}
	for _, b := range ruled {
		for _, depth := range []float64{b.top, b.bottom} {
			p.rule(-depth, stroke(white, 2.6))
			p.rule(-depth, stroke(ink, 1, 7, 4))
		}
	}
	labelPipes(p, namedRanges(pipes))
}

func labelPipes(p *panel, pipes []buriedRange) {
	column, columns := pipeColumns(pipes)
	edge := p.X(p.dataEnd) + 6
	words := edge + pipeStep*vg.Length(columns) + pipeLeadRoom
	order, wanted := byHeight(p, pipes)
	style := lettering(smallSize, ink, draw.XLeft, draw.YBottom)
	small := lettering(smallSize, faint, draw.XLeft, draw.YTop)
	gap := 2*smallSize + 5
	for k, y := range spread(wanted, gap, p.Min.Y+gap/2, p.Y(0)-gap/2) {
		b := pipes[order[k]]
		x := edge + pipeStep*vg.Length(column[order[k]])
		p.FillPolygon(ink, corners(box(x, p.Y(-b.bottom), x+pipeBar, p.Y(-b.top))))
		from := max(p.Y(-b.bottom), min(y, p.Y(-b.top)))
		p.StrokeLine2(stroke(faint, 0.7), x+pipeBar, from, words-3, y)
		p.FillText(style, vg.Point{X: words, Y: y - 0.5}, shorten(style, b.name, pipeWords))
		p.FillText(small, vg.Point{X: words, Y: y - 0.5}, rangeNote(b.top, b.bottom))
	}
}

// rangeNote prints a range of depths as the axes beside it count, "11–18 in · 27–46 cm".
func rangeNote(top, bottom float64) string {
	whole := func(size float64) string { return number(top/size, 0) + "–" + number(bottom/size, 0) }
	return whole(metresPerInch) + " in · " + whole(0.01) + " cm"
}

// byHeight orders pipes by the height of their middle on the panel, from below.
func byHeight(p *panel, pipes []buriedRange) (order []int, heights []vg.Length) {
	for i := range pipes {
		order = append(order, i)
	}
	middle := func(i int) vg.Length { return (p.Y(-pipes[i].top) + p.Y(-pipes[i].bottom)) / 2 }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(middle(a), middle(b)) })
	for _, i := range order {
		heights = append(heights, middle(i))
	}
	return order, heights
}
