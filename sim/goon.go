package sim

import "math"

// past is the last step of a cell, from which the next can go on. It is good as long as nothing but
// that step has changed the cell; whatever else changes it calls changed.
type past struct {
	h          float64   // its length [s]; 0: there is none
	gain       []float64 // what each volume's enthalpy gained in it, without the undisturbed ground's own move [K]
	outer, tie float64   // heat that came in over it [J/m]
	mistake    float64   // its error measure [K]
}

// Where little happens, a step goes on from the last one.
const (
	goOnGrow = 2.0 // longest such step over the last one [-]: the two-step formula is stable up to 2.41 (Hairer, Norsett, Wanner 1993, III.5)
	// The largest mistake of such a step, over the tolerance: of standing water, and of an empty pipe, in which nothing
	// matters but how warm its wall is when water next comes.
	goOnWet = 0.04
	goOnDry = 0.5

	goOnAbove = 1.0 // how far above its first ice water must stay for such a step [K]

	firstDry        = 4.0  // first step of an empty pipe over that of standing water [-]
	firstDryMistake = 0.05 // what the mistake of that first step is taken to be: there is no step before it to compare with [K]
)

// goOnLimit is the mistake up to which a cell's steps may go on from the last one [K].
func (c *cell) goOnLimit(w *stepper) float64 {
	if c.wet() {
		return goOnWet * w.control.Tolerance
	}
	return goOnDry * w.control.Tolerance
}

// mayGoOn reports whether it is worth trying to let a step of length h go on from the last one. An empty pipe needs no last
// one.
func (c *cell) mayGoOn(w *stepper, h float64) bool {
	p := &c.past
	switch {
	case p.h == 0:
		return !c.wet()
	case c.wet() && h > goOnGrow*p.h:
		return false
	}
	return h*h*p.mistake < p.h*p.h*c.goOnLimit(w)
}

// goOn tries a step of length h from t that goes on from the last one, and reports whether it is good enough. Water that
// comes near its first ice is left to finer steps.
func (c *cell) goOn(w *stepper, s *sky, t, h float64, wasIced bool) (trial, bool) {
	d := c.drive(s, t, h, atEnd)
	tr, ok := w.goOn(c.mesh, &d, c.u, h, &c.past)
	if !ok || c.wet() && !wasIced && c.above(w.next) < goOnAbove {
		return tr, false
	}
	tr.mistake = max(tr.mistake, c.iceMistake(w))
	return tr, tr.mistake <= c.goOnLimit(w)
}

// goOn makes one step of length h from u into w.next by the two-step backward differentiation formula,
//
//	gain − ratio²/(1+2·ratio)·(last gain) = h·(1+ratio)/(1+2·ratio)·(slope at the end), ratio = h/(last h)
//
// (Hairer, Norsett, Wanner 1993, Solving Ordinary Differential Equations I, III.5). It is of second order and L-stable, as
// attempt is, but takes one solve instead of two. Its error is some ten times as large, which does not matter where
// temperatures drift. With no last step, or one much shorter, it is the implicit Euler formula.
func (w *stepper) goOn(m *mesh, d *drive, u []float64, h float64, p *past) (trial, bool) {
	e := &d.e[1]
	w.begin(m, e.first, u)
	w.moved = d.ground[1]
	p.makeRoom(m.n)
	ratio, carry, a := 0.0, 0.0, h
	if p.h > 0 {
		ratio = h / p.h
	}
	if ratio <= goOnGrow {
		carry, a = ratio*ratio/(1+2*ratio), h*(1+ratio)/(1+2*ratio)
	}
	base, next, ground, gain := w.base[:m.n], w.next[:m.n], m.ground[:m.n], p.gain[:m.n]
	for i := e.first; i < m.n; i++ {
		v := u[i] + ground[i]*w.moved
		base[i], next[i] = v+carry*gain[i], v+ratio*gain[i]
	}
	q, ok := w.solve(m, e, a, base, next)
	if !ok {
		return trial{}, false
	}
	return trial{
		outer:   carry*p.outer + a*q.outer,
		tie:     carry*p.tie + a*q.tie,
		mistake: w.strayed(m, e.first, u, ratio, gain),
	}, true
}

// strayed is the mistake of a step that went on from the last one: how far their slopes are apart, scaled to how far
// apart the slopes at the two stages of attempt would be.
func (w *stepper) strayed(m *mesh, first int, u []float64, ratio float64, gain []float64) float64 {
	if ratio == 0 {
		return firstDryMistake
	}
	n := m.n
	next, node, ground, weight, u := w.next[:n], w.node[:n], m.ground[:n], m.weight[:n], u[:n]
	worst := 0.0
	for i := first; i < n; i++ {
		by := next[i] - u[i] - ground[i]*w.moved - ratio*gain[i]
		worst = max(worst, weight[i]*node[i].d*math.Abs(by))
	}
	// The slopes of two steps lie half of both steps apart; those of attempt's stages 1−γ of one step, and they count
	// times γ·h.
	return gamma * (1 - gamma) * 2 * ratio / (1 + ratio) * worst
}

// keep takes the step from u to next for the last one.
func (p *past) keep(m *mesh, first int, u, next []float64, moved, h float64, tr trial) {
	p.makeRoom(m.n)
	p.h, p.outer, p.tie, p.mistake = h, tr.outer, tr.tie, tr.mistake
	for i := first; i < m.n; i++ {
		p.gain[i] = next[i] - u[i] - m.ground[i]*moved
	}
}

// makeRoom makes room for the gains of n volumes.
func (p *past) makeRoom(n int) {
	if p.gain == nil {
		p.gain = make([]float64, n)
	}
}
