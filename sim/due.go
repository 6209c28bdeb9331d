package sim

import (
	"math"

	"winterline/sim/heat"
)

// run is the pump run in progress.
type run struct {
	left      float64 // still to be pumped, beside what waits in the basin [kg]; 0: no run
	flow      float64 // what the pump delivers into an open line [m³/s]
	scheduled bool    // one of the case's cycles; else the float's answer to water that came back
}

// upTo is when the next pump run from t on is due, or the end of the interval where that comes first [s], and whether
// it is a run.
func (w *winter) upTo(t, end float64) (at float64, runs bool) {
	if at := math.Max(t, w.nextRun()); at < end {
		return at, true
	}
	return end, false
}

// nextRun is when the pump next runs, or goes on with a run that a weather row has cut in two [s].
func (w *winter) nextRun() float64 {
	if w.run.left > 0 {
		return w.busy
	}
	at := math.Inf(1)
	if w.next < len(w.k.Cycles) {
		at = w.cycleStart(w.next)
	}
	if w.back != nil {
		at = math.Min(at, math.Max(w.busy, w.back.fills(w.basin.band)))
	}
	return at
}

// cycleStart is when the case's cycle i starts [s]: not before the pump has done what came first.
func (w *winter) cycleStart(i int) float64 {
	return math.Max(w.k.Cycles[i].Start.Sub(w.k.Weather.Start).Seconds(), w.busy)
}

// deadline is when the case's cycle after the run in progress starts [s], which ends the run.
func (w *winter) deadline() float64 {
	next := w.next
	if w.run.scheduled {
		next++
	}
	if next < len(w.k.Cycles) {
		return w.k.Cycles[next].Start.Sub(w.k.Weather.Start).Seconds()
	}
	return math.Inf(1)
}

// openRun starts the run that is due at t: the case's next cycle, which brings its water, or one
// for what has come back to the basin. It reports false where there is nothing to pump.
func (w *winter) openRun(t float64) bool {
	w.run = run{flow: w.pumping, scheduled: w.next < len(w.k.Cycles) && w.cycleStart(w.next) <= t}
	came := 0.0
	if w.back != nil {
		came = w.back.take()
	}
	if !w.run.scheduled {
		w.run.left = math.Min(came, w.basin.backlog)
		w.basin.backlog -= w.run.left
	} else {
		c := &w.k.Cycles[w.next]
		if c.Flow > 0 {
			w.run.flow = c.Flow
		}
		w.run.left = w.run.flow * c.Run * heat.WaterDensity
		w.water.arrived.add(w.run.left)
	}
	if w.run.left <= 0 {
		w.endRun(t)
		return false
	}
	w.record.openCycle(t, w.run.left)
	return true
}

// endRun goes on to the next cycle.
func (w *winter) endRun(t float64) {
	if w.run.scheduled {
		w.next++
	}
	w.run, w.busy = run{}, t
}
