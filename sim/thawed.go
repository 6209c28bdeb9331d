package sim

// factored is the tridiagonal system of a row without ice, eliminated: of conductances and heat capacities alone, so
// that it serves every step of one length between the same ends.
type factored struct {
	known        bool
	a            float64 // length of the stage [s]
	tieG, outR   float64 // see ends
	first, tieAt int
	// What a volume takes over from the one before it, from its own right-hand side, and from the one behind it [-].
	before, own, behind []float64
	tie, out            float64 // what the tied volume and the last take over from the tie's and the outer temperature [-]
	outG                float64 // conductance between the last volume and what lies outside [W/(m K)]
}

// fits says whether this is the system of a stage.
func (f *factored) fits(e *ends, a float64) bool {
	return f.known && f.a == a && f.outR == e.outR && f.tieG == e.tieG && f.first == e.first && (f.tieAt == e.tieNode || e.tieG == 0)
}

// factor eliminates the system of a stage of length a [s] from the inside out, without pivoting, which its diagonal
// dominance allows.
func (m *mesh) factor(e *ends, a float64) {
	f := &m.factored
	n, last := m.n, m.n-1
	if f.own == nil {
		slab := make([]float64, 3*n)
		f.before, f.own, f.behind = slab[:n:n], slab[n:2*n:2*n], slab[2*n:]
	}
	f.known, f.a, f.outR, f.tieG, f.first, f.tieAt = true, a, e.outR, e.tieG, e.first, e.tieNode
	f.outG = 1 / (m.outLiquid[last] + e.outR) // 0 when insulated
	f.tie = 0
	conducts, perCap := m.conducts[:n], m.perCap[:n]
	before, own, behind := f.before[:n], f.own[:n], f.behind[:n]
	inner, carried := 0.0, 0.0
	for i := e.first; i < n; i++ {
		outer := f.outG
		if i < last {
			outer = conducts[i]
		}
		k := a * perCap[i]
		away := inner + outer
		if i == e.tieNode {
			away += e.tieG
			f.tie = k * e.tieG
		}
		pivot := 1 / (1 + k*away - k*inner*carried)
		carried = k * outer * pivot
		before[i], own[i], behind[i] = k*inner*pivot, pivot, carried
		inner = outer
	}
	f.out = a * perCap[last] * f.outG
}

// thawed is solve for a row that holds no ice at the end of the stage: one pass out and one back, for the laws of what
// is liquid are straight lines. It reports false, with u as it was, where that comes to any ice.
func (w *scratch) thawed(m *mesh, e *ends, a float64, base, u []float64) (flows, bool) {
	f := &m.factored
	if !f.fits(e, a) {
		m.factor(e, a)
	}
	n := m.n
	before, own, behind, thawed := f.before[:n], f.own[:n], f.behind[:n], m.thawed[:n]
	base, node := base[:n], w.node[:n]
	at := 0.0
	for i := e.first; i < n; i++ {
		right := base[i]
		if i == e.tieNode {
			right += f.tie * e.tieT
		}
		if i == n-1 {
			right += f.out * e.outT
		}
		at = own[i]*right + before[i]*at
		node[i].r = at
	}
	at = 0
	for i := n - 1; i >= e.first; i-- {
		at = node[i].r + behind[i]*at
		node[i].r, node[i].d = at, 1
		if !(at >= thawed[i]) {
			return flows{}, false
		}
	}
	for i := e.first; i < n; i++ {
		u[i] = node[i].r
	}
	return flows{outer: f.outG * (e.outT - u[n-1]), tie: e.tieG * (e.tieT - u[e.tieNode])}, true
}
