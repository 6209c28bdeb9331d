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
