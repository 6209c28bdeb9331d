package sim

import (
	"math"
	"slices"
)

// closedLength is a full length between two ends: cells[from:to] lie between them.
type closedLength struct {
	from, to int
	valve    bool // its upstream end is the check valve
}

// brimFull is the fill from which a cell holds no air that would give way [-].
const brimFull = 0.999

// seals reports that ice fills the bore of cell i: no water gets past it.
func (w *winter) seals(i int) bool {
	c := w.line.cells[i]
	return w.shut[i] && c.iceArea() >= c.boreArea()
}

// vents are the cells that are open to the air, where water shut in finds a way out: those at a relief
// opening, a downspout, or an open weep slot.
func (w *winter) vents() []bool {
	l := w.line
	if w.trap.vents == nil {
		w.trap.vents = make([]bool, len(l.cells))
	}
	out := w.trap.vents
	clear(out)
	for _, r := range w.k.Layout.Reliefs {
		if n := l.lying(r.Segment); n > 0 {
			out[l.nthLying(r.Segment, (n-1)/2)] = true
		}
	}
	for i := l.standFrom; i < l.standTo; i++ {
		for _, o := range w.joint.reliefs {
			out[i] = out[i] || l.cells[i].z1 > o.bottom
		}
	}
	for _, e := range w.k.Layout.ExtraInflows {
		if l.lying(e.Segment) > 0 {
			out[l.nthLying(e.Segment, 0)] = true
		}
	}
	if w.k.Layout.Outlet.Weep != nil && !w.slotIced() {
		out[min(l.elbow, len(l.cells)-1)] = true
	}
	return out
}

// lying is how many cells of its own a segment has.
func (l *line) lying(segment int) int {
	n := 0
	for _, c := range l.cells {
		if c.segment == segment && !c.upright {
			n++
		}
	}
	return n
}

// nthLying is the index of a segment's own cell number n, from 0 on.
func (l *line) nthLying(segment, n int) int {
	for i, c := range l.cells {
		if c.segment != segment || c.upright {
			continue
		}
		if n == 0 {
			return i
		}
		n--
	}
	return -1
}

// closedLengths are the full lengths between a plug and the one before it, or the check valve, that hold
// any liquid. Behind the joint of a house pipe that ends open the count starts anew.
func (w *winter) closedLengths() []closedLength {
	if !slices.Contains(w.shut, true) {
		return nil
	}
	out := w.trap.lengths[:0]
	vents := w.vents()
	now, tight := closedLength{valve: w.valved()}, w.valved()
	for i, c := range w.line.cells {
		if i == w.line.house && i > 0 {
			tight = false
		}
		switch {
		case w.seals(i):
			now.to = i
			if liquid, _ := w.waterIn(now); tight && liquid > 0 {
				out = append(out, now)
			}
			now, tight = closedLength{from: i + 1}, true
		case vents[i] || c.fill() < brimFull:
			tight = false
		}
	}
	w.trap.lengths = out
	return out
}

// valved reports a check valve at the pump, where the layout has a pump or a basin to stand it at.
func (w *winter) valved() bool {
	l := w.k.Layout
	return l.Basin != nil && l.Basin.CheckValve || l.Basin == nil && len(l.Pumps) > 0
}

// waterIn is the liquid water and the ice in a closed length [kg].
func (w *winter) waterIn(s closedLength) (liquid, ice float64) {
	for _, c := range w.line.cells[s.from:s.to] {
		frozen := c.iceMass()
		liquid, ice = liquid+c.mass*c.length-frozen, ice+frozen
	}
	return liquid, ice
}

// withPlugs is a closed length and the cells at its ends that ice fills: their cores freeze on and
// push what they cannot hold into it.
func (w *winter) withPlugs(s closedLength) closedLength {
	for s.to < len(w.line.cells) && w.seals(s.to) {
		s.to++
	}
	for s.from > 0 && w.seals(s.from-1) {
		s.from--
	}
	return s
}

// coldestIce is the lowest temperature of the ice that touches the water of a closed length [°C]: the
// ice in it and in the cells at its ends.
func (w *winter) coldestIce(s closedLength) float64 {
	low := 0.0
	for _, c := range w.line.cells[max(0, s.from-1):min(s.to+1, len(w.line.cells))] {
		if c.iceShare() > 0 {
			low = math.Min(low, c.lowestWater())
		}
	}
	return low
}
