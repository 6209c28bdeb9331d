package report

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// pathBand is one band of the chart of water paths.
type pathBand struct {
	words  string
	color  color.RGBA
	totals []float64 // running total at each weather row [L]
}

// final is the last running total [L].
func (b pathBand) final() float64 { return b.totals[len(b.totals)-1] }

// pathBands gives the ways that water took, from the harmless to the harmful; those
// that stayed dry are left out, except the ways that people ask about. Neighbours
// alternate light and dark.
func pathBands(r *sim.Result) []pathBand {
	h := r.Hourly
	var bands []pathBand
	for _, b := range []struct {
		words  string
		color  color.RGBA
		totals []float64
		always bool
	}{
		{"out at the far end", sky, h.Outlet, true},
		{"into the soil round the rock pocket", navy, h.ToSoil, false},
		{"out of the " + reliefWords(r), ochre, h.Relief, len(r.Layout.Reliefs) > 0},
		{"over the rim, by the house", brick, h.Rim, r.Layout.Standpipe != nil},
		{"on the basement floor", ink, h.Floor, r.Layout.Basin != nil},
	} {
		if len(b.totals) == 0 || (!b.always && b.totals[len(b.totals)-1] <= 0) {
			continue
		}
		band := pathBand{b.words, b.color, make([]float64, len(b.totals))}
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
	area := heading(page, r, "Which way the water went, as running totals",
		number(all, 0)+" L ("+number(gallons(all), 0)+" gal) in all; water still held is not in it")
	p := timePanels(area, r, 210, 1)[0]
	p.y0, p.y1 = 0, all*1.04
	p.timeTicks(r.Start, true)
	p.grid(scaledAxis("L", 1))
	p.left(scaledAxis("L", 1), "water let go so far")
	p.right(scaledAxis("gal", gallons(1)))
	for i := len(bands) - 1; i >= 0; i-- {
		p.area(bands[i].color, r.Hourly.Time, edges[i])
	}
	for i := range bands[:len(bands)-1] {
		p.line(stroke(white, 0.6), r.Hourly.Time, edges[i])
	}
	p.frame()
	labelBands(p, bands, edges)
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
		p.FillPolygon(bands[i].color, corners(patch))
		p.StrokeLines(stroke(ink, 0.5), append(corners(patch), patch.Min))
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
