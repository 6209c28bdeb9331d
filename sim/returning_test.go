package sim_test

import (
	"testing"

	"winterline/sim"
)

// Of 10 kg let go at hour 1 and 4 kg at hour 2, half comes back 12 h later.
func TestReturningWater(t *testing.T) {
	r := sim.NewReturning(0.5, 12*3600, 100)
	r.LetGo(3600, 10)
	r.LetGo(7200, 4)
	for _, c := range []struct{ hour, want float64 }{{12.9, 0}, {13, 5}, {13.5, 0}, {14, 2}, {40, 0}} {
		if got := r.Due(c.hour * 3600); got != c.want {
			t.Errorf("hour %g: %g kg, want %g", c.hour, got, c.want)
		}
	}
	if r.Arrived() != 7 {
		t.Errorf("%g kg in all, want 7", r.Arrived())
	}
}

// 40 kg come back in four lumps of 10 kg, evenly spread over a quarter of the delay before and after
// it: of 8 h, at 6.5, 7.5, 8.5 and 9.5 h.
func TestMuchWaterSeepsIn(t *testing.T) {
	r := sim.NewReturning(1, 8*3600, 10)
	r.LetGo(0, 40)
	for _, c := range []struct{ hour, want float64 }{{6.4, 0}, {6.51, 10}, {7.49, 0}, {7.51, 10}, {9.49, 10}, {9.51, 10}, {40, 0}} {
		if got := r.Due(c.hour * 3600); got != c.want {
			t.Errorf("hour %g: %g kg, want %g", c.hour, got, c.want)
		}
	}
}
