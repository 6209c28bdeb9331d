package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// laidShare is the least share of what stands in a cell that a barrier's level must hold there to explain it [-]; below,
// passing water has left it (model definition).
const laidShare = 0.5

// stood says what stands in cell i and what holds it there; shut tells the cells that were shut before it shut.
func (w *winter) stood(i int, shut []bool) Stood {
	l, c := w.line, w.line.cells[i]
	from, to := l.standingAround(i)
	out := Stood{
		Volume: c.mass * c.length / heat.WaterDensity, Fill: c.fill(), From: l.cells[from].near(), To: l.cells[to].far(),
		Fall: (c.z0 - c.z1) / c.length, At: math.NaN(), Part: -1, Depth: math.NaN(),
	}
	for _, x := range l.cells[from : to+1] {
		out.Stretch += x.mass * x.length / heat.WaterDensity
	}
	var level float64
	var at int
	if out.Barrier, at, level = w.barrier(i, shut); at >= 0 {
		out.At, out.Part, out.Depth = l.cells[at].far(), l.cells[at].part, level-min(c.z0, c.z1)
	}
	return out
}

// near and far are the distances from the wall of a cell's ends.
func (c *cell) near() float64 { return min(c.x0, c.x1) }
func (c *cell) far() float64  { return max(c.x0, c.x1) }

// standingAround is the stretch around cell i in which water stands without a break: its first and last cell.
func (l *line) standingAround(i int) (from, to int) {
	from, to = i, i
	for from > 0 && from != l.house && !l.cells[from-1].film() {
		from--
	}
	for to+1 < len(l.cells) && to+1 != l.house && !l.cells[to+1].film() {
		to++
	}
	return from, to
}

// barrier finds what holds the water in cell i, the cell that does (−1: none) and the level up to which it does [m].
// The pipe as it lies comes before ice that may have raised the water further. Where the outlet's level of now does not
// explain what stands there, that of the time when the last warm water came is tried: water may have sunk since and left
// its ice behind.
func (w *winter) barrier(i int, shut []bool) (kind Barrier, at int, level float64) {
	l, c := w.line, w.line.cells[i]
	if c.written > 0 && c.mass <= c.written {
		return BarrierWritten, -1, 0
	}
	r := w.rest()
	r.plugs = l.findPlugs(shut)
	explains := func(level float64) bool { return c.massAtLevel(level) >= laidShare*c.mass }
	for _, r.sill = range [...]float64{r.sill, c.last.sill} {
		if kind, at, level = w.heldByPipe(i, r); explains(level) {
			return kind, at, level
		}
		if level = l.bound(r).at(i, r.sill); explains(level) {
			if kind, at = l.heldByIce(i, shut); at >= 0 {
				return kind, at, level
			}
		}
	}
	return BarrierLaid, -1, 0
}

// heldByPipe is what would hold water in cell i if there were no ice in the pipe.
func (w *winter) heldByPipe(i int, r rest) (kind Barrier, at int, level float64) {
	outlet := math.Inf(-1)
	if i >= w.line.house && !(r.plugs.riser && r.sill > w.line.sill) {
		outlet = r.sill
	}
	if kind, at, level = w.heldByBed(i, r); level < outlet-sameLevel {
		kind, at = w.heldAtOutlet()
		level = outlet
	}
	return kind, at, level
}

// heldAtOutlet is what holds water at the outlet's level.
func (w *winter) heldAtOutlet() (Barrier, int) {
	l := w.line
	last := len(l.cells) - 1
	switch {
	case w.k.Layout.Outlet.Kind == pipe.Open:
		if l.sill > l.end+sameLevel {
			return BarrierEnd, last
		}
		return BarrierOutlet, last
	case w.pocket == nil:
		return BarrierLid, last
	case w.pocket.fill() >= pocketHolds:
		return BarrierPocket, last
	case w.slotIced():
		return BarrierSlot, last
	}
	return BarrierSlow, last
}

// sameLevel is the difference of level that is no reason to prefer one barrier to another [m] (model definition).
const sameLevel = 5e-3

// pocketHolds is how full the rock pit must be to count as what keeps the line full [-] (model definition).
const pocketHolds = 0.95

// heldByBed is where the pipe's bed, without ice, is highest from cell i downstream to the riser to the lid (in a house
// pipe: to its end), and how high that is [m].
func (w *winter) heldByBed(i int, r rest) (kind Barrier, at int, high float64) {
	l := w.line
	to := l.elbow
	if i < l.house {
		to = l.house
	}
	at, high = i, l.cells[i].z1
	next := i + 1
	switch {
	case l.inStandpipe(i):
		at, high, next = -1, math.Inf(-1), l.standTo
	case i >= l.elbow:
		return BarrierGrade, -1, math.Inf(-1)
	}
	for j := next; j < to; j++ {
		if c := l.cells[j]; max(c.z0, c.z1) > high+levelTolerance {
			at, high = j, max(c.z0, c.z1)
		}
	}
	segment := l.cells[i].segment
	switch {
	case at <= l.crestAt && high >= l.crest-levelTolerance:
		if !r.valve {
			return BarrierGrade, -1, math.Inf(-1) // it runs back
		}
		return BarrierValve, at, high
	case !l.cells[i].upright && l.cells[at].segment == segment && w.k.Layout.Segments[segment].Sag > 0:
		return BarrierSag, at, high
	}
	return BarrierGrade, at, high
}

// heldByIce is the next cell downstream of cell i that is shut, or the end under ice on the ground; −1: neither is.
func (l *line) heldByIce(i int, shut []bool) (Barrier, int) {
	last := len(l.cells) - 1
	for j := i + 1; j <= last; j++ {
		if shut[j] {
			return BarrierPlug, j
		}
	}
	if l.iced {
		return BarrierEnd, last
	}
	return BarrierLaid, -1
}
