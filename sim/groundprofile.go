package sim

import "math"

// profile reads a column at one instant: temperature, ice and frost at any depth. It
// joins temperatures straight from each volume's node to its edges. Where a sharp front stands
// in a volume, the front is its node.
type profile struct {
	c     *column
	w     *scratch  // temperatures and half resistances of the state
	y     []float64 // heights of the nodes above the bottom [m]
	edges []float64 // temperatures at the volumes' upper edges [°C]
}

// look prepares the profile of the column's present state.
func (c *column) look(w *scratch) *profile {
	m := c.mesh
	w.begin(m, 0, c.u)
	w.linearise(m, 0, c.u)
	if c.view == nil {
		c.view = newProfile(c)
	}
	p := c.view
	p.w = w
	for i := range p.y {
		p.y[i] = m.centre(i)
		if w.node[i].d == 0 && c.u[i] < m.trace[i] {
			p.y[i] = p.front(i)
		}
	}
	p.fillEdges()
	return p
}

// newProfile makes room for a column's.
func newProfile(c *column) *profile {
	return &profile{c: c, y: make([]float64, c.mesh.n), edges: make([]float64, c.mesh.n)}
}

// front is the height at which the front of a partly frozen volume stands [m].
func (p *profile) front(i int) float64 {
	m := p.c.mesh
	a, b := m.edge[i], m.edge[i+1]
	f := m.phase[i].ice(p.c.u[i])
	switch p.w.side(m, i) {
	case iceOutside:
		return b - f*(b-a)
	case iceInside:
		return a + f*(b-a)
	}
	return 0.5 * (a + b)
}

// fillEdges works out the temperatures at the upper edges of all volumes; at the surface, that of a
// straight line from below.
func (p *profile) fillEdges() {
	w, last := p.w, p.c.mesh.n-1
	for i := range last {
		g, h := 1/w.node[i].out, 1/w.node[i+1].in
		p.edges[i] = (g*w.node[i].t + h*w.node[i+1].t) / (g + h)
	}
	p.edges[last] = w.node[last].t + (w.node[last].t-p.edges[last-1])*w.node[last].out/w.node[last].in
}

// side says of the part of a volume below or above its node: the temperature at its far
// end [°C], its far edge [m], and whether it is frozen, where the freezing is sharp.
func (p *profile) side(i int, above bool) (t, edge float64, frozen bool) {
	m, w := p.c.mesh, p.w
	switch {
	case above:
		t, edge = p.edges[i], m.edge[i+1]
	case i > 0:
		t, edge = p.edges[i-1], m.edge[i]
	default:
		t, edge = w.node[0].t, m.edge[0] // no heat passes the bottom
	}
	u, law := p.c.u[i], &m.phase[i]
	switch {
	case law.curve != nil || u >= 0 || law.plateau > 0 && u >= m.trace[i]: // a trace of ice is none
	case u <= -law.plateau:
		frozen = true
	case w.side(m, i) == iceEverywhere:
		frozen = law.ice(u) > 0.5
	default:
		frozen = above == (w.side(m, i) == iceOutside)
	}
	return t, edge, frozen
}

// at reads the temperature at a depth [m], and the ice share that decides the enthalpy of
// ground at just 0 °C.
func (p *profile) at(depth float64) (t, ice float64) { return p.read(p.c.mesh.spot(depth)) }

// read is at for a spot.
func (p *profile) read(s spot) (t, ice float64) {
	i, y := s.volume, s.height
	far, edge, frozen := p.side(i, y >= p.y[i])
	t = p.w.node[i].t
	if edge != p.y[i] {
		t += (far - t) * (y - p.y[i]) / (edge - p.y[i])
	}
	switch {
	case p.c.mesh.phase[i].curve != nil:
		return t, 0
	case frozen: // an edge between a frozen and a liquid volume may read the other sign
		return math.Min(t, 0), 1
	}
	return math.Max(t, 0), 0
}

// spot is a place in a column: a height above its bottom [m], and the volume that holds it.
type spot struct {
	height float64
	volume int
}

// spot finds that at a depth [m].
func (m *mesh) spot(depth float64) spot {
	y := math.Min(math.Max(columnDepth-depth, 0), columnDepth)
	return spot{y, m.holds(y)}
}

// holds is the index of the volume that holds a height [m].
func (m *mesh) holds(y float64) int {
	lo, hi := 0, m.n
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; m.edge[mid] <= y {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// frost is what is frozen of a column [m]: its shallowest and its lowest frozen point, NaN
// where there is none, and the thickness of all frozen layers together.
type frost struct{ top, bottom, thickness float64 }

// frozen reads what has ice in it: sharply frozen ground, and that below its freezing point.
func (p *profile) frozen() frost { return p.layers((*phase).freezes) }

// frost reads what is at or below 0 °C, where water in a pipe would freeze, whether the soil's
// own water does or not.
func (p *profile) frost() frost { return p.layers(atZero) }

func atZero(*phase) float64 { return 0 }

// layers reads what is colder than a limit [°C] that depends on the soil's law.
func (p *profile) layers(limit func(*phase) float64) frost {
	f := frost{math.NaN(), math.NaN(), 0}
	m := p.c.mesh
	cold := func(i int) bool {
		if i < 0 || p.c.u[i] >= 0 {
			return false
		}
		least := limit(&m.phase[i])
		if law := &m.phase[i]; law.curve == nil && law.plateau > 0 {
			least = min(least, m.trace[i]) // a trace of ice is none
		}
		return p.c.u[i] < least
	}
	above, here := false, cold(m.n-1)
	for i := m.n - 1; i >= 0; i-- {
		below := cold(i - 1)
		switch {
		case above && here && below && m.phase[i].curve != nil:
			f.add(m.edge[i], m.edge[i+1])
		case above || here || below: // else no part of it can be frozen
			p.addFrozen(&f, i, limit(&m.phase[i]))
		}
		above, here = here, below
	}
	return f
}

// addFrozen adds the part of a volume that is colder than a limit [°C].
func (p *profile) addFrozen(f *frost, i int, limit float64) {
	for _, above := range [2]bool{true, false} {
		if low, high := p.frozenPart(i, above, limit); high > low {
			f.add(low, high)
		}
	}
}

// add adds the stretch between two heights [m], which lies below all stretches added so far.
func (f *frost) add(low, high float64) {
	if math.IsNaN(f.top) {
		f.top = columnDepth - high
	}
	f.bottom = columnDepth - low
	f.thickness += high - low
}

// frozenPart is the stretch of the part of volume i above or below its node that is colder than
// a limit [°C], or frozen where freezing is sharp, as heights [m]; empty where low ≥ high.
func (p *profile) frozenPart(i int, above bool, limit float64) (low, high float64) {
	far, edge, frozen := p.side(i, above)
	node, law := p.y[i], &p.c.mesh.phase[i]
	if law.curve == nil {
		if !frozen {
			return 0, 0
		}
		return math.Min(node, edge), math.Max(node, edge)
	}
	here := p.w.node[i].t
	switch {
	case here >= limit && far >= limit:
		return 0, 0
	case here < limit && far < limit:
		return math.Min(node, edge), math.Max(node, edge)
	}
	cross := node + (edge-node)*(limit-here)/(far-here)
	cold := node
	if far < here {
		cold = edge
	}
	return math.Min(cross, cold), math.Max(cross, cold)
}
