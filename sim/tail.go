package sim

import (
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// tail is how the water that is still on its way when the pump stops drains: what the
// standpipe and the running line hold above what will stand in them, kept in line.transit.
// The standpipe drains by Torricelli, then the line by Manning, ever more slowly.
type tail struct {
	curve   []tailPoint
	elapsed float64 // since the pump stopped [s]
}

// tailPoint says which shares of the standpipe's and of the line's own part of a tail are left at a time since the pump
// stopped [s].
type tailPoint struct{ time, standpipe, line float64 }

// tailShares are the shares of the line's own part between which it is taken to run evenly;
// after the last it is followed down to the film that a dry pipe keeps.
var tailShares = []float64{1, 0.4, 0.1}

// tailWarm is how warm all walls of the line behind the joint must be for the line's own part to be taken to run off evenly
// from beginning to end [°C]: none of it can freeze then, and how fast it runs has no effect.
const tailWarm = 0.25

// briefTail is up to how long the standpipe's part of a tail is let run off together with the first of the line's own [s]:
// nothing freezes in that time.
const briefTail = 10.0

// warmBed reports that no wall of the line behind the joint is colder than tailWarm.
func (l *line) warmBed() bool {
	for _, c := range l.cells[l.jointAt:] {
		if !c.vertical && c.u[c.mesh.water] < tailWarm {
			return false
		}
	}
	return true
}

// hold is what each cell behind the joint holds while a flow [m³/s] runs [kg] above what stands in it at
// rest; it is good until the next is asked for.
func (w *winter) hold(target []float64, flow float64) []float64 {
	l := w.line
	out := l.kept
	clear(out)
	for i := l.jointAt; i < len(l.cells); i++ {
		c := l.cells[i]
		mass := 0.0
		switch {
		case l.inStandpipe(i):
			mass = c.massAtLevel(w.level)
		case !c.vertical:
			mass = min(c.runningArea(flow), c.boreArea()-c.iceArea()) * heat.WaterDensity
		}
		if more := mass - target[i]; more > dryBelow*c.boreArea()*heat.WaterDensity {
			out[i] = more * c.length
		}
	}
	return out
}

// inStandpipe reports whether cell i is a slice of the standpipe.
func (l *line) inStandpipe(i int) bool { return i >= l.standFrom && i < l.standTo }

// startTail lets what is on its way drain.
func (w *winter) startTail() {
	l := w.line
	standing, lying := 0.0, 0.0
	for i, p := range l.transit {
		if l.inStandpipe(i) {
			standing += p.mass
		} else {
			lying += p.mass
		}
	}
	if standing+lying == 0 {
		return
	}
	w.ebb = tail{curve: append(w.ebb.curve[:0], tailPoint{0, 1, 1})}
	w.tail = &w.ebb
	at := 0.0
	if standing > 0 {
		at = w.standpipeTail(standing)
	}
	even := l.warmBed()
	if standing > 0 && (lying == 0 || !even && at > briefTail) {
		w.tail.curve = append(w.tail.curve, tailPoint{at, 0, 1})
	}
	if lying > 0 {
		w.tail.follow(l, lying, at, even)
	}
}

// leastTail is the depth of water over its rest under which a standpipe counts as drained [m].
const leastTail = 3e-3

// standpipeTail is how long a mass in the standpipe [kg] takes to drain into the line [s].
func (w *winter) standpipeTail(mass float64) float64 {
	const slices = 8
	takes := w.lineFlow()
	area := math.Pi / 4 * w.joint.bore * w.joint.bore
	high := mass / heat.WaterDensity / area
	rest, sum := w.level-high, 0.0
	for k := range slices {
		low := high * math.Pow(leastTail/high, 1/float64(slices-k))
		q := takes.at(rest + math.Sqrt(high*low))
		sum += max(0, high-low) * area / max(q, refusedShare*w.pumping)
		high = low
	}
	return sum
}

// follow adds the line's own part, a mass [kg]: the stretch that holds it empties as one
// reservoir that flows at its mean depth (kinematic storage; Chow 1959 sec. 20, from memory).
func (t *tail) follow(l *line, mass, at float64, even bool) {
	var first, last *cell
	length := 0.0
	for i, c := range l.cells {
		if l.transit[i].mass > 0 && !l.inStandpipe(i) {
			if first == nil {
				first = c
			}
			last = c
			length += c.length
		}
	}
	bore := first.boreArea()
	fall := max(first.z0-last.z1, leastFall) / length
	full := mass / heat.WaterDensity / length // mean cross-section at the start [m²]
	rate := func(share float64) float64 {
		depth := pipe.SegmentDepth(first.bore, min(share*full, 0.9*bore))
		return flow.Discharge(first.bore, fall, first.manning, depth)
	}
	for k, share := range tailShares {
		next := min(share/2, dryBelow*bore/full)
		if k+1 < len(tailShares) {
			next = tailShares[k+1]
		}
		at += full * length * drainTime(share, next, rate(share), rate(next))
		if k+1 == len(tailShares) {
			next = 0
		}
		if next == 0 || !even {
			t.curve = append(t.curve, tailPoint{at, 0, next})
		}
	}
}

// drainTime is how long a store takes from one content to a smaller one, when its outflow goes with a
// power of its content; in units of content over outflow.
func drainTime(from, to, fast, slow float64) float64 {
	power := math.Log(fast/slow) / math.Log(from/to)
	if math.Abs(power-1) < 1e-3 {
		return from / fast * math.Log(from/to)
	}
	return (from/fast - to/slow) / (1 - power)
}

// next is the end of the stretch of even outflow that the tail is in; false when it has run out.
func (t *tail) next() (a, b tailPoint, ok bool) {
	for i := 1; i < len(t.curve); i++ {
		if t.elapsed < t.curve[i].time-1e-6 {
			return t.curve[i-1], t.curve[i], true
		}
	}
	return a, b, false
}

// drainDown lets the tail run on from t to end at most and returns when it stopped.
func (w *winter) drainDown(t, end float64) (float64, error) {
	for w.tail != nil && end-t > 1e-6 {
		a, b, ok := w.tail.next()
		if !ok {
			w.tail = nil
			break
		}
		dt := min(b.time-w.tail.elapsed, end-t)
		was := (w.tail.elapsed - a.time) / (b.time - a.time)
		w.tail.elapsed += dt
		is := (w.tail.elapsed - a.time) / (b.time - a.time)
		between := func(a, b float64) float64 { // the share of what is left that runs off now
			before, after := a+(b-a)*was, a+(b-a)*is
			if before <= 0 || is >= 1 && b == 0 {
				return 1
			}
			return 1 - after/before
		}
		if err := w.trickle(t, dt, between(a.standpipe, b.standpipe), between(a.line, b.line)); err != nil {
			return t, err
		}
		t += dt
	}
	return t, nil
}

// trickle lets shares of what is on its way in the standpipe and in the line run on for dt [s].
func (w *winter) trickle(t, dt, standpipe, line float64) error {
	l := w.line
	w.breathe(t)
	off, all := l.off, 0.0
	for i, p := range l.transit {
		off[i] = line * p.mass
		if l.inStandpipe(i) {
			off[i] = standpipe * p.mass
		}
		all += off[i]
	}
	for _, c := range l.cells[:l.jointAt] {
		if err := c.march(w.step, w.sky, t, t+dt); err != nil {
			return w.blame(c, err)
		}
	}
	rate := all / heat.WaterDensity / dt
	r := w.rest()
	w.sill = w.sillAfter(0, r) // what is on its way fills what the weep slot has drained meanwhile
	r.sill = w.sill
	p := passage{start: t, run: dt, rate: rate, thin: true, step: dt, free: true, flow: rate, off: off}
	out, err := w.through(p, nil, l.jointAt, len(l.cells), l.massAt(l.levels(r)))
	if err != nil {
		return err
	}
	w.outlet(out, t+dt)
	w.record.interval(t, t+dt)
	w.draught.book(dt)
	return nil
}

// keepOnWay lets what was on its way in a cell run on, with the cell's stream behind it, but for the last `kept` kg, which
// are on their way there now.
func (l *line) keepOnWay(i int, out stream, kept float64) stream {
	if p := l.transit[i]; p.mass > 0 {
		out = slices.Insert(out, 0, p)
	}
	on, stay := out.split(kept, l.flume.stay)
	l.transit[i] = stay.mean()
	return on
}

// setOff lets a mass [kg] of what is on its way in a cell run on, before the stream that comes.
func (l *line) setOff(i int, mass float64, in stream) stream {
	p := l.transit[i]
	if mass = min(mass, p.mass); mass <= 0 {
		return in
	}
	l.transit[i] = parcel{p.mass - mass, p.u}
	if l.transit[i].mass <= 1e-12*mass {
		mass, l.transit[i] = p.mass, parcel{}
	}
	blend := blendParcels(parcel{}, parcel{mass, p.u})
	for _, x := range in {
		blend = blendParcels(blend, x)
	}
	l.flume.blend[0] = blend
	return l.flume.blend[:]
}

// onWay is what is on its way in the line, between joint and outlet.
func (l *line) onWay() parcel { return stream(l.transit).mean() }
