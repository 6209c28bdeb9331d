package sim

import (
	"context"
	"math"
)

// KeptAnswers runs a winter and tells, before every weather row, the answers that are worked out with what is kept and
// the same worked out anew from the cells: the level at the outlet at which the line holds a share of what it
// holds at the highest, and how the pump's flow parts.
func KeptAnswers(k *Case, share float64, tell func(row int, what string, kept, anew float64)) error {
	ground, err := undisturbed(context.Background(), k, Settings{})
	if err != nil {
		return err
	}
	w, err := newWinter(k, Settings{}, ground)
	if err != nil {
		return err
	}
	row := 0
	_, err = w.simulate(eachRow{context.Background(), func() {
		r, l := w.rest(), w.line
		from, low, high := w.looseFrom(r), l.slot-0.2, l.crest+0.2
		mass := share * l.holdsAnew(high, from, r)
		tell(row, "sill", l.sillFor(mass, low, high, from, r), l.sillAnew(mass, low, high, from, r))
		kept := w.parting(w.settled, w.pumping)
		w.parted, w.behind = nil, nil
		anew := w.parting(w.settled, w.pumping)
		tell(row, "level", kept.level, anew.level)
		tell(row, "line", kept.line, anew.line)
		tell(row, "relief", kept.relief, anew.relief)
		row++
	}}, nil)
	return err
}

// holdsAnew is what the cells from an index on hold with a level at the outlet, never less than their ice [kg].
func (l *line) holdsAnew(sill float64, from int, r rest) float64 {
	r.sill = sill
	sum := 0.0
	for i, level := range l.levels(r) {
		if c := l.cells[i]; i >= from {
			ice := 0.0
			if c.wet() {
				ice = c.iceShareIn(c.u) * c.mass
			}
			sum += math.Max(math.Max(c.massAtLevel(level), c.written), ice) * c.length
		}
	}
	return sum
}

// sillAnew is sillFor with all of the line worked out at every level that it tries.
func (l *line) sillAnew(mass, low, high float64, from int, r rest) float64 {
	if l.holdsAnew(high, from, r) <= mass {
		return high
	}
	for i := 0; i < levelTries && high-low > levelTolerance; i++ {
		if mid := 0.5 * (low + high); l.holdsAnew(mid, from, r) <= mass {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// EvenFlows asks the lying cells of a case's line for the cross-sections of even flow at some rates [m³/s], one cell after the
// other at each rate, and what they wet of the bed, and tells each beside the same worked out anew.
func EvenFlows(k *Case, rates []float64, tell func(kept, anew float64)) error {
	w, err := winterOf(k, Settings{})
	if err != nil {
		return err
	}
	for _, rate := range rates {
		for _, c := range w.line.cells {
			if c.vertical {
				continue
			}
			anew := evenFlow{bore: c.bore, manning: c.manning, fall: max(leastEven, (c.z0-c.z1)/c.length)}
			area := c.normalArea(rate)
			tell(area, anew.area(rate))
			anew = evenFlow{bore: c.bore}
			tell(c.bedPerimeter(area), anew.wets(area))
		}
	}
	return nil
}
