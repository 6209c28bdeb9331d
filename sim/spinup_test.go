package sim

import (
	"context"
	"errors"
	"math"
	"math/cmplx"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// yearly is a wave of air around a mean [°C], coldest on the first day, behind a resistance [m² K/W].
func yearly(resistance, mean, swing float64) cover {
	return func(t float64) (float64, float64) {
		return resistance, mean - swing*math.Cos(2*math.Pi*t/secondsYear)
	}
}

// yearOf marches a column through one year, four days at a time: what a spin-up's longest step is.
func (c *column) yearOf(above cover) func() error {
	w := newStepper(Stepping{Longest: spinStep})
	return func() error { return c.year(w, above, 0) }
}

// With leaps the spin-up ends where repeating the year alone, until nothing moves any more, ends: within 5 mK, which is what a change
// of 2 mK a year leaves of a column whose slowest mode fades to 0.7 or less of itself in a year (e^(−α(π/20 m)²·1 year) for 5e−7
// m²/s). It takes fewer years. One column freezes along a curve; one starts far off and never freezes.
func TestSpinUpLeapsToTheSameState(t *testing.T) {
	const limit, still = 0.005, 1e-4 // [K], [K a year]
	soil := pipe.Soil{ConductivityUnfrozen: 1.5, ConductivityFrozen: 2.2, HeatCapacityUnfrozen: 2.8e6, HeatCapacityFrozen: 2.1e6, Latent: 90e6,
		Freezing: pipe.FreezingCurve{Point: -0.05, Exponent: 0.2}}
	for _, c := range []struct {
		what        string
		mean, start float64
	}{{"freezing", 4, 8}, {"far off", 18, 30}} {
		wave := yearly(0.2, c.mean, 14)
		made := func() *column { return newColumn(func(float64) pipe.Soil { return soil }, c.start) }
		plain := made()
		year := plain.yearOf(wave)
		years, enough := 0, 0 // enough: from where on a year moves no more than a spin-up asks
		for moved := 1.0; moved > still; years++ {
			before := plain.temperatures()
			if err := year(); err != nil || years == 100 {
				t.Fatalf("%s: still moving by %g K after %d years, %v", c.what, moved, years, err)
			}
			if moved = farthest(plain.temperatures(), before); moved > spinSettled {
				enough = years + 2
			}
		}
		leaping := made()
		n, settled, err := leaping.spinUp(spinYears, spinSettled, leaping.yearOf(wave))
		if err != nil || !settled || n >= enough {
			t.Fatalf("%s: settled %t after %d years, %v; %d years without leaps", c.what, settled, n, err, enough)
		}
		off := farthest(leaping.temperatures(), plain.temperatures())
		t.Logf("%s: %d years, %d without leaps, %.4f K apart at most", c.what, n, enough, off)
		if off > limit {
			t.Errorf("%s: %g K from where %d years lead", c.what, off, years)
		}
	}
}

// farthest is the largest difference of two lists of temperatures [K].
func farthest(a, b []float64) float64 {
	worst := 0.0
	for i := range a {
		worst = math.Max(worst, math.Abs(a[i]-b[i]))
	}
	return worst
}

// finite is the exact periodic temperature [°C] at a depth of ground that conducts k [W/(m K)] and holds c [J/(m³ K)], under yearly(resistance,
// mean, swing), with no heat through its bottom at 10 m: the real part of −swing·e^(iωt)·cosh(q(L − z))/[cosh qL + R·k·q·sinh qL],
// q = √(iωc/k) (Carslaw and Jaeger 1959, section 2.6, with a film; worked out by hand).
func finite(z, t, k, c, resistance, mean, swing float64) float64 {
	omega := 2 * math.Pi / secondsYear
	q := cmplx.Sqrt(complex(0, omega*c/k))
	const bottom = 10
	share := cmplx.Cosh(q*complex(bottom-z, 0)) / (cmplx.Cosh(q*bottom) + complex(resistance*k, 0)*q*cmplx.Sinh(q*bottom))
	return mean - swing*real(share*cmplx.Exp(complex(0, omega*t)))
}

// Ground that does not freeze ends at the exact solution of its finite depth. It conducts so well that the bottom shows: without one
// the wave at 6 m would be another by over 0.3 K.
func TestSpinUpEndsAtTheFiniteDepthSolution(t *testing.T) {
	const k, capacity, resistance, mean, swing, limit = 4.0, 1.5e6, 0.3, 10.0, 8.0, 0.02
	soil := pipe.Soil{ConductivityUnfrozen: k, ConductivityFrozen: k, HeatCapacityUnfrozen: capacity, HeatCapacityFrozen: capacity}
	c := newColumn(func(float64) pipe.Soil { return soil }, 2)
	wave := yearly(resistance, mean, swing)
	if _, settled, err := c.spinUp(spinYears, spinSettled, c.yearOf(wave)); err != nil || !settled {
		t.Fatal(settled, err)
	}
	w := newStepper(Stepping{Longest: 86400})
	bottomShows := 0.0
	for _, quarter := range []float64{0.25, 0.5, 0.75, 1} {
		at := quarter * secondsYear
		if err := c.march(w, wave, at-0.25*secondsYear, at); err != nil {
			t.Fatal(err)
		}
		p := c.look(&w.scratch)
		for _, z := range []float64{0.02, 0.3, 1, 2, 4, 6} {
			want := finite(z, at, k, capacity, resistance, mean, swing)
			if got, _ := p.at(z); math.Abs(got-want) > limit {
				t.Errorf("year %g, %g m: %.4f °C; want %.4f", quarter, z, got, want)
			}
		}
		d := math.Sqrt(2 * k / capacity / (2 * math.Pi / secondsYear))
		film := 1 + complex(resistance*k, 0)*complex(1, 1)/complex(d, 0)
		endless := mean - swing*real(cmplx.Exp(complex(-6/d, 2*math.Pi*quarter-6/d))/film)
		bottomShows = math.Max(bottomShows, math.Abs(endless-finite(6, at, k, capacity, resistance, mean, swing)))
	}
	if bottomShows < 0.3 {
		t.Errorf("the bottom makes only %g K at 6 m: the test tests nothing", bottomShows)
	}
}

// Before the first row the ground is in the periodic state of the record's own year, or of an annual wave, coldest on 20 January, where
// the record is shorter: at its start, whatever the day, the exact solution of finite depth, behind the film of bare ground.
func TestSpinUpStartsTheRecord(t *testing.T) {
	const k, capacity, mean, swing, limit = 1.5, 2.5e6, 14.0, 8.0, 0.05
	soil := pipe.Soil{ConductivityUnfrozen: k, ConductivityFrozen: k, HeatCapacityUnfrozen: capacity, HeatCapacityFrozen: capacity}
	written, half := mean, swing
	site := &pipe.Site{Soil: soil, Surface: pipe.Bare, GroundMean: &written, GroundSwing: &half}
	for _, rows := range []int{100, 4*365 + 1} {
		for _, start := range []time.Time{time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2021, 10, 5, 12, 0, 0, 0, time.UTC)} {
			since := start.Sub(time.Date(2021, 1, 21, 0, 0, 0, 0, time.UTC)).Seconds() // twenty days of January are over
			s := &weather.Series{Start: start}
			for i := range rows {
				at := 6 * 3600 * float64(i)
				s.Time, s.Air = append(s.Time, at), append(s.Air, mean-swing*math.Cos(2*math.Pi*(since+at)/secondsYear))
			}
			g := newGrounds(site, s, newSky(s, 1)).own()
			c, w := newColumn(func(float64) pipe.Soil { return soil }, mean), newStepper(Stepping{})
			if err := g.spinUp(context.Background(), c, w); err != nil || !g.settled {
				t.Fatal(g.settled, err)
			}
			p := c.look(&w.scratch)
			for _, z := range []float64{0.05, 0.5, 1, 2, 4} {
				want := finite(z, since, k, capacity, 0.05, mean, swing)
				if got, _ := p.at(z); math.Abs(got-want) > limit {
					t.Errorf("%d rows from %v, %g m: %.3f °C; want %.3f", rows, start, z, got, want)
				}
			}
		}
	}
}

// A leap moves what has no ice and gets none; ice stays where it is, and so does what would come to freeze.
func TestLeapByHand(t *testing.T) {
	soil := pipe.Soil{ConductivityUnfrozen: 1, ConductivityFrozen: 1, HeatCapacityUnfrozen: 2e6, HeatCapacityFrozen: 2e6, Latent: 60e6}
	c := newColumn(func(float64) pipe.Soil { return soil }, 3)
	temps, togo := c.temperatures(), make([]float64, c.mesh.n)
	for i, at := range [][2]float64{{7.8, 0.2}, {5, -0.1}, {-1, 0.2}, {0.1, -0.2}} {
		temps[i], togo[i] = at[0], at[1]
		c.u[i] = c.mesh.phase[i].enthalpy(at[0])
	}
	c.leap(temps, togo)
	for i, want := range []float64{8.0, 4.9, -1, 0.1, 3} {
		within(t, "temperature after the leap", c.temperatures()[i], want, 1e-9)
	}
}

// Ground that conducts alike all year fades in shapes cos(β(L − z)) with βL·tan βL = L/(kR) behind a resistance R (Carslaw and
// Jaeger 1959, section 3.9; from memory), by exp(−αβ²) in a time. For the slowest, the change of a year tells what is left to 3 %;
// of the next, a year leaves less than 2 % of its change, and no more than a tenth is taken for left.
func TestWhatIsLeftToGo(t *testing.T) {
	const k, capacity = 1.5, 2.5e6
	soil := pipe.Soil{ConductivityUnfrozen: k, ConductivityFrozen: k, HeatCapacityUnfrozen: capacity, HeatCapacityFrozen: capacity}
	c := newColumn(func(float64) pipe.Soil { return soil }, 5)
	for mode, limit := range []float64{0.03, 0.1} {
		low, high := float64(mode)*math.Pi, (float64(mode)+0.5)*math.Pi
		for range 60 {
			if mid := (low + high) / 2; mid*math.Tan(mid) < columnDepth/(k*fadingSurface) {
				low = mid
			} else {
				high = mid
			}
		}
		beta := low / columnDepth
		stays := math.Exp(-k / capacity * beta * beta * secondsYear)
		change, want := make([]float64, c.mesh.n), make([]float64, c.mesh.n)
		for i := range change {
			shape := math.Cos(beta * c.mesh.centre(i))
			change[i], want[i] = (stays-1)*shape, -stays*shape
		}
		got, ok := newFading(c).left(change)
		if off := farthest(got, want); !ok || off > limit {
			t.Errorf("mode %d, which keeps %.3f of itself in a year: off by %.4f; want %.3f", mode, stays, off, limit)
		}
	}
}

// A year that never comes to rest is given up after as many as allowed, and a year that fails ends the spin-up.
func TestSpinUpGivesUp(t *testing.T) {
	soil := pipe.Soil{ConductivityUnfrozen: 1, ConductivityFrozen: 1, HeatCapacityUnfrozen: 2e6, HeatCapacityFrozen: 2e6}
	c := newColumn(func(float64) pipe.Soil { return soil }, 3)
	count := 0
	n, settled, err := c.spinUp(7, spinSettled, func() error {
		count++
		c.u[0] += 0.0021
		return nil
	})
	if n != 7 || count != 7 || settled || err != nil {
		t.Errorf("%d years counted, %d gone through, settled %t, %v; want 7, 7, false", n, count, settled, err)
	}
	n, settled, err = c.spinUp(7, spinSettled, func() error { c.u[0] += 0.0019; return nil })
	if n != 1 || !settled || err != nil {
		t.Errorf("a change of 1.9 mK: %d years, settled %t, %v; want 1, true", n, settled, err)
	}
	broken := errors.New("broken")
	if _, settled, err := c.spinUp(7, spinSettled, func() error { return broken }); err != broken || settled {
		t.Errorf("settled %t, error %v of a year that fails", settled, err)
	}
}
