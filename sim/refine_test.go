package sim_test

import (
	"testing"

	"winterline/sim"
)

// Finer steps are finer while water runs as well; about the same water leaves the line.
func TestFinerStepsWhileWaterRuns(t *testing.T) {
	k := scenarioCase(t, "backup-same-line")
	steps := func(s sim.Stepping) (int, float64) {
		r, err := sim.Unforked(k, sim.Settings{Stepping: s})
		if err != nil {
			t.Fatal(err)
		}
		return r.Stats.Steps, r.Ledger.Outlet
	}
	usual, out := steps(sim.Stepping{})
	finer, same := steps(sim.Stepping{Running: 1. / 16})
	if finer < usual+100 || same < 0.98*out || same > 1.02*out {
		t.Errorf("%d steps and %.5g m³ out; with a sixteenth of the steps while water runs %d and %.5g", usual, out, finer, same)
	}
	if got := (sim.Stepping{}).Times(0.25).Running; got != 0.25 {
		t.Errorf("a quarter of the steps has %g of those while water runs", got)
	}
}
