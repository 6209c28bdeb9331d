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
	t, d, in, out []float64 // temperature, dT/du, half resistances
	g             []float64 // conductance from each volume to the next
	dIn, dOut     []float64 // slopes of the half resistances with u; 0 but for the volumes in bent
	bent          []int     // volumes whose resistances change with u: part ice, or on their freezing curve
	r             []float64 // residual, then Newton step
	share, rest   []float64 // the step is rest − share · that of the next volume
	base, mid     []float64 // right-hand side and middle stage
	next          []float64 // state at the end of the step under trial
	first         int       // the innermost volume that takes part in the step
	start         []float64 // state at its start, which settles where ice stands
	knot          []int     // where each volume last was on its freezing curve
	newton        int       // Newton iterations so far
	residual      float64   // largest residual accepted so far [K]
}

func (w *scratch) grow(n int) {
	if len(w.t) >= n {
		return
	}
	slab := make([]float64, 13*n)
	for _, p := range []*[]float64{&w.t, &w.d, &w.in, &w.out, &w.g, &w.dIn, &w.dOut, &w.r, &w.share, &w.rest, &w.base, &w.mid, &w.next} {
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
	// newtonRough is what is accepted from iteration newtonLate on: where a front crosses
	// from one volume to the next the flows jump a little, and the last digits may not settle.
	// Where the jump holds a volume at the edge of its plateau no step is short enough;
	// steps under newtonBrief [s] may therefore leave more.
	newtonRough      = 1e-3
	newtonLate       = 10
	newtonBrief      = 1.0
	newtonBriefRough = 3e-2
)

// solve finds u with cap·(u − base) = a·(heat flowing in at u): one implicit stage of
// length a [s]. u holds the first guess on entry and the solution on return, in
// conservative form: exactly base plus the converged flows. It reports false, leaving u
// unusable, when Newton's method does not converge.
func (w *scratch) solve(m *mesh, e *ends, a float64, base, u []float64) (flows, bool) {
	rough := newtonRough
	if a < newtonBrief {
		rough = newtonBriefRough
	}
	for it := 0; it < newtonLimit; it++ {
		w.newton++
		w.linearise(m, e.first, u)
		q, worst := w.sweep(m, e, a, base, u)
		if math.IsNaN(worst) {
			return flows{}, false
		}
		if worst <= newtonTolerance || it >= newtonLate && worst <= rough {
			if worst > w.residual {
				w.residual = worst
			}
			for i := e.first; i < m.n; i++ {
				u[i] += w.r[i]
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
		du := w.r[i]
		if math.Abs(w.dIn[i]*du) > bentResistance*w.in[i] || math.Abs(w.dOut[i]*du) > bentResistance*w.out[i] {
			return false
		}
		if c := m.phase[i].curve; c != nil {
			at := c.at(u[i], w.knot[i])
			if math.Abs(c.knots[at].temperature(u[i])-w.t[i]-w.d[i]*du) > bentTemperature {
				return false
			}
		}
	}
	return true
}

// straightFlows are the flows in from outside after the last Newton step, by the laws that it
// took for straight.
func (w *scratch) straightFlows(m *mesh, e *ends) flows {
	last, k := m.n-1, e.tieNode
	g := 1 / (w.out[last] + e.outR)
	flow := g * (e.outT - w.t[last])
	return flows{
		outer: flow - g*(w.d[last]+flow*w.dOut[last])*w.r[last],
		tie:   e.tieG * (e.tieT - w.t[k] - w.d[k]*w.r[k]),
	}
}

// linearise evaluates temperature, its slope and the half resistances at u, and lists the volumes
// whose resistances change with u in w.bent.
func (w *scratch) linearise(m *mesh, first int, u []float64) {
	n := m.n
	t, d, in, out, g := w.t[:n], w.d[:n], w.in[:n], w.out[:n], w.g[:n]
	inLiquid, outLiquid, thawed, frozen, conducts := m.inLiquid[:n], m.outLiquid[:n], m.thawed[:n], m.frozen[:n], m.conducts[:n]
	for _, i := range w.bent {
		w.dIn[i], w.dOut[i] = 0, 0
	}
	w.bent = w.bent[:0]
	u = u[:n]
	wasLiquid := false
	for i := first; i < n; i++ {
		v := u[i]
		liquid := v >= thawed[i]
		switch {
		case liquid:
			t[i], d[i], in[i], out[i] = v, 1, inLiquid[i], outLiquid[i]
		case v <= frozen[i]:
			m.chilled = m.chilled || i < m.water
			ratio := m.phase[i].ratio
			t[i], d[i], in[i], out[i] = (v-frozen[i])*ratio, ratio, m.inFrozen[i], m.outFrozen[i]
		case v >= m.trace[i] || m.amidIce(u, first, i):
			m.chilled = m.chilled || i < m.water
			t[i], d[i], in[i], out[i] = 0, 0, inLiquid[i], outLiquid[i]
		default:
			m.chilled = m.chilled || i < m.water
			w.bend(m, i, v)
		}
		switch {
		case liquid && wasLiquid:
			g[i-1] = conducts[i-1]
		case i > first:
			g[i-1] = 1 / (out[i-1] + in[i])
		}
		wasLiquid = liquid
	}
}

// amidIce reports that a volume that is part ice lies among such: all are at 0 °C, no heat passes between them, and
// where its front stands has no effect.
func (m *mesh) amidIce(u []float64, first, i int) bool {
	part := func(i int) bool { return u[i] < m.thawed[i] && u[i] > m.frozen[i] && m.phase[i].curve == nil }
	return i+1 < m.n && part(i+1) && part(i) && (i == first || part(i-1))
}

// bend is linearise for a volume whose resistances change with its enthalpy.
func (w *scratch) bend(m *mesh, i int, u float64) {
	w.bent = append(w.bent, i)
	if c := m.phase[i].curve; c != nil {
		w.alongCurve(m, i, c, u)
		return
	}
	w.t[i], w.d[i] = 0, 0
	w.front(m, i, u)
}

// alongCurve is linearise for a volume of soil below its freezing point that freezes along a
// curve.
func (w *scratch) alongCurve(m *mesh, i int, c *curve, u float64) {
	at := c.at(u, w.knot[i])
	w.knot[i] = at
	k := &c.knots[at]
	ease := k.ease + k.easeSlope*(u-k.u)
	in, out := m.inLiquid[i], m.outLiquid[i]
	w.t[i], w.d[i] = k.temperature(u), k.slope
	w.in[i], w.out[i], w.dIn[i], w.dOut[i] = in*ease, out*ease, in*k.easeSlope, out*k.easeSlope
}

// front places the ice front in a volume that is part ice.
func (w *scratch) front(m *mesh, i int, u float64) {
	plateau := m.phase[i].plateau
	f := -u / plateau
	var h halves
	switch w.side(m, i) {
	case iceOutside:
		h = m.front(i, f, true)
	case iceInside:
		h = m.front(i, f, false)
	default:
		h = m.blend(i, f)
	}
	w.in[i], w.out[i] = h.in, h.out
	w.dIn[i], w.dOut[i] = -h.inSlope/plateau, -h.outSlope/plateau
}

// side is where ice stands in a volume that is part ice.
type side uint8

const (
	iceOutside    side = iota // on the outer side, as when a pipe freezes from its wall
	iceInside                 // on the inner side, as when it thaws from its wall
	iceEverywhere             // cold or warm from both sides
)

// begin prepares for a step from state u, which must not change until its solves are done.
func (w *scratch) begin(m *mesh, first int, u []float64) {
	w.grow(m.n)
	w.first, w.start = first, u
}

// side settles, from the state at the start of the step, on which side of a volume ice
// stands: the colder one. It holds for the whole step; were it to follow the
// iterates, the flows would jump with it and Newton's method could cycle.
func (w *scratch) side(m *mesh, i int) side {
	at := func(i int) float64 { return m.phase[i].temperature(w.start[i]) }
	inside, outside := at(max(i-1, w.first)), at(min(i+1, m.n-1))
	u := w.start[i]
	switch {
	case u < 0 && u > m.frozen[i] && inside*outside > 0:
		return iceEverywhere
	case outside <= inside:
		return iceOutside
	}
	return iceInside
}

// sweep fills the tridiagonal Newton system row by row from the inside, and eliminates as it goes, without
// pivoting, which its diagonal dominance by columns allows. It leaves the residual in w.r [K] and what back
// needs, and returns the flows in from outside and the largest residual.
//
// A flow from i to the next is g·(t[i] − t[i+1]); its slopes with both enthalpies go through temperature
// and through the front's place. Each row waits for the division of the one before it; the rest of it is
// worked out meanwhile.
func (w *scratch) sweep(m *mesh, e *ends, a float64, base, u []float64) (q flows, worst float64) {
	n, last := m.n, m.n-1
	t, d, g, dIn, dOut := w.t[:n], w.d[:n], w.g[:n], w.dIn[:n], w.dOut[:n]
	r, share, rest := w.r[:n], w.share[:n], w.rest[:n]
	perCap, base, u := m.perCap[:n], base[:n], u[:n]
	g[last] = 1 / (w.out[last] + e.outR) // 0 when insulated
	q.tie = e.tieG * (e.tieT - t[e.tieNode])
	var before, beforeByPrev, beforeByI, sharePrev, restPrev float64
	for i := e.first; i < n; i++ {
		next, byNext := e.outT, 0.0
		if i < last {
			next = t[i+1]
		}
		flow := g[i] * (t[i] - next)
		if i < last {
			byNext = -g[i] * (d[i+1] + flow*dIn[i+1])
		}
		byI := g[i] * (d[i] - flow*dOut[i])
		net, slope := before-flow, beforeByI-byI
		if i == e.tieNode {
			net += q.tie
			slope -= e.tieG * d[i]
		}
		k := a * perCap[i]
		miss := base[i] - u[i] + k*net
		r[i] = miss
		lo := -k * beforeByPrev
		pivot := 1 / (1 - k*slope - lo*sharePrev)
		sharePrev, restPrev = k*byNext*pivot, (miss-lo*restPrev)*pivot
		share[i], rest[i] = sharePrev, restPrev
		worst = max(worst, math.Abs(miss)) // NaN stays NaN
		before, beforeByPrev, beforeByI = flow, byI, byNext
	}
	q.outer = -before
	return q, worst
}

// back works out the Newton step in w.r from the outside in, and moves u by it, stopping each volume just
// beyond an edge of its plateau that the step would cross: slope and resistances change there, and a step
// that runs on with the old ones is how Newton's method would cycle. It reports whether any volume crossed
// one, or came to hold more or less than a trace of ice.
func (w *scratch) back(m *mesh, first int, u []float64) (crossed bool) {
	n := m.n
	u, r, share, rest := u[:n], w.r[:n], w.share[:n], w.rest[:n]
	thawed, trace, frozen := m.thawed[:n], m.trace[:n], m.frozen[:n]
	step := 0.0
	for i := n - 1; i >= first; i-- {
		step = rest[i] - share[i]*step
		r[i] = step
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
