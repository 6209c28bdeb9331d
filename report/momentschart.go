package report

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// moment is the line at an instant, with what makes it worth a picture.
type moment struct {
	words string
	sim.Snapshot
}

// momentWords say what happened at a kind of moment.
func momentWords(k sim.MomentKind) string {
	return [...]string{sim.MomentFirstIce: "the first ice", sim.MomentShut: "frozen shut", sim.MomentColdest: "the coldest air"}[k]
}

// moments are those that have a picture, in time order; what falls on one instant shares it.
func moments(r *sim.Result) (out []moment) {
	for _, m := range r.Moments {
		out = append(out, moment{momentWords(m.Kind), m.Snapshot})
	}
	if len(r.Worst.Cells) > 0 {
		out = append(out, moment{"the most ice", r.Worst})
	}
	slices.SortStableFunc(out, func(a, b moment) int { return cmp.Compare(a.Time, b.Time) })
	for i := len(out) - 1; i > 0; i-- {
		if out[i].Time == out[i-1].Time {
			out[i-1].words += " and " + out[i].words
			out = slices.Delete(out, i, i+1)
		}
	}
	return out
}

// Heights of the pictures of moments and of the words above each.
const (
	momentHeight = vg.Length(104)
	momentTitle  = textSize + 5
	momentGap    = vg.Length(9)
)

// momentsChart shows the line in profile at the moments that people ask about, one above the other, on one scale. A line
// without ice has nothing to show by it.
func momentsChart(r *sim.Result) (chart, bool) {
	shown := moments(r)
	height := 110 + vg.Length(len(shown))*(momentHeight+momentTitle+momentGap)
	return chart{"profile-moments", height, func(page draw.Canvas) { drawMoments(page, r, shown) }},
		r.Verdict.FirstIce != nil && len(shown) > 1 && r.Profile != nil && len(r.Profile.Segments) > 0
}

func drawMoments(page draw.Canvas, r *sim.Result, shown []moment) {
	// The window holds the deepest frost and snow of them all.
	widest := *r
	widest.Worst = sim.Snapshot{}
	for _, m := range shown {
		widest.Worst.Frost = math.Max(widest.Worst.Frost, m.Frost)
		widest.Worst.Snow = math.Max(widest.Worst.Snow, m.Snow)
	}
	w := wholeWindow(&widest)
	frame := draw.Crop(page, 14+leftMargin, -14-rightMargin, 0, -(page.Size().Y - momentHeight))
	times := w.fit(&frame)
	area := heading(page, r, "The line in profile, moment by moment"+scaleWords(times), "")
	drawIceKey(&area, r)
	for i, m := range shown {
		name := bold(lettering(textSize, ink, draw.XLeft, draw.YTop))
		at := vg.Point{X: frame.Min.X, Y: area.Max.Y}
		title := capital(m.words)
		page.FillText(name, at, title)
		then := lettering(smallSize, faint, draw.XLeft, draw.YTop)
		page.FillText(then, vg.Point{X: at.X + name.Width(title) + 10, Y: at.Y - 1.2}, momentNote(r, m))
		area.Max.Y -= momentTitle
		p := &panel{Canvas: frame, x0: w.x0, x1: w.x1, y0: w.z0, y1: w.z1, dataEnd: w.x1}
		p.Canvas.Max.Y = area.Max.Y
		p.Canvas.Min.Y = area.Max.Y - momentHeight
		area.Max.Y -= momentHeight + momentGap
		now := *r
		now.Worst = m.Snapshot
		newSection(p, &now).draw()
		if i == len(shown)-1 {
			p.distances(fromHouse(r))
		}
		p.left(scaledAxis("m", 1), "")
		p.right(scaledAxis("ft", 1/metresPerFoot))
		p.frame()
	}
}

// momentNote gives the time of a moment, with the air, frost and snow of it.
func momentNote(r *sim.Result, m moment) string {
	words := []string{spokenTime(r.Start, m.Time)}
	if air := airWords(r, m.Time); air != "" {
		words = append(words, "air "+air)
	}
	if m.Frost > 0 {
		words = append(words, "frost "+SI.bothLengths(m.Frost)+" deep")
	}
	if m.Snow > 0 {
		words = append(words, "snow "+SI.bothLengths(m.Snow))
	}
	return strings.Join(words, "  ·  ")
}
