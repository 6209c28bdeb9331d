package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim/answers"
)

// wintersOptions are the choices of `winterline winters`.
type wintersOptions struct {
	streams
	inputOptions
	outputOptions
	charts   chartOptions
	args     []string // CASE, or with --merge the files of shares
	part     string   // share of the work, "3/20"; "" for all of it
	merge    bool
	noMargin bool
	draws    int
	seed     uint64
}

func newWintersCmd(s streams) *cobra.Command {
	o := &wintersOptions{streams: s}
	c := &cobra.Command{
		Use:   "winters [CASE]",
		Short: "Every winter of a long record: how often the line freezes shut, and how bad",
		Long: `Winters simulates a case in every winter, July to June, of a long weather record, and tells in how
many of them the line froze shut, water came out beside the house and the floor got wet, with
a line for every winter: its cold, what became of line and water, and how many degrees colder it
could have been until the line shut and until water came out. --no-margin leaves these degrees out.

CASE is a folder as for run; --weather names a record of many years, a file or a folder of files.
Winters that the record does not have whole from November to March are left out, and named. Gaps
of more than 6 h take the record apart. The frost in the ground goes on from winter to winter, through
the whole record. A line is simulated from 30 days before the first frost, 1 October at the latest, to 30
days after the last, 30 April at the earliest. How often the pump runs must hold in every winter: a plan
in the layout, --cycles or --arrives; a log of pump or inflow counts for the winters that it covers.

--draws 50 simulates every winter 50 times more, with other values for what nobody knows well: soil
moisture, wind at the pipe, water temperature, how far still water cools below freezing, how much slush
shuts a pipe, how fast the soil around the rock pit takes up water, over what ground let-go water spreads. What
the layout writes is not drawn. It tells how likely the line is to freeze shut, as "about 12 in 100
winters (7 to 19)", where a count of winters alone would say yes or no. --seed draws others.

--part 3/20 does one share of the work and prints it as JSON; --merge joins the files of all shares,
from one machine or many, into the answer that one run would have given, to the last bit.

` + exitWords,
		Example: `  winterline winters my-house --weather many-years.csv --cycles "every 6 h for 45 s"
  winterline winters my-house --weather many-years.csv --cycles "every 6 h for 45 s" --no-margin --json
  winterline winters my-house --weather many-years.csv --cycles "every 6 h for 45 s" --no-margin --draws 4 --seed 7
  winterline winters my-house --weather many-years.csv --cycles "every 6 h for 45 s" --part 1/20`,
		Args: func(c *cobra.Command, args []string) error {
			if o.merge {
				return arguments(1, mostShares, "the files of all shares")(c, args)
			}
			return arguments(0, 1, "at most one CASE folder; --merge joins shares")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error {
			o.args = args
			return runWinters(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.outputOptions.addFlags(c, wintersEnding)
	o.charts.addFlags(c)
	f := c.Flags()
	f.BoolVar(&o.noMargin, "no-margin", false, "leave out how many degrees colder each winter could have been: about a tenth of the work is left")
	f.IntVar(&o.draws, "draws", 0, "simulate every winter so many `TIMES` more, with what nobody knows well drawn at random (a Latin hypercube)")
	f.Uint64Var(&o.seed, "seed", 1, "`NUMBER` from which draws and intervals are drawn at random: the same one gives the same; --merge takes that of the shares")
	f.StringVar(&o.part, "part", "", "do one `SHARE` of the work, such as 3/20, and print it as JSON for --merge")
	f.BoolVar(&o.merge, "merge", false, "join the files of shares, named in place of CASE; takes no other input")
	return c
}

// wintersEnding follows the name of run's folder in that of this command.
const wintersEnding = "-winters"

func runWinters(ctx context.Context, o *wintersOptions) error {
	if err := o.checkShares(); err != nil {
		return err
	}
	if err := o.charts.check(); err != nil {
		return err
	}
	if o.merge {
		return o.join(ctx)
	}
	watch := newStages(o.timings, o.stderr)
	in, err := loadParts(strings.Join(o.args, ""), &o.inputOptions, (*loader).readLayout, (*loader).readSpans, (*loader).readSupply)
	if err != nil {
		return err
	}
	if o.part != "" {
		return o.share(ctx, in)
	}
	told := report.Options{
		System: o.system(), Window: o.window, Case: in.spoken(), Weather: in.weatherFile, Results: o.folder(in.results + wintersEnding),
		Next: in.next("run", "one winter from day to day"),
	}
	return o.produce(ctx, watch, told, func(ctx context.Context) (*answers.WintersAnswer, error) {
		bar := newProgress(o.streams, o.quiet || o.json, 1, "simulating the winters")
		defer bar.clear()
		a, err := (&answers.Engine{Progress: bar.counted(0)}).Winters(ctx, o.question(in))
		return a, in.wintersError(err)
	})
}

// produce goes from an answer to files and screen.
func (o *wintersOptions) produce(ctx context.Context, watch *stages, told report.Options, answer func(context.Context) (*answers.WintersAnswer, error)) error {
	p := production[*answers.WintersAnswer]{
		folder:   told.Results,
		simulate: answer,
		files: func(a *answers.WintersAnswer) []report.File {
			files := []report.File{report.WintersTable(a), report.WintersSummaryFile(a)}
			return append(files, o.charts.of(func(c report.ChartOptions) []report.File { return report.WintersCharts(a, c) })...)
		},
		print: func(a *answers.WintersAnswer) error {
			switch {
			case o.json:
				return report.SummarizeWinters(a).Encode(o.stdout)
			case o.quiet:
				return report.WintersBrief(o.stdout, a, told)
			}
			return report.WintersScreen(o.stdout, a, told)
		},
	}
	_, err := p.run(ctx, watch)
	return err
}

// question is what the case asks of its weather.
func (o *wintersOptions) question(in *inputs) *answers.WintersQuestion {
	return &answers.WintersQuestion{Layouts: []answers.Source{in.changed()}, Spans: in.spans, Margins: !o.noMargin, Draws: o.draws, Seed: o.seed, Version: version, Inputs: in.sums}
}

// wintersError tells a record that does not do for many winters as a fault of its file.
func (in *inputs) wintersError(err error) error {
	var wrong *answers.RecordError
	if !errors.As(err, &wrong) {
		return err
	}
	if in.demo {
		return usage("found the demonstration, one invented winter; expected a CASE of your own, and --weather FILE of many years")
	}
	where := in.weatherFile
	if wrong.About == answers.AboutWater {
		where = in.layoutOrLog()
	}
	return problem(where, wrong.Found, fmt.Sprintf("%s (%s)", wrong.Expected, map[string]string{
		answers.AboutWeather: "--weather FILE", answers.AboutWater: "--cycles or --arrives",
	}[wrong.About]))
}

// layoutOrLog names the file that says how much water comes.
func (in *inputs) layoutOrLog() string {
	if len(in.supply.Cycles) > 0 || in.supply.Given || len(in.supply.Inflow) > 0 {
		return in.names[len(in.names)-1] // it is read last
	}
	return in.source.File
}
