package report

import (
	"image/color"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var white = color.RGBA{0xFF, 0xFF, 0xFF, 0xFF}

// guarded is a canvas that draws no shape with a point that is not a number or lies far
// off the page: given one, the rasterizer would never come back.
type guarded struct{ vg.Canvas }

// Stroke draws the outline of a path.
func (g guarded) Stroke(p vg.Path) {
	if onPage(p) {
		g.Canvas.Stroke(p)
	}
}

// Fill fills a path.
func (g guarded) Fill(p vg.Path) {
	if onPage(p) {
		g.Canvas.Fill(p)
	}
}

// FillString writes text.
func (g guarded) FillString(f font.Face, at vg.Point, words string) {
	if near(at) {
		g.Canvas.FillString(f, at, words)
	}
}

func onPage(p vg.Path) bool {
	for _, part := range p {
		if !near(part.Pos) {
			return false
		}
	}
	return true
}

func near(at vg.Point) bool {
	const far = 100 * figureWidth
	return at.X > -far && at.X < far && at.Y > -far && at.Y < far
}

func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

func box(x0, y0, x1, y1 vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: x0, Y: y0}, Max: vg.Point{X: x1, Y: y1}}
}

// haloed writes words on a white ground of their own, so that lines behind them do not
// run through the letters.
func haloed(c draw.Canvas, s text.Style, at vg.Point, words string) {
	r := s.Rectangle(words).Add(at)
	c.FillPolygon(color.RGBA{0xFF, 0xFF, 0xFF, 0xFF}, corners(box(r.Min.X-1.5, r.Min.Y+1, r.Max.X+1.5, r.Max.Y-0.5)))
	c.FillText(s, at, words)
}

// fold breaks words into lines no wider than width.
func fold(s text.Style, words string, width vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(words, " ") {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && s.Width(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// foldFacts sets facts side by side in lines no wider than width; a fact is broken only where it needs a line of its own
// and is wider than that.
func foldFacts(s text.Style, facts []string, width vg.Length) (lines []string) {
	const between = "  ·  "
	for _, fact := range facts {
		if n := len(lines); n > 0 && s.Width(lines[n-1]+between+fact) <= width {
			lines[n-1] += between + fact
			continue
		}
		lines = append(lines, fold(s, fact, width)...)
	}
	return lines
}

// shorten cuts words to a width, with "…" for what is missing.
func shorten(s text.Style, words string, width vg.Length) string {
	if s.Width(words) <= width {
		return words
	}
	runes := []rune(words)
	for len(runes) > 1 && s.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}

// spread moves wanted positions apart until each is at least gap from the next and all
// lie within low…high, keeping their order (wanted must be ascending) and as near to
// their wish as pushing in blocks allows. Too many for the room share it evenly.
func spread(wanted []vg.Length, gap, low, high vg.Length) []vg.Length {
	n := len(wanted)
	if n == 0 {
		return nil
	}
	if room := high - low; vg.Length(n-1)*gap > room {
		gap = room / vg.Length(max(1, n-1))
	}
	// Each block is a run of labels that touch; it sits where the mean of its wishes is.
	type block struct {
		first, count int
		at           vg.Length // of its first label
	}
	place := func(b block) vg.Length {
		var sum vg.Length
		for i := range b.count {
			sum += wanted[b.first+i] - vg.Length(i)*gap
		}
		return max(low, min(sum/vg.Length(b.count), high-vg.Length(b.count-1)*gap))
	}
	var blocks []block
	for i := range wanted {
		b := block{first: i, count: 1}
		b.at = place(b)
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.at+vg.Length(last.count)*gap <= b.at+1e-9 {
				break
			}
			blocks = blocks[:len(blocks)-1]
			b = block{first: last.first, count: last.count + b.count}
			b.at = place(b)
		}
		blocks = append(blocks, b)
	}
	out := make([]vg.Length, 0, n)
	for _, b := range blocks {
		for i := range b.count {
			out = append(out, b.at+vg.Length(i)*gap)
		}
	}
	return out
}

// interval is a stretch of a row that is taken.
type interval struct{ from, to vg.Length }

// rows places labels, given as intervals along a line, into as few rows as it takes
// for none to overlap, first come first served; it gives the row of each.
func rows(labels []interval) []int {
	var ends [][]interval
	out := make([]int, len(labels))
	for i, l := range labels {
		row := 0
		for ; row < len(ends); row++ {
			if free(ends[row], l) {
				break
			}
		}
		if row == len(ends) {
			ends = append(ends, nil)
		}
		ends[row] = append(ends[row], l)
		out[i] = row
	}
	return out
}

func free(row []interval, l interval) bool {
	for _, taken := range row {
		if l.from < taken.to && taken.from < l.to {
			return false
		}
	}
	return true
}
