package weather

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// hourly returns n+1 hourly rows from 2026-01-01 with the given air temperature at each
// hour.
func hourly(n int, air func(hour float64) float64) *Series {
	s := &Series{Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for i := range n + 1 {
		s.Time = append(s.Time, float64(i)*3600)
		s.Air = append(s.Air, air(float64(i)))
	}
	return s
}

// At agrees with a search through all rows, whatever the spacing of the stamps.
func TestAtMatchesPlainSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps := rapid.SliceOfN(rapid.Float64Range(1, 50_000), 1, 40).Draw(t, "steps")
		s := &Series{Time: []float64{0}, Air: []float64{0}}
		for i, step := range steps {
			s.Time = append(s.Time, s.Time[i]+step)
			s.Air = append(s.Air, float64((i*i)%17)-8)
		}
		at := rapid.Float64Range(-1000, s.End()+1000).Draw(t, "t")
		want := s.Air[len(s.Air)-1]
		if at <= 0 {
			want = s.Air[0]
		}
		for i := range steps {
			if s.Time[i] <= at && at < s.Time[i+1] {
				want = s.Air[i] + (s.Air[i+1]-s.Air[i])*(at-s.Time[i])/(s.Time[i+1]-s.Time[i])
			}
		}
		if got := s.At(at).Air; math.Abs(got-want) > 1e-9 {
			t.Fatalf("air at %g s: got %g, want %g", at, got, want)
		}
	})
}

// What the record lacks is NaN, and rows themselves are met exactly.
func TestAtAbsent(t *testing.T) {
	s := hourly(3, func(h float64) float64 { return -h })
	s.Wind = []float64{1, 2, 3, 4}
	got := s.At(2 * 3600)
	if got.Air != -2 || got.Wind != 3 {
		t.Errorf("at the third row: got %+v, want air -2, wind 3", got)
	}
	for name, v := range map[string]float64{"dew point": got.DewPoint, "cloud": got.Cloud, "snow": got.SnowDepth, "sun": got.Sun, "long wave": got.LongWave} {
		if !math.IsNaN(v) {
			t.Errorf("%s: got %g, want NaN", name, v)
		}
	}
}

func TestAtDoesNotAllocate(t *testing.T) {
	s := hourly(1000, func(h float64) float64 { return h })
	var sum float64
	if n := testing.AllocsPerRun(100, func() { sum += s.At(12_345).Air }); n != 0 || sum == 0 {
		t.Errorf("got %g allocations a call, want 0", n)
	}
}

// Amounts are kept whole however the record is cut.
func TestAmount(t *testing.T) {
	s := hourly(4, func(float64) float64 { return 0 })
	s.Rain = []float64{0.001, 0, 0.004, 0.002, 0.009}
	cases := []struct{ from, to, want float64 }{
		{0, 4 * 3600, 0.007}, // the last row's rain falls after the end
		{0, 1800, 0.0005},
		{1.5 * 3600, 2.5 * 3600, 0.002},
		{2.25 * 3600, 2.75 * 3600, 0.002},
		{-3600, 9 * 3600, 0.007},
		{5 * 3600, 6 * 3600, 0},
	}
	for _, c := range cases {
		if got := s.Amount(s.Rain, c.from, c.to); math.Abs(got-c.want) > 1e-15 {
			t.Errorf("from %g to %g s: got %g m, want %g", c.from, c.to, got, c.want)
		}
	}
}
