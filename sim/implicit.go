package sim

import "math"

// ends says what a row of control volumes exchanges heat with at one instant, besides
// its own neighbours. Conductances in W/(m K), resistances in m K/W, temperatures in °C.
type ends struct {
	first int // volumes before this one take no part: the liquid while water runs, all shells of a dry pipe
	// A tie couples one volume's node to a temperature: running water to wall or ice, the
	// air in the pipe to the surface of a pool.
	tieNode int
	tieG    float64
	tieT    float64
	// The outside: resistance beyond the outer edge, and the temperature behind it. An
	// infinite resistance insulates.
	outR, outT float64
}

// flows are the heat flows into the row at a converged instant [W/m].
type flows struct{ outer, tie float64 }

// scratch is one worker's room for the implicit solves; it grows to the largest mesh.
type scratch struct {
	node      []node
	bent      []int     // volumes whose resistances change with u: part ice, or on their freezing curve
	base, mid []float64 // right-hand side and middle stage
	next      []float64 // state at the end of the step under trial
	first     int       // the innermost volume that takes part in the step
	start     []float64 // state at its start, which settles where ice stands
	knot      []int     // where each volume last was on its freezing curve
	newton    int       // Newton iterations so far
	residual  float64   // largest residual accepted so far [K]
}

// node is what the solver knows of one volume, side by side in memory because it is read together.
type node struct {
	t, d      float64 // temperature [°C], dT/du [-]
	in, out   float64 // half resistances [m K/W]
	g         float64 // conductance to the next volume [W/(m K)]
	dIn, dOut float64 // slopes of the half resistances with u; 0 but for the volumes in bent
	r         float64 // residual, then Newton step [K]
	// The step is rest − share · that of the next volume.
	share, rest float64
}

// grow makes room for a mesh of n volumes.
func (w *scratch) grow(n int) {
	if len(w.node) >= n {
		return
	}
	w.node = make([]node, n)
	slab := make([]float64, 3*n)
	for _, p := range []*[]float64{&w.base, &w.mid, &w.next} {
		*p, slab = slab[:n:n], slab[n:]
	}
	w.knot = make([]int, n)
	w.bent = make([]int, 0, n)
}

const (
	newtonLimit = 25
	// newtonTolerance is the residual [K of the volume] at which a solve counts as
	// converged. What is left is then added to the state, so that the heat books close to
	// rounding whatever the tolerance.
	newtonTolerance = 1e-7
	// newtonRough is what is accepted from iteration newtonLate on, where a front at the edge of its
	// volume makes the last digits settle slowly.
	newtonRough = 1e-4
	newtonLate  = 10
)

// solve finds u with cap·(u − base) = a·(heat flowing in at u): one implicit stage of
// length a [s]. u holds the first guess on entry and the solution on return, in
// conservative form: exactly base plus the converged flows. It reports false, leaving u
// unusable, when Newton's method does not converge.
func (w *scratch) solve(m *mesh, e *ends, a float64, base, u []float64) (flows, bool) {
	if !m.icy {
		w.newton++
		if q, ok := w.thawed(m, e, a, base, u); ok {
			return q, true
		}
	}
	for it := 0; it < newtonLimit; it++ {
		w.newton++
		w.linearise(m, e.first, u)
		q, worst := w.sweep(m, e, a, base, u)
		if math.IsNaN(worst) {
			return flows{}, false
		}
		if worst <= newtonTolerance || it >= newtonLate && worst <= newtonRough {
			if worst > w.residual {
				w.residual = worst
			}
			for i := e.first; i < m.n; i++ {
				u[i] += w.node[i].r
			}
			return q, true
		}
		if crossed := w.back(m, e.first, u); !crossed && w.nearlyLinear(m, u) {
			// What was solved was the system itself, to rounding or nearly so. Its flows are those
			// of the straightened laws, which leave and enter neighbours alike: the books close.
			return w.straightFlows(m, e), true
		}
	}
	return flows{}, false
}

// How far laws may bend over a Newton step that needs no other.
const (
	bentTemperature = 1e-4 // temperature off its straight line [K]
	bentResistance  = 0.02 // change of a resistance [-]; the flow is off by about its square
)

// nearlyLinear says whether, over the last Newton step, which led to u, temperatures and
// resistances ran along the straight lines that it took for them.
func (w *scratch) nearlyLinear(m *mesh, u []float64) bool {
	for _, i := range w.bent {
		v := &w.node[i]
		if math.Abs(v.dIn*v.r) > bentResistance*v.in || math.Abs(v.dOut*v.r) > bentResistance*v.out {
			return false
		}
		if c := m.phase[i].curve; c != nil {
			at := c.at(u[i], w.knot[i])
			if math.Abs(c.knots[at].temperature(u[i])-v.t-v.d*v.r) > bentTemperature {
				return false
			}
		}
	}
	return true
}

// straightFlows are the flows in from outside after the last Newton step, by the laws that it
// took for straight.
func (w *scratch) straightFlows(m *mesh, e *ends) flows {
	last, tied := &w.node[m.n-1], &w.node[e.tieNode]
	g := 1 / (last.out + e.outR)
	flow := g * (e.outT - last.t)
	return flows{
		outer: flow - g*(last.d+flow*last.dOut)*last.r,
		tie:   e.tieG * (e.tieT - tied.t - tied.d*tied.r),
	}
}

// sweep fills the tridiagonal Newton system row by row from the inside, and eliminates as it goes, without
// pivoting, which its diagonal dominance by columns allows. It leaves the residual in node.r [K] and what back
// needs, and returns the flows in from outside and the largest residual.
//
// A flow from i to the next is g·(t[i] − t[i+1]); its slopes with both enthalpies go through temperature
// and through the front's place. Each row waits for the division of the one before it; the rest of it is
// worked out meanwhile.
func (w *scratch) sweep(m *mesh, e *ends, a float64, base, u []float64) (q flows, worst float64) {
	n, last := m.n, m.n-1
	node, perCap, base, u := w.node[:n], m.perCap[:n], base[:n], u[:n]
	node[last].g = 1 / (node[last].out + e.outR) // 0 when insulated
	q.tie = e.tieG * (e.tieT - node[e.tieNode].t)
	var before, beforeByPrev, beforeByI, sharePrev, restPrev float64
	for i := e.first; i < n; i++ {
		at := &node[i]
		next, byNext := e.outT, 0.0
		flow := 0.0
		if i < last {
			beyond := &node[i+1]
			flow = at.g * (at.t - beyond.t)
			byNext = -at.g * (beyond.d + flow*beyond.dIn)
		} else {
			flow = at.g * (at.t - next)
		}
		byI := at.g * (at.d - flow*at.dOut)
		net, slope := before-flow, beforeByI-byI
		if i == e.tieNode {
			net += q.tie
			slope -= e.tieG * at.d
		}
		k := a * perCap[i]
		miss := base[i] - u[i] + k*net
		lo := -k * beforeByPrev
		pivot := 1 / (1 - k*slope - lo*sharePrev)
		sharePrev, restPrev = k*byNext*pivot, (miss-lo*restPrev)*pivot
		at.r, at.share, at.rest = miss, sharePrev, restPrev
		if miss = math.Abs(miss); miss > worst {
			worst = miss
		}
		before, beforeByPrev, beforeByI = flow, byI, byNext
	}
	if math.IsNaN(restPrev) { // into which every number has gone
		worst = restPrev
	}
	q.outer = -before
	return q, worst
}

// back works out the Newton step in node.r from the outside in, and moves u by it, stopping each volume just
// beyond an edge of its plateau that the step would cross: slope and resistances change there, and a step
// that runs on with the old ones is how Newton's method would cycle. It reports whether any volume crossed
// one, or came to hold more or less than a trace of ice.
func (w *scratch) back(m *mesh, first int, u []float64) (crossed bool) {
	n := m.n
	u, node := u[:n], w.node[:n]
	thawed, trace, frozen := m.thawed[:n], m.trace[:n], m.frozen[:n]
	step := 0.0
	for i := n - 1; i >= first; i-- {
		step = node[i].rest - node[i].share*step
		node[i].r = step
		at := u[i]
		next := at + step
		switch {
		case (at >= thawed[i]) != (next >= thawed[i]) || (at <= frozen[i]) != (next <= frozen[i]):
			next, crossed = pastEdge(thawed[i], frozen[i], at, next), true
			m.chilled = m.chilled || i < m.water
		case (at >= trace[i]) != (next >= trace[i]):
			crossed = true
		}
		u[i] = next
	}
	return crossed
}

// pastEdge is just beyond the first edge, where freezing begins or where it is done, that a step
// crosses.
func pastEdge(thawed, frozen, at, next float64) float64 {
	const share = 1e-9 // of the plateau, or of a kelvin where soil freezes along a curve
	beyond := share
	if !math.IsInf(frozen, -1) {
		beyond *= thawed - frozen
	}
	switch {
	case at >= thawed:
		return thawed - beyond
	case at <= frozen:
		return frozen + beyond
	case next >= thawed:
		return thawed + beyond
	}
	return frozen - beyond
}
