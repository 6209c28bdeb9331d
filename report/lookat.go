package report

import (
	"math"
	"strings"

	"winterline/sim"
)

// lookAtKinds are the events that a householder can go and look at, weightiest first.
var lookAtKinds = []sim.EventKind{
	sim.EventPumpNoFlow, sim.EventReliefBuried, sim.EventReliefIced, sim.EventLidFrozen,
	sim.EventGapUsedUp, sim.EventPocketFull, sim.EventPocketFrozen,
}

// lookAtLimit keeps the list short enough to be read.
const lookAtLimit = 4

// lookAt lists what deserves a look: where water came out near the house first, then
// the first event of each kind.
func lookAt(r *sim.Result, s System, table *waterTable) []string {
	var lines []string
	if r.Ledger.Rim > 0 {
		lines = append(lines, table.amount(pathRim)+" ran out at the wall: expect ice there, and some of it back in the basement")
	}
	if r.Ledger.Relief > 0 {
		lines = append(lines, table.amount(pathRelief)+" ran out "+reliefDistance(r, s)+
			": expect ice where people walk; some may come back")
	}
	for _, kind := range lookAtKinds {
		if len(lines) == lookAtLimit {
			break
		}
		if line := firstOf(r, kind, s); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// reliefDistance says how far from the house the nearest relief opening lies.
func reliefDistance(r *sim.Result, s System) string {
	nearest := math.Inf(1)
	for _, opening := range r.Layout.Reliefs {
		nearest = math.Min(nearest, opening.DistanceToHouse)
	}
	if math.IsInf(nearest, 1) || nearest <= 0 {
		return "beside the house"
	}
	return s.bothLengths(nearest) + " from the wall"
}

// firstOf words the first event of a kind, and how often it came; "" if it never did.
func firstOf(r *sim.Result, kind sim.EventKind, s System) string {
	line, count := "", 0
	for _, e := range r.Events {
		if e.Kind != kind {
			continue
		}
		if count == 0 {
			line = spokenTime(r.Start, e.Time) + ": " + strings.TrimSuffix(lowerFirst(eventMeaning(r, e, s)), ".")
		}
		count++
	}
	if count > 1 {
		line += " (" + plural(float64(count), "time") + " in all)"
	}
	return line
}
