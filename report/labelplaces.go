package report

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// nameRule names a level line where the words come closest to none of the series.
func (p *panel) nameRule(y float64, words string, c color.Color, xs []float64, series ...[]float64) {
	const places = 40
	style := lettering(smallSize, c, draw.XLeft, draw.YBottom)
	width := style.Width(words)
	room := p.X(p.dataEnd) - p.Min.X - width - 8
	best, clearest := p.Min.X+4, -2*p.Size().X
	for i := range places {
		from := p.Min.X + 4 + room*vg.Length(i)/(places-1)
		clear := p.clearance(xs, series, from, from+width, p.Y(y)+2+smallSize/2)
		if clear > clearest+0.1 {
			best, clearest = from, clear
		}
	}
	haloed(p.Canvas, style, vg.Point{X: best, Y: p.Y(y) + 2}, words)
}

// clearance is how far the series stay from a height between two places along the panel.
func (p *panel) clearance(xs []float64, series [][]float64, from, to, height vg.Length) vg.Length {
	for _, x := range p.hairlines {
		if x > from-4 && x < to+4 {
			return -p.Size().X // farther than any other place is away
		}
	}
	nearest := p.Size().Y
	for _, ys := range series {
		for i := 1; i < len(xs); i++ {
			a, b := p.at(xs[i-1], ys[i-1]), p.at(xs[i], ys[i])
			if b.X < from-2 || a.X > to+2 || math.IsNaN(ys[i]) || math.IsNaN(ys[i-1]) {
				continue
			}
			low, high := min(a.Y, b.Y), max(a.Y, b.Y)
			nearest = min(nearest, max(low-height, height-high, 0))
		}
	}
	return nearest
}

// nameNear writes words as near to a point as they stand clear of the series and of hairlines, and joins them to it where
// that is some way off. Where nothing is clear of hairlines the shorter words are tried, and then none are written.
func (p *panel) nameNear(at vg.Point, words, shorter string, s text.Style, xs []float64, series ...[]float64) {
	label, clear := p.clearPlace(at, s.Width(words), s.Font.Size, xs, series)
	if clear < 0 {
		words = shorter
		if label, clear = p.clearPlace(at, s.Width(words), s.Font.Size, xs, series); clear < 0 {
			return
		}
	}
	if away(at, label) > 12 {
		from := vg.Point{X: max(label.Min.X-2, min(at.X, label.Max.X+2)), Y: max(label.Min.Y, min(at.Y, label.Max.Y))}
		p.StrokeLine2(stroke(faint, 0.5), from.X, from.Y, at.X, at.Y)
	}
	if clear < s.Font.Size {
		haloed(p.Canvas, s, label.Min, words)
		return
	}
	p.FillText(s, label.Min, words)
}

// clearPlace finds room for a label near a point, and how clear it is; below 0: only on a hairline.
func (p *panel) clearPlace(at vg.Point, width, height vg.Length, xs []float64, series [][]float64) (label vg.Rectangle, clear vg.Length) {
	const across, up = 48, 14
	const clearEnough, perPoint = vg.Length(14), 0.05 // how much nearer outweighs how much clearer
	low, high := p.Min.Y+3, p.Max.Y-height-2
	left, right := p.Min.X+4, p.X(p.dataEnd)-width-4
	most := math.Inf(-1)
	for i := range across {
		x := left + (right-left)*vg.Length(i)/(across-1)
		for j := range up {
			y := low + (high-low)*vg.Length(j)/(up-1)
			there := box(x, y, x+width, y+height)
			c := p.clearance(xs, series, x, x+width, y+height/2)
			if score := float64(min(c, clearEnough)) - perPoint*float64(away(at, there)); score > most+1e-6 {
				label, clear, most = there, c, score
			}
		}
	}
	return label, clear
}

// away is how far a point lies from a box.
func away(at vg.Point, b vg.Rectangle) vg.Length {
	x := max(b.Min.X-at.X, at.X-b.Max.X, 0)
	y := max(b.Min.Y-at.Y, at.Y-b.Max.Y, 0)
	return vg.Length(math.Hypot(float64(x), float64(y)))
}
