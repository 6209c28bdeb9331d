package weather

import (
	"math"
	"testing"
	"time"
)

// A triangle of 0, -24, 0 °C over two days. By hand: mean -12; lowest row -24 at 24 h;
// the coldest 24 h lie from 12 h to 36 h with mean -18; each day's mean is -12, so 24
// freezing degree-days.
func TestStatsTriangle(t *testing.T) {
	s := hourly(48, func(h float64) float64 { return math.Abs(h-24) - 24 })
	if got := s.Mean(); math.Abs(got+12) > 1e-12 {
		t.Errorf("mean: got %g, want -12", got)
	}
	if at, air := s.Coldest(); at != 24*3600 || air != -24 {
		t.Errorf("coldest: got %g at %g s, want -24 at 86400", air, at)
	}
	if at, mean, ok := s.coldestDay(); !ok || at != 12*3600 || math.Abs(mean+18) > 1e-12 {
		t.Errorf("coldest day: got %g from %g s, want -18 from 43200", mean, at)
	}
	if got := degreeDays(s); math.Abs(got-24) > 1e-12 {
		t.Errorf("freezing degree-days: got %g, want 24", got)
	}
}

// degreeDays sums those of all winters.
func degreeDays(s *Series) (sum float64) {
	for _, w := range s.Winters() {
		sum += w.DegreeDays
	}
	return sum
}

// Degree-days use daily means: a day that thaws at noon as much as it freezes at night
// counts nothing, and warm days are not set against cold ones.
func TestFreezingDegreeDays(t *testing.T) {
	wave := hourly(72, func(h float64) float64 { return 8 * math.Sin(2*math.Pi*h/24) })
	if got := degreeDays(wave); got > 1e-12 {
		t.Errorf("waves about 0 °C: got %g, want 0", got)
	}
	steps := hourly(48, func(h float64) float64 {
		if h < 24 {
			return -6
		}
		return 6
	})
	// The joint from -6 at 23:00 to 6 at 24:00 has mean 0: 23 h at -6 make 5.75.
	if got := degreeDays(steps); math.Abs(got-5.75) > 1e-12 {
		t.Errorf("a cold and a warm day: got %g, want 5.75", got)
	}
	noon := hourly(24, func(float64) float64 { return -10 })
	noon.Start = noon.Start.Add(12 * time.Hour)
	if got := degreeDays(noon); math.Abs(got-10) > 1e-12 {
		t.Errorf("two half days: got %g, want 10", got)
	}
}

// Uneven stamps weigh by time: the mean of a straight line is its middle.
func TestMeanUneven(t *testing.T) {
	s := &Series{Time: []float64{0, 60, 120, 36_000}, Air: []float64{0, 0.1, 0.2, 60}}
	if got := s.Mean(); math.Abs(got-30) > 1e-9 {
		t.Errorf("got %g, want 30", got)
	}
}

func TestColdestDayShort(t *testing.T) {
	if _, _, ok := hourly(23, func(float64) float64 { return 0 }).coldestDay(); ok {
		t.Error("a record of 23 h has no coldest 24 h")
	}
}

// The fit returns the wave that made the record, from whole years alone: the winter
// half that follows them must not pull the mean down.
func TestAnnual(t *testing.T) {
	const mean, swing = 7.5, 13.25
	year := 365.0 * 24
	wave := func(h float64) float64 {
		return mean - swing*math.Cos(2*math.Pi*(h-20*24)/year) + 4*math.Sin(2*math.Pi*h/24)
	}
	cases := []struct {
		name  string
		hours int
		ok    bool
	}{
		{"a winter", 120 * 24, false},
		{"a year less a day", 364 * 24, false},
		{"a year of 8760 rows", 365*24 - 1, true},
		{"a year and a half", 547 * 24, true},
		{"two years", 730 * 24, true},
	}
	for _, c := range cases {
		m, a, ok := hourly(c.hours, wave).Annual()
		if ok != c.ok {
			t.Errorf("%s: got ok %v, want %v", c.name, ok, c.ok)
		}
		if c.ok && (math.Abs(m-mean) > 0.01 || math.Abs(a-swing) > 0.01) {
			t.Errorf("%s: got mean %.4f, swing %.4f, want %g, %g", c.name, m, a, mean, swing)
		}
	}
}
