package sim

import (
	"maps"
	"slices"
)

// fork is a winter as it stood at a weather row, in memory of its own: it can go on from there whatever
// becomes of the winter that it was taken from. Both march by the same sky, whose row advance sets, so that only
// one of them may march at a time until part gives the copy its own.
//
// They share what nothing changes once it is made: case, sky, ground and its tracks, pump curves,
// freezing curves, what a mesh is made of, rows recorded so far, and numbers behind pointers that are replaced
// and never written to. Numbers that put writes to are copied.
type fork struct {
	w   *winter // nil: none was taken
	row int
	t   float64 // when the winter had come to that row [s]

	going chan dendritic // nil: it does not go its own way yet
}

// take makes the fork a copy of a winter that has come to a row at time t [s], in the memory that it has.
func (f *fork) take(w *winter, row int, t float64) {
	if f.w == nil {
		f.w = new(winter)
	}
	f.w.become(w)
	f.row, f.t = row, t
}

// The methods `become` make something a copy of another of its kind. They start from all of its fields, so that a new
// number needs no thought, and then give what is behind a pointer, a slice or a map memory of its own;
// TestForkKnowsAllFields fails on one that is new.

// becoming is a pointer that can become a copy.
type becoming[T any] interface {
	*T
	become(from *T)
}

// another copies what `from` points to into own, or new memory; nil for nil.
func another[T any, P becoming[T]](own, from *T) *T {
	if from == nil {
		return nil
	}
	if own == nil {
		own = new(T)
	}
	P(own).become(from)
	return own
}

// plain is another for what holds nothing that changes behind pointers, slices or maps.
func plain[T any](own, from *T) *T {
	if from == nil {
		return nil
	}
	if own == nil {
		own = new(T)
	}
	*own = *from
	return own
}

// each copies the elements of a list with one, which is another or plain.
func each[T any](own, from []*T, one func(own, from *T) *T) []*T {
	if from == nil {
		return nil
	}
	for len(own) < len(from) {
		own = append(own, nil)
	}
	own = own[:len(from)]
	for i := range from {
		own[i] = one(own[i], from[i])
	}
	return own
}

// refill copies a list of plain values into own, or new memory; nil for nil.
func refill[T any](own, from []T) []T {
	if from == nil {
		return nil
	}
	if own == nil {
		own = make([]T, 0, len(from))
	}
	return append(own[:0], from...)
}

func (w *winter) become(from *winter) {
	own := *w
	*w = *from
	w.step = another(own.step, from.step)
	w.line = another(own.line, from.line)
	w.joint = another(own.joint, from.joint)
	w.lift = plain(own.lift, from.lift)
	w.basin = plain(own.basin, from.basin)
	w.back = another(own.back, from.back)
	w.second = plain(own.second, from.second)
	w.roofs = each(own.roofs, from.roofs, plain)
	w.mounds = another(own.mounds, from.mounds)
	w.mounds.w = w
	w.pocket = another(own.pocket, from.pocket)
	w.trap = own.trap
	w.trap.become(&from.trap)
	w.draught = another(own.draught, from.draught)
	if w.draught != nil {
		w.draught.among(w.line, from.line)
	}
	w.heat = plain(own.heat, from.heat)
	w.record = another(own.record, from.record)
	w.record.follows(w)
	w.shut = refill(own.shut, from.shut)
	w.behind, w.parted = nil, nil // they know the other line's cells; what they answer stays the same
	w.ebb = own.ebb
	w.ebb.become(&from.ebb)
	if from.tail != nil {
		w.tail = &w.ebb
	}
}

// become takes over what was counted, and the guesses; all else is room for one step.
func (w *stepper) become(from *stepper) {
	w.control, w.moved = from.control, from.moved
	w.steps, w.rejected, w.newton, w.residual = from.steps, from.rejected, from.newton, from.residual
	w.grow(len(from.node))
	w.knot, w.first = refill(w.knot, from.knot), from.first
}

func (l *line) become(from *line) {
	own := *l
	*l = *from
	l.cells = each(own.cells, from.cells, another)
	l.slab = refill(own.slab, from.slab)
	l.transit = refill(own.transit, from.transit)
	l.level, l.flume, l.kept, l.off = own.level, own.flume, own.kept, own.off
	if l.flume == nil {
		l.makeRoom()
	}
	l.level.from = from.level.from
	l.cut()
}

// become leaves the cell's state to its line.
func (c *cell) become(from *cell) {
	own := *c
	*c = *from
	c.mesh = another(own.mesh, from.mesh)
	c.tally.track = refill(own.tally.track, from.tally.track)
	c.past.gain = refill(own.past.gain, from.past.gain)
}

func (m *mesh) become(from *mesh) {
	own := *m
	*m = *from
	m.cap, m.phase = refill(own.cap, from.cap), refill(own.phase, from.phase)
	m.inLiquid, m.outLiquid = refill(own.inLiquid, from.inLiquid), refill(own.outLiquid, from.outLiquid)
	m.inFrozen, m.outFrozen = refill(own.inFrozen, from.inFrozen), refill(own.outFrozen, from.outFrozen)
	m.scale, m.ground = refill(own.scale, from.scale), refill(own.ground, from.ground)
	m.conducts, m.perCap = refill(own.conducts, from.conducts), refill(own.perCap, from.perCap)
	f, was := &m.factored, &own.factored
	f.before, f.own, f.behind = refill(was.before, f.before), refill(was.own, f.own), refill(was.behind, f.behind)
	m.thawed, m.frozen, m.trace = refill(own.thawed, from.thawed), refill(own.frozen, from.frozen), refill(own.trace, from.trace)
}

func (j *joint) become(from *joint) {
	own := *j
	*j = *from
	j.reliefs = refill(own.reliefs, from.reliefs)
}

func (r *returning) become(from *returning) {
	own := *r
	*r = *from
	r.queue = refill(own.queue, from.queue)
}

// become leaves it to the winter to say whose mounds they are.
func (s *mounds) become(from *mounds) {
	own := *s
	*s = *from
	s.lip, s.outlet = plain(own.lip, from.lip), plain(own.outlet, from.outlet)
	s.reliefs = each(own.reliefs, from.reliefs, plain)
}

func (p *pocket) become(from *pocket) {
	own := *p
	*p = *from
	p.warmth = plain(own.warmth, from.warmth)
}

func (x *trap) become(from *trap) {
	own := *x
	*x = *from
	x.before, x.vents, x.lengths = own.before, own.vents, own.lengths
	x.all = each(own.all, from.all, plain)
	x.closed = refill(own.closed, from.closed)
	for i, s := range from.closed {
		x.closed[i] = x.all[slices.Index(from.all, s)]
	}
}

// become leaves the cells to among.
func (d *draught) become(from *draught) {
	own := *d
	*d = *from
	d.reaches = refill(own.reaches, from.reaches)
}

// among finds the cells of a draught, which are another line's, in a copy of that line.
func (d *draught) among(l, other *line) {
	at := slices.Index(other.cells, d.cells[0])
	d.cells = l.cells[at : at+len(d.cells)]
}

func (t *tail) become(from *tail) {
	own := *t
	*t = *from
	t.curve = refill(own.curve, from.curve)
}

// become leaves winter and cells to follows.
func (r *recorder) become(from *recorder) {
	own := *r
	*r = *from
	if r.segments = own.segments; r.segments == nil {
		r.segments = make([]segmentTally, len(from.segments))
	}
	for i := range r.segments {
		s := &r.segments[i]
		cells := s.cells[:0]
		*s = from.segments[i]
		s.cells = cells
	}
	r.hourly.Segments = refill(own.hourly.Segments, from.hourly.Segments)
	r.hourly.clip()
	r.events, r.cycles = refill(own.events, from.events), refill(own.cycles, from.cycles)
	r.closings, r.plugOf = refill(own.closings, from.closings), refill(own.plugOf, from.plugOf)
	r.airGap, r.instants = plain(own.airGap, from.airGap), own.instants
	r.worst.Cells = refill(own.worst.Cells, from.worst.Cells)
	for i := range r.moments {
		r.moments[i].Cells = refill(own.moments[i].Cells, from.moments[i].Cells)
	}
	r.verdict.HighestSnow = plain(own.verdict.HighestSnow, from.verdict.HighestSnow)
	r.verdict.ReliefMargin = plain(own.verdict.ReliefMargin, from.verdict.ReliefMargin)
	if r.flags = own.flags; r.flags == nil {
		r.flags = map[string]bool{}
	}
	clear(r.flags)
	maps.Copy(r.flags, from.flags)
}

// follows makes a copied recorder that of a copied winter.
func (r *recorder) follows(w *winter) {
	r.w = w
	for _, c := range w.line.cells {
		s := &r.segments[c.part]
		s.cells = append(s.cells, c)
	}
}

// clip lets rows that are added from now on go to memory of their own.
func (h *Hourly) clip() {
	for _, s := range [...]*[]float64{
		&h.Time, &h.Air, &h.Wind, &h.SnowDepth, &h.Frost, &h.Basin, &h.Standpipe, &h.Pocket, &h.Draught,
		&h.MoundOutlet, &h.MoundRelief, &h.Outlet, &h.Relief, &h.Rim, &h.ToSoil, &h.Floor,
	} {
		*s = slices.Clip(*s)
	}
	for i := range h.Segments {
		s := &h.Segments[i]
		s.Water, s.Ice, s.Fill = slices.Clip(s.Water), slices.Clip(s.Ice), slices.Clip(s.Fill)
	}
}
