package report

import (
	"math"
	"sort"
	"strings"

	"winterline/pipe"
	"winterline/sim"
)

// fullPocket is the fill from which the rock pocket is said to hold the line's water up [-].
const fullPocket = 0.95

// whyWords says what stood where the line first shut, why it stood there, and what it met:
// facts of the result at that hour, side by side. Nothing where it never shut.
func whyWords(r *sim.Result, s System) []string {
	v := r.Verdict
	if v.Closed == nil || v.ClosedWhere < 0 || v.ClosedWhere >= len(r.Segments) || len(r.Hourly.Time) == 0 {
		return nil
	}
	i := hourOf(r, *v.Closed)
	where := r.Segments[v.ClosedWhere]
	stood := "water"
	if where.Standing >= puddle {
		stood = "up to " + s.Volume(where.Standing)
	}
	lines := []string{stood + " stood in the " + where.Name + held(r, i) + "."}
	if v.ClosedByMound {
		lines = []string{mounded(r, s)}
	}
	met := "Around it: outdoor air at " + s.BothTemperatures(r.Hourly.Air[i])
	if frost := r.Hourly.Frost; i < len(frost) && frost[i] > 0 {
		met += ", frost " + s.Length(frost[i]) + " deep in the ground beside the line"
	}
	met += "."
	if since, ok := sinceWarm(r, *v.Closed); ok {
		met += " The pump had last brought warmer water " + spokenDuration(since) + " before."
	}
	lines = append(lines, met)
	if words := draughtWords(r, *v.Closed, s); words != "" {
		lines = append(lines, words)
	}
	return lines
}

// hourOf is the last weather row at or before a time.
func hourOf(r *sim.Result, t float64) int {
	i := sort.SearchFloat64s(r.Hourly.Time, t)
	if i == len(r.Hourly.Time) || r.Hourly.Time[i] > t {
		i--
	}
	return max(i, 0)
}

// held says what kept the water standing behind the joint, as far as layout and result tell.
func held(r *sim.Result, i int) string {
	lid := r.Layout.Outlet.Kind == pipe.Lid
	switch {
	case lid && i < len(r.Hourly.Pocket) && r.Hourly.Pocket[i] >= fullPocket:
		return ", because the rock pocket was full and let none drain"
	case lid && r.Layout.Outlet.Weep == nil:
		return ", because the lid holds it and there is no slot to drain it"
	case r.Verdict.ClosedWhere < len(r.Layout.Segments) && r.Layout.Segments[r.Verdict.ClosedWhere].Sag > 0:
		return ", in its sag"
	}
	return " after the pump had stopped"
}

// sinceWarm is how long before a time the pump last sent water into the line [s].
func sinceWarm(r *sim.Result, t float64) (float64, bool) {
	since := math.Inf(1)
	for _, c := range r.Cycles {
		if into := c.Volume - c.Refused - c.Relief - c.Rim; c.Time < t && into > puddle {
			since = t - c.Time
		}
	}
	return since, !math.IsInf(since, 1)
}

// paragraph joins sentences to one block of text.
func paragraph(sentences []string) []string {
	if len(sentences) == 0 {
		return nil
	}
	text := strings.Join(sentences, " ")
	return []string{capital(text)}
}
