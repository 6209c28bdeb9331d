package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe"
	"winterline/report"
)

// checkOptions are the choices of `winterline check`.
type checkOptions struct {
	streams
	inputOptions
	outputOptions        // of which --units, --json and --quiet are offered
	dir           string // CASE; "" for none
}

func newCheckCmd(s streams) *cobra.Command {
	o := &checkOptions{streams: s}
	c := &cobra.Command{
		Use:   "check [CASE]",
		Short: "Every input error at once, then the guesses, then what the trade would do otherwise",
		Long: `Check reads the files of a case without simulating anything. It tells every error of
all files at once, then the guesses: inputs that nobody measured, the usual value in their
place and the range in which the true one lies; then what the trade would do otherwise.
Guesses and findings are told whenever the layout itself can be read.

` + exitWords,
		Example: `  winterline check my-house
  winterline check my-house --units si
  winterline check my-house --arrives "2 gal/h"
  winterline check my-house --quiet
  winterline check my-house --json`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runCheck(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.addUnits(c)
	f := c.Flags()
	f.BoolVar(&o.json, "json", false, "print errors, guesses and findings as JSON and nothing else")
	f.BoolVar(&o.quiet, "quiet", false, "print how many there are of each, and the errors")
	return c
}

func runCheck(_ context.Context, o *checkOptions) error {
	in, wrong := load(o.dir, &o.inputOptions)
	readable := in != nil && in.layout != nil && in.profile != nil
	if in == nil || !readable && !o.json {
		return wrong
	}
	checked := report.Checked{Name: in.name, Invented: in.demo, Files: in.names}
	if readable {
		checked.Guesses, checked.Findings = in.layout.Guesses, pipe.Practice(in.layout, in.profile)
	}
	if wrong != nil {
		var faults *inputError
		if errors.As(wrong, &faults) {
			checked.Problems, checked.Advice = faults.problems, faults.advice
		}
	} else {
		usual, _, err := in.usual()
		if err != nil {
			return err
		}
		checked.Guesses = usual.Layout.Guesses // with those that only weather and pump runs decide
	}
	return cmp.Or(o.print(&checked, wrong, in), wrong)
}

// print tells what was found, errors first and on standard error; execute does not print them again.
func (o *checkOptions) print(c *report.Checked, wrong error, in *inputs) error {
	if o.json {
		return report.SummarizeCheck(c, report.Provenance{Version: version, Inputs: in.sums}).Encode(o.stdout)
	}
	told := report.Options{System: o.system(), Window: o.window}
	if wrong == nil {
		told.Next = in.next("run", "the winter of this case")
	} else {
		fmt.Fprintf(o.stderr, "%v\n\n", wrong)
		wrong = &toldError{wrong}
	}
	if o.quiet {
		return cmp.Or(report.CheckBrief(o.stdout, c, told), wrong)
	}
	return cmp.Or(report.CheckScreen(o.stdout, c, told), wrong)
}
