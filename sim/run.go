package sim

import "context"

// Run simulates the case. A line that froze is a result; an error means that the run
// cannot be believed (a step that does not converge, a book that does not close) or was
// cancelled. Where water got cold enough to freeze, a copy of the winter goes on beside it from there, with
// water that supercools to −4 °C, for the time at which dendritic ice would shut the line.
func Run(ctx context.Context, k *Case, s Settings) (*Result, error) {
	w, err := ready(ctx, k, s)
	if err != nil {
		return nil, err
	}
	if s.Nucleation < 0 || s.WithoutDendritic {
		return w.simulate(ctx, nil)
	}
	beside, stop := context.WithCancel(ctx)
	defer stop()
	liquid := &fork{} // the winter before any of its water came near freezing
	res, err := w.simulate(beside, liquid)
	switch {
	case err != nil:
		stop()
	case res.Verdict.FirstIce != nil && liquid.going == nil:
		liquid.goOn(beside)
	}
	d := liquid.answer()
	switch {
	case err != nil:
		return nil, err
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case d.err != nil: // the answer itself stands
		res.Warnings = append(res.Warnings, Warning{"no-dendritic-time", "When the line would shut if its water supercooled first could not be worked out."})
	}
	res.Verdict.ClosedDendritic = d.closed
	return res, nil
}

// ready is a winter at its first row, over ground that has gone through the record.
func ready(ctx context.Context, k *Case, s Settings) (*winter, error) {
	ground, err := undisturbed(ctx, k, s)
	if err != nil {
		return nil, err
	}
	return newWinter(k, s, ground)
}

// simulate marches through the record, row by row, and sums up. Where keep is not nil it is shown
// every row, for a fork.
func (w *winter) simulate(ctx context.Context, keep *fork) (*Result, error) {
	w.record.row(0)
	return w.simulateFrom(ctx, 0, 0, keep)
}

// simulateFrom is simulate from a row on, which has been recorded; t is when the winter has come there [s].
func (w *winter) simulateFrom(ctx context.Context, row int, t float64, keep *fork) (*Result, error) {
	rows := w.sky.time
	for i := row; i+1 < len(rows); i++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if keep != nil {
			keep.follow(ctx, w, i, t)
		}
		var err error
		if t, err = w.advance(i, t); err != nil {
			return nil, err
		}
		w.record.row(i + 1)
		if w.s.Progress != nil && i%24 == 0 {
			w.s.Progress(rows[i+1] / rows[len(rows)-1])
		}
	}
	return w.finish()
}

// advance marches from t, at a weather row, to the next row, from event to event: the next pump cycle or
// the row. Between them cells are independent; water moves only there. It returns when it is done [s].
func (w *winter) advance(row int, t float64) (float64, error) {
	w.sky.row = row
	end := w.sky.time[row+1]
	t, err := w.pour(row, t, end)
	if err != nil {
		return t, err
	}
	for t < end {
		at, run := w.upTo(t, end)
		if t, err = w.drainDown(t, at); err != nil {
			return t, err
		}
		if err := w.march(t, at, !run); err != nil {
			return t, err
		}
		t = at
		if run {
			if t, err = w.cycle(t, end); err != nil {
				return t, err
			}
		}
	}
	return t, w.settle(t)
}

// march takes all cells through still water from t to at; calm: no water runs then.
func (w *winter) march(t, at float64, calm bool) error {
	if at-t <= 1e-6 {
		return nil
	}
	w.breathe(t)
	for _, c := range w.line.cells {
		if calm && c.mayIdle(w.step, t, at) {
			c.letLie(t, at)
			continue
		}
		if err := c.march(w.step, w.sky, t, at); err != nil {
			return w.blame(c, err)
		}
	}
	w.record.interval(t, at)
	w.draught.book(at - t)
	return nil
}
