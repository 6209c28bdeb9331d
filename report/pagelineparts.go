package report

import (
	"cmp"
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim"
)

// linePart is a part of the line as the picture shows it.
type linePart struct {
	cells  []sim.CellState // placed, in flow order
	number int             // its tag; 0: none
	state  string          // "clear", "iced" or "shut", over the whole winter
}

// lineParts gathers the cells by part and numbers the parts: all of them, or where they are many those that froze most.
func lineParts(r *sim.Result) []linePart {
	cells := r.Worst.Cells
	if len(cells) == 0 {
		cells = emptyCells(r)
	}
	parts := make([]linePart, len(r.Segments))
	for _, c := range placeIndoors(r, cells) {
		if c.X0 < 0 || c.X1 < 0 { // indoors and in the wall: farther back than charts put them
			c.X0, c.X1 = c.X0*riserAt/indoorPipe, c.X1*riserAt/indoorPipe
		}
		part := partOf(r, c)
		parts[part].cells = append(parts[part].cells, c)
	}
	most := partCells
	if len(parts) > mostTags {
		most = manyPartCells
	}
	for i := range parts {
		parts[i].state = partState(r.Segments[i])
		parts[i].cells = joinCells(parts[i].cells, most)
	}
	for n, i := range taggedParts(r) {
		parts[i].number = n + 1
	}
	return parts
}

// Names that sim gives the upright parts of a line, which no segment of the layout is.
const (
	standpipePart = "standpipe"
	riserPart     = "outlet riser" // under a lid
)

// partOf is the index in Segments of the part that a cell belongs to. Cells of the standpipe and of the outlet's riser
// carry the segment that they belong to in the layout; the result tells them apart from it, by their names.
func partOf(r *sim.Result, c sim.CellState) int {
	if !c.Vertical || c.Segment >= len(r.Layout.Segments) {
		return c.Segment
	}
	if setting := r.Segments[c.Segment].Setting; setting == pipe.Indoor || setting == pipe.ThroughWall {
		return c.Segment
	}
	name := riserPart
	if r.Layout.Standpipe != nil {
		if foot, _ := standpipeFoot(r); c.X0 <= foot {
			name = standpipePart
		}
	}
	for i := len(r.Segments) - 1; i >= 0; i-- {
		if r.Segments[i].Name == name {
			return i
		}
	}
	return c.Segment
}

// partState says what became of a part in the winter.
func partState(seg sim.SegmentResult) string {
	switch {
	case seg.Closed != nil:
		return "shut"
	case seg.FirstIce != nil:
		return "iced"
	}
	return "clear"
}

// flowOrder gives the indices of the parts from the pump outwards: the result lists the upright ones last.
func flowOrder(r *sim.Result) []int {
	order, place := make([]int, len(r.Segments)), make([]int, len(r.Segments))
	for i := range order {
		order[i], place[i] = i, -1
	}
	for n, c := range r.Worst.Cells {
		if i := partOf(r, c); place[i] < 0 {
			place[i] = n
		}
	}
	for i := range place {
		if place[i] < 0 && i > 0 {
			place[i] = place[i-1] // it has no cell: behind the one before it
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(place[a], place[b]) })
	return order
}

// taggedParts are the indices of the parts that carry a number, from the pump outwards.
func taggedParts(r *sim.Result) []int {
	order := flowOrder(r)
	if len(order) <= mostTags {
		return order
	}
	worst := slices.SortedStableFunc(slices.Values(order), func(a, b int) int {
		x, y := r.Segments[a], r.Segments[b]
		return cmp.Or(cmp.Compare(y.HoursClosed, x.HoursClosed), cmp.Compare(y.LargestIce, x.LargestIce))
	})[:mostTags]
	return slices.DeleteFunc(order, func(i int) bool { return !slices.Contains(worst, i) })
}

// joinCells joins neighbours to at most n pieces that keep the most ice and what is shut.
func joinCells(cells []sim.CellState, n int) []sim.CellState {
	if len(cells) <= n {
		return cells
	}
	out := make([]sim.CellState, 0, n)
	for k := range n {
		run := cells[k*len(cells)/n : (k+1)*len(cells)/n]
		joined := run[0]
		fill := 0.0
		for _, c := range run {
			joined.X1, joined.Z1 = c.X1, c.Z1
			joined.Ice = math.Max(joined.Ice, c.Ice)
			joined.Closed = joined.Closed || c.Closed
			fill += c.Fill / float64(len(run))
		}
		joined.Fill = fill
		out = append(out, joined)
	}
	return out
}
