package report

import (
	"math"
	"time"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"winterline/sim"
)

// night is the night in which the outdoor air was coldest.
type night struct {
	from, to float64 // [s]: 18:00 to 08:00, as far as the record has it
	low      float64 // air temperature [°C]
	at       float64 // when that was [s]
}

// coldestNight finds it; false where the record has no air temperature.
func coldestNight(r *sim.Result) (night, bool) {
	low, row := lowest(r.Hourly.Air)
	if row < 0 || math.IsInf(low, 0) {
		return night{}, false
	}
	at := r.Hourly.Time[row]
	evening := nightBefore(r.Start, at)
	t0, t1 := recordSpan(r)
	return night{math.Max(t0, evening), math.Min(t1, evening+nightLength), low, at}, true
}

// nightLength is from 18:00 to 08:00 [s].
const nightLength = 14 * 3600

// nightBefore is the evening of the night that holds a time, or lies nearest to it [s]: noon divides nights.
func nightBefore(start time.Time, t float64) float64 {
	day := start.Add(time.Duration((t - 12*3600) * float64(time.Second)))
	y, m, d := day.Date()
	return time.Date(y, m, d, 18, 0, 0, 0, day.Location()).Sub(start).Seconds()
}

// darken shades a night behind what a panel shows, at least wide enough to be seen.
func (p *panel) darken(n night) {
	from, to := p.X(math.Max(n.from, p.x0)), p.X(math.Min(n.to, p.dataEnd))
	if wide := vg.Length(3); to-from < wide {
		middle := max(p.Min.X+wide/2, min((from+to)/2, p.X(p.dataEnd)-wide/2))
		from, to = middle-wide/2, middle+wide/2
	}
	p.FillPolygon(nightTone, corners(box(from, p.Min.Y, to, p.Max.Y)))
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
