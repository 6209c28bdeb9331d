package report

import (
	"slices"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim/answers"
)

var causeStart = time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)

// What the owner saw beside a line that was shut from hour 20, by hand. The line is shut from then to the end, for
// one of its closures never opened, so that "open" has no event.
func TestSeen(t *testing.T) {
	r := causeCase()
	floor := 230 * 3600.0
	r.Verdict.Floor = &floor
	see := func(h float64, what string) {
		r.Layout.Seen = append(r.Layout.Seen, pipe.Seen{Time: r.Start.Add(time.Duration(h * float64(time.Hour))), What: what})
	}
	see(10, "open")       // it was
	see(30, "shut")       // ten hours after it froze shut at 20 h
	see(90, "shut")       // 70 h after
	see(100, "relief")    // never ran: no cycle says so
	see(180, "wet-floor") // 50 h before
	see(228, "open")      // it was not, nor did it open
	see(300, "shut")      // after the record's end
	want := []string{
		"You saw the line frozen shut Thu Jan 8 18:00. In the simulation the line froze shut Mon Jan 5 20:00, 3 days earlier, and it was shut still when you saw it.",
		"You saw the relief opening running Fri Jan 9 04:00. In the simulation that never happened.",
		"You saw the basement floor wet Mon Jan 12 12:00. In the simulation the floor first got wet Wed Jan 14 14:00, 2 days later.",
		"You saw the line open Wed Jan 14 12:00. In the simulation that never happened.",
		"You saw the line open Mon Jan 5 10:00. So it was in the simulation.",
		"You saw the line frozen shut Tue Jan 6 06:00. In the simulation the line froze shut Mon Jan 5 20:00, 10 hours earlier, and it was shut still when you saw it.",
		"You saw the line frozen shut Sat Jan 17 12:00, which lies outside the weather record: nothing to compare.",
	}
	if got := seenSentences(r); !slices.Equal(got, want) {
		for i := range got {
			t.Errorf("%q", got[i])
		}
	}
	for i, m := range farFirst(answers.MatchSeen(r)) {
		if m.Far() != (i < 4) {
			t.Errorf("%d, %+v: far %v", i, m, m.Far())
		}
	}
}
