package sim

// linearise evaluates temperature, its slope and the half resistances at u, and lists the volumes
// whose resistances change with u in w.bent.
func (w *scratch) linearise(m *mesh, first int, u []float64) {
	n := m.n
	node, u := w.node[:n], u[:n]
	inLiquid, outLiquid, thawed, frozen, conducts := m.inLiquid[:n], m.outLiquid[:n], m.thawed[:n], m.frozen[:n], m.conducts[:n]
	for _, i := range w.bent {
		w.node[i].dIn, w.node[i].dOut = 0, 0
	}
	w.bent = w.bent[:0]
	wasLiquid, icy := false, false
	for i := first; i < n; i++ {
		v, at := u[i], &node[i]
		liquid := v >= thawed[i]
		icy = icy || !liquid
		switch {
		case liquid:
			at.t, at.d, at.in, at.out = v, 1, inLiquid[i], outLiquid[i]
		case m.phase[i].curve != nil:
			w.bent = append(w.bent, i)
			w.alongCurve(m, i, m.phase[i].curve, v)
		case v <= frozen[i]:
			m.chilled = m.chilled || i < m.water
			ratio := m.phase[i].ratio
			at.t, at.d, at.in, at.out = (v-frozen[i])*ratio, ratio, m.inFrozen[i], m.outFrozen[i]
		case v >= m.trace[i] || m.amidIce(u, first, i):
			m.chilled = m.chilled || i < m.water
			at.t, at.d, at.in, at.out = 0, 0, inLiquid[i], outLiquid[i]
		default:
			m.chilled = m.chilled || i < m.water
			w.bent = append(w.bent, i)
			at.t, at.d = 0, 0
			w.front(m, i, v)
		}
		switch {
		case liquid && wasLiquid:
			node[i-1].g = conducts[i-1]
		case i > first:
			node[i-1].g = 1 / (node[i-1].out + at.in)
		}
		wasLiquid = liquid
	}
	m.icy = icy
}

// amidIce reports that a volume that is part ice lies among such: all are at 0 °C, no heat passes between them, and
// where its front stands has no effect.
func (m *mesh) amidIce(u []float64, first, i int) bool {
	part := func(i int) bool { return u[i] < m.thawed[i] && u[i] > m.frozen[i] && m.phase[i].curve == nil }
	return i+1 < m.n && part(i+1) && part(i) && (i == first || part(i-1))
}

// alongCurve is linearise for a volume of soil below its freezing point that freezes along a
// curve.
func (w *scratch) alongCurve(m *mesh, i int, c *curve, u float64) {
	at := c.at(u, w.knot[i])
	w.knot[i] = at
	k := &c.knots[at]
	ease := k.ease + k.easeSlope*(u-k.u)
	in, out := m.inLiquid[i], m.outLiquid[i]
	v := &w.node[i]
	v.t, v.d = k.temperature(u), k.slope
	v.in, v.out, v.dIn, v.dOut = in*ease, out*ease, in*k.easeSlope, out*k.easeSlope
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
	v := &w.node[i]
	v.in, v.out = h.in, h.out
	v.dIn, v.dOut = -h.inSlope/plateau, -h.outSlope/plateau
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
