package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe"
	"winterline/report"
	"winterline/sim"
)

// checkOptions are the choices of `winterline check`.
type checkOptions struct {
	streams
	inputOptions
	units outputOptions // of which only --units is offered
	dir   string        // CASE; "" for none
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
  winterline check my-house --arrives "2 gal/h"`,
		Args: arguments(0, 1, "at most one CASE folder"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = strings.Join(args, "")
			return runCheck(c.Context(), o)
		},
	}
	o.inputOptions.addFlags(c)
	o.units.addUnits(c)
	return c
}

func runCheck(_ context.Context, o *checkOptions) error {
	in, wrong := load(o.dir, &o.inputOptions)
	if in == nil || in.layout == nil || in.profile == nil {
		return wrong
	}
	if in.demo {
		fmt.Fprintln(o.stdout, "The built-in demonstration, an invented house.")
	}
	guesses := in.layout.Guesses
	if wrong != nil {
		fmt.Fprintf(o.stderr, "%v\n\n", wrong) // before the guesses, not after them
		wrong = &toldError{wrong}
	} else {
		var err error
		if guesses, err = in.guesses(); err != nil {
			return err
		}
		fmt.Fprintf(o.stdout, "No errors in %s.\n\n", strings.Join(in.names, ", "))
	}
	if err := report.Guesses(o.stdout, guesses, o.units.system()); err != nil {
		return err
	}
	fmt.Fprintln(o.stdout)
	if err := report.Findings(o.stdout, pipe.Practice(in.layout, in.profile)); err != nil {
		return err
	}
	return wrong
}

// guesses are those that a run would list: the layout's, and those that only weather and
// pump cycles decide.
func (in *inputs) guesses() ([]pipe.Guess, error) {
	cases, supposed, err := in.cases()
	switch {
	case err != nil:
		return nil, err
	case supposed != nil:
		return cases[sim.UsualSchedule].Layout.Guesses, nil
	}
	return cases[0].Layout.Guesses, nil
}
