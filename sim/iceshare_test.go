package sim_test

import (
	"math"
	"testing"

	"winterline/sim"
)

// What is kept of a cell's water shells is what they hold, whatever they have been through: still and running
// water, slush, water that fell and rose.
func TestKeptShellsAreTheCells(t *testing.T) {
	n := 12
	if long() {
		n = 200
	}
	iced := 0
	for seed := uint64(1); seed <= uint64(n); seed++ {
		k := drawCase(t, seed)
		if k == nil {
			continue
		}
		for _, nucleation := range []float64{0, -2} {
			wrong := 0
			err := sim.KeptShells(k, sim.Settings{Nucleation: nucleation}, func(row, cell int, keptIce, ice, keptLow, low float64) {
				if ice > 0 {
					iced++
				}
				same := math.Float64bits(keptIce) == math.Float64bits(ice) && (keptLow == low || math.IsNaN(keptLow) && math.IsNaN(low))
				if !same && wrong < 5 {
					wrong++
					t.Errorf("seed %d, nucleation %g °C, row %d, cell %d: kept %v ice at %v °C; the shells say %v at %v °C", seed, nucleation, row, cell, keptIce, keptLow, ice, low)
				}
			})
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	if iced == 0 {
		t.Error("no draw made ice")
	}
}
