package sim_test

import (
	"math"
	"testing"

	"winterline/sim"
)

// What is worked out with what a winter keeps is, to the last bit, what it is anew.
func TestKeptAnswersAreNew(t *testing.T) {
	between := 0
	for seed := uint64(1); seed <= 12; seed++ {
		k := drawCase(t, seed)
		if k == nil {
			continue
		}
		for _, share := range []float64{0.3, 0.9, 1.1} {
			wrong, last := 0, math.NaN()
			err := sim.KeptAnswers(k, share, func(row int, what string, kept, anew float64) {
				if what == "sill" && kept != last {
					between++
					last = kept
				}
				if math.Float64bits(kept) != math.Float64bits(anew) && wrong < 5 {
					wrong++
					t.Errorf("seed %d, row %d, %s: %v with what is kept; %v anew", seed, row, what, kept, anew)
				}
			})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	if between < 100 {
		t.Errorf("only %d levels found", between)
	}
}

// Cells that share what they know of even flow are told what each would find for itself, but for the last digits of a fall.
func TestCellsShareEvenFlow(t *testing.T) {
	asked := 0
	for seed := uint64(1); seed <= 12; seed++ {
		k := drawCase(t, seed)
		if k == nil {
			continue
		}
		rates := []float64{0, 1e-3, 1e-4, 2e-5, 1e-3, 3e-6, 1e-7, 1e-4, 1, 2e-5}
		err := sim.EvenFlows(k, rates, func(kept, anew float64) {
			asked++
			if !(math.Abs(kept-anew) <= 1e-9*anew) { // the digits of a fall are dropped
				t.Errorf("seed %d: %v, anew %v", seed, kept, anew)
			}
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if asked < 1000 {
		t.Errorf("asked %d times", asked)
	}
}
