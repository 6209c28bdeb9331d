package report

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html/template"
	"path"
	"strings"

	"winterline/sim"
)

// pageChart is a picture within the page, with what it shows in words.
type pageChart struct {
	Title, Words string
	Source       template.URL // the picture itself
	Tall         bool         // too tall to be legible at half a printed page
}

// mostDrawn is how large the page's charts may be together [bytes], before they are written as text, which makes four
// thirds of it: a page stays under 3 MB.
const mostDrawn = 1_900_000

// pageDots is the resolution of charts that are drawn as dots, in dots per inch of a picture ten inches wide.
const pageDots = 100

// inlined is a picture before it is put into the page.
type inlined struct{ kind, data string }

// source is the picture as a data URI.
func (p inlined) source() template.URL {
	return template.URL("data:" + p.kind + ";base64," + base64.StdEncoding.EncodeToString([]byte(p.data)))
}

// pageCharts draws the charts for the page, whatever format the folder has them in: as lines, which print sharply. Where
// these would be too large together, as of thirty segments through a long winter, the largest are drawn as dots instead.
func pageCharts(r *sim.Result, o PageOptions) ([]pageChart, error) {
	if o.Charts == nil {
		return nil, nil
	}
	files := o.Charts(ChartOptions{Format: SVG, bare: true})
	pictures, err := drawnAs("image/svg+xml", files)
	if err != nil {
		return nil, err
	}
	tall := make([]bool, len(pictures))
	for i := range pictures {
		tall[i] = isTall(pictures[i].data)
		pictures[i].data = shortStyles.Replace(pictures[i].data)
	}
	if err := fitInto(mostDrawn, pictures, o.Charts(ChartOptions{Format: PNG, DPI: pageDots})); err != nil {
		return nil, err
	}
	out := make([]pageChart, len(files))
	for i, f := range files {
		title, words := chartWords(strings.TrimSuffix(f.Name, path.Ext(f.Name)), r, o.Margin, o.Screen.System)
		out[i] = pageChart{title, words, pictures[i].source(), tall[i]}
	}
	return out, nil
}

// tallShape is the height over the width from which a chart takes a printed page of its own.
const tallShape = 0.8

// isTall says whether a drawing has that shape.
func isTall(drawing string) bool {
	var width, height float64
	_, box, _ := strings.Cut(drawing, `viewBox="`)
	_, err := fmt.Sscanf(box, "0 0 %g %g", &width, &height)
	return err == nil && height > tallShape*width
}

// drawnAs draws charts into memory.
func drawnAs(kind string, files []File) ([]inlined, error) {
	out := make([]inlined, len(files))
	for i, f := range files {
		var picture bytes.Buffer
		if err := f.Write(&picture); err != nil {
			return nil, err
		}
		out[i] = inlined{kind, picture.String()}
	}
	return out, nil
}

// fitInto puts dots in place of the largest drawings until all together are no larger than most.
func fitInto(most int, pictures []inlined, dots []File) error {
	for {
		sum, largest := 0, -1
		for i, p := range pictures {
			sum += len(p.data)
			if p.kind != "image/png" && (largest < 0 || len(p.data) > len(pictures[largest].data)) {
				largest = i
			}
		}
		if sum <= most || largest < 0 {
			return nil
		}
		drawn, err := drawnAs("image/png", dots[largest:largest+1])
		if err != nil {
			return err
		}
		pictures[largest] = drawn[0]
	}
}

// shortStyles leaves out of a drawing what goes without saying, and names typefaces of the same widths for readers
// without the charts' own.
var shortStyles = strings.NewReplacer(
	"font-family:Liberation Sans;", "font-family:Liberation Sans,Arial,Helvetica,sans-serif;",
	"font-variant:normal;", "", "font-style:normal;", "", "font-weight:normal;", "",
)
