package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
)

// sizeOptions are the choices of `winterline size`.
type sizeOptions struct {
	streams
	inputOptions
	outputOptions
	charts   chartOptions
	dir      string // CASE; "" for none
	vary     []string
	segments []string
	keep     choice
	margin   string
	from, to string
}

// sizeEnding follows the name of run's folder in that of this command.
const sizeEnding = "-size"

func newSizeCmd(s streams) *cobra.Command {
	o := &sizeOptions{streams: s}
	c := &cobra.Command{
		Use:   "size [CASE] --vary insulation|cover|slope|relief|pocket",
		Short: "The least foam, soil, fall, relief height or rock pit that does it",
		Long: `Size runs the winter of a case again and again with other values of one quantity, and gives
the least that keeps the line open (--keep open) or keeps water off the floor and away from
the wall (--keep dry), with the curve of how close each value is.

--vary insulation   foam added round a segment            0 to 4 in (100 mm), by 1 mm
--vary cover        soil on top of the pipe, line deeper  4 in to 5 ft (10 cm to 1.5 m), by 1 cm
--vary slope        fall of a buried run                  0 to 4 %, by 0.05 %
--vary relief       height of the relief openings         2 to 22 in (5 to 55 cm), by 5 mm
--vary pocket       volume of the rock pit                2 to 233 ft3 (0.05 to 6.6 m3), by 5 %

--segment names the segment to vary; without it that is the one that froze shut. --margin asks
for a winter that much colder. Values that the ground, the levels or the house do not allow
are left out, and the reason is told. With two quantities, --vary slope,cover, the least of
the second is found beside values of the first; --segment then takes two names, too.

` + exitWords,
		Example: `  winterline size my-house --vary insulation --segment "yard run" --margin "3 K"
  winterline size my-house --vary relief --keep dry --units si
  winterline size my-house --vary cover --from "8 in" --to "20 in" --quiet
  winterline size my-house --vary slope,cover --json`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runSize(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c, sizeEnding)
	o.charts.addFlags(c)
	f := c.Flags()
	f.StringSliceVar(&o.vary, "vary", nil, "`QUANTITY` to vary, one or two of "+strings.Join(answers.QuantityWords(), ", "))
	f.StringSliceVar(&o.segments, "segment", nil, "`NAME` of the segment to vary (default the one that froze shut)")
	o.keep.add(c, "keep", "open", "what is to be kept",
		cobra.CompletionWithDesc("open", "the line never freezes shut"), cobra.CompletionWithDesc("dry", "no water on the floor or beside the house"))
	f.StringVar(&o.margin, "margin", "0 K", "`DIFFERENCE` by which a winter may be colder and do no harm: \"3 K\", \"5 degF\"")
	f.StringVar(&o.from, "from", "", "least `VALUE` to try, such as \"10 in\" (of one quantity alone)")
	f.StringVar(&o.to, "to", "", "largest `VALUE` to try")
	// The flag is there: it was added above.
	_ = c.RegisterFlagCompletionFunc("vary", cobra.FixedCompletions([]cobra.Completion{
		cobra.CompletionWithDesc("insulation", "foam added round a segment"), cobra.CompletionWithDesc("cover", "soil on top of the pipe"),
		cobra.CompletionWithDesc("slope", "fall of a buried run"), cobra.CompletionWithDesc("relief", "height of the relief openings"),
		cobra.CompletionWithDesc("pocket", "volume of the rock pit"),
	}, cobra.ShellCompDirectiveNoFileComp))
	return c
}

func runSize(ctx context.Context, o *sizeOptions) error {
	if err := o.charts.check(); err != nil {
		return err
	}
	keep, err := o.keeping()
	if err != nil {
		return err
	}
	vary, err := o.varied()
	if err != nil {
		return err
	}
	watch := newStages(o.timings, o.stderr)
	in, err := load(o.dir, &o.inputOptions)
	if err != nil {
		return err
	}
	if err := o.name(vary, in); err != nil {
		return err
	}
	folder := o.folder(in.results + sizeEnding)
	p := production[*report.SizeAnswer]{
		folder:   folder,
		simulate: func(ctx context.Context) (*report.SizeAnswer, error) { return o.simulate(ctx, in, vary, keep) },
		files:    func(a *report.SizeAnswer) []report.File { return o.files(a, in) },
		print:    func(a *report.SizeAnswer) error { return o.print(a, in, folder) },
	}
	_, err = p.run(ctx, watch)
	return err
}

func (o *sizeOptions) simulate(ctx context.Context, in *inputs, vary []answers.Vary, keep answers.Keep) (*report.SizeAnswer, error) {
	usual, supposed, err := in.usual()
	if err != nil {
		return nil, err
	}
	a := &report.SizeAnswer{Name: in.name, Invented: in.demo, Weather: in.series}
	if supposed != nil {
		a.Warnings = []sim.Warning{report.SupposedCycles(*supposed)}
	}
	a.Layout, a.Warnings = usual.Layout, append(a.Warnings, usual.Warnings()...)
	bar := newProgress(o.streams, o.quiet || o.json, 1, "trying values")
	defer bar.clear()
	e := &answers.Engine{Progress: bar.counted(0)}
	source := in.changed()
	if len(vary) == 1 {
		a.Sized, err = e.Size(ctx, source, vary[0], keep)
	} else {
		a.Two, err = e.SizeTwo(ctx, source, vary[0], vary[1], keep)
	}
	if as[*answers.CannotVary](err) {
		err = usage("--vary: %w", err)
	}
	return a, err
}

// files are those of the results folder.
func (o *sizeOptions) files(a *report.SizeAnswer, in *inputs) []report.File {
	files := []report.File{report.SizeSummaryFile(a, in.provenance())}
	return append(files, o.charts.of(func(c report.ChartOptions) []report.File { return report.SizeCharts(a, c) })...)
}

// print tells the answer: as JSON, in brief, or in full.
func (o *sizeOptions) print(a *report.SizeAnswer, in *inputs, folder string) error {
	told := o.told(o.streams, in, folder, in.next("run", "the winter as it is"))
	switch {
	case o.json:
		return report.SummarizeSize(a, in.provenance()).Encode(o.stdout)
	case o.quiet:
		return report.SizeBrief(o.stdout, a, told)
	}
	return report.SizeScreen(o.stdout, a, told)
}
