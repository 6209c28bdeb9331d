package sim

import (
	"context"
	"slices"

	"winterline/pipe"
)

// Until says how far a winter is followed: to the end of its record, or until all that is named here has happened.
type Until struct {
	Shut bool // the line has frozen shut
	Wet  bool // water was let go beside the house, reached the floor, or was refused where no basin says where it stays
}

// Outcome is what is known of a winter that was followed only as far as was asked. Times are seconds since the first
// weather row; nil: not up to End.
type Outcome struct {
	Shut      *float64
	Wet       *float64
	Narrowest float64 // as in Verdict
	End       float64 // where it was left
	Whole     bool    // that is the end of the record
}

// reached says whether an outcome is all that was asked for.
func (u Until) reached(o Outcome) bool {
	return (u.Shut || u.Wet) && (!u.Shut || o.Shut != nil) && (!u.Wet || o.Wet != nil)
}

// RunUntil simulates the case as Run does, without the second simulation, and leaves it at the weather row by which
// all that it is followed for has happened. The books must close up to there.
func RunUntil(ctx context.Context, k *Case, s Settings, until Until) (*Outcome, error) {
	f, err := Follow(ctx, k, s)
	if err != nil {
		return nil, err
	}
	return f.Until(ctx, until)
}

// Followed is a winter in progress. What it comes to does not depend on where it was left and taken up again.
type Followed struct {
	w   *winter
	row int
	t   float64 // [s]
}

// Follow begins a winter at its first weather row.
func Follow(ctx context.Context, k *Case, s Settings) (*Followed, error) {
	w, err := ready(ctx, k, s)
	if err != nil {
		return nil, err
	}
	w.record.row(0)
	return &Followed{w: w}, nil
}

// Until takes the winter on, as RunUntil says. After an error it must be left for good.
func (f *Followed) Until(ctx context.Context, until Until) (*Outcome, error) {
	w, rows := f.w, f.w.sky.time
	for f.row+1 < len(rows) && !until.reached(w.outcome()) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		var err error
		if f.t, err = w.advance(f.row, f.t); err != nil {
			return nil, err
		}
		f.row++
		w.record.row(f.row)
	}
	o, err := f.weigh()
	if err != nil {
		return nil, err
	}
	o.End, o.Whole = rows[f.row], f.row+1 == len(rows)
	return o, nil
}

// weigh closes the books up to here. It does so with a copy, for cells that lie idle are woken for it, and would go on by other
// steps.
func (f *Followed) weigh() (*Outcome, error) {
	var twin winter
	twin.become(f.w)
	if err := twin.wake(f.t); err != nil {
		return nil, err
	}
	o := twin.outcome()
	return &o, twin.balance()
}

// OutcomeOf is what RunUntil finds of the whole record, read off a result.
func OutcomeOf(r *Result) *Outcome {
	o := outcomeOf(&r.Verdict, r.Layout, r.Cycles)
	o.End, o.Whole = r.Hourly.Time[len(r.Hourly.Time)-1], true
	return &o
}

// LeastRefused is the water not taken by the line from which it counts [m³]: a millilitre. Less is what rounding leaves.
const LeastRefused = 1e-6

// Refused is the water that the line did not take where no basin says where it stays [m³]; 0 with a basin.
func (r *Result) Refused() float64 {
	if r.Layout.Basin != nil {
		return 0
	}
	sum := 0.0
	for _, c := range r.Cycles {
		sum += c.Refused
	}
	return sum
}

// outcome is what is known of the winter so far.
func (w *winter) outcome() Outcome {
	cycles := w.record.cycles
	if !w.record.refusedAny {
		cycles = nil
	}
	return outcomeOf(&w.record.verdict, w.k.Layout, cycles)
}

// outcomeOf reads shut and wet off a verdict and the cycles.
func outcomeOf(v *Verdict, l *pipe.Layout, cycles []CycleRecord) Outcome {
	o := Outcome{Shut: v.Closed, Wet: firstOf(v.Spill, v.Floor), Narrowest: v.Narrowest}
	if l.Basin != nil {
		return o
	}
	i := slices.IndexFunc(cycles, func(c CycleRecord) bool { return c.Refused > LeastRefused })
	if i >= 0 {
		o.Wet = firstOf(o.Wet, at(cycles[i].Time))
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
