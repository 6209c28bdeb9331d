package report

import (
	"io"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"winterline/sim"
)

// Format is the file format of charts.
type Format string

// Formats.
const (
	PNG Format = "png"
	SVG Format = "svg" // scales freely: dots and width do not apply; carries its fonts
)

// ChartOptions say how charts are drawn. The zero value gives PNG files 1600 pixels
// wide. Lettering grows with the picture, so a wider one is sharper, not busier.
type ChartOptions struct {
	Format Format
	DPI    int // dots per inch of a picture ten inches wide; 0: 160
	Width  int // of a PNG [px], to the nearest 10, instead of DPI; 0: by DPI

	bare bool // SVG without its fonts, for a page that names them itself
}

func (o ChartOptions) dotsPerInch() int {
	switch {
	case o.Width > 0:
		return max(1, (o.Width+5)/10)
	case o.DPI > 0:
		return o.DPI
	}
	return 160
}

const (
	figureWidth  = 10 * vg.Inch
	figureHeight = 6.25 * vg.Inch
)

// chart is one picture: its name without ending, its height and how it is drawn.
type chart struct {
	name   string
	height vg.Length
	draw   func(draw.Canvas)
}

// Charts gives the pictures of a result. A picture that would have nothing to show is
// left out. Each is drawn only when its Write is called, and they may be written at
// the same time.
func Charts(r *sim.Result, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	var files []File
	for _, c := range chartsOf(r) {
		files = append(files, c.file(o))
	}
	return files
}

// chartsOf are the pictures of a result that have something to show.
func chartsOf(r *sim.Result) (charts []chart) {
	for _, make := range []func(*sim.Result) (chart, bool){
		weatherChart, worstChart, waterChart, iceChart, profileChart, momentsChart, pathsChart, levelsChart,
	} {
		if c, ok := make(r); ok {
			charts = append(charts, c)
		}
	}
	return append(charts, segmentsCharts(r)...)
}

// file is the chart as a file of the results folder.
func (c chart) file(o ChartOptions) File {
	return File{c.name + "." + string(o.Format), func(w io.Writer) error { return c.write(w, o) }}
}

func (c chart) write(w io.Writer, o ChartOptions) error {
	if o.Format == SVG {
		picture := vgsvg.NewWith(vgsvg.UseWH(figureWidth, c.height), vgsvg.EmbedFonts(!o.bare))
		page := c.page(picture)
		page.FillPolygon(white, corners(page.Rectangle)) // pixels are white to begin with
		c.draw(page)
		_, err := picture.WriteTo(w)
		return err
	}
	picture := vgimg.NewWith(vgimg.UseWH(figureWidth, c.height), vgimg.UseDPI(o.dotsPerInch()))
	c.draw(c.page(picture))
	return writePNG(w, picture.Image())
}

// page is the canvas of a chart on a picture.
func (c chart) page(picture vg.Canvas) draw.Canvas {
	return draw.Canvas{Canvas: guarded{picture}, Rectangle: box(0, 0, figureWidth, c.height)}
}

// heading heads a page on a result.
func heading(page draw.Canvas, r *sim.Result, title string, notes ...string) draw.Canvas {
	return headed(page, r.Invented, title, append([]string{r.Name, datesOf(r.Start, r.Hourly.Time)}, notes...)...)
}

// headed writes the title, which says in plain words what the picture shows, and below it
// the facts that are not empty; it returns what is left of the page.
func headed(page draw.Canvas, invented bool, title string, facts ...string) draw.Canvas {
	page = draw.Crop(page, 14, -14, 10, -12)
	if invented {
		title = "An invented house: " + lowerFirst(title)
	}
	style := bold(lettering(titleSize, ink, draw.XLeft, draw.YTop))
	for style.Width(title) > page.Size().X && style.Font.Size > smallSize {
		style.Font.Size -= 0.5
	}
	page.FillText(style, vg.Point{X: page.Min.X, Y: page.Max.Y}, title)
	page.Max.Y -= titleSize + 6

	facts = slices.DeleteFunc(facts, func(fact string) bool { return fact == "" })
	style = lettering(textSize, faint, draw.XLeft, draw.YTop)
	for _, line := range foldFacts(style, facts, page.Size().X) {
		page.FillText(style, vg.Point{X: page.Min.X, Y: page.Max.Y}, line)
		page.Max.Y -= textSize + 3
	}
	page.Max.Y -= 8
	return page
}

// datesOf gives the first and last day of a record, one alone where they are the same; "" for none.
func datesOf(start time.Time, times []float64) string {
	n := len(times)
	if n == 0 {
		return ""
	}
	first, last := spokenDate(start, times[0]), spokenDate(start, times[n-1])
	if first == last {
		return first
	}
	return first + " to " + last
}

// lowerFirst gives the words a lower-case first letter.
func lowerFirst(words string) string {
	if words != "" && words[0] >= 'A' && words[0] <= 'Z' {
		return strings.ToLower(words[:1]) + words[1:]
	}
	return words
}
