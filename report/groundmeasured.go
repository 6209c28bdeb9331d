package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// measuredPanels is how many depths the comparison shows.
const measuredPanels = 6

// groundMeasuredChart sets thermometers in the ground beside what was computed.
func groundMeasuredChart(r *sim.GroundResult) (chart, bool) {
	all := comparisons(r)
	shown := spreadOver(all, measuredPanels)
	height := 1.5*vg.Inch + 1.3*vg.Inch*vg.Length(max(2, len(shown)))
	return chart{"ground-measured", height, func(page draw.Canvas) { drawMeasured(page, r, shown, len(all)-len(shown)) }},
		len(shown) > 0 && len(r.Time) > 0
}

// spreadOver takes at most n of the depths: the shallowest, the deepest and others evenly
// between them.
func spreadOver(all []sim.MeasuredDepth, n int) []sim.MeasuredDepth {
	if len(all) <= n {
		return all
	}
	var out []sim.MeasuredDepth
	for i := range n {
		out = append(out, all[int(math.Round(float64(i*(len(all)-1))/float64(n-1)))])
	}
	return out
}

func drawMeasured(page draw.Canvas, r *sim.GroundResult, shown []sim.MeasuredDepth, left int) {
	notes := []string{r.Name, datesOf(r.Start, r.Time), "bias: computed less measured"}
	if measuredByDay(r) {
		notes = append(notes, "lines: means of a day")
	}
	if left > 0 {
		notes = append(notes, plural(float64(left), "more depth")+" not drawn")
	}
	area := headed(page, r.Invented, "Temperature in the ground "+surfacePhrase(r, SI)+": computed and measured", notes...)
	drawMeasuredKey(&area)
	t0, t1 := spanOf(r.Time)
	shares := make([]float64, len(shown))
	for i := range shares {
		shares[i] = 1
	}
	const title = smallSize + 5 // above each frame, besides the gap between panels
	for i, p := range panelsOver(area, t0, t1, 0, shares...) {
		p.Canvas.Max.Y -= title - 4
		drawMeasuredPanel(p, r, shown[i], i == len(shown)-1)
	}
}

var (
	measuredStroke = draw.LineStyle{Color: ochre, Width: 3.4}
	computedStroke = draw.LineStyle{Color: navy, Width: 1.2}
)

// drawMeasuredKey says which line is which and takes its room off the area.
func drawMeasuredKey(area *draw.Canvas) {
	text := lettering(smallSize, ink, draw.XLeft, -0.5)
	x, y := area.Min.X, area.Max.Y-5
	for _, l := range []struct {
		style draw.LineStyle
		words string
	}{{measuredStroke, "measured"}, {computedStroke, "computed"}} {
		area.StrokeLine2(l.style, x, y, x+26, y)
		area.FillText(text, vg.Point{X: x + 32, Y: y}, l.words)
		x += 32 + text.Width(l.words) + 22
	}
	area.Max.Y -= 20
}

func drawMeasuredPanel(p *panel, r *sim.GroundResult, m sim.MeasuredDepth, last bool) {
	measured, computed := m.Temp, trackAt(r, m.Depth)
	times := r.Time
	if measuredByDay(r) {
		_, measured = dayMeans(times, measured)
		times, computed = dayMeans(times, computed)
	}
	low, high := 0.0, 0.0
	for _, ys := range [][]float64{measured, computed} {
		a, b := extent(ys)
		low, high = math.Min(low, a), math.Max(high, b)
	}
	const least = 4 // range that keeps a tenth of a degree from looking large [K]
	if short := least - (high - low); short > 0 {
		low, high = low-short/2, high+short/2
	}
	p.y0, p.y1 = rangeOf(low, high, 0.08)
	p.timeTicks(r.Start, last)
	p.grid(celsiusAxis())
	p.left(celsiusAxis(), "")
	p.right(fahrenheitAxis())
	p.rule(0, stroke(brick, 1.1))
	p.line(measuredStroke, times, measured)
	p.line(computedStroke, times, computed)
	p.frame()
	at := vg.Point{X: p.Min.X, Y: p.Max.Y + 3}
	heavy := bold(lettering(smallSize, ink, draw.XLeft, draw.YBottom))
	name := SI.bothDepths(m.Depth)
	p.FillText(heavy, at, name)
	at.X += max(82, heavy.Width(name)+12)
	p.FillText(lettering(smallSize, ink, draw.XLeft, draw.YBottom), at, misfitNote(m))
}

// misfitNote gives bias and RMSE of a depth in both units, over all rows and over the
// winters.
func misfitNote(m sim.MeasuredDepth) string {
	words := "all: " + misfitPair(m.All)
	if winter := pooled(m.Winters); winter.N > 0 && winter.N != m.All.N {
		words += "     Nov to Mar: " + misfitPair(winter)
	}
	return words
}

func misfitPair(m sim.Misfit) string {
	return "bias " + signed(m.Bias, 1) + " °C (" + signed(m.Bias*9/5, 1) + " °F), RMSE " +
		number(m.RMSE, 1) + " °C (" + number(m.RMSE*9/5, 1) + " °F)"
}

// trackAt is the computed temperature at a measured depth.
func trackAt(r *sim.GroundResult, depth float64) []float64 {
	const same = 5e-4 // [m]
	for _, t := range r.Tracks {
		if math.Abs(t.Depth-depth) < same {
			return t.Temp
		}
	}
	return nil
}

// measuredByDay says whether the record is so long that the swing of every day would hide
// how the lines differ.
func measuredByDay(r *sim.GroundResult) bool {
	const long = 100 * 86400
	t0, t1 := spanOf(r.Time)
	return t1-t0 > long
}

// dayMeans gives the mean of what there is of each day; NaN where less than half of its rows
// have a number.
func dayMeans(xs, ys []float64) (at, mean []float64) {
	for i := 0; i < len(xs) && i < len(ys); {
		day := math.Floor(xs[i] / 86400)
		first, n, sum := i, 0, 0.0
		for ; i < len(xs) && i < len(ys) && math.Floor(xs[i]/86400) == day; i++ {
			if !math.IsNaN(ys[i]) {
				n++
				sum += ys[i]
			}
		}
		at = append(at, (xs[first]+xs[i-1])/2)
		if 2*n < i-first {
			sum, n = math.NaN(), 1
		}
		mean = append(mean, sum/float64(n))
	}
	return at, mean
}
