package report

import (
	"cmp"
	"slices"

	"winterline/sim"
)

// SummaryTrapped is water that ice shut in.
type SummaryTrapped struct {
	Where    string   `json:"where"` // segment of the plug
	Behind   string   `json:"other_end"`
	Since    *Moment  `json:"since"`
	Until    *Moment  `json:"until"` // null: still shut in at the end
	Litres   *float64 `json:"litres"`
	Pressure *float64 `json:"pressure_at_most_mpa"` // above the air's
	Bound    string   `json:"bound"`                // what sets that: "rigid-pipe" or "ice-melts"
}

func summaryTrapped(r *sim.Result) []SummaryTrapped {
	out := []SummaryTrapped{}
	for _, x := range r.Trapped {
		s := SummaryTrapped{Where: x.Where, Behind: "ice", Bound: "ice-melts", Since: momentAt(r.Start, x.Since), Until: momentIf(r.Start, x.Until),
			Litres: summaryLitres(x.Volume), Pressure: finite(roundTo(x.Pressure/1e6, 3))}
		if x.Valve {
			s.Behind = "check valve"
		}
		if x.Rigid {
			s.Bound = "rigid-pipe"
		}
		out = append(out, s)
	}
	return out
}

// trappedWords says of the two worst lengths that ice shut in what stood in them, how long, and under
// what pressure at most.
func trappedWords(r *sim.Result, s System) []string {
	const most = 2
	var lines []string
	for _, x := range worstTrapped(r.Trapped)[:min(most, len(r.Trapped))] {
		lines = append(lines, trappedLine(r, x, s))
	}
	if rest := len(r.Trapped) - most; rest > 0 {
		lines = append(lines, plural(float64(rest), "more time")+" in events.csv")
	}
	if len(lines) > 0 {
		lines = append(lines, "a plugged line may be under pressure: do not cut or unscrew it")
	}
	return lines
}

// worstTrapped are the lengths by the pressure that they can have had, and by their litres.
func worstTrapped(all []sim.Trapped) []sim.Trapped {
	return slices.SortedStableFunc(slices.Values(all), func(a, b sim.Trapped) int {
		return cmp.Or(cmp.Compare(b.Pressure, a.Pressure), cmp.Compare(b.Volume, a.Volume))
	})
}

func trappedLine(r *sim.Result, x sim.Trapped, s System) string {
	end := ", still so at the end of the record"
	if x.Until != nil {
		end = " to " + spokenTime(r.Start, *x.Until)
	}
	return s.bothVolumes(x.Volume) + " shut in " + trappedBetween(x) + ", " + spokenTime(r.Start, x.Since) + end + trappedPressure(x, s)
}

// trappedBetween says what shut it in.
func trappedBetween(x sim.Trapped) string {
	if x.Valve {
		return "between the closed check valve and ice in the " + x.Where
	}
	return "between two plugs of ice, one in the " + x.Where
}

// trappedPressure says how hard its ice could press.
func trappedPressure(x sim.Trapped, s System) string {
	switch {
	case !x.Pressed():
		return "; hardly under pressure, since no more water froze there"
	case x.OverRating():
		return "; its ice could press up to " + s.bothPressures(x.Pressure) + " and burst a plastic pipe"
	}
	return "; under " + s.bothPressures(x.Pressure) + " at most"
}
