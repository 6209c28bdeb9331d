package answers

import (
	"math"
	"sort"

	"winterline/pipe"
	"winterline/sim"
)

// seenFar is the difference from which what was seen and what was simulated count as far apart [s]: two days.
const seenFar = 2 * 86400.0

// SeenMatch is something that the owner saw beside the nearest thing of its kind that was simulated. Times in seconds
// since the first weather row.
type SeenMatch struct {
	What       string   // as in the layout: shut, open, relief, wet-floor
	Seen       float64  // when it was seen
	Outside    bool     // of the weather record
	Simulated  *float64 // nearest; nil: that never happened
	Difference float64  // simulated less seen [s]; NaN without
	Held       bool     // it was so in the simulation when it was seen
}

// Far reports that seeing and simulation lie over two days apart, or that what was seen never happened. A line that was
// seen open and was open then agrees, whenever it opened.
func (m SeenMatch) Far() bool {
	switch {
	case m.Outside || m.What == "open" && m.Held:
		return false
	case m.Simulated == nil:
		return true
	}
	return math.Abs(m.Difference) > seenFar
}

// off is how far off it lies [s]: +Inf where it never happened.
func (m SeenMatch) off() float64 {
	switch {
	case m.What == "open" && m.Held:
		return 0
	case m.Simulated == nil:
		return math.Inf(1)
	}
	return math.Abs(m.Difference)
}

// MatchSeen sets all that the owner saw beside the simulation, in time order.
func MatchSeen(r *sim.Result) []SeenMatch {
	var out []SeenMatch
	for _, x := range r.Layout.Seen {
		out = append(out, matchSeen(r, x))
	}
	return out
}

// matchSeen sets one thing beside the simulation.
func matchSeen(r *sim.Result, x pipe.Seen) SeenMatch {
	m := SeenMatch{What: x.What, Seen: x.Time.Sub(r.Start).Seconds(), Difference: math.NaN()}
	if n := len(r.Hourly.Time); n == 0 || m.Seen < r.Hourly.Time[0] || m.Seen > r.Hourly.Time[n-1] {
		m.Outside = true
		return m
	}
	var times []float64
	switch x.What {
	case "shut", "open":
		spells := shutSpells(r)
		m.Held = x.What == "open"
		for _, s := range spells {
			if x.What == "shut" {
				times = append(times, s.from)
			} else if s.opened {
				times = append(times, s.to)
			}
			if m.Seen >= s.from && m.Seen < s.to {
				m.Held = x.What == "shut"
			}
		}
	case "relief":
		for _, c := range r.Cycles {
			if c.Relief > 0 {
				times = append(times, c.Time)
				m.Held = m.Held || m.Seen >= c.Time && m.Seen <= c.Time+c.Run
			}
		}
	case "wet-floor":
		if r.Verdict.Floor != nil {
			times = append(times, *r.Verdict.Floor)
			m.Held = m.Seen >= *r.Verdict.Floor
		}
	}
	for _, t := range times {
		if m.Simulated == nil || math.Abs(t-m.Seen) < math.Abs(*m.Simulated-m.Seen) {
			m.Simulated, m.Difference = &t, t-m.Seen
		}
	}
	return m
}

// shutSpell is a time during which the line was shut somewhere [s].
type shutSpell struct {
	from, to float64
	opened   bool // it opened at its end; else the record ended
}

// shutSpells are the times during which the line was shut, in order, none touching another.
func shutSpells(r *sim.Result) []shutSpell {
	end := r.Hourly.Time[len(r.Hourly.Time)-1]
	var all []shutSpell
	for _, c := range r.Closures {
		s := shutSpell{from: c.Shut, to: end}
		if c.Reopened != nil {
			s.to, s.opened = *c.Reopened, true
		}
		all = append(all, s)
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].from < all[j].from })
	var out []shutSpell
	for _, s := range all {
		n := len(out)
		switch {
		case n == 0 || s.from > out[n-1].to:
			out = append(out, s)
		case s.to > out[n-1].to || !s.opened:
			out[n-1].to, out[n-1].opened = s.to, s.opened
		}
	}
	return out
}
