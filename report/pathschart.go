package report

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// pathBand is one band of the chart of water paths.
type pathBand struct {
	way    waterWay
	words  string
	totals []float64 // running total at each weather row [L]
}

// final is the last running total [L].
func (b pathBand) final() float64 { return b.totals[len(b.totals)-1] }

// pathBands gives the ways that water took, from the harmless to the harmful; those
// that stayed dry are left out, except the ways that people ask about.
func pathBands(r *sim.Result) []pathBand {
	h := r.Hourly
	var bands []pathBand
	for _, b := range []struct {
		way    waterWay
		totals []float64
		always bool
	}{
		{wayOutlet, h.Outlet, true},
		{waySoil, h.ToSoil, false},
		{wayRelief, h.Relief, len(r.Layout.Reliefs) > 0},
		{wayRim, h.Rim, r.Layout.Standpipe != nil},
		{wayFloor, h.Floor, r.Layout.Basin != nil},
	} {
		if len(b.totals) == 0 || (!b.always && b.totals[len(b.totals)-1] <= 0) {
			continue
		}
		band := pathBand{b.way, b.way.words(r), make([]float64, len(b.totals))}
		for i, v := range b.totals {
			band.totals[i] = v * litresPerM3
		}
		bands = append(bands, band)
	}
	return bands
}

// stack gives the upper edge of each band when they stand on each other [L].
func stack(bands []pathBand) [][]float64 {
	edges := make([][]float64, len(bands))
	for i, b := range bands {
		edges[i] = make([]float64, len(b.totals))
		for j, v := range b.totals {
			edges[i][j] = v
			if i > 0 {
				edges[i][j] += edges[i-1][j]
			}
		}
	}
	return edges
}

// pathsChart shows which way the water went: running totals standing on each other,
// with the final ones in words.
func pathsChart(r *sim.Result) (chart, bool) {
	bands := pathBands(r)
	moved := 0.0
	for _, b := range bands {
		moved += b.final()
	}
	return chart{"water-paths", figureHeight, func(page draw.Canvas) { drawPaths(page, r, bands) }}, moved > 0
}

func drawPaths(page draw.Canvas, r *sim.Result, bands []pathBand) {
	edges := stack(bands)
	total := edges[len(edges)-1]
	all := total[len(total)-1]
	bins := pathBins(r, bands)
	area := heading(page, r, "Which way the water went, as running totals and "+bins.words,
		number(all, 0)+" L ("+number(gallons(all), 0)+" gal) in all; water still held is not in it", shadedWords(r))
	const room = 210
	marks := markRecord(&area, r, room)
	panels := timePanels(area, r, room, 3, 1.1)
	p := panels[0]
	marks.under(p, true)
	p.y0, p.y1 = 0, all*1.04
	p.timeTicks(r.Start, false)
	p.grid(scaledAxis("L", 1))
	p.left(scaledAxis("L", 1), "water let go so far")
	p.right(scaledAxis("gal", gallons(1)))
	for i := len(bands) - 1; i >= 0; i-- {
		p.area(bands[i].way.color(), r.Hourly.Time, edges[i])
	}
	under := make([]float64, len(total))
	for i, b := range bands {
		p.hatch(b.way, r.Hourly.Time, under, edges[i])
		under = edges[i]
	}
	for i := range bands[:len(bands)-1] {
		p.line(stroke(white, 0.6), r.Hourly.Time, edges[i])
	}
	p.frame()
	labelBands(p, bands, edges)
	p = panels[1]
	marks.under(p, false)
	p.timeTicks(r.Start, true)
	drawPathBins(p, bands, bins)
	p.frame()
}

// hatch draws the strokes of a way between two edges.
func (p *panel) hatch(w waterWay, xs, low, high []float64) {
	apart := w.strokesApart()
	if apart == 0 {
		return
	}
	const step = vg.Length(1.5)
	for y := p.Min.Y + apart; y < p.Max.Y; y += apart {
		level := p.y0 + (p.y1-p.y0)*float64((y-p.Min.Y)/p.Size().Y)
		var from vg.Length
		on := false
		row := 0
		for x := p.Min.X; x <= p.X(p.dataEnd)+step; x += step {
			t := p.x0 + (p.x1-p.x0)*float64((x-p.Min.X)/p.Size().X)
			for row+1 < len(xs) && xs[row+1] <= t {
				row++
			}
			in := level > low[row] && level < high[row] && x <= p.X(p.dataEnd)
			if in && !on {
				from = x
			}
			if on && !in {
				p.StrokeLine2(wayStroke, from, y, x, y)
			}
			on = in
		}
	}
}

// pathBin is what went each way in equal stretches of time.
type pathBin struct {
	words   string
	length  float64     // [s]
	volumes [][]float64 // by stretch, by band [L]
}

// pathBins takes the running totals apart: by the day, in a short record by the hour, in a very long one by the week.
func pathBins(r *sim.Result, bands []pathBand) pathBin {
	t0, t1 := recordSpan(r)
	b := pathBin{words: "day by day", length: 86400}
	switch days := (t1 - t0) / 86400; {
	case days < 6:
		b.words, b.length = "hour by hour", 3600
	case days > 220:
		b.words, b.length = "week by week", 7*86400
	}
	b.volumes = make([][]float64, int(math.Ceil((t1-t0)/b.length)))
	for i := range b.volumes {
		b.volumes[i] = make([]float64, len(bands))
	}
	for k, band := range bands {
		for i := 1; i < len(band.totals); i++ {
			let := band.totals[i] - band.totals[i-1]
			if bin := int((r.Hourly.Time[i] - t0 - 1) / b.length); let > 0 && bin < len(b.volumes) {
				b.volumes[bin][k] += let
			}
		}
	}
	return b
}

// drawPathBins draws them as bars.
func drawPathBins(p *panel, bands []pathBand, b pathBin) {
	most := 0.0
	for _, volumes := range b.volumes {
		sum := 0.0
		for _, v := range volumes {
			sum += v
		}
		most = math.Max(most, sum)
	}
	p.y0, p.y1 = 0, math.Max(most*1.08, 0.1)
	p.grid(scaledAxis("L", 1))
	each := map[float64]string{3600: "an hour", 86400: "a day"}[b.length]
	if each == "" {
		each = "a week"
	}
	p.left(scaledAxis("L", 1), each)
	p.right(scaledAxis("gal", gallons(1)))
	for i, volumes := range b.volumes {
		from := p.x0 + float64(i)*b.length
		foot := 0.0
		for k, v := range volumes {
			if v > 0 {
				x0, x1 := p.X(from), p.X(math.Min(from+b.length, p.dataEnd))
				bands[k].way.fill(p.Canvas, box(x0+0.1*(x1-x0), p.Y(foot), x1-0.1*(x1-x0), p.Y(foot+v)))
			}
			foot += v
		}
	}
}

// labelBands writes path and final total beside each band, kept apart, with a patch of
// its colour.
func labelBands(p *panel, bands []pathBand, edges [][]float64) {
	words := bold(lettering(textSize, ink, draw.XLeft, draw.YBottom))
	path := lettering(smallSize, ink, draw.XLeft, draw.YTop)
	wanted := make([]vg.Length, len(bands))
	for i, b := range bands {
		last := len(b.totals) - 1
		wanted[i] = p.Y(edges[i][last] - b.final()/2)
	}
	edge := p.X(p.dataEnd)
	for i, y := range spread(wanted, 2*textSize+8, p.Min.Y+18, p.Max.Y-18) {
		patch := box(edge+16, y-5, edge+26, y+5)
		p.StrokeLine2(stroke(faint, 0.6), edge, wanted[i], patch.Min.X, y)
		bands[i].way.patch(p.Canvas, patch)
		at := vg.Point{X: patch.Max.X + 5, Y: y}
		p.FillText(words, at, pathTotal(bands[i].final()))
		p.FillText(path, at, shorten(path, bands[i].words, p.Max.X-at.X-2))
	}
}

// pathTotal prints litres with gallons in brackets, whole from ten on.
func pathTotal(litres float64) string {
	decimals := 0
	if math.Abs(litres) < 9.95 && litres != 0 {
		decimals = 1
	}
	return number(litres, decimals) + " L (" + number(gallons(litres), decimals) + " gal)"
}
