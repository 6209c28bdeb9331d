package sim

// returning is water let go beside the house on its way back to the basin: a stated share
// of it seeps down along the wall and arrives after a stated delay.
type returning struct {
	share, delay float64 // [-], [s]
	queue        []seeping
	arrived      sum // back in the basin so far [kg]
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
	return &returning{share: site.ReturnShare, delay: site.ReturnDelay}
}

// letGo takes a mass of water [kg] that was let go beside the house at time t [s].
func (r *returning) letGo(t, mass float64) {
	if mass > 0 {
		r.queue = append(r.queue, seeping{t + r.delay, r.share * mass})
	}
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
	return mass
}

// nearHouse is the share of the relief's flow at a level that can run back to the house [-].
func (j *joint) nearHouse(level, snow float64) float64 {
	near, all := 0.0, 0.0
	for _, o := range j.reliefs {
		q := o.flow(level, snow)
		all += q
		if o.facesHouse || o.distance <= besideHouse {
			near += q
		}
	}
	if all == 0 {
		return 0
	}
	return near / all
}

// comeBack lets returned water into the basin, where the next cycle pumps it.
func (w *winter) comeBack(t float64) {
	if w.back == nil {
		return
	}
	if mass := w.back.due(t); mass > 0 && w.basin.keep(mass) {
		w.record.floorWet(t)
	}
}
