package report

import (
	"fmt"

	"winterline/sim"
)

// buriedWords says of each buried segment whether and when the frost stood at its depth.
func buriedWords(r *sim.GroundResult, s System) []string {
	pipes := buriedRanges(r.Layout, r.Profile)
	if len(pipes) == 0 {
		return nil
	}
	const most = 6
	var lines []string
	for _, b := range pipes[:min(most, len(pipes))] {
		lines = append(lines, "the "+b.name+" lies at "+s.depthRange(b.top, b.bottom)+": "+visitWords(r, s, b)+elsewhere(r, b))
	}
	if rest := len(pipes) - most; rest > 0 {
		lines = append(lines, plural(float64(rest), "more segment")+" in summary.json")
	}
	return append(lines, "(frost in the ground nearby: pipe and water bring warmth of their own)")
}

// elsewhere warns of a segment that lies under something else than this ground.
func elsewhere(r *sim.GroundResult, b buriedRange) string {
	if b.under(r.Surface) {
		return ""
	}
	over := sim.GroundSurface{Cover: b.cover, SnowKind: r.Surface.SnowKind, SnowOn: b.snowOn}
	return "; but it lies " + underWords(over) + ", where frost goes otherwise"
}

func visitWords(r *sim.GroundResult, s System, b buriedRange) string {
	var visits []frostVisit
	for _, w := range r.Seasons {
		if v := b.visit(r, w); v.reached {
			visits = append(visits, v)
		}
	}
	switch deepest, froze := deepestFrost(r); {
	case !froze:
		return "nothing froze"
	case len(visits) == 0:
		return "the frost stayed " + s.Depth(b.top-deepest.Deepest) + " above it"
	case len(r.Seasons) > 1:
		return severalVisits(r, visits)
	}
	v := visits[0]
	words := "frost stood at its depth from " + groundDay(r, v.from) + " to " + groundDay(r, v.to)
	if v.below {
		return words + ", and below it from " + groundDay(r, v.under.from) + " to " + groundDay(r, v.under.to)
	}
	return words + ", never below it"
}

// severalVisits sums up over the winters and names the longest.
func severalVisits(r *sim.GroundResult, visits []frostVisit) string {
	longest, below := visits[0], 0
	for _, v := range visits {
		if v.to-v.from > longest.to-longest.from {
			longest = v
		}
		if v.below {
			below++
		}
	}
	of := len(r.Seasons)
	words := "frost stood at its depth in " + shareOf(len(visits), of) + ", below it in " + shareOf(below, of)
	return words + "; longest from " + groundDay(r, longest.from) + " to " + groundDay(r, longest.to)
}

// shareOf says how many of several winters, "3 of 4 winters".
func shareOf(n, of int) string {
	switch n {
	case 0:
		return "none"
	case of:
		return "every winter"
	}
	return fmt.Sprintf("%d of %d winters", n, of)
}
