package main

import (
	"context"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim/answers"
)

// compareOptions are the choices of `winterline compare`.
type compareOptions struct {
	streams
	inputOptions
	outputOptions
	charts   chartOptions
	dirs     []string // CASEs
	sets     []string // --set, one a layout
	noMargin bool
	seed     uint64
}

// compareEnding follows the name of run's folder in that of this command.
const compareEnding = "-compare"

func newCompareCmd(s streams) *cobra.Command {
	o := &compareOptions{streams: s}
	c := &cobra.Command{
		Use:   "compare [CASE…] [--set CHANGE]",
		Short: "Layouts side by side over the same weather, with a paragraph for a quote",
		Long: `Compare simulates two to eight layouts over the same weather and sets them side by side: what
became of line and basement, which way the water went, how many degrees colder it could have been,
what that costs, one chart of all, and a paragraph to paste into a quote. If the weather has
several whole winters (November to March), every one of them is simulated with every layout, and
counts are told; else the one record that there is.

Each CASE is a folder as for run. Their weather has to be the same file; --weather names one for
all, and --pump, --inflow, --cycles and --arrives the water of all. The first is what
the others are set against, in years to pay back, too: costs are those of [cost] in each layout.

--set makes one more layout out of a single CASE (or out of the demonstration, without CASE), by changes to its
layout.toml: "yard run.cover=30 in" by a segment's name, "outlet.kind=open" by a table's; nothing
behind the equals sign takes the key out, and a semicolon parts changes that belong together. A name
may stand before: "deeper: yard run.cover=30 in". What it costs to install belongs there
as well, "cost.installed=2400", or it is not known. --set may be given up to seven times.

` + exitWords,
		Example: `  winterline compare --set "open end: outlet.kind=open; outlet.level=; outlet.lid_opening_head=; outlet.weep=; pocket=" --no-margin
  winterline compare my-house --set "deeper: yard run.cover=30 in" --units si
  winterline compare my-house --weather many-years.csv --cycles "every 6 h for 45 s" --set "deeper: yard run.cover=30 in" --no-margin
  winterline compare my-house --set "yard run.cover=30 in" --set "yard run.cover=40 in" --json`,
		Args: arguments(0, mostRivals, "at most eight CASE folders"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dirs = args
			return runCompare(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c, compareEnding)
	o.charts.addFlags(c)
	f := c.Flags()
	f.StringArrayVar(&o.sets, "set", nil, "`CHANGE` that makes one more layout of the CASE: \"NAME: KEY=VALUE; KEY=VALUE\"")
	f.BoolVar(&o.noMargin, "no-margin", false, "leave out how many degrees colder each winter could have been: most of the work")
	f.Uint64Var(&o.seed, "seed", 1, "`NUMBER` from which the intervals over many winters are drawn at random: the same one gives the same")
	return c
}

func runCompare(ctx context.Context, o *compareOptions) error {
	if err := o.charts.check(); err != nil {
		return err
	}
	watch := newStages(o.timings, o.stderr)
	r, err := o.load()
	if err != nil {
		return err
	}
	in := r.first
	told := report.Options{System: o.system(), Window: o.window, Weather: in.weatherFile, Results: o.folder(in.results + compareEnding), Next: r.next()}
	if in.series != nil {
		told.Bridged = in.series.Bridged()
	}
	p := production[*report.Comparison]{
		folder:   told.Results,
		simulate: func(ctx context.Context) (*report.Comparison, error) { return o.simulate(ctx, r) },
		files:    func(c *report.Comparison) []report.File { return o.files(c, told) },
		print:    func(c *report.Comparison) error { return o.print(c, told) },
	}
	_, err = p.run(ctx, watch)
	return err
}

// simulate answers the question and tells how far it is.
func (o *compareOptions) simulate(ctx context.Context, r *rivals) (*report.Comparison, error) {
	bar := newProgress(o.streams, o.quiet || o.json, 1, "simulating the layouts")
	defer bar.clear()
	e := &answers.Engine{Progress: bar.counted(0)}
	c, err := e.Compare(ctx, &answers.CompareQuestion{
		Rivals: r.all, Spans: r.first.spans, Margins: !o.noMargin, Seed: o.seed, Version: version, Inputs: r.sums,
	})
	if err != nil {
		return nil, r.first.wintersError(err)
	}
	return &report.Comparison{Comparison: c, Notes: r.notes}, nil
}

// files are those of the results folder.
func (o *compareOptions) files(c *report.Comparison, told report.Options) []report.File {
	files := []report.File{report.CompareTable(c), report.CompareSummaryFile(c, told)}
	if c.Single == nil {
		files = append(files, report.WintersTable(&c.WintersAnswer))
	}
	return append(files, o.charts.of(func(co report.ChartOptions) []report.File { return report.CompareCharts(c, co) })...)
}

// print tells the answer: as JSON, in brief, or in full.
func (o *compareOptions) print(c *report.Comparison, told report.Options) error {
	switch {
	case o.json:
		return report.SummarizeCompare(c, told).Encode(o.stdout)
	case o.quiet:
		return report.CompareBrief(o.stdout, c, told)
	}
	return report.CompareScreen(o.stdout, c, told)
}
