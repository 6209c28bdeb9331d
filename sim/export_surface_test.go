package sim

import "winterline/pipe"

// What the tests of the surface and of heave need of the inside.

// at is what a surface passes on at a row; see passed.
func (e *energy) at(row int, cover pipe.Surface, snow, top, below float64) (h, temp, under float64) {
	x := e.exchange(row, cover, snow)
	return x.passed(snow, top, below)
}

// under is the heave of all ground below a depth [m] at the row shown: low and high [m].
func (h *heaving) under(depth float64) (low, high float64) {
	b := h.below[h.index(depth)]
	return b[0], b[1]
}
