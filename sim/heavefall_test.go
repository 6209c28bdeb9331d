package sim

import (
	"math"
	"testing"

	"winterline/pipe"
)

// lineOf is one segment of a length, fall and sag [m].
func lineOf(length, fall, sag float64) *pipe.Profile {
	return &pipe.Profile{Segments: []pipe.Reach{{X0: 1, X1: 1 + length, Z0: 0, Z1: -fall, Sag: sag}}}
}

// By hand, under 40 to 160 mm of heave: points 3 m or more apart differ by 20 to 80 mm.
//
//   - 5 m that fall 52 mm: 52 − 80 = −28 mm, a back-fall. Water stands deepest below the crest where the most of the
//     difference meets the least of the fall, 3 m on: 80 − 52·3/5 = 48.8 mm.
//   - 1.5 m that fall 60 mm: half of the 80 mm, 20 mm left; everywhere 40 mm in m fall against 26.7: no low spot.
//   - 12 m that fall 300 mm: 220 mm left; over 3 m 75 against 80 mm: a low spot of 5 mm.
func TestFallLeft(t *testing.T) {
	lift := Lift{Low: 0.040, High: 0.160}
	for _, c := range []struct{ length, fall, low, high, left, spot float64 }{
		{5, 0.052, 0.020, 0.080, -0.028, 0.0488},
		{1.5, 0.060, 0.010, 0.040, 0.020, 0},
		{12, 0.300, 0.020, 0.080, 0.220, 0.005},
	} {
		f := fallLeft(lineOf(c.length, c.fall, 0), 0, 0.1, lift)
		for _, v := range []struct {
			what      string
			got, want float64
		}{{"low", f.Low, c.low}, {"high", f.High, c.high}, {"left", f.Left, c.left}, {"low spot", f.LowSpot, c.spot}, {"sag", f.Sag, 0}} {
			if math.Abs(v.got-v.want) > 1e-9 {
				t.Errorf("%g m that fall %g m: %s %g, want %g", c.length, c.fall, v.what, v.got, v.want)
			}
		}
	}
}

// Without heave the low spot is the sag: level ends and a belly of 30 mm hold 30 mm in the middle.
func TestLowSpotOfASag(t *testing.T) {
	f := fallLeft(lineOf(6, 0, 0.030), 0, 0.1, Lift{})
	if math.Abs(f.Sag-0.030) > 1e-9 || f.LowSpot != f.Sag || math.Abs(f.At-4) > 1e-9 || f.High != 0 {
		t.Errorf("%+v; want a low spot of 0.030 m at 4 m", f)
	}
	last := 0.0
	for heave := 0.0; heave < 0.2; heave += 0.01 {
		if f := fallLeft(lineOf(6, 0.05, 0.030), 0, 0.1, Lift{High: heave}); f.LowSpot < last {
			t.Errorf("heave %g m: low spot %g m after %g", heave, f.LowSpot, last)
		} else {
			last = f.LowSpot
		}
	}
}
