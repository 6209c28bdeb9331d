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
	all bool
}

func newVerifyCmd(s streams) *cobra.Command {
	o := &verifyOptions{streams: s}
	c := &cobra.Command{
		Use:   "verify",
		Short: "Compute the published checks afresh: expected, computed, error, source",
		Long: `Verify computes every published or independently computed value that the program is
checked against, and prints what was expected, what came out, the error, the limit and the
source. It exits with 1 if any misses.`,
		Example: `  winterline verify
  winterline verify --all`,
		Args: arguments(0, 0, "none"),
		RunE: func(c *cobra.Command, _ []string) error { return runVerify(c.Context(), o) },
	}
	c.Flags().BoolVar(&o.all, "all", false, "print every row, not only the worst of each check")
	return c
}

func runVerify(ctx context.Context, o *verifyOptions) error {
	outcomes := verify.Run(ctx)
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := verify.WriteTable(o.stdout, outcomes, o.all); err != nil {
		return err
	}
	if !verify.Passed(outcomes) {
		return errors.New("some checks missed their limit")
	}
	return nil
}
