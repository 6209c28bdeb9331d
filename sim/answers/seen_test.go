package answers

import (
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
)

// A line that opens in between: seven closures, of which three overlap, make five spells.
func TestShutSpells(t *testing.T) {
	const hour = 3600.0
	r := &sim.Result{}
	for h := range 241 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*hour)
	}
	for _, c := range [][2]float64{{100, 148}, {130, 160}, {150, 161}, {20, 30}, {200, 205}, {210, 220}} {
		end := c[1] * hour
		r.Closures = append(r.Closures, sim.Closure{Shut: c[0] * hour, Reopened: &end})
	}
	r.Closures = append(r.Closures, sim.Closure{Shut: 230 * hour})
	spells := shutSpells(r)
	want := []shutSpell{{20 * hour, 30 * hour, true}, {100 * hour, 161 * hour, true}, {200 * hour, 205 * hour, true}, {210 * hour, 220 * hour, true}, {230 * hour, 240 * hour, false}}
	for i, w := range want {
		if i >= len(spells) || spells[i] != w {
			t.Errorf("spell %d of %v: want %v", i, spells, w)
		}
	}
}

// What the owner saw beside a winter made by hand: shut from 100 to 148 h and from 200 h on, the relief in the run at 110 h,
// the floor wet from 220 h on.
func TestMatchSeen(t *testing.T) {
	const hour = 3600.0
	start := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	r := &sim.Result{Start: start, Layout: &pipe.Layout{}}
	for h := range 241 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*hour)
	}
	opened, floor := 148*hour, 220*hour
	r.Closures = []sim.Closure{{Shut: 100 * hour, Reopened: &opened}, {Shut: 200 * hour}}
	r.Cycles = []sim.CycleRecord{{Time: 50 * hour, Run: 60}, {Time: 110 * hour, Run: 600, Relief: 0.05}}
	r.Verdict.Floor = &floor
	never := math.NaN()
	for _, c := range []struct {
		what          string
		at, simulated float64 // [h]
		held, far     bool
	}{
		{"shut", 103, 100, true, false},
		{"shut", 40, 100, false, true}, // 60 h early
		{"shut", 190, 200, false, false},
		{"open", 60, 148, true, false}, // it was open: whenever it opened
		{"open", 145, 148, false, false},
		{"open", 230, 148, false, true},
		{"relief", 110 + 0.1, 110, true, false},
		{"relief", 170, 110, false, true},
		{"wet-floor", 225, 220, true, false},
		{"wet-floor", 150, 220, false, true},
		{"shut", -5, never, false, false}, // before the record
		{"shut", 300, never, false, false},
	} {
		r.Layout.Seen = []pipe.Seen{{What: c.what, Time: start.Add(time.Duration(c.at * float64(time.Hour)))}}
		m := MatchSeen(r)[0]
		outside := math.IsNaN(c.simulated)
		if m.Outside != outside || m.Held != c.held || m.Far() != c.far || (m.Simulated == nil) != outside {
			t.Errorf("%s at %g h: %+v, far %v", c.what, c.at, m, m.Far())
			continue
		}
		if !outside && (*m.Simulated != c.simulated*hour || math.Abs(m.Difference-(c.simulated-c.at)*hour) > 1e-3) {
			t.Errorf("%s at %g h: nearest at %g h, %g h off; want %g h", c.what, c.at, *m.Simulated/hour, m.Difference/hour, c.simulated)
		}
		if want := math.Abs(c.simulated-c.at) * hour; !outside && m.off() != 0 && math.Abs(m.off()-want) > 1e-3 {
			t.Errorf("%s at %g h: off by %g s; want %g", c.what, c.at, m.off(), want)
		}
	}
}

// What never happened is as far off as can be.
func TestSeenThatNeverHappened(t *testing.T) {
	start := time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)
	r := &sim.Result{Start: start, Layout: &pipe.Layout{}}
	r.Hourly.Time = []float64{0, 86400}
	for _, what := range []string{"shut", "relief", "wet-floor"} {
		r.Layout.Seen = append(r.Layout.Seen, pipe.Seen{What: what, Time: start.Add(time.Hour)})
	}
	for _, m := range MatchSeen(r) {
		if !m.Far() || m.Simulated != nil || !math.IsInf(m.off(), 1) || !math.IsNaN(m.Difference) || m.Held {
			t.Errorf("%+v", m)
		}
	}
}
