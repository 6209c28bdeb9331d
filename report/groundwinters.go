package report

import (
	"fmt"
	"time"

	"winterline/sim"
)

// winterOf is the winter, from July to June, in which an instant lies, by the year in
// which it ends.
func winterOf(start time.Time, t float64) int {
	at := stamp(start, t)
	if at.Month() >= time.July {
		return at.Year() + 1
	}
	return at.Year()
}

// winterName prints a winter, "2025-26".
func winterName(ends int) string { return fmt.Sprintf("%d-%02d", ends-1, ends%100) }

// deepestFrost gives the winter whose frost went deepest; false when nothing froze.
func deepestFrost(r *sim.GroundResult) (deepest sim.FrostSeason, froze bool) {
	for _, s := range r.Seasons {
		if s.Deepest > deepest.Deepest || !froze {
			deepest, froze = s, true
		}
	}
	return deepest, froze
}
