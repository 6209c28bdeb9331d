package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
)

// parting finds how a pumped flow [m³/s] leaves the joint at t.
func (w *winter) parting(t, rate float64) parting {
	l := w.line
	plugs := l.findPlugs(w.shut)
	if plugs.house >= 0 {
		return parting{level: l.crest}
	}
	arriving := func(float64) float64 { return rate }
	high := w.joint.rim + 1
	if l.house == 0 {
		// A glued line: the pump feels the level at the joint as head.
		arriving = func(level float64) float64 {
			return math.Min(rate, w.lift.to(math.Max(level, l.crest)))
		}
		high = math.Max(w.lift.shutOff(), l.crest) + 1
	}
	line := w.lineFlow()
	if plugs.behind() {
		line = func(float64) float64 { return 0 }
	}
	return w.joint.part(w.sky.snowAt(t), high, arriving, line)
}

// lineFlow is the flow that the line behind the joint takes [m³/s] as a function of the
// level before it, never more than its most iced cell passes.
func (w *winter) lineFlow() func(level float64) float64 {
	l := w.line
	out := l.sill
	if w.k.Layout.Outlet.Kind == pipe.Lid {
		out += w.k.Layout.Outlet.LidOpeningHead
	}
	narrowest := w.narrowest()
	d := equivalent(w.k.Layout.Segments[min(l.jointSegment, len(w.k.Layout.Segments)-1):])
	entry := l.cells[l.entry()]
	if l.house == 0 {
		for _, c := range l.cells[l.jointAt:] {
			out = math.Max(out, math.Max(c.z0, c.z1))
		}
		return func(level float64) float64 {
			head := math.Max(0, level-out)
			return math.Min(d.flow(head), narrowest(head))
		}
	}
	n := w.k.Layout.Segments[entry.segment].Size.Manning
	length := 0.0
	for _, s := range w.k.Layout.Segments[entry.segment:] {
		length += s.Length
	}
	fall := math.Max(entry.z0-l.end, leastFall) / length
	return func(level float64) float64 {
		depth := level - entry.z0
		if out < entry.z0 && depth < manningCrown*entry.bore {
			depth = math.Max(0, depth)
			return math.Min(flow.Discharge(entry.bore, fall, n, depth), narrowest(depth))
		}
		head := math.Max(0, level-out)
		return math.Min(d.flow(head), narrowest(head))
	}
}

const (
	// manningCrown is the share of the bore up to which a part-full line flows by Manning;
	// above it the discharge would fall again with depth.
	manningCrown = 0.93
	leastFall    = 1e-3 // fall over the whole line that drives part-full flow at least [m]
)

// narrowest gives the flow that the most iced cell behind the joint passes under a head.
func (w *winter) narrowest() func(head float64) float64 {
	worst, at := 0.0, -1
	for i := w.line.jointAt; i < len(w.line.cells); i++ {
		c := w.line.cells[i]
		if a := c.iceArea() / c.boreArea(); a > worst && !c.skin(w.shut[i]) {
			worst, at = a, i
		}
	}
	if at < 0 {
		return func(float64) float64 { return math.Inf(1) }
	}
	c := w.line.cells[at]
	f := c.iceShare()
	return func(head float64) float64 { return c.passes(f, driveHead{head: head}) }
}
