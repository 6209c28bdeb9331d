package main

import (
	"context"
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
)

// groundOptions are the choices of `winterline ground`.
type groundOptions struct {
	streams
	inputOptions
	outputOptions
	charts      chartOptions
	dir         string // CASE; "" for none
	depths      string // list as typed; "" for the usual ones
	surfaceFrom string // name of a measured column; "" for none
}

func newGroundCmd(s streams) *cobra.Command {
	o := &groundOptions{streams: s}
	c := &cobra.Command{
		Use:   "ground [CASE]",
		Short: "How deep the frost goes: soil temperature by depth through the winter",
		Long: `Ground works out the temperature of the undisturbed ground at a case, away from pipe and
house, through its weather: the soil, what grows or lies on it, snow and frost. It tells
how deep the frost went and when, and writes a table by depth and charts.

CASE is a folder as for run, of which only layout.toml and the weather are read; soil must
stand in [site], though nothing need be buried. Where the weather has measured soil
temperatures (columns such as soil_temp_20cm_c), they are set beside the computed ones.
--surface-from soil_temp_5cm takes that thermometer instead of air, cover and snow: it
drives the ground from its own depth down. Gaps of up to 6 h in it are bridged.

` + exitWords,
		Example: `  winterline ground
  winterline ground my-house --units si
  winterline ground my-house --depths "0.1 m,20 in,1 m" --charts svg
  winterline ground my-house --json`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runGround(c.Context(), o)
		},
	}
	o.inputOptions.addGroundFlags(c)
	o.outputOptions.addFlags(c, groundEnding)
	o.charts.addFlags(c)
	c.Flags().StringVar(&o.depths, "depths", "", "`DEPTHS` in the table, such as \"0.1 m,20 in\", at most 50 down to 10 m or 33 ft (default nine from 2 in to 6.6 ft, 5 cm to 2 m)")
	c.Flags().StringVar(&o.surfaceFrom, "surface-from", "", "measured `COLUMN` of the weather that drives the ground from its depth down, such as soil_temp_5cm")
	return c
}

// groundEnding follows the name of run's folder in that of this command, so that neither
// replaces what the other wrote.
const groundEnding = "-ground"

func runGround(ctx context.Context, o *groundOptions) error {
	if err := o.charts.check(); err != nil {
		return err
	}
	depths, err := parseDepths(o.depths)
	if err != nil {
		return err
	}
	watch := newStages(o.timings, o.stderr)
	in, err := loadGround(o.dir, &o.inputOptions)
	if err != nil {
		return err
	}
	track, err := in.thermometer(o.surfaceFrom)
	if err != nil {
		return err
	}
	folder := o.folder(in.results + groundEnding)
	p := production[*sim.GroundResult]{
		folder: folder,
		simulate: func(ctx context.Context) (*sim.GroundResult, error) {
			return o.simulate(ctx, in, sim.GroundSettings{Depths: depths, SurfaceFrom: track})
		},
		files: func(r *sim.GroundResult) []report.File { return o.files(r, in) },
		print: func(r *sim.GroundResult) error { return o.print(r, in, folder) },
	}
	_, err = p.run(ctx, watch)
	return err
}

func (o *groundOptions) simulate(ctx context.Context, in *inputs, s sim.GroundSettings) (*sim.GroundResult, error) {
	bar := newProgress(o.streams, o.quiet || o.json, 1, "simulating the ground")
	defer bar.clear()
	s.Progress = bar.part(0)
	k := &sim.GroundCase{Name: in.name, Invented: in.demo, Layout: in.layout, Profile: in.profile, Weather: in.series}
	r, err := sim.SimulateGround(ctx, k, s)
	var gap *sim.GapError
	if errors.As(err, &gap) {
		return nil, in.silence(s.SurfaceFrom, gap)
	}
	return r, err
}

// files are those of the results folder.
func (o *groundOptions) files(r *sim.GroundResult, in *inputs) []report.File {
	files := []report.File{report.GroundTable(r), report.GroundSummaryFile(r, in.provenance())}
	return append(files, o.charts.of(func(c report.ChartOptions) []report.File { return report.GroundCharts(r, c) })...)
}

// print tells the result: as JSON, in brief, or in full.
func (o *groundOptions) print(r *sim.GroundResult, in *inputs, folder string) error {
	told := o.told(o.streams, in, folder, in.next("run", "what this ground does to the line"))
	switch {
	case o.json:
		return report.SummarizeGround(r, in.provenance()).Encode(o.stdout)
	case o.quiet:
		return report.GroundBrief(o.stdout, r, told)
	}
	return report.GroundScreen(o.stdout, r, told)
}
