package sim_test

import (
	"fmt"
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

// Twice the shells are twice of all of them, those of insulation whose number goes by its thickness too.
func TestTwiceTheShells(t *testing.T) {
	const foam = "insulation = [{ thickness = \"%s\", material = \"closed-cell foam\" }]\n"
	for _, thickness := range []string{"20 mm", "75 mm", "200 mm"} {
		l, p := readLayout(t, fmt.Sprintf(storeLayout, "0.3 m", fmt.Sprintf(foam, thickness)))
		l.Water.Every, l.Water.For = 6*3600, 45
		k, err := sim.NewCase("insulated", l, p, coldDays(false), sim.Supply{})
		if err != nil {
			t.Fatal(err)
		}
		nodes := func(s sim.Shells) int {
			r, err := sim.Unforked(k, sim.Settings{Shells: s})
			if err != nil {
				t.Fatal(err)
			}
			return r.Stats.Nodes
		}
		usual := nodes(sim.Shells{})
		for _, s := range []sim.Shells{sim.Shells{}.Times(2), sim.Shells{}.Times(4).Times(0.5)} {
			if got := nodes(s); got != 2*usual {
				t.Errorf("%s of foam: %d nodes, twice the shells %d", thickness, usual, got)
			}
		}
	}
}
