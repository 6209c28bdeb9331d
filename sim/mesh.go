package sim

import "math"

// mesh is a row of control volumes that exchange heat with their neighbours only: the
// shells of a pipe cell from the water's core outwards, or the layers of a ground
// column from the bottom upwards. All values are per metre of pipe, or per square
// metre of ground. A mesh belongs to one cell; its water part changes with the depth
// of the pool.
type mesh struct {
	n, water int // number of volumes; the first `water` of them hold the pipe's water
	radial   bool
	edge     []float64 // n+1 edges: radii, or heights above the bottom [m]

	cap   []float64 // heat capacity with all water liquid [J/(m K)]
	phase []phase   // of each volume; zero plateau for solids
	// The enthalpy down to which a volume is liquid, and that from which on it is frozen [K]:
	// its law as two thresholds, for the solver's loops. −Inf where nothing freezes.
	thawed, frozen []float64
	trace          []float64 // enthalpy down to which it holds a trace of ice at most [K]; thawed along a curve

	// Resistances from the inner edge to the node and from the node to the outer edge,
	// liquid and frozen [m K/W].
	inLiquid, outLiquid, inFrozen, outFrozen []float64
	kLiquid, kFrozen                         []float64 // [W/(m K)]
	weight                                   []float64 // of its temperature in a step's error, 0 to 1
	// conducts is the conductance between the nodes of a volume and the next, both liquid [W/(m K)].
	conducts []float64
	perCap   []float64 // 1 over the heat capacity [m K/J]
	scale    []float64 // factor on resistances: depth ratio for pool water, else 1
	part     []float64 // share of the water's cross-section, of a water shell [-]
	whole    []float64 // resistance from edge to edge for unit conductivity [-, or m]
	widening []float64 // cross-section over that within the inner edge, of a ring [-]

	// ground is the share of the undisturbed ground's change of enthalpy [K of the soil] that
	// each volume takes, as a change of its own [K]; 0 for a pipe that is not buried. See
	// setGround.
	ground []float64
	gain   []float64 // heat that the volumes from each on gain by 1 K of that [J/(m K)]

	factored factored
	icy      bool // when last solved some of it was not liquid
	chilled  bool // its water has come below 0 °C or to its first ice, if only in a step that was tried
}

// volume is what newMesh needs to know of one control volume.
type volume struct {
	outer            float64 // outer edge [m]
	cLiquid          float64 // volumetric heat capacity [J/(m³ K)]
	phase            phase
	kLiquid, kFrozen float64
}

// newMesh builds a mesh from its innermost edge and its volumes.
func newMesh(inner float64, volumes []volume, water int, radial bool) *mesh {
	n := len(volumes)
	slab := make([]float64, 20*n+1)
	cut := func(k int) []float64 { s := slab[:k:k]; slab = slab[k:]; return s }
	m := &mesh{
		n: n, water: water, radial: radial, edge: cut(n + 1), cap: cut(n),
		inLiquid: cut(n), outLiquid: cut(n), inFrozen: cut(n), outFrozen: cut(n),
		kLiquid: cut(n), kFrozen: cut(n), scale: cut(n), part: cut(n), whole: cut(n), widening: cut(n), conducts: cut(n), perCap: cut(n), weight: cut(n), ground: cut(n), gain: cut(n),
		thawed: cut(n), frozen: cut(n), trace: cut(n), phase: make([]phase, n),
	}
	m.edge[0] = inner
	for i, v := range volumes {
		m.edge[i+1] = v.outer
		m.kLiquid[i], m.kFrozen[i], m.scale[i] = v.kLiquid, v.kFrozen, 1
		m.weight[i] = 1
		m.setLaw(i, v.phase)
		a, b := m.edge[i], v.outer
		m.cap[i] = v.cLiquid * m.measure(a, b)
		in, out := m.spread(a, m.centre(i)), m.spread(m.centre(i), b)
		m.inLiquid[i], m.outLiquid[i] = in/v.kLiquid, out/v.kLiquid
		m.inFrozen[i], m.outFrozen[i] = in/v.kFrozen, out/v.kFrozen
		if i < water {
			m.part[i] = (b*b - a*a) / (volumes[water-1].outer * volumes[water-1].outer)
		}
		m.whole[i], m.widening[i] = m.spread(a, b), (b*b-a*a)/(a*a)
	}
	m.conduct(n)
	m.weigh()
	return m
}

// lightShell is the share of the water's heat capacity under which a shell weighs less in a step's error. The heat that it
// takes up is too little to matter, but following it to its neighbours' temperature would take steps of a second.
const lightShell = 0.1

// weigh works out the weights of a full pipe's shells.
func (m *mesh) weigh() {
	all := 0.0
	for i := range m.water {
		all += m.cap[i]
	}
	if all > 0 {
		for i := range m.weight {
			m.weight[i] = min(1, m.cap[i]/(lightShell*all))
		}
	}
}

// conduct works out what follows from capacities and resistances of the first n volumes.
func (m *mesh) conduct(n int) {
	m.factored.known = false
	for i := range n {
		m.perCap[i] = 1 / m.cap[i]
		if i+1 < m.n {
			m.conducts[i] = 1 / (m.outLiquid[i] + m.inLiquid[i+1])
		}
	}
}

// measure is the cross-section between two edges [m² or m].
func (m *mesh) measure(a, b float64) float64 {
	if m.radial {
		return math.Pi * (b*b - a*a)
	}
	return b - a
}

// spread is the conduction resistance between two edges for unit conductivity.
func (m *mesh) spread(a, b float64) float64 {
	if !m.radial {
		return b - a
	}
	if a <= 0 {
		a = 1e-9 * b // the core has no inner neighbour; any finite value will do
	}
	return math.Log(b/a) / (2 * math.Pi)
}

// centre is where a volume's temperature is taken to stand: the radius that halves its
// cross-section, or the middle of a layer.
func (m *mesh) centre(i int) float64 {
	a, b := m.edge[i], m.edge[i+1]
	if m.radial {
		return math.Sqrt(0.5 * (a*a + b*b))
	}
	return 0.5 * (a + b)
}

// setDepthRatio rescales the water shells for a pool whose equivalent cylinder has
// ratio times the bore's radius, per unit of wetted wall: its heat capacity and its
// resistances both go with the ratio.
func (m *mesh) setDepthRatio(ratio float64) {
	for i := range m.water {
		k := ratio / m.scale[i]
		m.scale[i] = ratio
		m.cap[i] *= k
		m.ground[i] /= k
		m.inLiquid[i] *= k
		m.outLiquid[i] *= k
		m.inFrozen[i] *= k
		m.outFrozen[i] *= k
	}
	m.conduct(m.water)
}

// setGround gives each volume its share of what the undisturbed ground goes through, from the index of the first soil
// volume and the soil's heat capacity [J/(m³ K)]. The temperatures around the pipe are those of the undisturbed ground
// plus the pipe's disturbance of them, so each soil volume changes as the ground would without the pipe. The pipe stands in
// the place of soil and receives the heat that the ground would have brought there. That heat comes in through its rim:
// what holds less heat than soil, such as foam, changes as the soil would; the first `sheltered` volumes, which lie behind
// insulation, take only a share of that (see shelter); and the rest goes to the soil around, as much of it as holds as much
// heat.
func (m *mesh) setGround(soil int, capacity float64, sheltered int, share float64) {
	rest := 0.0 // heat for 1 K of the ground's [J/(m K)]
	for i := range soil {
		whole := capacity * m.measure(m.edge[i], m.edge[i+1])
		m.ground[i] = min(1, whole/m.cap[i])
		if i < sheltered {
			m.ground[i] *= share
		}
		rest += whole - m.ground[i]*m.cap[i]
	}
	to, around := soil, 0.0
	for to < m.n && (to == soil || around < rest) {
		around += m.cap[to]
		to++
	}
	for i := soil; i < m.n; i++ {
		m.ground[i] = 1
		if i < to {
			m.ground[i] += rest / around
		}
	}
	for i := m.n - 1; i >= 0; i-- {
		m.gain[i] = m.cap[i] * m.ground[i]
		if i+1 < m.n {
			m.gain[i] += m.gain[i+1]
		}
	}
}

// shelter is the share of the ground's own change that reaches at once what lies behind insulation of some resistance
// [m K/W], in soil of conductivity k [W/(m K)]; the rest must come by conduction. It is 1 without insulation, and falls as
// the insulation's resistance grows beside that of the soil in whose place the pipe stands, 1/(8πk): a cylinder heated
// throughout is warmer than its rim by so much for each W/m, on average (Carslaw and Jaeger 1959, 7.2, from memory).
func shelter(insulation, k float64) float64 {
	core := 1 / (8 * math.Pi * k)
	return core / (core + insulation)
}

// groundGain is the heat that the volumes from index first on gain when the undisturbed
// ground's enthalpy moves by du [K] [J/m].
func (m *mesh) groundGain(first int, du float64) float64 { return m.gain[first] * du }

// across is the resistance of the volumes from index `from` to to−1, none of them frozen [m K/W].
func (m *mesh) across(from, to int) float64 {
	sum := 0.0
	for i := from; i < to; i++ {
		sum += m.inLiquid[i] + m.outLiquid[i]
	}
	return sum
}

// setPhase gives all water shells another law, as when a supercooled liquid nucleates.
func (m *mesh) setPhase(p phase) {
	for i := range m.water {
		m.setLaw(i, p)
	}
}

// setLaw gives one volume its law.
func (m *mesh) setLaw(i int, p phase) {
	m.phase[i] = p
	switch {
	case p.curve != nil:
		m.thawed[i], m.frozen[i] = p.curve.point, math.Inf(-1)
	case p.plateau == 0 && p.ratio == 1: // a solid, or supercooled water, conducts as above 0 °C
		m.thawed[i], m.frozen[i] = math.Inf(-1), math.Inf(-1)
	default:
		m.thawed[i], m.frozen[i] = 0, -p.plateau
	}
	m.trace[i] = m.thawed[i]
	if p.curve == nil && p.plateau > 0 {
		m.trace[i] = -frontTrace * p.plateau
	}
}
