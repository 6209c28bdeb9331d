package report

import (
	"math"
	"strings"
	"time"
)

// stamp gives the local time t seconds after start, to the nearest minute.
func stamp(start time.Time, t float64) time.Time {
	return start.Add(time.Duration(math.Round(t/60)) * time.Minute)
}

// tableTime prints a time as tables and summary.json write it, "2026-01-17 05:00".
func tableTime(start time.Time, t float64) string {
	return stamp(start, t).Format("2006-01-02 15:04")
}

// spokenTime prints a time as people say it, "Mon Jan 19 04:20".
func spokenTime(start time.Time, t float64) string {
	return stamp(start, t).Format("Mon Jan 2 15:04")
}

// spokenDate prints a day with its year, "Dec 1, 2025".
func spokenDate(start time.Time, t float64) string {
	return stamp(start, t).Format("Jan 2, 2006")
}

// spokenDuration prints a length of time [s] in the unit that a person would use:
// minutes up to an hour and a half, hours up to two days, days beyond.
func spokenDuration(s float64) string {
	minutes := math.Round(s / 60)
	switch hours := math.Round(s / 3600); {
	case minutes < 1:
		return "less than a minute"
	case minutes < 90:
		return plural(minutes, "minute")
	case hours < 48:
		return plural(hours, "hour")
	default:
		return plural(math.Round(s/86400), "day")
	}
}

// plural prints a count with its noun, "1 day" or "18 days".
func plural(n float64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	ending := "s"
	if strings.HasSuffix(noun, "s") {
		ending = "es" // guesses
	}
	return number(n, 0) + " " + noun + ending
}
