package answers

import (
	"context"

	"winterline/sim"
)

// What the tests need beside.

// marginOf finds the margins of a winter that is run by a function.
func (e *Engine) marginOf(ctx context.Context, run shiftedRun, base *sim.Outcome) (Margin, error) {
	return (&shifts{e: e, run: run}).margins(ctx, base)
}

// Remedies simulates a case, then each single change over the whole record, and ranks them by what they prevent and
// the margin that they buy.
func (e *Engine) Remedies(ctx context.Context, s Source) (*Remedies, error) {
	e = e.forRemedies()
	base, err := s.Case()
	if err != nil {
		return nil, err
	}
	result, err := e.run(ctx, base)
	if err != nil {
		return nil, err
	}
	return e.remedies(ctx, s, base, result, 0)
}

var barWords = []string{"", "levels", "outlet-below-ground", "no-fall", "no-riser", "runs-under-10-s", "over-20-starts-an-hour", "no-snow-record", "no-basin"}

// String gives the stable word of a bar.
func (b Bar) String() string { return barWords[b] }
