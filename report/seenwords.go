package report

import (
	"fmt"
	"math"
	"slices"

	"winterline/sim"
	"winterline/sim/answers"
)

// farFirst puts what lies far apart before the rest, each in time order.
func farFirst(seen []answers.SeenMatch) []answers.SeenMatch {
	sorted := slices.Clone(seen)
	slices.SortStableFunc(sorted, func(a, b answers.SeenMatch) int {
		switch {
		case a.Far() == b.Far():
			return 0
		case a.Far():
			return -1
		}
		return 1
	})
	return sorted
}

// seenSentences says how what the owner saw agrees with the simulation, what lies far apart first.
func seenSentences(r *sim.Result) []string {
	var lines []string
	for _, m := range farFirst(answers.MatchSeen(r)) {
		lines = append(lines, seenSentence(r, m))
	}
	return lines
}

// seenSentence says how one thing agrees.
func seenSentence(r *sim.Result, m answers.SeenMatch) string {
	what, when := seenStates[m.What], spokenTime(r.Start, m.Seen)
	switch {
	case m.Outside:
		return fmt.Sprintf(seenOutside, what, when)
	case m.What == "open" && m.Held:
		return fmt.Sprintf(seenHeld, what, when)
	case m.Simulated == nil:
		return fmt.Sprintf(seenNever, what, when)
	}
	return fmt.Sprintf(seenAgrees, what, when, seenEvents[m.What], spokenTime(r.Start, *m.Simulated), apartWords(m))
}

// apartWords says how far from what was seen the simulated thing lies.
func apartWords(m answers.SeenMatch) string {
	if math.Abs(m.Difference) < 60 {
		return "at the same time"
	}
	words := spokenDuration(math.Abs(m.Difference)) + " later"
	if m.Difference < 0 {
		words = spokenDuration(-m.Difference) + " earlier"
	}
	if m.Held && m.What == "shut" {
		words += ", and it was shut still when you saw it"
	}
	return words
}
