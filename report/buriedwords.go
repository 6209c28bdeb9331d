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
		over, known := b.groundOver(r)
		lines = append(lines, "the "+b.name+" lies at "+s.bothDepthRanges(b.top, b.bottom)+elsewhere(r, over, s, b)+": "+visitWords(over, s, b)+unknownCover(r, known, b))
	}
	if rest := len(pipes) - most; rest > 0 {
		lines = append(lines, plural(float64(rest), "more segment")+" in summary.json")
	}
	return append(lines, "(frost in the ground nearby: pipe and water bring warmth of their own)")
}

// elsewhere tells of a segment that lies under something else than the rest, and how deep the frost
// went there.
func elsewhere(r, over *sim.GroundResult, s System, b buriedRange) string {
	if over == r {
		return ""
	}
	words := ", " + underWords(over.Surface)
	if deepest, froze := deepestFrost(over); froze {
		words += ", where frost reached " + s.bothDepths(deepest.Deepest)
	}
	return words
}

// unknownCover warns of a segment whose own ground was not computed.
func unknownCover(r *sim.GroundResult, known bool, b buriedRange) string {
	if known {
		return ""
	}
	over := sim.GroundSurface{Cover: b.cover, SnowKind: r.Surface.SnowKind, SnowOn: b.snowOn}
	return "; but it lies " + underWords(over) + ", which a thermometer elsewhere does not tell of"
}

// closeCall is how near to a pipe frost may stop and still not count as having stayed away [m]: measured and
// computed depths of frost differ by as much.
const closeCall = 0.15

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
		if gap := b.top - deepest.Deepest; gap < closeCall {
			return "the frost came within " + s.bothDepths(gap) + " of it: too close to call"
		}
		return "the frost stayed " + s.bothDepths(b.top-deepest.Deepest) + " above it"
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
