package report

import (
	"math"

	"winterline/sim"
)

// whyWords says in brief what brought it about that the line first froze shut: what stood there and why, since when, and
// what ground or air it met. Nothing where it never did. causeWords tells the whole of it.
func whyWords(r *sim.Result, s System) []string {
	if r.Verdict.Closed == nil || len(r.Closures) == 0 {
		return nil
	}
	t := causeTeller{r: r, c: &r.Closures[0], s: s}
	if t.c.Mound {
		t.say("%s", mounded(r, s))
	} else {
		t.say("%s", t.brief())
		t.lastWarm()
	}
	if !math.IsNaN(t.c.Met.Ground) {
		t.ground()
	} else {
		t.air()
	}
	t.draught()
	return t.lines
}
