package sim

import (
	"context"
	"math"
)

// Until says how far a winter is followed: to the end of its record, or until all that is named here has happened.
type Until struct {
	Shut bool // the line has frozen shut
	Wet  bool // water was let go beside the house, reached the floor, or was refused where no basin says where it stays
}

// Outcome is what is known of a winter that was followed only as far as was asked. Times are seconds since the first
// weather row; nil: not up to End.
type Outcome struct {
	Shut    *float64
	Wet     *float64
	MostIce float64 // largest ice share of a segment's standing water [-]
	End     float64 // where it was left
	Whole   bool    // that is the end of the record
}

// reached says whether an outcome is all that was asked for.
func (u Until) reached(o *Outcome) bool {
	return (u.Shut || u.Wet) && (!u.Shut || o.Shut != nil) && (!u.Wet || o.Wet != nil)
}

// RunUntil simulates the case as Run does, without the second simulation, and leaves it at the weather row by which
// all that it is followed for has happened. The books must close up to there.
func RunUntil(ctx context.Context, k *Case, s Settings, until Until) (*Outcome, error) {
	ground, err := undisturbed(ctx, k, s)
	if err != nil {
		return nil, err
	}
	w, err := newWinter(k, s, ground)
	if err != nil {
		return nil, err
	}
	w.record.row(0)
	rows := w.sky.time
	t, row := 0.0, 0
	for ; row+1 < len(rows); row++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if until.reached(w.outcome()) {
			break
		}
		if t, err = w.advance(row, t); err != nil {
			return nil, err
		}
		w.record.row(row + 1)
	}
	o := w.outcome()
	o.End, o.Whole = rows[row], row+1 == len(rows)
	return o, w.balance()
}

// OutcomeOf is what RunUntil finds of the whole record, read off a result.
func OutcomeOf(r *Result) *Outcome {
	o := &Outcome{Shut: r.Verdict.Closed, Wet: firstOf(r.Verdict.Spill, r.Verdict.Floor), End: r.Hourly.Time[len(r.Hourly.Time)-1], Whole: true}
	for _, s := range r.Segments {
		o.MostIce = math.Max(o.MostIce, s.LargestIce)
	}
	if r.Layout.Basin != nil {
		return o
	}
	for _, c := range r.Cycles {
		if c.Refused > refusedLeast {
			o.Wet = firstOf(o.Wet, at(c.Time))
		}
	}
	return o
}

// refusedLeast is the water refused in a cycle that counts [m³]: a millilitre.
const refusedLeast = 1e-6

// outcome is what is known of the winter so far.
func (w *winter) outcome() *Outcome {
	v := &w.record.verdict
	o := &Outcome{Shut: v.Closed, Wet: firstOf(v.Spill, v.Floor)}
	for i := range w.record.segments {
		o.MostIce = math.Max(o.MostIce, w.record.segments[i].result.LargestIce)
	}
	if w.record.refusedAny && w.basin == nil {
		for _, c := range w.record.cycles {
			if c.Refused > refusedLeast {
				o.Wet = firstOf(o.Wet, at(c.Time))
				break
			}
		}
	}
	return o
}

// firstOf is the earlier of two times that may not have come.
func firstOf(a, b *float64) *float64 {
	if a == nil || b != nil && *b < *a {
		return b
	}
	return a
}
