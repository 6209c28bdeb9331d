package sim

import (
	"math"
)

// gamma makes the two-stage diagonally implicit Runge-Kutta step below second order
// and L-stable (Alexander 1977, SIAM J. Numer. Anal. 14:1006, SDIRK2): a long step damps
// what it cannot resolve instead of ringing, which a step across a freezing front needs.
const gamma = 1 - math.Sqrt2/2

// Stepping controls how far one step may go.
type Stepping struct {
	// Tolerance is the change of slope over a step that is accepted, as a temperature
	// difference [K]; default 1. The step's own error is a small part of that.
	Tolerance float64
	Shortest  float64 // [s]; a step that must be shorter gives up; default 1e-3
	First     float64 // first step after water has moved [s]; default 90
	Longest   float64 // [s]; default 3600
	Running   float64 // first and longest step while water runs, over the usual ones [-]; default 1
}

// orDefault fills in the defaults.
func (s Stepping) orDefault() Stepping {
	def := func(p *float64, v float64) {
		if *p <= 0 {
			*p = v
		}
	}
	def(&s.Tolerance, 1)
	def(&s.Shortest, 1e-3)
	def(&s.First, 90)
	def(&s.Longest, 3600)
	def(&s.Running, 1)
	return s
}

// stepper advances rows of control volumes in time; it is one worker's own.
type stepper struct {
	scratch
	control         Stepping
	moved           float64 // how far the undisturbed ground's enthalpy moved in it [K]
	steps, rejected int
}

func newStepper(s Stepping) *stepper { return &stepper{control: s.orDefault()} }

// trial is the outcome of one step: the heat that came in over it [J/m] and its error measure.
type trial struct {
	outer, tie float64 // from outside, from the tie [J/m]
	mistake    float64 // change of slope over the step, as temperature [K]
}

// drive is what pushes a row during a step: what it touches at the two stages of the
// step, and how far the undisturbed ground's enthalpy moves by then [K].
type drive struct {
	e      [2]ends
	ground [2]float64
}

// attempt makes one step of length h from u into w.next and reports whether the solver
// converged.
func (w *stepper) attempt(m *mesh, d *drive, u []float64, h float64) (trial, bool) {
	first := d.e[0].first
	w.begin(m, first, u)
	w.moved = d.ground[1]
	base, mid, next, ground := w.base[:m.n], w.mid[:m.n], w.next[:m.n], m.ground[:m.n]
	for i := first; i < m.n; i++ {
		v := u[i] + ground[i]*d.ground[0]
		base[i], mid[i] = v, v
	}
	q1, ok := w.solve(m, &d.e[0], gamma*h, base, mid)
	if !ok {
		return trial{}, false
	}
	const carry = (1 - gamma) / gamma
	for i := first; i < m.n; i++ {
		gain := mid[i] - base[i] // γh × slope at the first stage
		next[i] = mid[i] + gain + ground[i]*(d.ground[1]-d.ground[0])
		base[i] = u[i] + carry*gain + ground[i]*d.ground[1]
		mid[i] -= ground[i] * d.ground[0]
	}
	q2, ok := w.solve(m, &d.e[1], gamma*h, base, next)
	if !ok {
		return trial{}, false
	}
	return trial{
		outer:   h * ((1-gamma)*q1.outer + gamma*q2.outer),
		tie:     h * ((1-gamma)*q1.tie + gamma*q2.tie),
		mistake: max(w.mistake(m, first, u), w.firstIceMistake(m, &d.e[0], u)),
	}, true
}

// addGround adds a move of the undisturbed ground's enthalpy [K] to every volume's state.
func addGround(m *mesh, u []float64, du float64) {
	for i, share := range m.ground {
		u[i] += du * share
	}
}

// mistake compares the slopes of the two stages: the largest difference, times the
// stage's length, over the volumes that neither melt nor come to it in this step, each by its weight.
func (w *stepper) mistake(m *mesh, first int, u []float64) float64 {
	n := m.n
	base, mid, next, node, u := w.base[:n], w.mid[:n], w.next[:n], w.node[:n], u[:n]
	weight, thawed, frozen := m.weight[:n], m.thawed[:n], m.frozen[:n]
	worst := 0.0
	for i := first; i < n; i++ {
		e := weight[i] * node[i].d * math.Abs(next[i]-base[i]-(mid[i]-u[i]))
		if e > worst && (u[i] >= thawed[i]) == (next[i] >= thawed[i]) && (u[i] <= frozen[i]) == (next[i] <= frozen[i]) {
			worst = e
		}
	}
	return worst
}

// Where liquid water comes near its first ice a step's error may take up only a share of the tolerance: so much for each
// kelvin that the water is still above 0 °C, and never less than the least.
const (
	nearIce    = 0.1 // [1/K]
	nearestIce = 0.1 // the least [-]
)

// firstIceMistake is the mistake, as it weighs so near 0 °C, of the two shells in which first ice may form, however
// light they are: the one at the wall and the one under a free surface.
func (w *stepper) firstIceMistake(m *mesh, e *ends, u []float64) float64 {
	if m.water == 0 || e.first > 0 {
		return 0
	}
	worst := w.nearMistake(u, m.water-1)
	if e.tieG > 0 {
		worst = max(worst, w.nearMistake(u, e.tieNode))
	}
	return worst
}

// nearMistake is firstIceMistake of one shell; 0 where it holds ice already.
func (w *stepper) nearMistake(u []float64, i int) float64 {
	above := min(u[i], w.next[i])
	if u[i] < 0 {
		return 0
	}
	return w.node[i].d * math.Abs(w.next[i]-w.base[i]-(w.mid[i]-u[i])) / min(1, max(nearestIce, nearIce*above))
}

// nextStep proposes a step from the last one and its error measure, which falls with the
// square of the step; `wanted` is what had been proposed for the last one, which an event may have cut short: where
// little happens it is taken up again. It never falls below the shortest: what is wrong then is a shell too
// thin to matter that jumps to its neighbours' temperature.
func (s Stepping) nextStep(h, mistake, wanted float64) float64 {
	if mistake > 0 {
		right := h * math.Sqrt(s.Tolerance/mistake)
		next := min(max(stepGrow*h, min(wanted, calm*right)), 0.85*right)
		return max(s.Shortest, next, 0.2*h)
	}
	return max(s.Shortest, stepGrow*h, wanted)
}

const (
	stepGrow = 4.0 // how much longer than the last a step may be
	calm     = 0.2 // how far from the step that the tolerance allows what was wanted is taken up again
)
