package answers

import (
	"context"
	"errors"
	"math"

	"winterline/sim"
)

// Keep is what a design has to keep, and how much colder a winter it has to bear [K].
type Keep struct {
	Goal   Goal
	Margin float64
}

// Tried is one value of a quantity, simulated over the whole record.
type Tried struct {
	Value    float64
	Change   Change
	Survives bool
	Margin   *Bound // of the goal; nil: not worked out, as for values between those of the curve
}

// Sized is the answer to how little of a quantity is enough.
type Sized struct {
	Vary  Vary // the segment found where none was named
	Keep  Keep
	Now   float64 // value in the layout as it is; NaN: it has none
	Curve []Tried // values evenly over the range, from the least up; those that are not possible here are Barred
	// Least is the least value found that survives; nil: no value tried does.
	Least *Tried
	// From is the value from which all that were tried survive; nil: the largest does not.
	From *Tried
	// Monotone says that nothing tried broke the order: once a value survives all larger ones do, and the margin never
	// falls.
	Monotone bool
}

// parts is in how many parts a range is cut for the curve, at most.
const parts = 10

// Size finds the least value of a quantity that keeps what is to be kept, to a rung of its ladder. The whole range is
// tried in even steps first; then the search goes on between neighbours where one survives and the other does not.
func (e *Engine) Size(ctx context.Context, s Source, v Vary, keep Keep) (*Sized, error) {
	return e.forRemedies().size(ctx, s, v, keep, true)
}

func (e *Engine) size(ctx context.Context, s Source, v Vary, keep Keep, curve bool) (*Sized, error) {
	v, err := e.whose(ctx, s, v)
	if err != nil {
		return nil, err
	}
	base, err := s.Case()
	if err != nil {
		return nil, err
	}
	m := newMaker(s, base, nil)
	if err := m.fault(v); err != nil {
		return nil, err
	}
	search := &sizing{Engine: e, maker: m, vary: v, keep: keep, rungs: v.within()}
	if len(search.rungs) == 0 {
		return nil, cannotVary("no %s between %g and %g is ever built", v.Quantity, v.Low, v.High)
	}
	out := &Sized{Vary: v, Keep: keep, Now: m.now(v)}
	grid := spread(len(search.rungs), parts)
	if out.Curve, err = search.tryAll(ctx, grid, curve); err != nil {
		return nil, err
	}
	return out, search.answer(ctx, out, grid)
}

// sizing is a search for a value.
type sizing struct {
	*Engine
	maker *maker
	vary  Vary
	keep  Keep
	rungs []float64
}

// spread picks indices among n values: evenly, both ends among them, each once, in so many parts at most.
func spread(n, parts int) (at []int) {
	last := n - 1
	parts = min(parts, last)
	for i := range parts + 1 {
		at = append(at, int(math.Round(float64(last)*float64(i)/math.Max(1, float64(parts)))))
	}
	return at
}

// tryAll simulates rungs side by side.
func (z *sizing) tryAll(ctx context.Context, at []int, margins bool) ([]Tried, error) {
	out := make([]Tried, len(at))
	err := z.each(ctx, len(at), func(ctx context.Context, i int) (err error) {
		out[i], err = z.try(ctx, z.rungs[at[i]], margins)
		return err
	})
	return out, err
}

// try simulates one value. One that the layout does not permit is Barred, and does not survive.
func (z *sizing) try(ctx context.Context, value float64, margin bool) (Tried, error) {
	t := Tried{Value: value, Change: z.maker.change(z.vary, value)}
	if t.Change.Barred != BarNone {
		return t, nil
	}
	k, err := z.maker.source.With(t.Change)
	if err != nil {
		t.Change.Barred = BarRefused
		if errors.As(err, &t.Change.Problems) {
			err = nil
		}
		return t, err
	}
	if t.Survives, err = z.survives(ctx, k); err != nil || !margin {
		return t, err
	}
	bound, err := z.alone().bound(ctx, k, z.keep.Goal)
	t.Margin = &bound
	return t, err
}

// bound is a case's margin for one goal alone.
func (e *Engine) bound(ctx context.Context, k *sim.Case, g Goal) (Bound, error) {
	s := &shifts{e: e, run: e.shifted(k)}
	defer s.leave()
	b, err := s.search(ctx, g, nil)
	return b.bound(), err
}

// survives says whether a case keeps its goal in a winter as much colder as is asked for.
func (z *sizing) survives(ctx context.Context, k *sim.Case) (bool, error) {
	o, err := sim.RunUntil(ctx, k.Warmer(-z.keep.Margin), z.Settings, sim.Until{Shut: z.keep.Goal == Open, Wet: z.keep.Goal == Dry})
	if err != nil {
		return false, err
	}
	if z.keep.Goal == Open {
		return o.Shut == nil, nil
	}
	return o.Wet == nil, nil
}

// answer reads the curve, and searches between its values where the answer lies between.
func (z *sizing) answer(ctx context.Context, out *Sized, grid []int) error {
	var possible []int // of the curve
	for i, t := range out.Curve {
		if t.Change.Barred == BarNone {
			possible = append(possible, i)
		}
	}
	out.Monotone = ordered(out.Curve, possible)
	first, last := survivors(out.Curve, possible)
	find := func(j int) (*Tried, error) {
		if j < 0 {
			return nil, nil
		}
		upper := out.Curve[possible[j]]
		low := -1 // below everything tried
		if possible[j] > 0 {
			low = grid[possible[j]-1] // it fails, or is not possible
		}
		return z.between(ctx, low, grid[possible[j]], upper)
	}
	var err error
	if out.Least, err = find(first); err != nil {
		return err
	}
	if out.From = out.Least; last != first {
		out.From, err = find(last)
	}
	return err
}

// survivors are, among the values that are possible, the first that survives and the first from which on all do; −1: none.
func survivors(curve []Tried, possible []int) (first, last int) {
	first, last = -1, -1
	for j, i := range possible {
		switch {
		case !curve[i].Survives:
			last = -1
		case last < 0:
			last = j
		}
		if curve[i].Survives && first < 0 {
			first = j
		}
	}
	return first, last
}

// between halves the rungs between one that is not enough (−1: none below) and one that is, and gives the least found that
// is, with its margin.
func (z *sizing) between(ctx context.Context, low, high int, best Tried) (*Tried, error) {
	if low < 0 {
		low = high - 1 // the range's lowest value is enough: nothing to search
	}
	for high-low > 1 {
		mid := (low + high) / 2
		t, err := z.try(ctx, z.rungs[mid], false)
		if err != nil {
			return nil, err
		}
		if t.Survives {
			high, best = mid, t
		} else {
			low = mid
		}
	}
	if best.Margin != nil {
		return &best, nil
	}
	best, err := z.try(ctx, best.Value, true)
	return &best, err
}

// ordered says whether, among the values that are possible, all survive from the first on that does, and no margin falls.
func ordered(curve []Tried, possible []int) bool {
	for j := 1; j < len(possible); j++ {
		a, b := curve[possible[j-1]], curve[possible[j]]
		if a.Survives && !b.Survives || a.Margin != nil && b.Margin != nil && b.Margin.K < a.Margin.K-sameMargin {
			return false
		}
	}
	return true
}

// SizedTwo is how little of one quantity is enough beside each value of another.
type SizedTwo struct {
	First, Second Vary
	Keep          Keep
	Values        []BesideFirst // from the least up
}

// BesideFirst is one value of the first quantity and how much of the second is needed beside it.
type BesideFirst struct {
	Value  float64
	Change Change // of the first; Barred: not possible here, and Second is nil
	Second *Sized // its curve without margins
}

// firstParts is in how many parts the first of two ranges is cut, at most.
const firstParts = 5

// SizeTwo finds, for values of one quantity over its range, the least value of another that keeps what is to be kept.
func (e *Engine) SizeTwo(ctx context.Context, s Source, first, second Vary, keep Keep) (*SizedTwo, error) {
	e = e.forRemedies()
	first, err := e.whose(ctx, s, first)
	if err != nil {
		return nil, err
	}
	if second, err = e.whose(ctx, s, second); err != nil {
		return nil, err
	}
	base, err := s.Case()
	if err != nil {
		return nil, err
	}
	m := newMaker(s, base, nil)
	for _, v := range []Vary{first, second} {
		if err := m.fault(v); err != nil {
			return nil, err
		}
	}
	rungs := first.within()
	if len(rungs) == 0 {
		return nil, cannotVary("no %s between %g and %g is ever built", first.Quantity, first.Low, first.High)
	}
	at := spread(len(rungs), firstParts)
	out := &SizedTwo{First: first, Second: second, Keep: keep, Values: make([]BesideFirst, len(at))}
	err = e.each(ctx, len(at), func(ctx context.Context, i int) (err error) {
		out.Values[i], err = e.alone().beside(ctx, m, rungs[at[i]], first, second, keep)
		return err
	})
	return out, err
}

// beside sizes the second quantity with one value of the first.
func (e *Engine) beside(ctx context.Context, m *maker, value float64, first, second Vary, keep Keep) (BesideFirst, error) {
	b := BesideFirst{Value: value, Change: m.change(first, value)}
	if b.Change.Barred != BarNone {
		return b, nil
	}
	changed := m.source
	changed.Edits = append(append(changed.Edits[:0:0], changed.Edits...), b.Change.Edits...)
	if _, err := changed.Case(); err != nil {
		b.Change.Barred = BarRefused
		if errors.As(err, &b.Change.Problems) {
			err = nil
		}
		return b, err
	}
	var err error
	b.Second, err = e.size(ctx, changed, second, keep, false)
	return b, err
}
