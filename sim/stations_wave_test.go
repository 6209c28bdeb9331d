package sim_test

import (
	"math"
	"testing"
	"time"

	"winterline/weather"
)

// daily is the angular frequency of a day [1/s].
const daily = 2 * math.Pi / 86400

// harmonic is one wave of a column: amplitude [K] and the angle by which it lags behind the start of
// the record.
type harmonic struct{ amplitude, lag float64 }

// harmonicOf fits mean and a wave of angular frequency omega [1/s] to the readings of a column between
// two instants, by least squares.
func harmonicOf(s *weather.Series, column []float64, omega float64, from, to time.Time) harmonic {
	var normal [3][4]float64
	for i, v := range column {
		if at := s.Stamp(s.Time[i]); at.Before(from) || at.After(to) || math.IsNaN(v) {
			continue
		}
		row := [4]float64{1, math.Cos(omega * s.Time[i]), math.Sin(omega * s.Time[i]), v}
		for j := range normal {
			for k := range row {
				normal[j][k] += row[j] * row[k]
			}
		}
	}
	for j := range normal { // Gauss–Jordan; the waves are near orthogonal
		for k := range normal {
			if k == j {
				continue
			}
			f := normal[k][j] / normal[j][j]
			for l := range normal[k] {
				normal[k][l] -= f * normal[j][l]
			}
		}
	}
	c, q := normal[1][3]/normal[1][1], normal[2][3]/normal[2][2]
	return harmonic{math.Hypot(c, q), math.Atan2(q, c)}
}

// A wave of 3 K that lags by 1 rad, around a mean of 7 °C, is read off with part of its rows missing.
func TestHarmonicOf(t *testing.T) {
	s := &weather.Series{Start: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)}
	var column []float64
	for h := range 24 * 20 {
		s.Time = append(s.Time, float64(h)*3600)
		column = append(column, 7+3*math.Cos(daily*s.Time[h]-1))
		if h%7 == 0 {
			column[h] = math.NaN()
		}
	}
	if got := harmonicOf(s, column, daily, s.Start, s.Stamp(s.End())); math.Abs(got.amplitude-3) > 1e-9 || math.Abs(got.lag-1) > 1e-9 {
		t.Errorf("%+v, expected 3 K and 1 rad", got)
	}
}
