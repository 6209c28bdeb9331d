package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"winterline/report"
	"winterline/sim/verify"
)

// runEvidence computes checks and study and writes the page on them, whether they missed or not.
func runEvidence(ctx context.Context, o *verifyOptions) error {
	if o.all || o.convergence || o.json {
		return usage("found --html beside --all, --convergence or --json; expected it without them: the page holds every row and the study")
	}
	if problems := refuseNew(o.html); len(problems) > 0 {
		return &inputError{problems: problems}
	}
	measured, err := verify.Measured()
	if err != nil {
		return err
	}
	bar := newProgress(o.streams, o.quiet, 2, "computing the checks, and cases with finer nodes and steps")
	defer bar.clear()
	e := report.Evidence{Measured: measured, Version: version}
	e.Checks = verify.Run(ctx, bar.counted(0))
	e.Study = verify.Converge(ctx, verify.DefaultFineness, bar.counted(1))
	bar.clear()
	if err := ctx.Err(); err != nil {
		return err
	}
	return writeEvidence(o, e)
}

// writeEvidence writes the page, and tells what missed and where the page is.
func writeEvidence(o *verifyOptions, e report.Evidence) error {
	if err := writeNew(o.html, report.EvidenceFile(filepath.Base(o.html), e).Write); err != nil {
		return err
	}
	if err := errors.Join(verify.WriteMissed(o.stdout, e.Checks), verify.WriteConvergenceMissed(o.stdout, e.Study)); err != nil {
		return err
	}
	if !o.quiet {
		if _, err := fmt.Fprintf(o.stdout, "\n%s is written.\n", o.html); err != nil {
			return err
		}
	}
	return errors.Join(missedChecks(e.Checks), missedFigures(e.Study))
}
