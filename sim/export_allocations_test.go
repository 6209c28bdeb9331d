package sim

import (
	"context"
	"runtime"
)

// AllocationsBehind runs a winter and counts what it allocates from half of the weather rows on; events are those
// noted in that half.
func AllocationsBehind(k *Case) (allocations uint64, rows, events int, err error) {
	ground, err := undisturbed(context.Background(), k, Settings{})
	if err != nil {
		return 0, 0, 0, err
	}
	w, err := newWinter(k, Settings{}, ground)
	if err != nil {
		return 0, 0, 0, err
	}
	row, half := 0, len(w.sky.time)/2
	var before, now runtime.MemStats
	_, err = w.simulate(eachRow{context.Background(), func() {
		switch row {
		case half:
			events = len(w.record.events)
			runtime.ReadMemStats(&before)
		case len(w.sky.time) - 2: // the last interval begins
			events = len(w.record.events) - events
			runtime.ReadMemStats(&now)
		}
		row++
	}}, nil)
	return now.Mallocs - before.Mallocs, len(w.sky.time) - 2 - half, events, err
}
