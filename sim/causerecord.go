package sim

import (
	"math"
	"slices"
	"sort"
)

// closing is a closure while it is followed.
type closing struct {
	Closure
	from, to           int // first and last cell of the plug so far
	standFrom, standTo int // first and last cell of the stretch of standing water in which it shut
	shut               int // how many of its cells are shut now
}

// onePlug is the longest time between two cells of the same standing water that shut, with open ones between them, for
// both to count as one plug [s] (model definition).
const onePlug = 6 * 3600.0

// shutBefore tells of every cell whether it was shut before these turned.
func (w *winter) shutBefore(turns []turn) []bool {
	was := slices.Clone(w.shut)
	for _, x := range turns {
		if x.cell < len(was) {
			was[x.cell] = !was[x.cell]
		}
	}
	return was
}

// cause follows the closure of a cell that has turned, in the interval that ends at t [s]; was says which cells
// were shut before.
func (w *winter) cause(x turn, was []bool, t float64) {
	r := w.record
	if !w.shut[x.cell] {
		r.closeOpens(x)
		return
	}
	r.closes(w.line.cells[x.cell], x, func() closing {
		from, to := w.line.standingAround(x.cell)
		return closing{Closure: w.closure(x, was, t), from: x.cell, to: x.cell, standFrom: from, standTo: to}
	})
}

// closes takes a cell that has shut into the closing that it goes on with, or begins one.
func (r *recorder) closes(c *cell, x turn, begin func() closing) {
	i := r.closingFor(x)
	if i < 0 {
		r.closings = append(r.closings, begin())
		i = len(r.closings) - 1
	}
	r.closings[i].grow(c, x)
	r.plugOf[x.cell] = i + 1
}

// grow takes a cell that has shut into the plug.
func (k *closing) grow(c *cell, x turn) {
	k.from, k.to = min(k.from, x.cell), max(k.to, x.cell)
	k.From, k.To = min(k.From, c.near()), max(k.To, c.far())
	k.Grew, k.Reopened = max(k.Grew, x.at), nil
	k.shut++
}

// closingFor is the index of the closing that a cell which has shut belongs to: a plug beside it, or one that formed in
// the same standing water not long ago; −1: a new one.
func (r *recorder) closingFor(x turn) int {
	for i := len(r.closings) - 1; i >= 0; i-- {
		k := &r.closings[i]
		switch {
		case k.Mound || k.shut == 0 && (k.Reopened == nil || x.at-*k.Reopened >= hardlyOpen):
			continue
		case x.cell >= k.from-1 && x.cell <= k.to+1:
			return i
		case x.at-k.Grew < onePlug && x.cell >= k.standFrom && x.cell <= k.standTo:
			return i
		}
	}
	return -1
}

// closeOpens notes that a cell opened.
func (r *recorder) closeOpens(x turn) {
	i := r.plugOf[x.cell] - 1
	if i < 0 {
		return
	}
	r.plugOf[x.cell] = 0
	if k := &r.closings[i]; k.shut > 0 {
		if k.shut--; k.shut == 0 {
			k.Reopened = at(x.at)
		}
	}
}

// endCause follows the closure of the line's end by ice on the ground.
func (w *winter) endCause(t float64) {
	r := w.record
	if w.line.iced {
		last := len(w.line.cells) - 1
		c := w.line.cells[last]
		k := closing{Closure: w.closureAt(c, t), from: last, to: last, shut: 1}
		k.Mound, k.Stood, k.Distance, k.After = true, w.stood(last, w.shut), c.far(), r.stillShut()
		r.closings = append(r.closings, k)
		return
	}
	for i := range r.closings {
		if k := &r.closings[i]; k.Mound && k.Reopened == nil {
			k.Reopened, k.shut = at(t), 0
		}
	}
}

// closure describes a cell that has shut, in the interval that ends at t [s].
func (w *winter) closure(x turn, was []bool, t float64) Closure {
	c := w.line.cells[x.cell]
	out := w.closureAt(c, x.at)
	out.After = w.record.stillShut()
	out.Slush = c.slushy
	out.Stood = w.stood(x.cell, was)
	out.Heat = c.last.held(x.at, frontIce(c.tally.track, x.at))
	out.Spent = c.spent(t)
	out.Layers = w.layers(c, x.at)
	return out
}

// stillShut is the index of the first closing that is shut now; −1: none.
func (r *recorder) stillShut() int {
	return slices.IndexFunc(r.closings, func(k closing) bool { return k.shut > 0 })
}

// closureAt describes what is told of any place that shuts, by ice in it or before it, at t [s].
func (w *winter) closureAt(c *cell, t float64) Closure {
	return Closure{
		Where: c.part, Distance: c.x0, Length: c.length, From: c.near(), To: c.far(), Shut: t, Grew: t,
		Warm: c.last.warm(), Met: w.met(c, t), Relief: w.reliefThen(t), Pocket: w.pocketThen(),
	}
}

// closures are those of the run, with what became of the pump's water while each was shut.
func (w *winter) closures(cycles []CycleRecord) []Closure {
	var out []Closure
	for _, k := range w.record.closings {
		k.During = whileShut(cycles, k.Shut, pick(k.Reopened, w.k.Weather.End()))
		out = append(out, k.Closure)
	}
	return out
}

// whileShut sums up the cycles that began between two times [s].
func whileShut(cycles []CycleRecord, from, to float64) WhileShut {
	s := WhileShut{FirstRelief: math.NaN(), FirstOver: math.NaN()}
	i := sort.Search(len(cycles), func(i int) bool { return cycles[i].Time >= from })
	for _, c := range cycles[i:] {
		if c.Time >= to {
			break
		}
		s.Cycles++
		s.Relief, s.Rim, s.Refused = s.Relief+c.Relief, s.Rim+c.Rim, s.Refused+c.Refused
		if c.Relief > 0 {
			s.ReliefRuns++
			if math.IsNaN(s.FirstRelief) {
				s.FirstRelief = c.Time
			}
		}
		if c.Rim > 0 && math.IsNaN(s.FirstOver) {
			s.FirstOver = c.Time
		}
	}
	return s
}
