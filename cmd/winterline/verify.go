package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"winterline/sim/verify"
)

// verifyOptions are the choices of `winterline verify`.
type verifyOptions struct {
	streams
	all, convergence, json, quiet bool
	html                          string // file to write; "" for none
}

func newVerifyCmd(s streams) *cobra.Command {
	o := &verifyOptions{streams: s}
	c := &cobra.Command{
		Use:   "verify",
		Short: "Compute the published checks afresh: expected, computed, error, source",
		Long: `Verify computes every published or independently computed value that the program is
checked against, and prints what was expected, what came out, the error, the limit and the
source. It exits with 1 if any misses.

A run cuts pipe, water and ground into thin layers (nodes) and time into steps. With
--convergence verify computes a reference line (RL), a buried length of pipe, ground columns
(GC) and a house instead, as every run does by default and more finely: with twice the nodes,
and with half and a quarter of the error that a step may make (tolerance). It prints how far
each figure lies off the finest, and exits with 1 if one lies farther off than people need to
know it: half an hour or 1 % of when a line freezes, shuts or opens, 1 cm (0.4 in) or 2 % of frost
depth.

--html writes all of it to a new file, one page that needs no other: every check with what was
given, the convergence study, measured ground beside computed, and the known limits of the
model. It prints what missed, and exits as the two would; the page is written either way.`,
		Example: `  winterline verify
  winterline verify --all
  winterline verify --quiet
  winterline verify --json
  winterline verify --convergence
  winterline verify --html evidence.html`,
		Args: arguments(0, 0, "none"),
		RunE: func(c *cobra.Command, _ []string) error {
			if o.html != "" {
				return runEvidence(c.Context(), o)
			}
			if o.convergence {
				return runConvergence(c.Context(), o, verify.DefaultFineness)
			}
			return runVerify(c.Context(), o)
		},
	}
	c.Flags().BoolVar(&o.all, "all", false, "print every row, not only the worst of each check")
	c.Flags().BoolVar(&o.json, "json", false, "print every row as JSON and nothing else")
	c.Flags().BoolVar(&o.quiet, "quiet", false, "print what missed and how many did, and no progress")
	c.Flags().BoolVar(&o.convergence, "convergence", false, "how far results move with finer nodes and steps, instead of the checks")
	c.Flags().StringVar(&o.html, "html", "", "write checks, convergence and known limits to `FILE`, as one page")
	return c
}

func runVerify(ctx context.Context, o *verifyOptions) error {
	bar := newProgress(o.streams, o.quiet || o.json, 1, "computing the checks")
	defer bar.clear()
	outcomes := verify.Run(ctx, bar.counted(0))
	bar.clear()
	if err := ctx.Err(); err != nil {
		return err
	}
	write := func() error { return verify.WriteTable(o.stdout, outcomes, o.all) }
	switch {
	case o.json:
		write = func() error { return verify.WriteJSON(o.stdout, outcomes) }
	case o.quiet:
		write = func() error { return verify.WriteMissed(o.stdout, outcomes) }
	}
	if err := write(); err != nil {
		return err
	}
	return missedChecks(outcomes)
}

// missedChecks is the error of checks of which some missed.
func missedChecks(outcomes []verify.Outcome) error {
	if !verify.Passed(outcomes) {
		return errors.New("some checks missed their limit")
	}
	return nil
}

// runConvergence judges a fineness by the cases of the study, or by those named.
func runConvergence(ctx context.Context, o *verifyOptions, judged verify.Fineness, only ...string) error {
	bar := newProgress(o.streams, o.quiet || o.json, 1, "computing with finer nodes and steps")
	defer bar.clear()
	rows := verify.Converge(ctx, judged, bar.counted(0), only...)
	bar.clear()
	if err := ctx.Err(); err != nil {
		return err
	}
	write := func() error { return verify.WriteConvergence(o.stdout, rows, o.all) }
	switch {
	case o.json:
		write = func() error { return verify.WriteConvergenceJSON(o.stdout, rows) }
	case o.quiet:
		write = func() error { return verify.WriteConvergenceMissed(o.stdout, rows) }
	}
	if err := write(); err != nil {
		return err
	}
	return missedFigures(rows)
}

// missedFigures is the error of a study in which some figures missed.
func missedFigures(rows []verify.ConvergenceRow) error {
	if !verify.Converged(rows) {
		return errors.New("some figures move by more than their limit")
	}
	return nil
}
