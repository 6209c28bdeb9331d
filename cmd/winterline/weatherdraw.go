package main

import (
	"context"
	"errors"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/weather"
)

// drawingOptions are the flags that say where and how a weather record is drawn.
type drawingOptions struct {
	charts chartOptions
	out    string // --out: a folder, or with --snap a file; "" for the usual place
}

func (o *drawingOptions) addFlags(c *cobra.Command) {
	o.charts.addFlags(c)
	c.Flags().StringVar(&o.out, "out", "", "`PATH`: folder for the charts (default CASE/results-weather for a case, else ./results-NAME, after the name of FILE); with --snap the new file to write (default: standard output)")
}

// check refuses what can be refused before anything is read.
func (o *drawingOptions) check() error {
	if err := o.charts.check(); err != nil {
		return err
	}
	if o.out == "" {
		return nil
	}
	return report.MayReplace(o.out)
}

// folder is where the charts go; "" for nowhere. By standard those of a case lie beside its
// other results, those of files, which may lie anywhere, in the current folder.
func (o *drawingOptions) folder(paths []string, json bool) string {
	switch {
	case o.out != "":
		return o.out
	case json || o.charts.format.word == "none":
		return ""
	case len(paths) == 1 && isCase(paths[0]):
		return typed(filepath.Join(paths[0], "results-weather"))
	}
	return "./results-" + stem(paths)
}

// stem is a word for weather files: the name of the only one, or of the first and the last,
// without their endings.
func stem(paths []string) string {
	if n := len(paths); n > 1 {
		return stem(paths[:1]) + "-to-" + stem(paths[n-1:])
	}
	whole, err := filepath.Abs(paths[0]) // "." has no name of its own
	if err != nil {
		whole = paths[0]
	}
	name := strings.TrimSuffix(filepath.Base(whole), ".gz")
	if bare := strings.TrimSuffix(name, filepath.Ext(name)); bare != "" {
		name = bare
	}
	return name
}

// draw writes the folder and says where it is. Where nobody asked for a folder and the usual one
// cannot be written, that is no error: told says why.
func (o *drawingOptions) draw(ctx context.Context, folder string, d *weather.Digest, spans []*weather.Series, p report.Provenance) (told string, err error) {
	if folder == "" {
		return "", nil
	}
	files := o.charts.of(func(c report.ChartOptions) []report.File { return report.WeatherCharts(d, spans, c) })
	ready, err := render(ctx, append([]report.File{report.WeatherSummaryFile(d, p)}, files...))
	if err != nil {
		return "", err
	}
	err = report.WriteFolderContext(ctx, folder, ready)
	switch {
	case err == nil:
		return folder, nil
	case o.out == "" && !errors.Is(err, context.Canceled):
		return "not written: " + err.Error() + "; --out DIR takes another folder", nil
	}
	return "", err
}
