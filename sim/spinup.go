package sim

import "math"

const (
	secondsYear = 365 * 86400.0
	spinSettled = 0.002       // change of any temperature over a year that counts as none [K]
	spinRough   = 0.02        // the same while steps are rough [K]
	spinCoarse  = 10          // how many times as large the tolerance of rough steps is: they lead to within 1 mK of where finer ones do [-]
	spinYears   = 150         // after so many the spin-up gives up
	spinStep    = 4 * 86400.0 // its longest step where the drive is smooth [s]
)

// spinUp repeats a year until another changes no temperature by more than limit [K]. It
// returns how many years that took, and false when it gave up.
//
// Deep ground takes decades to come to rest; after every year it is moved by what it has still
// to go (see fading.left). Whether the state has settled is judged by whole years alone.
func (c *column) spinUp(years int, limit float64, year func() error) (n int, settled bool, err error) {
	lack := newFading(c)
	before := c.temperatures()
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
		if togo, ok := lack.left(change); ok {
			c.leap(after, togo)
		}
		if worst <= limit {
			return n, true, nil
		}
		before = c.temperatures()
	}
	return years, false, nil
}

// leap moves the volumes without ice from their temperatures [°C] by what they have still to go [K].
func (c *column) leap(t, togo []float64) {
	for i := range c.u {
		if to := t[i] + togo[i]; c.u[i] > 0 && to > 0 {
			c.u[i] = c.mesh.phase[i].enthalpy(to)
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
