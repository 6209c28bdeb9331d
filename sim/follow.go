package sim

import (
	"slices"

	"winterline/sim/heat"
)

// follow takes in the segment's ice share from one instant to the next at which any of its cells ended a step; room is
// where the instants are gathered.
func (s *segmentTally) follow(from, to float64, room *[]float64) {
	standing, iced := 0.0, false
	for _, c := range s.cells {
		standing += c.standing()
		for i := range c.tally.track {
			iced = iced || c.tally.track[i].ice > 0
		}
	}
	s.result.Standing = max(s.result.Standing, standing/heat.WaterDensity)
	if !iced {
		return
	}
	for _, c := range s.cells {
		c.tally.at = 0
	}
	was := shareAt(s.cells, from)
	for _, t := range s.instantsIn(from, to, room) {
		now := shareAt(s.cells, t)
		s.stretch(was, now)
		was = now
	}
}

// standing is the water and ice in the cell [kg], a film not counted.
func (c *cell) standing() float64 {
	if c.film() {
		return 0
	}
	return c.mass * c.length
}

// share is a segment's ice share at an instant.
type share struct{ t, ice float64 }

// instantsIn are the times of all points of the cells' tracks within an interval, in order, each once.
func (s *segmentTally) instantsIn(from, to float64, room *[]float64) []float64 {
	all := (*room)[:0]
	for _, c := range s.cells {
		for i := range c.tally.track {
			if t := c.tally.track[i].t; t > from && t < to {
				all = append(all, t)
			}
		}
	}
	all = append(all, to)
	slices.Sort(all)
	*room = all
	return slices.Compact(all)
}

// shareAt is the cells' ice share at time t, straight between the points of their tracks. Times must rise from call to
// call: tally.at says how far the last one came.
func shareAt(cells []*cell, t float64) share {
	ice, all := 0.0, 0.0
	for _, c := range cells {
		k, i := c.tally.track, c.tally.at
		if len(k) == 0 {
			continue
		}
		for i < len(k) && k[i].t < t {
			i++
		}
		c.tally.at = i
		switch {
		case i == 0:
			i = 1
			fallthrough
		case i == len(k):
			p := k[i-1]
			ice, all = ice+p.ice, all+p.all
		default:
			a, b := k[i-1], k[i]
			w := (t - a.t) / (b.t - a.t)
			ice += a.ice + w*(b.ice-a.ice)
			all += a.all + w*(b.all-a.all)
		}
	}
	if all == 0 {
		return share{t, 0}
	}
	return share{t, ice / all}
}
