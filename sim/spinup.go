package sim

import "math"

const (
	secondsYear = 365 * 86400.0
	spinSettled = 0.002       // change of any temperature over a year that counts as none [K]
	spinYears   = 150         // after so many the spin-up gives up
	spinStep    = 4 * 86400.0 // its longest step where the drive is smooth [s]
)

// spinUp repeats a year until another changes no temperature by more than 0.002 K. It
// returns how many years that took, and false when it gave up.
//
// What the deep ground has still to go shrinks by about the same ratio every year; now and
// then the rest of that series is taken in one leap. Whether the state has settled is
// judged by whole years alone.
func (c *column) spinUp(years int, year func() error) (n int, settled bool, err error) {
	const leap = 3 // years from one leap to the next
	before := c.temperatures()
	var last []float64 // change over the year before
	for n = 1; n <= years; n++ {
		if err := year(); err != nil {
			return n, false, err
		}
		after := c.temperatures()
		change := make([]float64, len(after))
		worst := 0.0
		for i := range after {
			change[i] = after[i] - before[i]
			worst = math.Max(worst, math.Abs(change[i]))
		}
		if worst <= spinSettled {
			return n, true, nil
		}
		if n%leap == 0 {
			c.leap(after, change, last)
			after, change = c.temperatures(), nil
		}
		before, last = after, change
	}
	return years, false, nil
}

// leap moves the volumes without ice by what they have still to go, from their temperatures
// [°C] and the changes of this year and the one before [K].
func (c *column) leap(t, change, last []float64) {
	both, square := 0.0, 0.0
	for i := range last {
		both += change[i] * last[i]
		square += last[i] * last[i]
	}
	ratio := both / square
	if !(ratio > 0.1 && ratio < 0.98) {
		return // not yet a series; also when there is no year before
	}
	for i := range c.u {
		law := c.mesh.phase[i]
		if to := t[i] + change[i]*ratio/(1-ratio); c.u[i] > 0 && to > 0 {
			c.u[i] = law.enthalpy(to)
		}
	}
}

// year marches the column through one year from start [s] under a cover whose year is like any other, in pieces
// of the longest step: steps then end at the same instants every year, and what one year differs from
// the last is the ground's doing, not that of where steps fell.
func (c *column) year(w *stepper, above cover, start float64) error {
	end := start + secondsYear
	for t := start; t < end; t += spinStep {
		if err := c.march(w, above, t, math.Min(t+spinStep, end)); err != nil {
			return err
		}
	}
	return nil
}
