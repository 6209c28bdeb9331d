package sim

import (
	"winterline/sim/heat"
)

// cycle makes the pump run that is due at t, or goes on with what is left of it, and returns when it is done or has to
// be looked at again, at the interval's end at the latest. What reached the basin is lifted through the house pipe to
// the joint, where it parts into line, relief and rim; what none of them takes stays in the basin.
func (w *winter) cycle(t, end float64) (float64, error) {
	w.judge(t)
	w.comeBack(t)
	if w.run.left == 0 && !w.openRun(t) {
		return t, nil
	}
	rate := w.run.flow
	p := w.parting(t, rate)
	through := p.line + p.relief + p.rim
	asked := w.run.left
	if w.basin != nil {
		asked += w.basin.backlog
	}
	until := min(end, w.deadline())
	sliced := w.throttled(through, rate) && until > t+meltSlice
	if sliced {
		until = t + meltSlice
	}
	mass := min(asked, through*heat.WaterDensity*(until-t))
	held := through < refusedShare*rate || w.outage(t)
	if held || mass <= 0 {
		if until, did, err := w.takeOver(t, min(end, w.deadline())); did || err != nil {
			return until, err
		}
		w.leave(t, w.run.left, held)
		return w.closeCycle(t), nil
	}
	run := mass / (through * heat.WaterDensity)
	if err := w.send(t, run, mass, p); err != nil {
		return 0, err
	}
	w.draw(mass)
	t += run
	switch {
	case w.run.left <= 1e-9*asked:
		return w.closeCycle(t), nil
	case until < end && !sliced: // the next cycle is due: what is left waits in the basin
		w.leave(t, w.run.left, w.throttled(through, rate))
		return w.closeCycle(t), nil
	}
	w.busy = t
	return t, nil
}

const (
	// meltSlice is how long a flow that ice throttles is taken to last before it is worked out anew, as the water
	// melts that ice [s].
	meltSlice = 20.0
	// throttledShare is the share of the free flow under which the line counts as throttled.
	throttledShare = 0.9
)

// throttled reports that ice holds the flow well under the pump's free one.
func (w *winter) throttled(through, rate float64) bool {
	if through >= throttledShare*rate {
		return false
	}
	for _, c := range w.line.cells {
		if c.iceShare() > 0 {
			return true
		}
	}
	return false
}

// refusedShare is the share of the pump's free flow under which it counts as pushing
// against ice.
const refusedShare = 1e-3

// outage reports whether the power is out at t.
func (w *winter) outage(t float64) bool {
	now := w.k.Weather.Stamp(t)
	for _, o := range w.k.Layout.Outages {
		if !now.Before(o.Start) && now.Before(o.End) {
			return true
		}
	}
	return false
}

// draw takes pumped water out of what waits: the backlog first.
func (w *winter) draw(mass float64) {
	if w.basin != nil {
		old := min(mass, w.basin.backlog)
		w.basin.backlog -= old
		mass -= old
	}
	w.run.left = max(0, w.run.left-mass)
}

// leave lets water that ice or a power cut holds back, or else that the pump had no time for, stay in the
// basin, or undrawn where the supply is unlimited.
func (w *winter) leave(t, mass float64, held bool) {
	w.record.refused(t, mass, held)
	if w.basin == nil {
		w.water.undrawn.add(mass)
		return
	}
	if w.basin.keep(mass) {
		w.record.floorWet(t)
	}
}

// closeCycle ends the run in progress; what is on its way drains.
func (w *winter) closeCycle(t float64) float64 {
	w.endRun(t)
	w.startTail()
	w.record.closeCycle(t)
	return t
}

// send lifts a mass of water [kg] through house pipe and joint over run seconds.
func (w *winter) send(t, run, mass float64, p parting) error {
	l := w.line
	l.release()
	in := l.flume.lot(parcel{mass, w.arriving(t)})
	w.heat.add(heatWaterIn, in.heat())
	w.water.pumped.add(mass)
	pass := passage{start: t, run: run, rate: p.line + p.relief + p.rim}
	r := w.rest()
	target := l.massAt(l.levels(r))
	at, err := w.through(pass, in, 0, l.jointAt, target)
	if err != nil {
		return err
	}
	toLine := p.line / pass.rate * at.mass()
	if r.plugs.behind() {
		toLine = min(at.mass(), w.room(r))
	}
	out, down := splitFront(at, toLine, l.flume.rest)
	w.letGo(out, p, t, run)
	pass.rate = max(p.line, 1e-3*pass.rate)
	w.level = min(p.level, r.lip)
	if err := w.down(pass, down, l.jointAt, r); err != nil {
		return err
	}
	w.record.lot(t, run, p)
	return nil
}

// down lets a stream into the line at cell `from`, at the joint or behind it, and books what comes out
// at its end. The cells upstream have marched already.
func (w *winter) down(pass passage, in stream, from int, r rest) error {
	l := w.line
	w.draught.still()
	w.sill = w.sillAfter(in.mass(), r)
	r.sill = w.sill
	target := l.massAt(l.levels(r))
	last := len(l.cells)
	if r.plugs.run >= 0 {
		last = r.plugs.first + 1
	}
	pass.free, pass.flow = true, pass.rate
	if r.plugs.none() {
		pass.hold = w.hold(target, pass.flow)
	}
	end, err := w.through(pass, in, from, last, target)
	if err != nil {
		return err
	}
	for _, c := range l.cells[last:] {
		if err := c.march(w.step, w.sky, pass.start, pass.start+pass.run); err != nil {
			return w.blame(c, err)
		}
	}
	w.outlet(end, pass.start+pass.run)
	w.record.interval(pass.start, pass.start+pass.run)
	return nil
}

// room is what the line can still take between the joint and the ice that shuts it, up to
// the lip [kg].
func (w *winter) room(r rest) float64 {
	l := w.line
	if r.plugs.run < 0 {
		r.sill = w.highestSill(r)
	}
	target := l.massAt(l.levels(r))
	last := len(l.cells)
	if r.plugs.run >= 0 {
		last = r.plugs.first + 1
	}
	sum := 0.0
	for i := l.jointAt; i < last; i++ {
		c := l.cells[i]
		sum += max(0, target[i]-c.mass) * c.length
	}
	return sum
}

// highestSill is the highest level that the outlet can hold [m]: that of the lid, over which water runs away, or,
// when the riser to the lid is shut, that of the lip at the joint.
func (w *winter) highestSill(r rest) float64 {
	if r.plugs.riser {
		return max(r.sill, min(r.lip, w.line.crest))
	}
	return w.line.sill
}

// sillAfter is the level held at the outlet [m] once `more` kg have come into the line: water first
// fills what the weep slot had drained, and only then runs over the lid.
func (w *winter) sillAfter(more float64, r rest) float64 {
	l := w.line
	if r.plugs.run >= 0 || l.elbow == len(l.cells) {
		return r.sill
	}
	return l.sillFor(l.standingFrom(l.jointAt)+l.onWay().mass+more, r.sill, w.highestSill(r), l.jointAt, r)
}

// through sends a stream through the cells from `from` up to, not including, `to`; target is what each is left with
// [kg/m]. A cell that no water reaches marches through the same time.
func (w *winter) through(p passage, in stream, from, to int, target []float64) (stream, error) {
	for i := from; i < to; i++ {
		c := w.line.cells[i]
		if err := c.wake(w.step, w.sky, p.start); err != nil {
			return nil, w.blame(c, err)
		}
		in = in.gather()
		if p.off != nil {
			in = w.line.setOff(i, p.off[i], in)
		}
		running := in.mass() > 0
		if !running && p.run == 0 && c.mass <= target[i] {
			continue // nothing to let go
		}
		if !running && p.run > 0 {
			if err := c.march(w.step, w.sky, p.start, p.start+p.run); err != nil {
				return nil, w.blame(c, err)
			}
		}
		before, came := c.point(p.start), arrives(p, in)
		out, wall, err := c.pass(w.step, w.sky, w.line.flume, p, in, target[i])
		if err != nil {
			return nil, w.blame(c, err)
		}
		if running || p.run == 0 {
			c.tally.track = append(c.tally.track[:0], before, c.point(p.start+p.run))
		}
		if c.iceShare() > 0 { // slush that running water made or brought
			c.noteIce(p.start)
		}
		c.passed(p, came, out, wall, w.sill)
		w.heat.add(heatWall, wall)
		if running && p.run > 0 { // start with short steps again; what drains between runs is as cold as the cell
			c.dt = w.step.control.First
			if !c.wet() {
				c.dt *= firstDry
			}
		}
		if p.hold != nil {
			out = w.line.keepOnWay(i, out, p.hold[i])
		}
		in = out
	}
	return in, nil
}

// letGo books what leaves at the joint.
func (w *winter) letGo(out stream, p parting, t, run float64) {
	mass := out.mass()
	if mass <= 0 {
		return
	}
	aside := p.relief + p.rim
	relief := mass
	if p.rim > 0 {
		relief = mass * p.relief / aside
	}
	all := out.heat()
	w.water.relief.add(relief)
	w.water.rim.add(mass - relief)
	w.heat.add(heatRelief, -all*relief/mass)
	w.heat.add(heatRim, -all*(mass-relief)/mass)
	w.record.aside(t, relief, mass-relief, p)
	w.mounds.letRelief(p, w.sky.snowAt(t), t+run, relief, all*relief/mass)
	if w.back != nil {
		w.back.letGo(t+run, mass-relief+relief*w.joint.nearHouse(p.level, w.sky.snowAt(t)))
	}
}

// outlet books what leaves at the far end by time t.
func (w *winter) outlet(out stream, t float64) {
	w.water.outlet.add(out.mass())
	w.heat.add(heatOutlet, -out.heat())
	w.record.atOutlet(out.mass())
	w.mounds.letOut(t, out.mass(), out.heat())
}
