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

// A value between rows is that of a search through all rows, whatever the spacing of the stamps; before the
// first row and after the last it is held.
func TestBetweenMatchesPlainSearch(t *testing.T) {
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
		row, share := s.locate(at)
		if got := between(s.Air, row, share); math.Abs(got-want) > 1e-9 {
			t.Fatalf("air at %g s: got %g, want %g", at, got, want)
		}
	})
}

// A column that the record lacks is NaN, and rows themselves are met exactly.
func TestBetweenAbsent(t *testing.T) {
	s := hourly(3, func(h float64) float64 { return -h })
	row, share := s.locate(2 * 3600)
	if air, wind := between(s.Air, row, share), between(s.Wind, row, share); air != -2 || !math.IsNaN(wind) {
		t.Errorf("at the third row: air %g, wind %g; want -2 and NaN", air, wind)
	}
}
