package sim_test

import (
	"testing"

	"winterline/sim"
)

// While nothing is told of, a winter goes from row to row, and through its pump cycles, in the room that it has.
func TestSteadyWinterDoesNotAllocate(t *testing.T) {
	told := 0
	for seed := uint64(1); seed <= 30; seed++ {
		k := drawCase(t, seed)
		if k == nil || len(k.Cycles) == 0 {
			continue
		}
		n, rows, events, err := sim.AllocationsBehind(k)
		if err != nil {
			t.Fatal(err)
		}
		if events > 0 || rows < 20 {
			continue
		}
		told++
		if n > uint64(rows)/2 { // one a row would be all of them; a slice may grow once more
			t.Errorf("seed %d: %d allocations in %d rows", seed, n, rows)
		}
	}
	if told < 3 {
		t.Errorf("only %d of the draws say something", told)
	}
	t.Logf("%d draws say something", told)
}
