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
	dIn, dOut     []float64 // slopes of the half resistances with u, where the front moves
	lo, di, up, r []float64 // tridiagonal system
	base, mid     []float64 // right-hand side and middle stage
	ice           []side    // where ice stands in a volume that is part ice
	knot          []int     // where each volume last was on its freezing curve
	newton        int       // Newton iterations so far
	residual      float64   // largest residual accepted so far [K]
}

func (w *scratch) grow(n int) {
	if len(w.t) >= n {
		return
	}
	slab := make([]float64, 12*n)
	for _, p := range []*[]float64{&w.t, &w.d, &w.in, &w.out, &w.dIn, &w.dOut, &w.lo, &w.di, &w.up, &w.r, &w.base, &w.mid} {
		*p, slab = slab[:n:n], slab[n:]
	}
	w.ice = make([]side, n)
	w.knot = make([]int, n)
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
		partial := w.linearise(m, e, u)
		q, worst := w.assemble(m, e, a, base, u)
		if worst <= newtonTolerance || it >= newtonLate && worst <= rough {
			if worst > w.residual {
				w.residual = worst
			}
			for i := e.first; i < m.n; i++ {
				u[i] += w.r[i]
			}
			return q, true
		}
		w.eliminate(e.first, m.n)
		crossed := w.update(m, e.first, u)
		if !crossed && (!partial || w.nearlyLinear(m, e.first, u)) {
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
func (w *scratch) nearlyLinear(m *mesh, first int, u []float64) bool {
	for i := first; i < m.n; i++ {
		if w.dIn[i] == 0 && w.dOut[i] == 0 {
			continue
		}
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

// linearise evaluates temperature, its slope and the half resistances at u, and reports
// whether any volume is part ice.
func (w *scratch) linearise(m *mesh, e *ends, u []float64) bool {
	n := m.n
	t, d, in, out, dIn, dOut := w.t[:n], w.d[:n], w.in[:n], w.out[:n], w.dIn[:n], w.dOut[:n]
	partial := false
	for i := e.first; i < n; i++ {
		dIn[i], dOut[i] = 0, 0
		p := m.phase[i]
		switch v := u[i]; {
		case v >= 0 || p.plateau == 0 && p.ratio == 1 || p.curve != nil && v >= p.curve.point: // a solid, or supercooled water, conducts as above 0 °C
			t[i], d[i], in[i], out[i] = v, 1, m.inLiquid[i], m.outLiquid[i]
		case p.curve != nil:
			w.alongCurve(m, i, p.curve, v)
			partial = true
		case v <= -p.plateau:
			t[i], d[i], in[i], out[i] = (v+p.plateau)*p.ratio, p.ratio, m.inFrozen[i], m.outFrozen[i]
		default:
			t[i], d[i] = 0, 0
			partial = true
		}
	}
	if partial {
		w.fronts(m, e.first, u)
	}
	return partial
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

// fronts places the ice front in every volume that is part ice.
func (w *scratch) fronts(m *mesh, first int, u []float64) {
	for i := first; i < m.n; i++ {
		if w.d[i] != 0 {
			continue
		}
		f := -u[i] / m.phase[i].plateau
		var h halves
		switch w.ice[i] {
		case iceOutside:
			h = m.front(i, f, true)
		case iceInside:
			h = m.front(i, f, false)
		default:
			h = m.blend(i, f)
		}
		w.in[i], w.out[i] = h.in, h.out
		w.dIn[i], w.dOut[i] = -h.inSlope/m.phase[i].plateau, -h.outSlope/m.phase[i].plateau
	}
}

// side is where ice stands in a volume that is part ice.
type side uint8

const (
	iceOutside    side = iota // on the outer side, as when a pipe freezes from its wall
	iceInside                 // on the inner side, as when it thaws from its wall
	iceEverywhere             // cold or warm from both sides
)

// sides settles, from the state at the start of a step, on which side of each volume
// ice would stand: the colder one. It holds for the whole step; were it to follow the
// iterates, the flows would jump with it and Newton's method could cycle.
func (w *scratch) sides(m *mesh, first int, u []float64) {
	at := func(i int) float64 { return m.phase[i].temperature(u[i]) }
	inside, here := at(first), at(first)
	for i := first; i < m.n; i++ {
		outside := here
		if i < m.n-1 {
			outside = at(i + 1)
		}
		partial := u[i] < 0 && u[i] > -m.phase[i].plateau && m.phase[i].curve == nil
		switch {
		case partial && inside*outside > 0:
			w.ice[i] = iceEverywhere
		case outside <= inside:
			w.ice[i] = iceOutside
		default:
			w.ice[i] = iceInside
		}
		inside, here = here, outside
	}
}

// assemble fills the tridiagonal Newton system, the residual in w.r [K], and returns the
// flows in from outside and the largest residual.
func (w *scratch) assemble(m *mesh, e *ends, a float64, base, u []float64) (q flows, worst float64) {
	n, last := m.n, m.n-1
	t, d, in, out, dIn, dOut := w.t[:n], w.d[:n], w.in[:n], w.out[:n], w.dIn[:n], w.dOut[:n]
	lo, di, up, r := w.lo[:n], w.di[:n], w.up[:n], w.r[:n]
	q.tie = e.tieG * (e.tieT - t[e.tieNode])
	// The flow from i to i+1 is g·(t[i] − t[i+1]); byI and byNext are its slopes with u[i]
	// and u[i+1], through temperature and through the front's place.
	before, beforeByI, beforeByPrev := 0.0, 0.0, 0.0
	for i := e.first; i < n; i++ {
		var flow, byI, byNext float64
		if i < last {
			g := 1 / (out[i] + in[i+1])
			flow = g * (t[i] - t[i+1])
			byI = g * (d[i] - flow*dOut[i])
			byNext = -g * (d[i+1] + flow*dIn[i+1])
		} else {
			g := 1 / (out[last] + e.outR) // 0 when insulated
			flow = g * (t[last] - e.outT)
			byI = g * (d[last] - flow*dOut[last])
			q.outer = -flow
		}
		net, slope := before-flow, beforeByI-byI
		if i == e.tieNode {
			net += q.tie
			slope -= e.tieG * d[i]
		}
		k := a / m.cap[i]
		miss := base[i] + k*net - u[i]
		r[i] = miss
		if miss = math.Abs(miss); !(miss <= worst) { // catches NaN too
			worst = miss
		}
		lo[i], di[i], up[i] = -k*beforeByPrev, 1-k*slope, k*byNext
		before, beforeByPrev, beforeByI = flow, byI, byNext
	}
	return q, worst
}

// eliminate solves the tridiagonal system without pivoting, which its diagonal dominance
// by columns allows; w.r becomes the update of u. It works from both ends towards the
// middle: each row waits for the one before it, so two chains at once take half the time.
func (w *scratch) eliminate(first, n int) {
	lo, di, up, r := w.lo[first:n], w.di[first:n], w.up[first:n], w.r[first:n]
	last := len(di) - 1
	if last == 0 {
		r[0] /= di[0]
		return
	}
	// di becomes its own reciprocal: one division a row, and none in the way back.
	half := len(di) / 2
	di[0], di[last] = 1/di[0], 1/di[last]
	i, j := 1, last-1
	for ; i < half; i, j = i+1, j-1 {
		k, l := lo[i]*di[i-1], up[j]*di[j+1]
		di[i] = 1 / (di[i] - k*up[i-1])
		di[j] = 1 / (di[j] - l*lo[j+1])
		r[i] -= k * r[i-1]
		r[j] -= l * r[j+1]
	}
	if j >= half { // an odd number of rows: one more from the far end
		l := up[j] * di[j+1]
		di[j] = 1 / (di[j] - l*lo[j+1])
		r[j] -= l * r[j+1]
	}
	i, j = half-1, half
	det := 1 / (1 - di[i]*di[j]*up[i]*lo[j])
	r[i], r[j] = (r[i]-up[i]*di[j]*r[j])*di[i]*det, (r[j]-lo[j]*di[i]*r[i])*di[j]*det
	for i, j = i-1, j+1; i >= 0; i, j = i-1, j+1 {
		r[i] = (r[i] - up[i]*r[i+1]) * di[i]
		r[j] = (r[j] - lo[j]*r[j-1]) * di[j]
	}
	if j <= last {
		r[j] = (r[j] - lo[j]*r[j-1]) * di[j]
	}
}

// pastFreezing stops a step just beyond the freezing point.
func pastFreezing(point, at, next float64, crossed bool) (float64, bool) {
	const beyond = 1e-9 // [K]
	switch {
	case at >= point && next < point:
		return point - beyond, true
	case at < point && next > point:
		return point + beyond, true
	}
	return next, crossed
}

// update moves u by the Newton step, stopping each volume just beyond an edge of its
// plateau that the step would cross: slope and resistances change there, and a step that
// runs on with the old ones is how Newton's method would cycle. It reports whether any
// volume crossed one.
func (w *scratch) update(m *mesh, first int, u []float64) (crossed bool) {
	const beyond = 1e-9 // share of the plateau
	for i := first; i < m.n; i++ {
		p := m.phase[i]
		at, next := u[i], u[i]+w.r[i]
		edge := -p.plateau
		switch {
		case p.plateau == 0 && p.ratio == 1:
		case p.curve != nil:
			next, crossed = pastFreezing(p.curve.point, at, next, crossed)
		case at >= 0 && next < 0:
			next, crossed = beyond*edge, true
		case at <= edge && next > edge:
			next, crossed = edge*(1-beyond), true
		case at < 0 && next > 0:
			next, crossed = -beyond*edge, true
		case at > edge && next < edge:
			next, crossed = edge*(1+beyond), true
		}
		u[i] = next
	}
	return crossed
}
