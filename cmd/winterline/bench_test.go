package main

import (
	"context"
	"io"
	"path/filepath"
	"testing"

	"winterline/report"
	"winterline/sim"
	"winterline/weather"
)

// The demonstration: simulated only, whole as `winterline run` does it, and its charts alone.

// demoCase is the demonstration ready to run.
func demoCase(b *testing.B) *sim.Case {
	in, err := load("", &inputOptions{})
	if err != nil {
		b.Fatal(err)
	}
	cases, _, err := in.cases()
	if err != nil {
		b.Fatal(err)
	}
	return cases[0]
}

func benchRun(b *testing.B, k *sim.Case) *sim.Result {
	r, err := sim.Run(context.Background(), k, sim.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	return r
}

// BenchmarkDemonstration times the simulation without reading or writing. cell-h/s counts every
// cell once, although from near its first ice on a winter is simulated with supercooled water as well.
func BenchmarkDemonstration(b *testing.B) {
	k := demoCase(b)
	b.ReportAllocs()
	var r *sim.Result
	for b.Loop() {
		r = benchRun(b, k)
	}
	cellHours := float64(r.Stats.Cells) * k.Weather.End() / 3600
	b.ReportMetric(cellHours*float64(b.N)/b.Elapsed().Seconds(), "cell-h/s")
	b.ReportMetric(float64(r.Stats.Steps)/cellHours, "steps/cell-h")
	b.ReportMetric(float64(r.Stats.Newton)/cellHours, "newton/cell-h")
}

// BenchmarkDemonstrationWhole times `winterline run` from its files to the folder with tables and
// charts.
func BenchmarkDemonstrationWhole(b *testing.B) {
	folder := filepath.Join(b.TempDir(), "results")
	b.ReportAllocs()
	for b.Loop() {
		s := streams{stdout: io.Discard, stderr: io.Discard}
		if code := execute(context.Background(), s, []string{"run", "--out", folder}); code != exitDone {
			b.Fatalf("exit code %d", code)
		}
	}
}

// BenchmarkCharts times all charts of the demonstration's line, ground and weather, drawn side by side
// as the commands draw them.
func BenchmarkCharts(b *testing.B) {
	k := demoCase(b)
	r := benchRun(b, k)
	ground, err := sim.SimulateGround(context.Background(), &sim.GroundCase{Layout: k.Layout, Profile: k.Profile, Weather: k.Weather}, sim.GroundSettings{})
	if err != nil {
		b.Fatal(err)
	}
	record := weather.DigestOf(k.Weather)
	all := []struct {
		name  string
		files func(o report.ChartOptions) []report.File
	}{
		{"run", func(o report.ChartOptions) []report.File { return report.Charts(r, o) }},
		{"ground", func(o report.ChartOptions) []report.File { return report.GroundCharts(ground, o) }},
		{"weather", func(o report.ChartOptions) []report.File {
			return report.WeatherCharts(record, []*weather.Series{k.Weather}, o)
		}},
	}
	for _, c := range all {
		for _, format := range []report.Format{report.PNG, report.SVG} {
			b.Run(c.name+"/"+string(format), func(b *testing.B) {
				benchCharts(b, func() []report.File { return c.files(report.ChartOptions{Format: format}) })
			})
		}
	}
}

// BenchmarkReport times what `run` draws for people: the charts as PNG files, and report.html with its own.
func BenchmarkReport(b *testing.B) {
	k := demoCase(b)
	r := benchRun(b, k)
	page := report.PageOptions{Charts: func(c report.ChartOptions) []report.File { return report.Charts(r, c) }}
	benchCharts(b, func() []report.File {
		return append(report.Charts(r, report.ChartOptions{}), report.PageFile(r, page))
	})
}

func benchCharts(b *testing.B, files func() []report.File) {
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		charts, err := render(context.Background(), files())
		if err != nil {
			b.Fatal(err)
		}
		n = len(charts)
	}
	b.ReportMetric(float64(n), "charts")
}
