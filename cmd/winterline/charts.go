package main

import (
	"github.com/spf13/cobra"

	"winterline/report"
)

// chartOptions are the flags that say how charts are drawn.
type chartOptions struct {
	format     choice
	dpi, width int
}

func (o *chartOptions) addFlags(c *cobra.Command) {
	o.format.add(c, "charts", "png", "format of the charts",
		cobra.CompletionWithDesc("png", "pictures for any screen and printer"), cobra.CompletionWithDesc("svg", "drawings sharp at any size"),
		cobra.CompletionWithDesc("none", "no charts"))
	c.Flags().IntVar(&o.dpi, "dpi", 0, "`DOTS` per inch of PNG charts, which are 10 in (25 cm) wide (default 160)")
	c.Flags().IntVar(&o.width, "width", 0, "width of PNG charts in `PIXELS`, instead of --dpi")
}

// Bounds of chart sizes: below, nothing can be read; above, a picture fills the memory.
const (
	leastDPI, mostDPI = 40, 1200
	perDPI            = 10 // pixels of width: charts are 10 in wide
)

// check refuses sizes that contradict each other or lie out of bounds.
func (o *chartOptions) check() error {
	switch {
	case o.dpi != 0 && o.width != 0:
		return usage("found --dpi and --width; expected one of them")
	case (o.dpi != 0 || o.width != 0) && o.format.word != "png":
		return usage("found --dpi or --width with --charts %s; expected them with png alone", o.format.word)
	case o.dpi != 0 && (o.dpi < leastDPI || o.dpi > mostDPI):
		return usage("--dpi: found %d; expected %d to %d", o.dpi, leastDPI, mostDPI)
	case o.width != 0 && (o.width < perDPI*leastDPI || o.width > perDPI*mostDPI):
		return usage("--width: found %d; expected %d to %d", o.width, perDPI*leastDPI, perDPI*mostDPI)
	}
	return nil
}

// of gives the charts of a result, which draw makes; none with --charts none.
func (o *chartOptions) of(draw func(report.ChartOptions) []report.File) []report.File {
	if o.format.word == "none" {
		return nil
	}
	return draw(report.ChartOptions{Format: report.Format(o.format.word), DPI: o.dpi, Width: o.width})
}
