package sim

import (
	"cmp"
	"math"
	"slices"

	"winterline/sim/heat"
)

// settle moves water that is free to move at the end of an interval: the soil drinks from
// the pocket, the weep slot drains the line into it, and what a thaw has let loose runs
// out.
func (w *winter) settle(t float64) error {
	w.judge(t)
	w.trapped(t)
	w.comeBack(t)
	dt := t - w.settled
	w.settled = t
	toPocket := 0.0
	if w.pocket != nil {
		w.drainPocket(dt, t)
		toPocket = w.weep(dt)
	}
	out, err := w.relevel(t)
	if err != nil {
		return err
	}
	into := min(toPocket, out.mass())
	if w.pocket != nil {
		into = min(into, w.pocket.capacity()-w.pocket.held)
	}
	rest, front := splitFront(out, into, w.line.flume.rest)
	if into > 0 {
		w.pocket.held += front.mass()
		w.water.intoPocket.add(front.mass())
		if h := w.pocket.warmth; h != nil {
			h.u += front.heat()
		} else {
			w.heat.add(heatPocket, -front.heat())
		}
	}
	w.outlet(rest, t)
	return nil
}

// drainPocket lets the ground warm or cool the rock pit, and the soil drink, for dt [s]
// up to time t [s].
func (w *winter) drainPocket(dt, t float64) {
	h := w.pocket.warmth
	if h == nil {
		w.pocket.drain(dt, 1)
		return
	}
	w.heat.add(heatPocketGround, h.march(dt, t, w.pocket.held))
	before := w.pocket.held
	took := w.pocket.drain(dt, h.slowed(t))
	w.heat.add(heatPocket, -h.take(took, before))
}

// weep lowers the level held at the outlet by what slot and pocket take in dt [s], and
// returns how much that is [kg].
func (w *winter) weep(dt float64) float64 {
	l := w.line
	r := w.rest()
	room := w.pocket.capacity() - w.pocket.held
	if w.sill <= l.slot || room <= 0 || w.slotIced() {
		return 0
	}
	from := w.looseFrom(r)
	have := l.standingFrom(from)
	take := min(room, slotFlow(w.k.Layout.Outlet.Weep, w.sill-l.slot)*dt*heat.WaterDensity)
	w.sill = l.sillFor(have-take, l.slot, w.sill, from, r)
	return min(take, have)
}

// looseFrom is the index of the first cell behind the joint whose water is free to run to
// the outlet: that behind the last plug.
func (w *winter) looseFrom(r rest) int {
	if r.plugs.run >= 0 {
		return r.plugs.run + 1
	}
	return w.line.jointAt
}

// slotIced reports whether ice at the elbow has covered the weep slot.
func (w *winter) slotIced() bool {
	l := w.line
	at := l.elbow
	if at == len(l.cells) {
		at--
	}
	c := l.cells[at]
	if w.shut[at] {
		return true
	}
	open := 1 - c.iceArea()/c.boreArea()
	thick := c.bore / 2 * (1 - math.Sqrt(max(0, open)))
	return thick >= w.k.Layout.Outlet.Weep.Height
}

// relevel lets the line behind the joint run to its level at rest and returns what
// comes out at its end.
func (w *winter) relevel(t float64) (stream, error) {
	l := w.line
	r := w.rest()
	if !r.plugs.riser {
		w.sill = min(w.sill, l.sill)
		r.sill = w.sill
	}
	target := l.massAt(l.levels(r))
	from, loose := w.looseFrom(r), 0.0
	for i := from; i < len(l.cells); i++ {
		loose = max(loose, (l.cells[i].mass-target[i])/l.cells[i].boreArea()/heat.WaterDensity)
	}
	if loose < 1e-9 {
		return nil, nil
	}
	return w.through(passage{start: t}, nil, from, len(l.cells), target)
}

// judge decides, from the ice, which cells are shut, and when that came about. All are
// decided before any is told of, so that a plug which moves on to the next cell is no
// opening.
func (w *winter) judge(t float64) {
	var turns []turn
	end := len(w.line.cells)
	if turned, at := w.mounds.judge(t); turned {
		turns = append(turns, turn{end, at})
	}
	inHouse, behind := w.against()
	for i, c := range w.line.cells {
		d := behind
		if i < w.line.jointAt {
			d = inHouse
		}
		f := c.iceShare()
		if f == 0 {
			c.reach = c.share
			c.freeOfIce()
		}
		was := w.shut[i]
		w.shut[i] = c.blocks(f, d, was)
		if w.shut[i] != was {
			turns = append(turns, turn{i, w.turnTime(c, f, d, t)})
		}
	}
	if len(turns) == 0 {
		return
	}
	slices.SortStableFunc(turns, func(a, b turn) int { return cmp.Compare(a.at, b.at) })
	was := w.shutBefore(turns)
	for _, x := range turns {
		if x.cell == end {
			w.record.endTurned(x.at)
			w.endCause(x.at)
			continue
		}
		w.record.turned(x.cell, w.shut[x.cell], x.at)
		w.cause(x, was, t)
	}
}

// turn is a cell that has shut or opened, or the line's end, after the last of them.
type turn struct {
	cell int
	at   float64 // [s]
}

// against is the head that can push water through an iced cell, and the flow that ought to pass: behind the joint the head
// from the lip down to the outlet, before it the pump's.
func (w *winter) against() (inHouse, behind driveHead) {
	l := w.line
	from := func(top float64) driveHead {
		return driveHead{head: max(minimumHead, top-max(l.end, min(l.sill, top))), flow: w.pumping}
	}
	inHouse = from(w.lift.shutOff())
	if top := w.joint.lip(w.sky.snowAt(w.settled)); !math.IsInf(top, 1) {
		return inHouse, from(top)
	}
	return inHouse, inHouse
}

// minimumHead is the least head that is set against ice [m].
const minimumHead = 0.05

// turnTime finds when a cell's ice passed the share at which it shuts; for one that
// opens, the end of the interval.
func (w *winter) turnTime(c *cell, f float64, d driveHead, t float64) float64 {
	track := c.tally.track
	if len(track) < 2 || !c.blocks(f, d, false) {
		return t
	}
	mass := c.mass * c.length
	from := track[0].ice / mass
	if from >= f {
		return t
	}
	limit := c.blockingShare(from, f, d) * mass
	for i := 1; i < len(track); i++ {
		a, b := track[i-1], track[i]
		if a.ice < limit && b.ice >= limit {
			return a.t + (b.t-a.t)*(limit-a.ice)/(b.ice-a.ice)
		}
	}
	return t
}
