package sim

// idle is an empty cell that is left alone for some hours, because next to nothing happens in it, and then marched through
// all of them in one step, in the weather of the last. Meanwhile only the draught asks for its state, and takes its wall to
// be as warm as it was.
type idle struct {
	on     bool
	from   float64 // time at which its state stands [s]
	ground float64 // enthalpy of the undisturbed ground then [K]
}

// idleSteps is how many of the longest usual steps an empty cell may be left at most.
const idleSteps = 3

// mayIdle reports whether an empty cell can be left from t to at.
func (c *cell) mayIdle(w *stepper, t, at float64) bool {
	if c.wet() {
		return false
	}
	if c.idle.on {
		t = c.idle.from
	}
	h := at - t
	return h <= idleSteps*w.control.Longest*(1+1e-9) && c.past.h > 0 && h*h*c.past.mistake < c.past.h*c.past.h*c.goOnLimit(w)/2
}

// letLie leaves an empty cell as it is from t to at, which mayIdle must have allowed.
func (c *cell) letLie(t, at float64) {
	if !c.idle.on {
		c.idle = idle{on: true, from: t}
		if c.soil < c.mesh.n {
			c.idle.ground = c.outside.ground.enthalpy(t)
		}
	}
	c.tally.track = append(c.tally.track[:0], icePoint{t: t}, icePoint{t: at})
}

// wake marches an idle cell to t.
func (c *cell) wake(w *stepper, s *sky, t float64) error {
	if !c.idle.on {
		return nil
	}
	return c.march(w, s, t, t)
}

// wake marches all idle cells to t.
func (w *winter) wake(t float64) error {
	for _, c := range w.line.cells {
		if err := c.wake(w.step, w.sky, t); err != nil {
			return w.blame(c, err)
		}
	}
	return nil
}
