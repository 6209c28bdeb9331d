package weather

import (
	"math"
	"testing"
)

// By hand, in hours of steady air: 2 mm of rain at 5 °C run off at once; 3 mm at −4 °C stay as
// snow; at 8 °C an hour melts 3.5 · 8/24 = 1.16667 mm of it, the second as much, and the third the
// 0.66667 mm that are left.
func TestRunoff(t *testing.T) {
	s := &Series{
		Time: []float64{0, 3600, 7200, 10800, 14400, 18000, 21600},
		Air:  []float64{5, 5, -13, 5, 11, 5, 11},
		Rain: []float64{0.002, 0, 0.003, 0, 0, 0, 0.009},
	}
	want := []float64{2, 0, 0, 3.5 * 8 / 24, 3.5 * 8 / 24, 3 - 2*3.5*8/24, 0}
	rain, melt := s.Runoff()
	for i := range want {
		if got := 1000 * (rain[i] + melt[i]); math.Abs(got-want[i]) > 1e-9 || i == 0 && melt[i] != 0 || i > 0 && rain[i] != 0 {
			t.Errorf("row %d: %.4f mm, want %.4f", i, got, want[i])
		}
	}
	if rain, melt := (&Series{Time: s.Time, Air: s.Air}).Runoff(); rain != nil || melt != nil {
		t.Error("a record without water gives runoff")
	}
}

// Where the record does not tell rain from snow, what falls under 1 °C lies on the roof as snow until it melts: 3.5 mm of
// water a day for each kelvin.
func TestRunoffOfUnstatedKind(t *testing.T) {
	s := hourly(3, func(h float64) float64 { return []float64{0.5, 0.5, 5, 5}[int(h)] })
	s.Rain = []float64{0.002, 0, 0.001, 0} // at 0.5, 2.75 and 5 °C
	rain, melt := s.Runoff()
	air := []float64{0.5, 2.75, 5} // mean of each hour
	snow := 0.002
	for i, want := range []float64{0, 0, 0.001} {
		if rain[i] != want {
			t.Errorf("hour %d: %g m of rain; want %g", i, rain[i], want)
		}
		melted := 3.5e-3 / 24 * air[i]
		if snow -= melted; snow < 0 || math.Abs(melt[i]-melted) > 1e-12 {
			t.Errorf("hour %d: %g m of melt; want %g", i, melt[i], melted)
		}
	}
}
