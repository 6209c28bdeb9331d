package report

import (
	"fmt"
	"html"
	"html/template"
	"image/color"
	"math"
	"strings"

	"winterline/sim"
)

// The picture of the line: house, ground and pipes to scale, with what had frozen at the moment with most ice. Its parts
// carry numbers instead of names, so that nothing overlaps at thirty of them; the table below it names them.

const (
	pictureWidth  = 900.0 // of the drawing, in its own units, about a pixel each
	pictureTop    = 74.0  // above the ground's highest point: two rows of labels
	pictureDepth  = 380.0 // most that the section itself may be high
	mostPerMetre  = 130.0 // scale of a line that is very short
	thinnestPipe  = 6.0   // thickness down to which pipes are drawn true
	mostTags      = 30    // parts that carry a number
	partCells     = 40    // pieces in which a part is drawn, at most
	manyPartCells = 8     // the same where there are many parts
)

// Places indoors, which the profile does not know: the riser stands over the basin, behind the wall.
const (
	riserAt   = -0.95 // axis of indoor pipes [m]
	roomStart = -1.75 // where the drawn room ends [m]
)

// lineDrawing draws the picture.
type lineDrawing struct {
	r        *sim.Result
	window   window
	perMetre float64 // along the line
	times    float64 // heights are drawn so many times larger
	height   float64
	parts    []linePart
	out      strings.Builder
}

// linePicture gives the picture as an inline SVG; nothing where the result has no profile.
func linePicture(r *sim.Result, s System) template.HTML {
	if r.Profile == nil || len(r.Profile.Segments) == 0 {
		return ""
	}
	d := &lineDrawing{r: r, parts: lineParts(r)}
	d.fit()
	d.open(s)
	d.room()
	d.groundLayers()
	d.rockPit()
	d.pipes()
	d.openings()
	d.labels()
	d.out.WriteString("</svg>")
	return template.HTML(d.out.String())
}

// fit chooses window and scale: lengths fill the width, heights are drawn larger only where the line is so long that its
// pipes could not be seen, and that is said.
func (d *lineDrawing) fit() {
	w := wholeWindow(d.r)
	w.z0, w.z1 = w.z0-0.1, w.z1+0.05
	if fromHouse(d.r) {
		w.x0 = roomStart
		if b := d.r.Layout.Basin; b != nil {
			w.z0 = math.Min(w.z0, -b.FloorBelowGround-b.BottomBelowFloor-0.15)
		}
		for _, p := range d.parts {
			for _, c := range p.cells {
				w.z0 = math.Min(w.z0, math.Min(c.Z0, c.Z1)-0.1)
				w.z1 = math.Max(w.z1, math.Max(c.Z0, c.Z1)+0.1)
			}
		}
	}
	d.perMetre = math.Min(mostPerMetre, pictureWidth/(w.x1-w.x0))
	d.times = 1
	for _, e := range exaggerations {
		if d.perMetre*e*(w.z1-w.z0) > pictureDepth {
			break
		}
		d.times = e
		if d.perMetre*e*usualPipe >= thinnestPipe {
			break
		}
	}
	d.perMetre = math.Min(d.perMetre, pictureDepth/(w.z1-w.z0)/d.times)
	spare := pictureWidth/d.perMetre - (w.x1 - w.x0)
	w.x0, w.x1 = w.x0-spare/2, w.x1+spare/2
	d.window = w
	d.height = pictureTop + (w.z1-w.z0)*d.perMetre*d.times
}

func (d *lineDrawing) x(x float64) float64 { return (x - d.window.x0) * d.perMetre }
func (d *lineDrawing) y(z float64) float64 {
	return pictureTop + (d.window.z1-z)*d.perMetre*d.times
}

// open begins the picture with its name and what it shows, for those who cannot see it.
func (d *lineDrawing) open(s System) {
	scale, told := "to scale", chartTeller{r: d.r, s: s}
	if d.times > 1 {
		scale = "heights drawn " + number(d.times, 0) + " times lengths"
	}
	fmt.Fprintf(&d.out, `<svg class="line" viewBox="0 0 %s %s" role="img" aria-labelledby="line-title line-words">`, svgNumber(pictureWidth), svgNumber(d.height))
	fmt.Fprintf(&d.out, `<title id="line-title">The line with where it froze, %s</title><desc id="line-words">%s</desc>`, scale, html.EscapeString(profileTale(told)+" "+iceTale(told)))
	fmt.Fprintf(&d.out, `<defs><pattern id="hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="%s" stroke-width="2.4"/></pattern></defs>`, hexColor(white))
	fmt.Fprintf(&d.out, `<rect width="%s" height="%s" fill="%s"/>`, svgNumber(pictureWidth), svgNumber(d.height), hexColor(white))
}

func svgNumber(v float64) string { return trimZeros(fixed(v, 1)) }

func trimZeros(s string) string { return strings.TrimSuffix(s, ".0") }

func hexColor(c color.RGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// shape puts down a closed shape of points in pairs; extra holds further attributes.
func (d *lineDrawing) shape(fill, extra string, points ...float64) {
	fmt.Fprintf(&d.out, `<path fill="%s"%s d="%sZ"/>`, fill, extra, pathOf(points))
}

// trace puts down a line through points in pairs.
func (d *lineDrawing) trace(c color.RGBA, width float64, extra string, points ...float64) {
	fmt.Fprintf(&d.out, `<path fill="none" stroke="%s" stroke-width="%s"%s d="%s"/>`, hexColor(c), svgNumber(width), extra, pathOf(points))
}

func pathOf(points []float64) string {
	var path strings.Builder
	for i := 0; i+1 < len(points); i += 2 {
		step := "L"
		if i == 0 {
			step = "M"
		}
		path.WriteString(step + svgNumber(points[i]) + " " + svgNumber(points[i+1]))
	}
	return path.String()
}

// rect is a shape between two places [m].
func (d *lineDrawing) rect(c color.RGBA, x0, z0, x1, z1 float64) {
	d.shape(hexColor(c), "", d.x(x0), d.y(z0), d.x(x1), d.y(z0), d.x(x1), d.y(z1), d.x(x0), d.y(z1))
}
