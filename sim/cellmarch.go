package sim

// march takes the cell from t to end through still water and given surroundings, with
// its own steps, and keeps its tally.
func (c *cell) march(w *stepper, s *sky, t, end float64) error {
	c.tally.track = append(c.tally.track[:0], c.point(t))
	from := t
	if c.idle.on {
		t = c.idle.from
	}
	for end-t > 1e-6 {
		h := w.control.ahead(c.dt, end-t)
		if c.idle.on {
			h = end - t
		}
		supercooled := c.liquid
		done, err := c.step(w, s, t, h)
		if err != nil {
			return err
		}
		t += done
		if supercooled && !c.liquid { // its ice came at once, at the end of the step
			last := c.tally.track[len(c.tally.track)-1]
			last.t = t
			c.tally.track = append(c.tally.track, last)
		}
		if t >= from {
			c.tally.track = append(c.tally.track, c.point(t))
		}
	}
	return nil
}

// step makes one accepted step from t, of length h or shorter, and returns its length.
func (c *cell) step(w *stepper, s *sky, t, h float64) (float64, error) {
	wasIced := c.wet() && c.iced(c.u)
	if c.mayGoOn(w, h) {
		if tr, ok := c.goOn(w, s, t, h, wasIced); ok {
			c.accept(w, t, h, tr)
			return h, nil
		}
	}
	for {
		d := c.drive(s, t, h, atStages)
		tr, ok := w.attempt(c.mesh, &d, c.u, h)
		tr.mistake = max(tr.mistake, c.iceMistake(w))
		if !ok || tr.mistake > 2*w.control.Tolerance && h > w.control.Shortest {
			w.rejected++
			if h = w.control.retry(h, tr, ok); h < w.control.Shortest {
				return 0, stepError{t, h}
			}
			c.dt = h
			continue
		}
		if c.wet() && !wasIced && c.toIce(w.next) < -contactTolerance {
			h, wasIced = c.landing(w, s, t, h), true
			c.dt = h
			continue // the search has overwritten the step
		}
		c.accept(w, t, h, tr)
		return h, nil
	}
}

// iceStep is the change of ice share over a step that counts as a mistake of 1 K: the thicker ice at the end of the
// step conducts less than at its start, and the step's error grows with that difference.
const iceStep = 0.03

// iceMistake is the error [K] that the ice which the step in w.next grew or melted stands for.
func (c *cell) iceMistake(w *stepper) float64 {
	if !c.wet() || c.iceShare() == 0 {
		return 0
	}
	grown := (c.iceShareIn(w.next) - c.iceShare()) / iceStep
	return grown * grown
}

// accept takes the step in w.next and books it.
func (c *cell) accept(w *stepper, t, h float64, tr trial) {
	w.steps++
	d := c.share * c.length
	c.tally.heatIn += tr.outer * d
	c.tally.surfaceIn += tr.tie * d
	c.tally.groundIn += c.mesh.groundGain(c.firstShell(), w.moved) * d
	first := c.firstShell()
	c.idle.on = false
	c.past.keep(c.mesh, first, c.u, w.next, w.moved, h, tr)
	copy(c.u[first:], w.next[first:c.mesh.n])
	c.read.known = false
	c.dt = w.control.nextStep(h, tr.mistake, c.dt)
	c.nucleate(t + h)
	if c.wet() && c.iced(c.u) {
		c.noteIce(t + h)
	}
}

// firstShell is the index of the innermost volume that takes part: the water's core, or the wall of a dry cell.
func (c *cell) firstShell() int {
	if c.wet() {
		return 0
	}
	return c.mesh.water
}
