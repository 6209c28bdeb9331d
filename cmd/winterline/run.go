package main

import (
	"context"
	"errors"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"winterline/pipe"
	"winterline/report"
	"winterline/sim"
)

// runOptions are the choices of `winterline run`.
type runOptions struct {
	streams
	inputOptions
	outputOptions
	dir        string // CASE; "" for none
	charts     choice
	dpi, width int
}

func newRunCmd(s streams) *cobra.Command {
	o := &runOptions{streams: s}
	c := &cobra.Command{
		Use:   "run [CASE]",
		Short: "Simulate a winter: verdict, tables and charts",
		Long: `Run simulates the winter of a case and says what became of line and basement.

CASE is a folder with layout.toml, one weather file, and pump.csv (pump cycles) or
inflow.csv (water reaching the basin). Without CASE it is the current folder if that holds
layout.toml, else a built-in, invented house. Where nothing says how often the pump runs,
the winter is run with it seldom, usual and often; --fail-on then looks at the worst of
the three, and the results folder holds the usual one.

` + exitWords,
		Example: `  winterline run
  winterline run my-house --units si
  winterline run my-house --cycles "every 6 h for 45 s" --out six-hours --charts svg
  winterline run my-house --json --fail-on flood`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runRun(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c)
	o.charts.add(c, "charts", "png", "format of the charts", "png", "svg", "none")
	c.Flags().IntVar(&o.dpi, "dpi", 0, "dots per inch of PNG charts, which are 10 in wide (default 160)")
	c.Flags().IntVar(&o.width, "width", 0, "width of PNG charts in pixels, instead of --dpi")
	return c
}

// Bounds of chart sizes: below, nothing can be read; above, a picture fills the memory.
const (
	leastDPI, mostDPI = 40, 1200
	perDPI            = 10 // pixels of width: charts are 10 in wide
)

func (o *runOptions) check() error {
	switch {
	case o.dpi != 0 && o.width != 0:
		return usage("found --dpi and --width; expected one of them")
	case (o.dpi != 0 || o.width != 0) && o.charts.word != "png":
		return usage("found --dpi or --width with --charts %s; expected them with png alone", o.charts.word)
	case o.dpi != 0 && (o.dpi < leastDPI || o.dpi > mostDPI):
		return usage("--dpi: found %d; expected %d to %d", o.dpi, leastDPI, mostDPI)
	case o.width != 0 && (o.width < perDPI*leastDPI || o.width > perDPI*mostDPI):
		return usage("--width: found %d; expected %d to %d", o.width, perDPI*leastDPI, perDPI*mostDPI)
	}
	return nil
}

func runRun(ctx context.Context, o *runOptions) error {
	if err := o.check(); err != nil {
		return err
	}
	watch := newStages(o.timings, o.stderr)
	in, err := load(o.dir, &o.inputOptions)
	if err != nil {
		return err
	}
	folder := o.folder(in)
	if folder != "" {
		if err := report.MayReplace(folder); err != nil {
			return err // now, rather than after the simulation
		}
	}
	watch.done("read")
	runs, err := o.simulate(ctx, in)
	if err != nil {
		return err
	}
	watch.done("simulate")
	if folder != "" {
		if err := o.write(ctx, folder, runs, in); err != nil {
			return err
		}
		watch.done("write")
	}
	if err := o.print(runs, in, folder); err != nil {
		return err
	}
	return o.failed(runs.all...)
}

// folder is where results go; "" for nowhere.
func (o *runOptions) folder(in *inputs) string {
	if o.out == "" && !o.json {
		return in.results
	}
	return o.out
}

// runs are the results of a case: one, or one for each supposed schedule of the pump.
type runs struct {
	shown        *sim.Result // the one that is written and told
	all          []*sim.Result
	alternatives []report.Alternative // where the schedule is supposed; else nil
}

// simulate runs the case, or the supposed ones side by side.
func (o *runOptions) simulate(ctx context.Context, in *inputs) (*runs, error) {
	cases, supposed, err := in.cases()
	if err != nil {
		return nil, err
	}
	bar := newProgress(o.streams, o.quiet || o.json, len(cases), "simulating the winter")
	defer bar.clear()
	r := &runs{all: make([]*sim.Result, len(cases))}
	group, ctx := errgroup.WithContext(ctx)
	for i, k := range cases {
		group.Go(func() (err error) {
			r.all[i], err = sim.Run(ctx, k, sim.Settings{Progress: bar.part(i)})
			return err
		})
	}
	if err := group.Wait(); err != nil {
		return nil, err
	}
	r.shown = r.all[0]
	if supposed == nil {
		return r, nil
	}
	for i, s := range supposed {
		r.alternatives = append(r.alternatives, report.Alternative{Name: s.Name, Plan: s.Plan, Result: r.all[i]})
	}
	r.shown = r.all[sim.UsualSchedule]
	r.shown.Warnings = append([]sim.Warning{report.UnknownCycles(r.alternatives, sim.UsualSchedule)}, r.shown.Warnings...)
	return r, nil
}

// cases makes the case ready to run; where nothing says how often the pump runs, the
// supposed ones, which then come second as well.
func (in *inputs) cases() ([]*sim.Case, []sim.Supposed, error) {
	k, err := sim.NewCase(in.name, in.layout, in.profile, in.series, in.supply)
	if err == nil {
		k.Invented = in.demo
		return []*sim.Case{k}, nil, nil
	}
	if !errors.Is(err, sim.ErrNoSupply) {
		return nil, nil, err
	}
	supposed, err := sim.SupposeCycles(in.name, in.layout, in.profile, in.series)
	var cases []*sim.Case
	for _, s := range supposed {
		s.Case.Invented = in.demo
		cases = append(cases, s.Case)
	}
	return cases, supposed, err
}

// provenance is what a summary says about where a result came from.
func (in *inputs) provenance() report.Provenance {
	p := report.Provenance{Version: version, Inputs: in.sums}
	for _, f := range pipe.Practice(in.layout, in.profile) {
		p.Findings = append(p.Findings, report.Finding{Kind: f.Kind, Sentence: f.Sentence})
	}
	return p
}

// write draws the charts and puts the results folder in place.
func (o *runOptions) write(ctx context.Context, folder string, r *runs, in *inputs) error {
	files := append(report.Tables(r.shown), report.SummaryFile(r.shown, in.provenance()))
	if o.charts.word != "none" {
		files = append(files, report.Charts(r.shown, report.ChartOptions{Format: report.Format(o.charts.word), DPI: o.dpi, Width: o.width})...)
	}
	ready, err := render(ctx, files)
	if err != nil {
		return err
	}
	return report.WriteFolderContext(ctx, folder, ready)
}

// print tells the result: as JSON, in brief, or in full.
func (o *runOptions) print(r *runs, in *inputs, folder string) error {
	if o.json {
		return report.Summarize(r.shown, in.provenance()).Encode(o.stdout)
	}
	if len(r.alternatives) > 0 {
		if err := report.Alternatives(o.stdout, r.alternatives, o.system()); err != nil {
			return err
		}
	}
	if o.quiet {
		return report.Brief(o.stdout, r.shown, o.system(), folder)
	}
	return report.Screen(o.stdout, r.shown, report.Options{
		System: o.system(), Case: in.spoken(), Weather: in.weatherFile, MissingHours: in.missingHours(),
		Results: folder, Next: in.next(),
	})
}
