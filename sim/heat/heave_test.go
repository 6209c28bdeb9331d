package heat_test

import (
	"fmt"
	"math"
	"testing"

	"winterline/sim/heat"
)

// By hand: a potential of 100e-5 mm²/(s K), which is 1e-9 m²/(s K), under 10 K/m gives
// 1.09 · 1e-9 · 10 = 1.09e-8 m/s, over 86,400 s 0.94 mm a day.
func ExampleSegregationRate() {
	fmt.Printf("%.3f mm a day\n", heat.SegregationRate(1e-9, 10)*86400*1000)
	// Output: 0.942 mm a day
}

// By hand: half a metre of ground with 40 % of pores, all full, gives 0.09 · 0.4 · 0.5 = 18 mm.
func ExampleInSituHeave() {
	fmt.Printf("%.1f mm\n", 1000*heat.InSituHeave(0.4, 1, 0.5))
	// Output: 18.0 mm
}

// Full pores leave no air for the ice: both values agree. At 0.9 the ice of 0.9 · 1.09 = 0.981 of
// the pores finds room.
func TestInSituHeaveLeast(t *testing.T) {
	if least, most := heat.InSituHeaveLeast(0.4, 1, 0.5), heat.InSituHeave(0.4, 1, 0.5); math.Abs(least-most) > 1e-15 {
		t.Errorf("full pores: least %g, most %g; want the same", least, most)
	}
	if least := heat.InSituHeaveLeast(0.4, 0.9, 0.5); least != 0 {
		t.Errorf("pores nine tenths full: %g; want 0", least)
	}
	for s := 0.0; s <= 1; s += 0.01 {
		if least, most := heat.InSituHeaveLeast(0.4, s, 0.5), heat.InSituHeave(0.4, s, 0.5); least > most+1e-15 {
			t.Errorf("saturation %g: least %g over most %g", s, least, most)
		}
	}
}

func TestNoLensesWithoutGradient(t *testing.T) {
	for _, gradient := range []float64{0, -5} {
		if rate := heat.SegregationRate(1e-9, gradient); rate != 0 {
			t.Errorf("gradient %g K/m: %g m/s; want 0", gradient, rate)
		}
	}
}
