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
	takes := w.lineFlow()
	snow := w.sky.snowAt(t)
	if w.parted == nil {
		w.parted = new(keptParting)
	}
	if w.parted.holds(partingOf{rate, w.lift, plugs.behind(), takes}, w.joint, snow) {
		return w.parted.out
	}
	arriving := func(float64) float64 { return rate }
	high := w.joint.rim + 1
	if l.house == 0 {
		// A glued line: the pump feels the level at the joint as head.
		arriving = func(level float64) float64 {
			return min(rate, w.lift.to(max(level, l.crest)))
		}
		high = max(w.lift.shutOff(), l.crest) + 1
	}
	line := func(level float64) float64 { return takes.at(level) }
	if plugs.behind() {
		line = func(float64) float64 { return 0 }
	}
	w.parted.out = w.joint.part(snow, high, arriving, line)
	return w.parted.out
}

// behindJoint is what the line behind the joint sets against water that runs through it. All but kept stays as it was
// made.
type behindJoint struct {
	duct          duct
	fall, manning float64 // fall over its length [-]; Manning's n at its entry [s/m^(1/3)]
	high          float64 // its highest invert [m], of a glued line; −Inf: it starts at a standpipe
	entry         *cell
	kept          [128]ductFlow
}

func newBehindJoint(k *Case, l *line) *behindJoint {
	all := k.Layout.Segments
	b := &behindJoint{duct: equivalent(all[min(l.jointSegment, len(all)-1):]), entry: l.cells[l.entry()], high: math.Inf(-1)}
	if l.house == 0 {
		for _, c := range l.cells[l.jointAt:] {
			b.high = max(b.high, max(c.z0, c.z1))
		}
	}
	b.manning = all[b.entry.segment].Size.Manning
	length := 0.0
	for _, s := range all[b.entry.segment:] {
		length += s.Length
	}
	b.fall = max(b.entry.z0-l.end, leastFall) / length
	return b
}

// lineFlow is the flow that the line behind the joint takes as it is now, by the level before it.
type lineFlow struct {
	*behindJoint
	out    float64 // level to which it flows [m]
	glued  bool
	narrow narrowing
}

// lineFlow says what the line behind the joint takes now.
func (w *winter) lineFlow() lineFlow {
	l := w.line
	if w.behind == nil {
		w.behind = newBehindJoint(w.k, l)
	}
	out := l.sill
	if w.k.Layout.Outlet.Kind == pipe.Lid {
		out += w.k.Layout.Outlet.LidOpeningHead
	}
	return lineFlow{w.behind, max(out, w.behind.high), l.house == 0, w.narrowest()}
}

// at is the flow that it takes [m³/s] with water at a level before it, never more than its most iced cell
// passes.
func (f *lineFlow) at(level float64) float64 {
	depth := level - f.entry.z0
	if !f.glued && f.out < f.entry.z0 && depth < manningCrown*f.entry.bore {
		depth = max(0, depth)
		return min(flow.Discharge(f.entry.bore, f.fall, f.manning, depth), f.narrow.passes(depth))
	}
	head := max(0, level-f.out)
	return min(f.ductFlow(head), f.narrow.passes(head))
}

const (
	// manningCrown is the share of the bore up to which a part-full line flows by Manning;
	// above it the discharge would fall again with depth.
	manningCrown = 0.93
	leastFall    = 1e-3 // fall over the whole line that drives part-full flow at least [m]
)

// narrowing is the most iced cell behind the joint.
type narrowing struct {
	cell *cell   // nil: none holds ice
	ice  float64 // its ice share [-]
	open float64 // its free cross-section [m²]
}

// narrowest finds it.
func (w *winter) narrowest() narrowing {
	worst, at := 0.0, -1
	for i := w.line.jointAt; i < len(w.line.cells); i++ {
		c := w.line.cells[i]
		if a := c.iceArea() / c.boreArea(); a > worst && !c.skin(w.shut[i]) {
			worst, at = a, i
		}
	}
	if at < 0 {
		return narrowing{}
	}
	c := w.line.cells[at]
	return narrowing{c, c.iceShare(), c.openAt(c.iceShare())}
}

// passes is the flow that it lets through under a head [m³/s].
func (n *narrowing) passes(head float64) float64 {
	if n.cell == nil {
		return math.Inf(1)
	}
	return n.cell.passes(n.ice, driveHead{head: head})
}
