package report

import (
	"math"

	"winterline/sim"
)

// SummaryDraught is the outdoor air that was drawn through the line.
type SummaryDraught struct {
	Hours    *float64 `json:"hours"`        // in which it was
	Mean     *float64 `json:"mean_m_s"`     // its mean speed in those
	Greatest *float64 `json:"greatest_m_s"` // its greatest speed
}

// summaryDraught gives the draught of a result; nil where no air can pass.
func summaryDraught(r *sim.Result) *SummaryDraught {
	d := r.Draught
	if d == nil {
		return nil
	}
	return &SummaryDraught{finite(roundTo(d.Hours, 2)), finite(roundTo(d.Mean, 3)), finite(roundTo(d.Greatest, 3))}
}

// draughtBefore is how long before a closing the draught is told of [s].
const draughtBefore = 86400.0

// draughtWords says that outdoor air was drawn through the line in the day before a time [s];
// "" where none was for an hour or more.
func draughtWords(r *sim.Result, t float64, s System) string {
	drawn, greatest := 0.0, 0.0
	h := &r.Hourly
	for i := 1; i < len(h.Draught) && h.Time[i-1] < t; i++ {
		if h.Time[i] <= t-draughtBefore || h.Draught[i] < sim.LeastDraught {
			continue
		}
		drawn += math.Min(t, h.Time[i]) - math.Max(t-draughtBefore, h.Time[i-1])
		greatest = math.Max(greatest, h.Draught[i])
	}
	if drawn < 3600 {
		return ""
	}
	return "Outdoor air was drawn through the line for " + spokenDuration(drawn) + " of the day before, at up to " + s.bothAirSpeeds(greatest) + "."
}
