package sim

import "context"

// Prepared is a case whose undisturbed ground is known, so that the line's part of a run can be
// timed alone.
type Prepared struct {
	k      *Case
	s      Settings
	ground *grounds
}

// Prepare computes the ground of a case.
func Prepare(k *Case, s Settings) (*Prepared, error) {
	g, err := undisturbed(context.Background(), k, s)
	return &Prepared{k, s, g}, err
}

// Run takes the line through the record once.
func (p *Prepared) Run() (*Result, error) {
	w, err := newWinter(p.k, p.s, p.ground)
	if err != nil {
		return nil, err
	}
	return w.simulate(context.Background(), nil)
}

// Work is what the cells of an OpenAir have taken so far.
func (a *OpenAir) Work() (steps, newton int) { return a.step.steps, a.step.newton }

// Nodes is the number of a cell's control volumes.
func (c *OpenCell) Nodes() int { return c.mesh.n }
