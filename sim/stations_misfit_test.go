package sim_test

import (
	"math"
	"slices"
	"time"

	"winterline/sim"
)

// reading is a measured temperature and what was computed for it.
type reading struct {
	time               float64 // of the instant, or the end of the day that it is the mean of [s]
	winter             int     // the year in which it ends
	measured, computed float64 // [°C]
}

// thermometer is one sensor with its readings from November to March.
type thermometer struct {
	name     string // of the plot, or empty
	depth    float64
	readings []reading
	air      *smoothedAir
	base     laggedAir // the best for these readings
}

// add takes a reading of November to March; others, and missing ones, are passed over.
func (t *thermometer) add(seconds float64, at time.Time, measured, computed float64) {
	if winter, ok := winterOf(at); ok && !math.IsNaN(measured) {
		t.readings = append(t.readings, reading{seconds, winter, measured, computed})
	}
}

// winterOf is the year in which the winter ends that a day from November to March lies in.
func winterOf(at time.Time) (int, bool) {
	switch m := at.Month(); {
	case m >= time.November:
		return at.Year() + 1, true
	case m <= time.March:
		return at.Year(), true
	}
	return 0, false
}

// winters are those with readings, in order.
func (t *thermometer) winters() []int {
	var years []int
	for _, r := range t.readings {
		if !slices.Contains(years, r.winter) {
			years = append(years, r.winter)
		}
	}
	return years
}

// of are the readings of one winter.
func (t *thermometer) of(winter int) []reading {
	var some []reading
	for _, r := range t.readings {
		if r.winter == winter {
			some = append(some, r)
		}
	}
	return some
}

// misfit gathers computed less measured.
type misfit sim.Misfit

func (m *misfit) add(d float64) { m.N, m.Bias, m.RMSE = m.N+1, m.Bias+d, m.RMSE+d*d }

func (m misfit) done() misfit {
	n := float64(m.N)
	return misfit{m.N, m.Bias / n, math.Sqrt(m.RMSE / n)}
}

func misfitOf(readings []reading) (m misfit) {
	for _, r := range readings {
		m.add(r.computed - r.measured)
	}
	return m.done()
}

// pooled is the misfit of several taken together.
func pooled(parts []misfit) (m misfit) {
	for _, p := range parts {
		n := float64(p.N)
		m.N, m.Bias, m.RMSE = m.N+p.N, m.Bias+n*p.Bias, m.RMSE+n*p.RMSE*p.RMSE
	}
	return m.done()
}
