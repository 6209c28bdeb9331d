package sim

import "math"

// past is the last step of a cell, on which the next can go on. It is good as long as nothing but
// that step has changed the cell; whatever does calls changed.
type past struct {
	h          float64   // its length [s]; 0: there is none
	gain       []float64 // what each volume's enthalpy gained in it, but for the ground's own move [K]
	outer, tie float64   // heat that came in over it [J/m]
	mistake    float64   // [K]
}

// Where little happens, a step goes on from the last one.
const (
	goOnGrow = 2.0 // so many times as long at most: the two-step formula is stable to 2.41 (Hairer, Norsett, Wanner 1993, III.5)
	// Of the tolerance, the mistake up to which it will do: of standing water, and of an empty pipe, where all
	// that counts is how warm its wall is when water next comes.
	goOnWet = 0.04
	goOnDry = 0.5

	goOnAbove = 1.0 // how far from its first ice water must stay for that [K]

	firstDry        = 4.0  // how much longer than the first step of standing water that of an empty pipe is
	firstDryMistake = 0.05 // what is taken for the mistake of that step, which has none before it to compare with [K]
)

// goOnLimit is the mistake up to which a cell's steps may go on from the last one [K].
func (c *cell) goOnLimit(w *stepper) float64 {
	if c.wet() {
		return goOnWet * w.control.Tolerance
	}
	return goOnDry * w.control.Tolerance
}

// mayGoOn reports whether a step of length h can go on from the last one. An empty pipe does without that.
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

// goOn tries a step of length h from t that goes on from the last one, and reports whether it will do. It leaves
// water that comes near its first ice to finer steps.
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
// (Hairer, Norsett, Wanner 1993, Solving Ordinary Differential Equations I, III.5): of second order and L-stable as
// attempt is, but with one solve for two. Its error is some ten times as large, which nobody sees where temperatures
// drift. With no last step, or one much shorter, it is the implicit Euler formula.
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

// strayed is mistake for a step that went on: how far its slope is from that of the last one, as
// far as the slopes at two stages of attempt would be.
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
	// Over two steps slopes are taken half of both apart; at the stages, 1−γ of one step, of length γ·h.
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
