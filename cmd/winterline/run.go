package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
)

// runOptions are the choices of `winterline run`.
type runOptions struct {
	streams
	inputOptions
	outputOptions
	charts   chartOptions
	noMargin bool
	again    string // summary.json of a run to be repeated; "" for none
	dir      string // CASE; "" for none
}

func newRunCmd(s streams) *cobra.Command {
	o := &runOptions{streams: s}
	c := &cobra.Command{
		Use:   "run [CASE]",
		Short: "Simulate a winter: verdict, report, tables and charts",
		Long: `Run simulates the winter of a case and says what became of line and basement: on the screen, and
in a folder with a page to read, print or send (report.html), charts and tables.

CASE is a folder with layout.toml, one weather file, and pump.csv (pump cycles) or
inflow.csv (water reaching the basin). Without CASE it is the current folder if that holds
layout.toml, else a built-in, invented house. Where nothing says how often the pump runs,
the winter is run with it seldom, usual and often; --fail-on then looks at the worst of
the three, and the results folder holds the usual one. --cycles says it in place of a file, as
regular runs. So does --arrives, as a flow that reaches the basin: steady, or falling by half again
and again as after a thaw.

How close it was is found by running the same winter again, colder or warmer throughout, about
ten times, and where it is little work every guess is tried at both ends of its usual range;
--no-margin leaves both out.

--again repeats the run that wrote a summary.json, with its settings, and says of every table
whether it is identical; if not, the exit code is 1. The inputs are looked for in CASE, else
beside the summary or in the folder above it; they must be the same, to the last byte. --layout,
--weather, --pump and --inflow say where one lies now. Nothing is written, unless --out names a folder
for the tables of this time.

` + exitWords + "\n" + failOnWords,
		Example: `  winterline run
  winterline run my-house --units si
  winterline run my-house --cycles "every 6 h for 45 s" --out six-hours --charts svg
  winterline run my-house --arrives "8 gal/h falling by half every 2 days down to 1 gal/h" --out thaw
  winterline run my-house --json --fail-on flood --no-margin
  winterline run --again my-house/results/summary.json`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			if o.again != "" {
				return runAgain(c.Context(), o, c.Flags().Changed)
			}
			return runRun(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c, "")
	o.outputOptions.addFailOn(c)
	o.charts.addFlags(c)
	c.Flags().BoolVar(&o.noMargin, "no-margin", false, "do not work out how much colder the winter could have been, nor which guesses decide")
	c.Flags().StringVar(&o.again, "again", "", "repeat the run that wrote the summary `FILE`, and say whether every table is identical")
	return c
}

func runRun(ctx context.Context, o *runOptions) error {
	if err := o.charts.check(); err != nil {
		return err
	}
	watch := newStages(o.timings, o.stderr)
	in, err := load(o.dir, &o.inputOptions)
	if err != nil {
		return err
	}
	folder := o.folder(in.results)
	p := production[*runs]{
		folder:   folder,
		simulate: func(ctx context.Context) (*runs, error) { return o.answered(ctx, in) },
		files:    func(r *runs) []report.File { return o.files(r, in) },
		print:    func(r *runs) error { return o.print(r, in, folder) },
	}
	r, err := p.run(ctx, watch)
	if err != nil {
		return err
	}
	return o.failed(r.all...)
}

// runs are the results of a case: one, or one for each supposed schedule of the pump.
type runs struct {
	shown        *sim.Result // the one that is written and told
	all          []*sim.Result
	alternatives []report.Alternative // where the schedule is supposed; else nil

	usual  *sim.Case // that of the one shown
	ground *sim.GroundStore
	margin *answers.Margin      // of the one shown; nil: not asked for
	shifts []answers.Shift      // that were tried for it
	sure   []answers.GuessTried // its guesses at the ends of their ranges; nil: not tried

	tables  []report.File     // of the one shown, in memory
	digests map[string]string // SHA-256 of each
}

// answered is answer with its tables made.
func (o *runOptions) answered(ctx context.Context, in *inputs) (*runs, error) {
	r, err := o.answer(ctx, in)
	if err != nil {
		return nil, err
	}
	if r.tables, err = render(ctx, report.Tables(r.shown)); err != nil {
		return nil, err
	}
	r.digests, err = report.Digests(r.tables)
	return r, err
}

// answer runs the case, finds how close it was and which guesses decide.
func (o *runOptions) answer(ctx context.Context, in *inputs) (*runs, error) {
	r, err := o.simulate(ctx, in)
	if err != nil || o.noMargin {
		return r, err
	}
	bar := newProgress(o.streams, o.quiet || o.json, 2, "how close it was")
	defer bar.clear()
	e := answers.Engine{Settings: sim.Settings{Ground: r.ground}, Progress: bar.counted(0)}
	m, shifts, err := e.MarginCurve(ctx, r.usual, sim.OutcomeOf(r.shown))
	if err != nil {
		return nil, err
	}
	r.margin, r.shifts = &m, shifts
	r.shown.Warnings = append(r.shown.Warnings, report.MarginWarnings(m)...)
	if answers.SureCheap(r.shown) {
		e.Progress = bar.counted(1)
		r.sure, err = e.Sure(ctx, in.changed(), r.shown)
	}
	return r, err
}

// simulate runs the case, or the supposed ones side by side.
func (o *runOptions) simulate(ctx context.Context, in *inputs) (*runs, error) {
	cases, supposed, err := in.cases()
	if err != nil {
		return nil, err
	}
	bar := newProgress(o.streams, o.quiet || o.json, len(cases), "simulating the winter")
	defer bar.clear()
	r := &runs{all: make([]*sim.Result, len(cases)), usual: cases[0], ground: sim.NewGroundStore()} // all have the same ground
	group, ctx := errgroup.WithContext(ctx)
	for i, k := range cases {
		group.Go(func() (err error) {
			r.all[i], err = sim.Run(ctx, k, sim.Settings{Ground: r.ground, Progress: bar.part(i)})
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
	r.shown, r.usual = r.all[sim.UsualSchedule], cases[sim.UsualSchedule]
	r.shown.Warnings = append([]sim.Warning{report.UnknownCycles(r.alternatives, sim.UsualSchedule)}, r.shown.Warnings...)
	return r, nil
}

// provenance is what a summary says about where these results came from, and how close it was.
func (r *runs) provenance(in *inputs) report.Provenance {
	p := in.provenance()
	p.Margin, p.Sure = r.margin, r.sure
	p.Settings, p.Tables = in.settings, r.digests
	return p
}

// files are those of the results folder.
func (o *runOptions) files(r *runs, in *inputs) []report.File {
	draw := func(c report.ChartOptions) []report.File {
		charts := report.Charts(r.shown, c)
		if r.margin != nil {
			charts = append(charts, report.MarginCharts(r.shown, *r.margin, r.shifts, c)...)
		}
		return charts
	}
	page := report.PageOptions{Provenance: r.provenance(in), Screen: o.told(streams{}, in, "", ""), Others: r.alternatives}
	if o.charts.format.word != "none" {
		page.Charts = draw
	}
	files := append(slices.Clone(r.tables), report.SummaryFile(r.shown, r.provenance(in)), report.PageFile(r.shown, page))
	return append(files, o.charts.of(draw)...)
}

// print tells the result: as JSON, in brief, or in full.
func (o *runOptions) print(r *runs, in *inputs, folder string) error {
	if o.json {
		return report.Summarize(r.shown, r.provenance(in)).Encode(o.stdout)
	}
	told := o.told(o.streams, in, folder, in.afterRun(r.shown))
	if len(r.alternatives) > 0 {
		if err := report.Alternatives(o.stdout, r.alternatives, told); err != nil {
			return err
		}
	}
	if o.quiet {
		return report.Brief(o.stdout, r.shown, told)
	}
	told.Findings, told.Margin, told.Sure = r.provenance(in).Findings, r.margin, r.sure
	told.SureLeft = r.margin != nil && r.sure == nil && len(r.shown.Layout.Guesses) > 0
	return report.Screen(o.stdout, r.shown, told)
}

// afterRun is the command to type after run: where something went wrong, the one that tells why.
func (in *inputs) afterRun(r *sim.Result) string {
	if r.Verdict.FirstIce != nil || r.Verdict.State >= sim.Spilled {
		return in.next("why", "what brought it about, and which change would have prevented it")
	}
	return in.next("check", "guesses, and what the trade would do otherwise")
}

// told is what the screen says of a case beside its result.
func (o *outputOptions) told(s streams, in *inputs, folder, next string) report.Options {
	return report.Options{
		System: o.system(), Window: s.window, Case: in.spoken(), Weather: in.weatherFile, Bridged: in.series.Bridged(),
		Results: folder, Next: next,
	}
}
