package report

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// profileChart shows the line in profile at the moment with most ice: the whole of it
// above, and wall and outlet at true scale below.
func profileChart(r *sim.Result) (chart, bool) {
	return chart{"profile", 7.4 * vg.Inch, func(page draw.Canvas) { drawProfile(page, r) }},
		r.Profile != nil && len(r.Profile.Segments) > 0
}

func drawProfile(page draw.Canvas, r *sim.Result) {
	whole := wholeWindow(r)
	area := draw.Crop(page, 14, -14, 10, -78)
	upper := draw.Crop(area, leftMargin-14, -rightMargin+14, area.Size().Y*0.47, 0)
	times := whole.fit(&upper)
	title := "The line in profile when it held most ice"
	if worst, _ := mostIce(r); worst < 0 {
		title = "The line in profile; no ice formed in it"
	}
	title += scaleWords(times)
	below := heading(page, r, title, profileNote(r))
	drawIceKey(&below, r)

	p := &panel{Canvas: upper, x0: whole.x0, x1: whole.x1, y0: whole.z0, y1: whole.z1, dataEnd: whole.x1}
	newSection(p, r).draw()
	p.distances(fromHouse(r))
	p.left(scaledAxis("m", 1), "height")
	p.right(scaledAxis("ft", 1/metresPerFoot))
	labelReaches(p, r)
	p.frame()

	lower := draw.Crop(area, 0, 0, 0, -area.Size().Y*0.53-26)
	half := lower.Size().X / 2
	drawDetail(draw.Crop(lower, 0, -half-6, 0, 0), r, startTitle(r), wallWindow(r), wallLabels(r))
	drawDetail(draw.Crop(lower, half+6, 0, 0, 0), r, "At the far end, true scale", outletWindow(r), outletLabels(r))
}

func startTitle(r *sim.Result) string {
	if fromHouse(r) {
		return "At the wall, true scale"
	}
	return "At the start, true scale"
}

func scaleWords(times float64) string {
	if times == 1 {
		return " (true to scale)"
	}
	return " (heights drawn " + number(times, 0) + " times lengths)"
}

// profileNote gives the moment that is shown, and the cold then.
func profileNote(r *sim.Result) string {
	note := spokenTime(r.Start, r.Worst.Time)
	if air := airWords(r, r.Worst.Time); air != "" {
		note += ", outdoor air " + air
	}
	return note
}

// airWords is the outdoor air at a time [s], of the first row from then on; "": there is none.
func airWords(r *sim.Result, t float64) string {
	i := slices.IndexFunc(r.Hourly.Time, func(row float64) bool { return row >= t })
	if i < 0 {
		return ""
	}
	return SI.bothTemperatures(r.Hourly.Air[i])
}

// window is the part of the section that a picture shows [m].
type window struct{ x0, x1, z0, z1 float64 }

// exaggerations are the factors by which heights may be drawn larger than lengths.
var exaggerations = []float64{1, 2, 3, 5, 10, 20, 50, 100}

// legiblePipe is how thick the thinnest outdoor pipe should be drawn.
const legiblePipe = vg.Length(9)

// fit chooses how much larger than lengths heights are drawn on a canvas: no more than
// makes the pipes legible, and what there is room for. It widens the window to fill
// the canvas at that scale.
func (w *window) fit(c *draw.Canvas) (times float64) {
	perMetre := c.Size().X / vg.Length(w.x1-w.x0)
	room := c.Size().Y / vg.Length(w.z1-w.z0)
	times = 1
	for _, e := range exaggerations {
		if perMetre*vg.Length(e) > room {
			break
		}
		times = e
		if perMetre*vg.Length(e)*vg.Length(usualPipe) >= legiblePipe {
			break
		}
	}
	perMetre = min(perMetre, room)
	w.x1 += float64(c.Size().X/perMetre) - (w.x1 - w.x0)
	// Ground below tells less than air above: give the spare height to both.
	spare := float64(c.Size().Y/perMetre)/times - (w.z1 - w.z0)
	w.z0, w.z1 = w.z0-spare/2, w.z1+spare/2
	return times
}

// usualPipe is the outside diameter that legible means: a 3 in pipe [m].
const usualPipe = 0.0889

// wholeWindow holds all of the line outdoors; indoors it shows what lies as high.
func wholeWindow(r *sim.Result) window {
	w := window{x0: -1, x1: 1, z0: -r.Worst.Frost, z1: r.Worst.Snow}
	for _, reach := range r.Profile.Segments {
		w.x1 = math.Max(w.x1, reach.X1)
		if reach.X1 > 0 {
			w.z0 = math.Min(w.z0, math.Min(reach.Z0, reach.Z1))
			w.z1 = math.Max(w.z1, math.Max(reach.Z0, reach.Z1)+usualPipe)
		}
	}
	if s := r.Layout.Standpipe; s != nil {
		w.z1 = math.Max(w.z1, s.Rim)
	}
	if _, floor, ok := pocketBox(r); ok {
		w.z0 = math.Min(w.z0, floor)
	}
	w.z0 = math.Min(w.z0, r.Profile.Ground(w.x1))
	w.x0, w.x1 = -0.6-0.03*w.x1, w.x1+0.6+0.06*w.x1
	w.z0, w.z1 = w.z0-0.15, w.z1+0.2
	return w
}

// wallWindow shows where the line leaves the house, down to the start of the buried line.
func wallWindow(r *sim.Result) window {
	w := window{x0: -0.55, x1: 0.8, z0: -0.3, z1: math.Max(0.3, r.Worst.Snow+0.1)}
	include := func(x, z float64) {
		w.x1, w.z0, w.z1 = math.Max(w.x1, x+0.3), math.Min(w.z0, z-0.15), math.Max(w.z1, z+0.2)
	}
	if s := r.Layout.Standpipe; s != nil {
		x, foot := standpipeFoot(r)
		include(x, foot)
		include(x, s.Rim)
		include(x, s.HousePipeEnd)
		return w
	}
	for _, reach := range r.Profile.Segments {
		if reach.X0 <= 0 && reach.X1 > 0 {
			include(0.5, reach.Z0)
		}
	}
	return w
}

// outletWindow shows the far end with its elbow, lid and rock pit.
func outletWindow(r *sim.Result) window {
	end := r.Profile.Segments[len(r.Profile.Segments)-1]
	ground := r.Profile.Ground(end.X1)
	w := window{x0: end.X1 - 0.7, x1: end.X1 + 0.7, z0: math.Min(end.Z1, ground) - 0.25, z1: math.Max(end.Z1, ground+r.Worst.Snow) + 0.25}
	if width, floor, ok := pocketBox(r); ok {
		w.x0, w.x1 = math.Min(w.x0, end.X1-width), math.Max(w.x1, end.X1+width)
		w.z0 = math.Min(w.z0, floor-0.1)
	}
	return w
}

// standpipeFoot is where the standpipe stands and its lowest level: where the line goes on.
func standpipeFoot(r *sim.Result) (x, z float64) {
	after := min(r.Layout.Standpipe.After, len(r.Profile.Segments)-1)
	next := min(after+1, len(r.Profile.Segments)-1)
	return r.Profile.Segments[after].X1, r.Profile.Segments[next].Z0
}

// pocketBox gives half the length of the rock pit and the level of its floor; its
// top lies at the invert where the line ends.
func pocketBox(r *sim.Result) (half, floor float64, ok bool) {
	if r.Layout.Pocket == nil {
		return 0, 0, false
	}
	end := r.Profile.Segments[len(r.Profile.Segments)-1]
	return r.Layout.Pocket.Length / 2, end.Z1 - r.Layout.Pocket.Depth, true
}

// lidLevel is the level of the outlet: what the layout says, or where the profile ends.
func lidLevel(r *sim.Result) (x, z float64) {
	end := r.Profile.Segments[len(r.Profile.Segments)-1]
	if l := r.Layout.Outlet.Level; l != nil {
		return end.X1, r.Profile.Ground(end.X1) + *l
	}
	return end.X1, end.Z1
}
