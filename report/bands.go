package report

import (
	"image/color"
	"slices"
	"sort"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// bands are the isotherms that bound the colours of a temperature picture [°C], rising; 0
// is always one of them.
type bands []float64

// Isotherms: distances that people read easily [K], and how many stand on either side of 0.
var bandSteps = []float64{0.5, 1, 2, 5, 10}

const mostCold, mostWarm = 4, 5

// bandsFor chooses isotherms for the temperatures of a picture, below and above freezing
// separately. The rarest at both ends share the open bands beyond the last isotherm.
func bandsFor(temps []float64) bands {
	var cold, warm []float64
	for _, t := range temps {
		switch {
		case t < 0:
			cold = append(cold, -t)
		case t > 0:
			warm = append(warm, t)
		}
	}
	var b bands
	for _, edge := range isotherms(cold, mostCold) {
		b = append(b, -edge)
	}
	slices.Reverse(b)
	return append(append(b, 0), isotherms(warm, mostWarm)...)
}

// isotherms are up to so many multiples of a step: the smallest step with which they reach nearly all values.
func isotherms(values []float64, most int) []float64 {
	const rare = 0.03
	if len(values) == 0 {
		return nil
	}
	slices.Sort(values)
	reach := values[int((1-rare)*float64(len(values)-1))]
	step := bandSteps[len(bandSteps)-1]
	for _, s := range bandSteps {
		if reach <= s*(float64(most)+0.5) {
			step = s
			break
		}
	}
	var out []float64
	for i := 1; i <= most && float64(i)*step < values[len(values)-1]; i++ {
		out = append(out, float64(i)*step)
	}
	return out
}

// of gives the band of a temperature: 0 below the first isotherm, len(b) above the last.
func (b bands) of(t float64) int {
	return sort.Search(len(b), func(i int) bool { return b[i] > t })
}

// freezing is the number of bands below 0 °C.
func (b bands) freezing() int { return b.of(0) }

// color gives the colour of a band. Thawed ground is pale and yellow, frozen ground dark
// and blue, the darker the colder: a grey print shows the border between them as a step.
func (b bands) color(band int) color.RGBA {
	cold := b.freezing()
	if band < cold {
		return ramp(float64(cold-1-band)/mostCold,
			color.RGBA{0x9C, 0xC3, 0xE4, 0xFF}, color.RGBA{0x4E, 0x82, 0xBC, 0xFF}, color.RGBA{0x16, 0x2F, 0x69, 0xFF})
	}
	return ramp(float64(band-cold)/mostWarm,
		color.RGBA{0xFD, 0xFA, 0xF0, 0xFF}, color.RGBA{0xFB, 0xEC, 0xCB, 0xFF}, color.RGBA{0xF5, 0xD7, 0x9C, 0xFF})
}

// drawBandKey explains the colours above a picture, in both units, and takes its room off
// the area.
func drawBandKey(area *draw.Canvas, b bands, words string) {
	const height, wide = vg.Length(9), vg.Length(34)
	text := lettering(smallSize, ink, draw.XLeft, -0.5)
	above := lettering(smallSize, ink, draw.XCenter, draw.YBottom)
	below := lettering(smallSize, ink, draw.XCenter, draw.YTop)
	x, top := area.Min.X, area.Max.Y-smallSize-1
	y := top - height
	area.FillText(text, vg.Point{X: x, Y: y + height/2}, words)
	x += text.Width(words) + 26
	unit := lettering(smallSize, faint, draw.XRight, draw.YBottom)
	area.FillText(unit, vg.Point{X: x + 6, Y: top + 1}, "°C")
	unit.YAlign = draw.YTop
	area.FillText(unit, vg.Point{X: x + 6, Y: y - 1}, "°F")
	whole := box(x, y, x+wide*vg.Length(len(b)+1), top)
	for i := range len(b) + 1 {
		area.FillPolygon(b.color(i), corners(box(x, y, x+wide, top)))
		x += wide
		if i == len(b) {
			break
		}
		area.StrokeLine2(stroke(ink, edgeWidth(b[i])), x, y, x, top)
		area.FillText(above, vg.Point{X: x, Y: top + 1}, shortest(b[i]))
		area.FillText(below, vg.Point{X: x, Y: y - 1}, shortest(fahrenheit(b[i])))
	}
	area.StrokeLines(stroke(ink, 0.6), append(corners(whole), whole.Min))
	x += 12
	area.StrokeLine2(stroke(ink, frostWidth), x, y+height/2, x+20, y+height/2)
	area.FillText(text, vg.Point{X: x + 26, Y: y + height/2}, "edge of the frozen ground")
	area.Max.Y = y - smallSize - 12
}

// frostWidth is how heavy the edge of frozen ground is drawn.
const frostWidth = vg.Length(2.2)

// edgeWidth is how heavy an isotherm is drawn in the key: freezing stands out.
func edgeWidth(t float64) vg.Length {
	if t == 0 {
		return frostWidth
	}
	return 0.5
}
