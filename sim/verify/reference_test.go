package verify_test

import (
	"math"
	"testing"

	"winterline/sim/heat"
	"winterline/sim/verify"
)

func TestRadialCasesHoldTogether(t *testing.T) {
	cases := verify.RadialCases()
	if len(cases) != 29 {
		t.Fatalf("%d cases; want 29", len(cases))
	}
	for _, c := range cases {
		last := c.FirstIce
		for k, at := range c.Ice {
			if !math.IsNaN(at) && !(at > last) {
				t.Errorf("%s: ice reaches %g at %g s, not after %g s", c.ID, verify.RadialLevels[k], at, last)
			}
			if !math.IsNaN(at) {
				last = at
			}
		}
		if math.IsNaN(c.End) != math.IsNaN(c.IceAtEnd) {
			t.Errorf("%s: end %g s with ice share %g", c.ID, c.End, c.IceAtEnd)
		}
		if air := c.Air(0); math.IsNaN(air) {
			t.Errorf("%s: no air temperature", c.ID)
		}
	}
}

func TestReferenceLineHoldsTogether(t *testing.T) {
	cells := verify.ReferenceLine()
	if len(cells) != 12 {
		t.Fatalf("%d cells; want 12", len(cells))
	}
	for i, c := range cells {
		if math.IsNaN(c.FirstIce) != (c.LargestIce < verify.ReferenceIce) {
			t.Errorf("%s: first ice %g s with largest ice %g", c.ID, c.FirstIce, c.LargestIce)
		}
		if i >= 3 && c.HeatLost >= cells[i-3].HeatLost {
			t.Errorf("%s: more foam loses more heat", c.ID)
		}
	}
	// −4 + 5 cos(2π·(−15)/24) at the first hour; half way to the next, the mean of both.
	want := -4 + 5*math.Cos(2*math.Pi*15/24)
	if got := verify.ReferenceAir(0); math.Abs(got-want) > 1e-12 {
		t.Errorf("air at 0 h: %g; want %g", got, want)
	}
	half := (verify.ReferenceAir(3600) + verify.ReferenceAir(7200)) / 2
	if got := verify.ReferenceAir(5400); math.Abs(got-half) > 1e-12 {
		t.Errorf("air at 1.5 h: %g; want %g", got, half)
	}
}

func TestGroundCasesHoldTogether(t *testing.T) {
	cases := verify.GroundCases()
	if len(cases) != 6 {
		t.Fatalf("%d cases; want 6", len(cases))
	}
	for _, c := range cases {
		if len(c.States) != 4 {
			t.Errorf("%s: %d states; want 4", c.ID, len(c.States))
		}
		for _, s := range c.States {
			if s.Frost > c.DeepestFrost {
				t.Errorf("%s: frost %g m below the deepest, %g m", c.ID, s.Frost, c.DeepestFrost)
			}
			for _, temperature := range s.Temperature {
				if math.IsNaN(temperature) {
					t.Errorf("%s: a temperature is missing", c.ID)
				}
			}
		}
		if !(c.Air(0) < c.AirMean) {
			t.Errorf("%s: day 0 is not cold", c.ID)
		}
	}
}

// The quasi-steady solution leaves out the ice's sensible heat and so comes early, by less
// the smaller the Stefan number.
func TestInwardCasesTendToQuasiSteady(t *testing.T) {
	cases := verify.InwardCases()
	if len(cases) != 31 {
		t.Fatalf("%d cases; want 31", len(cases))
	}
	for _, c := range cases {
		resistance := 0.0
		if !math.IsNaN(c.Biot) {
			resistance = heat.FilmResistance(2, c.Biot)
		}
		quasi := heat.InwardFreezingTime(1, c.Front, 1, 1, resistance, -1)
		if c.Time < quasi || c.Time > quasi*(1+c.Stefan) {
			t.Errorf("%s: time %g outside %g … %g", c.ID, c.Time, quasi, quasi*(1+c.Stefan))
		}
	}
}
