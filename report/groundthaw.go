package report

import "winterline/sim"

// thaw is how the ground thawed from above while frost still lay under it.
type thaw struct {
	days          map[int]bool // of the record, with ground thawed above frost
	first, last   float64      // of them [s]
	depth, bottom float64      // deepest thaw, and the frost's lower edge then [m]
	at            float64      // [s]
}

// leastThaw is how much must be thawed, and as much frozen under it, for soft wet ground over
// frost that holds the water up [m].
const leastThaw = 0.05

// thawOf looks for it.
func thawOf(r *sim.GroundResult) thaw {
	t := thaw{days: map[int]bool{}}
	for i, at := range r.Time {
		thawed, frozen := r.FrostTop[i]-r.Surface.Depth, r.FrostBottom[i]-r.FrostTop[i]
		if !(thawed >= leastThaw && frozen >= leastThaw) {
			continue
		}
		if len(t.days) == 0 {
			t.first = at
		}
		t.days[int(at/86400)], t.last = true, at
		if r.FrostTop[i] > t.depth {
			t.depth, t.bottom, t.at = r.FrostTop[i], r.FrostBottom[i], at
		}
	}
	return t
}

// thawWords says when the ground had thawed from above and water stood on frost.
func thawWords(r *sim.GroundResult, s System) []string {
	t := thawOf(r)
	if len(t.days) == 0 {
		return nil
	}
	when := "on " + groundDay(r, t.first)
	if len(t.days) > 1 {
		when = "on " + plural(float64(len(t.days)), "day") + " between " + groundDay(r, t.first) + " and " + groundDay(r, t.last)
	}
	return []string{when + " the top had thawed by " + s.bothDepths(leastThaw) + " or more with frost still under it; most on " + groundDay(r, t.at) + ": thawed to " +
		s.bothDepths(t.depth) + ", frozen below that to " + s.bothDepths(t.bottom)}
}
