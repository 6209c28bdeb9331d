package sim

import (
	"math"
	"sort"

	"winterline/sim/heat"
)

// returning is water let go beside the house on its way back to the basin: a stated share
// of it seeps down along the wall and arrives after a stated delay.
type returning struct {
	share, delay float64   // [-], [s]
	lump         float64   // largest mass that arrives at one instant [kg]
	queue        []seeping // by time of arrival
	arrived      sum       // back in the basin so far [kg]
	waiting      float64   // of that, since the pump last ran [kg]
}

// seeping is a mass of water [kg] that arrives at a time [s].
type seeping struct{ at, mass float64 }

// besideHouse is how far from the wall water let go can run back to it [m]: the ten feet over which the
// ground must fall away from a foundation (IRC R401.3, from memory).
const besideHouse = 3.05

// newReturning is nil where nothing comes back: without a basin, or where the pump's log
// already holds all that came.
func newReturning(k *Case) *returning {
	site := &k.Layout.Site
	if k.Layout.Basin == nil || site.ReturnShare <= 0 || k.Logged {
		return nil
	}
	b := k.Layout.Basin
	return &returning{share: site.ReturnShare, delay: site.ReturnDelay, lump: 0.5 * b.Area * (b.FloatOn - b.FloatOff) * heat.WaterDensity}
}

// smear is how far before and after its delay water seeps in, as a share of the delay (common
// practice, no source).
const smear = 0.25

// letGo takes a mass of water [kg] that was let go beside the house at time t [s]. Much water does
// not arrive at one instant, so that the pump can keep up with it.
func (r *returning) letGo(t, mass float64) {
	mass *= r.share
	if mass <= 0 {
		return
	}
	n := math.Max(1, math.Ceil(mass/r.lump))
	for k := range int(n) {
		early := smear * ((2*float64(k)+1)/n - 1)
		r.put(seeping{t + r.delay*(1+early), mass / n})
	}
}

// put keeps the queue in order.
func (r *returning) put(s seeping) {
	i := sort.Search(len(r.queue), func(i int) bool { return r.queue[i].at > s.at })
	r.queue = append(r.queue, seeping{})
	copy(r.queue[i+1:], r.queue[i:])
	r.queue[i] = s
}

// due takes out what has arrived by time t [kg].
func (r *returning) due(t float64) float64 {
	n, mass := 0, 0.0
	for n < len(r.queue) && r.queue[n].at <= t {
		mass += r.queue[n].mass
		n++
	}
	r.queue = r.queue[n:]
	r.arrived.add(mass)
	r.waiting += mass
	return mass
}

// fills is when so much has come back since the pump last ran that the float starts it [s]; +Inf:
// not with what is on its way.
func (r *returning) fills(band float64) float64 {
	mass, at := r.waiting, 0.0
	for _, s := range r.queue {
		if mass >= band {
			break
		}
		mass, at = mass+s.mass, s.at
	}
	if mass < band {
		return math.Inf(1)
	}
	return at
}

// take lets the pump have what waits [kg].
func (r *returning) take() float64 {
	mass := r.waiting
	r.waiting = 0
	return mass
}

// nearHouse is the share of the relief's flow at a level that can run back to the house [-].
func (j *joint) nearHouse(level, snow float64) float64 {
	return j.reliefShare(level, snow, func(o *opening) bool { return o.facesHouse || o.distance <= besideHouse })
}

// comeBack lets returned water into the basin, where the next run pumps it.
func (w *winter) comeBack(t float64) {
	if w.back == nil {
		return
	}
	if mass := w.back.due(t); mass > 0 && w.basin.keep(mass) {
		w.record.floorWet(t)
	}
}
