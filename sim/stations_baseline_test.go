package sim_test

import (
	"math"
	"testing"

	"winterline/weather"
)

// smoothedAir is the hourly air temperature of a record as a running sum, with the record's
// first year once more before it, as the ground's spin-up has it.
type smoothedAir struct {
	sum []float64 // up to each hour, from a year before the first row [°C h]
}

const hoursYear = 365 * 24

func newSmoothedAir(s *weather.Series) *smoothedAir {
	hours := int(s.End() / 3600)
	a := &smoothedAir{sum: make([]float64, 1, hoursYear+hours+1)}
	for h := -hoursYear; h < hours; h++ {
		year := h
		if year < 0 {
			year += hoursYear
		}
		a.sum = append(a.sum, a.sum[len(a.sum)-1]+airAt(s, (float64(year)+0.5)*3600))
	}
	return a
}

// airAt is the air temperature t seconds after the first row, joined linearly.
func airAt(s *weather.Series, t float64) float64 {
	i := s.Row(t)
	return s.Air[i] + (t-s.Time[i])/(s.Time[i+1]-s.Time[i])*(s.Air[i+1]-s.Air[i])
}

// mean is the air temperature over a window that ends lag hours before t [s].
func (a *smoothedAir) mean(t float64, window, lag int) float64 {
	end := min(hoursYear+int(t/3600), len(a.sum)-1) - lag
	return (a.sum[end] - a.sum[end-window]) / float64(window)
}

// laggedAir is a guess of the ground's temperature without any physics: the mean air
// temperature over a window that ends some time before, both in hours.
type laggedAir struct {
	window, lag int
}

const longestLag = 60 * 24 // of window and lag [h]

// bestLag is the window and lag with the least misfit to the readings themselves, which
// no forecast could know: first over a coarse net, then by ever smaller steps from the best of it.
func (a *smoothedAir) bestLag(readings []reading) (laggedAir, float64) {
	var net []int
	for v := 1; v <= longestLag; v += 1 + v/4 {
		net = append(net, v)
	}
	net = append(net, longestLag)
	best, least := laggedAir{1, 0}, math.Inf(1)
	try := func(l laggedAir) bool {
		if l.window < 1 || l.window > longestLag || l.lag < 0 || l.lag > longestLag {
			return false
		}
		rmse := a.misfit(l, readings).RMSE
		if rmse >= least {
			return false
		}
		best, least = l, rmse
		return true
	}
	for _, window := range net {
		for _, lag := range append([]int{0}, net...) {
			try(laggedAir{window, lag})
		}
	}
	for step := 192; step > 0; {
		from, moved := best, false
		for _, d := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, -1}, {-1, 1}, {1, 1}, {-1, -1}} {
			moved = try(laggedAir{from.window + step*d[0], from.lag + step*d[1]}) || moved
		}
		if !moved {
			step /= 2
		}
	}
	return best, least
}

// misfit is that of the guess to the readings.
func (a *smoothedAir) misfit(l laggedAir, readings []reading) (m misfit) {
	for _, r := range readings {
		m.add(a.mean(r.time, l.window, l.lag) - r.measured)
	}
	return m.done()
}

// A thermometer that shows the mean of 100 hours of air, 50 hours late, is found exactly:
// the search must not hand the model too weak a rival.
func TestBestLagFindsItself(t *testing.T) {
	s := &weather.Series{}
	for h := range 3 * hoursYear {
		x := float64(h)
		s.Time = append(s.Time, 3600*x)
		s.Air = append(s.Air, 8-14*math.Cos(2*math.Pi*x/hoursYear)+6*math.Sin(x/53)+4*math.Sin(x/17.3)+5*math.Cos(2*math.Pi*x/24))
	}
	a := newSmoothedAir(s)
	var readings []reading
	for h := 2 * hoursYear; h < 2*hoursYear+2000; h++ {
		readings = append(readings, reading{time: float64(h) * 3600, measured: a.mean(float64(h)*3600, 100, 50)})
	}
	if l, rmse := a.bestLag(readings); l != (laggedAir{100, 50}) || rmse > 1e-9 {
		t.Errorf("window %d h, lag %d h, misfit %g K; expected 100 h, 50 h, 0", l.window, l.lag, rmse)
	}
}
