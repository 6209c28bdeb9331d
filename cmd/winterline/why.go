package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
)

// whyOptions are the choices of `winterline why`.
type whyOptions struct {
	streams
	inputOptions
	outputOptions
	dir string // CASE; "" for none
	all bool
}

// whyEnding follows the name of run's folder in that of this command.
const whyEnding = "-why"

func newWhyCmd(s streams) *cobra.Command {
	o := &whyOptions{streams: s}
	c := &cobra.Command{
		Use:   "why [CASE]",
		Short: "Why it froze, and which change would have prevented it",
		Long: `Why sets what you saw beside the simulated winter, tells what brought about each time that the
line froze shut, and runs the same winter again with single changes to the line: foam, more
soil, more fall, no sag, other openings, another outlet, and so on. They are ranked by what
they prevent; what does nothing is said to do nothing, and what the ground does not allow is
named. Where no single one is enough, two together are tried. Where nothing froze, it says
what else to look at. The results folder has a page, report.html, that holds all of it, to read,
print or send.

What you saw goes into layout.toml, one table for each thing:
  [[seen]]
  time = "2026-01-19 07:30"
  what = "shut"              (or relief, wet-floor, open)

Every guess is tried at both ends of its usual range; those that change the verdict, and those
that would bring the simulation nearer to what you saw, are named with what to measure.

` + exitWords,
		Example: `  winterline why my-house
  winterline why my-house --all --units si
  winterline why my-house --json`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runWhy(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c, whyEnding)
	c.Flags().BoolVar(&o.all, "all", false, "every closing of the line and every change in full")
	return c
}

func runWhy(ctx context.Context, o *whyOptions) error {
	watch := newStages(o.timings, o.stderr)
	in, err := load(o.dir, &o.inputOptions)
	if err != nil {
		return err
	}
	folder := o.folder(in.results + whyEnding)
	p := production[*report.WhyAnswer]{
		folder:   folder,
		simulate: func(ctx context.Context) (*report.WhyAnswer, error) { return o.simulate(ctx, in) },
		files:    func(a *report.WhyAnswer) []report.File { return o.files(a, in) },
		print:    func(a *report.WhyAnswer) error { return o.print(a, in, folder) },
	}
	_, err = p.run(ctx, watch)
	return err
}

func (o *whyOptions) simulate(ctx context.Context, in *inputs) (*report.WhyAnswer, error) {
	_, supposed, err := in.usual()
	if err != nil {
		return nil, err
	}
	bar := newProgress(o.streams, o.quiet || o.json, 1, "trying changes")
	defer bar.clear()
	e := &answers.Engine{Progress: bar.counted(0)}
	w, err := e.Why(ctx, in.changed())
	if err != nil {
		return nil, err
	}
	if supposed != nil {
		w.Result.Warnings = append([]sim.Warning{report.SupposedCycles(*supposed)}, w.Result.Warnings...)
	}
	if m := w.Remedies.Base.Margin; m != nil {
		w.Result.Warnings = append(w.Result.Warnings, report.MarginWarnings(*m)...)
	}
	return &report.WhyAnswer{Why: w}, nil
}

// files are those of the results folder. The page has its charts drawn into it, and the folder none beside it: those are run's.
func (o *whyOptions) files(a *report.WhyAnswer, in *inputs) []report.File {
	p := in.provenance()
	m := a.Remedies.Base.Margin
	page := report.PageOptions{Provenance: p, Screen: o.told(streams{}, in, "", ""), Why: a}
	page.Margin, page.Sure = m, a.Sure
	page.Charts = func(c report.ChartOptions) []report.File {
		charts := report.Charts(a.Result, c)
		if m != nil {
			charts = append(charts, report.MarginCharts(a.Result, *m, a.Remedies.Shifts, c)...)
		}
		return charts
	}
	return []report.File{report.WhySummaryFile(a, p), report.RemediesTable(a), report.EventsTable(a.Result), report.PageFile(a.Result, page)}
}

// print tells the answer: as JSON, in brief, or in full.
func (o *whyOptions) print(a *report.WhyAnswer, in *inputs, folder string) error {
	told := o.told(o.streams, in, folder, in.next("run", "the whole winter, with charts"))
	switch {
	case o.json:
		return report.SummarizeWhy(a, in.provenance()).Encode(o.stdout)
	case o.quiet:
		return report.WhyBrief(o.stdout, a, told)
	}
	return report.WhyScreen(o.stdout, a, told, o.all)
}
