package sim_test

import (
	"testing"

	"winterline/sim"
)

// What opens for less than a minute has not opened: of shut from 100 to 1000, from 1020 to 2000 and from 9000 to
// 9500 s the first two are one spell of 1900 s, told of by one event at each end.
func TestHardlyOpenIsNotOpen(t *testing.T) {
	events, segment, line := sim.Turns(tailHouse(t), []float64{100, 1000, 1020, 2000, 9000, 9500})
	want := []struct {
		kind sim.EventKind
		at   float64
	}{{sim.EventClosed, 100}, {sim.EventReopened, 2000}, {sim.EventClosed, 9000}, {sim.EventReopened, 9500}}
	if len(events) != len(want) {
		t.Fatalf("events %+v", events)
	}
	for i, e := range events {
		if e.Kind != want[i].kind || e.Time != want[i].at {
			t.Errorf("event %d: %s at %g s, want %s at %g s", i, e.Kind, e.Time, want[i].kind, want[i].at)
		}
	}
	if segment != 2400 || line != 2400 {
		t.Errorf("shut for %g s, the line for %g s; want 1900 + 500 s", segment, line)
	}
}
