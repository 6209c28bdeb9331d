package sim

import (
	"math"

	"winterline/sim/heat"
)

// mound is the ice that water let go builds up on the ground: ice and the water that waits to
// freeze on it, flat on the area over which it spreads. Its state is how much there is and its heat.
// What comes first melts ice as far as its warmth reaches; what then finds no room runs off. Left out are
// the warmth that frozen ground and snow take from it, which would make more ice, and what evaporates.
type mound struct {
	place string  // as in Mound
	area  float64 // over which the water spreads [m²]
	edge  float64 // thickness of ice from which it shuts what it lies before [m]
	mass  float64 // ice and water [kg]
	u     float64 // heat content [J]; 0 for water at 0 °C, below it for ice
	time  float64 // to which it has been followed [s]

	over   bool    // its ice stands over the edge
	before float64 // thickness at the last judgement [m]
	judged float64 // when that was [s]

	arrived, ranOff sum // [kg]
	most            Mound
}

const (
	// puddleDepth is the water that lies on the spread area before more of it runs off [m]: where the
	// depression storage of paving, 0.05 to 0.10 in, meets that of lawns, 0.10 to 0.20 in (ASCE and WEF
	// 1992, Design and Construction of Urban Stormwater Management Systems, from memory).
	puddleDepth = 2.5e-3
	// leastIce is the thinnest ice that holds a lid or an opening [m] (common practice, no source).
	leastIce = 1e-3
	// moundThawed is the share of the edge down to which ice must melt before what it shut is open again [-].
	moundThawed = 0.9
	// moundStep is the longest step of a mound [s].
	moundStep = 900.0
)

// newMound is nil where no spread area is known.
func newMound(place string, area, edge float64) *mound {
	if area <= 0 {
		return nil
	}
	return &mound{place: place, area: area, edge: math.Max(edge, leastIce), most: Mound{Place: place, SpreadArea: area}}
}

// ice is the ice in the mound [kg].
func (m *mound) ice() float64 { return math.Min(m.mass, math.Max(0, -m.u/heat.Fusion)) }

// thickness of the ice [m]; 0 where there is no mound.
func (m *mound) thickness() float64 {
	if m == nil {
		return 0
	}
	return m.ice() / (heat.IceDensity * m.area)
}

// take lets a mass of water [kg] and its heat [J] onto the ground, which is frozen or not. Ground that is not, and has no
// ice on it, drinks the water or lets it run off. What runs off is returned, with its heat.
func (m *mound) take(mass, warmth float64, frozen bool) (off, carried float64) {
	m.arrived.add(mass)
	m.mass += mass
	m.u += warmth
	return m.drain(frozen)
}

// drain lets run off what does not stay: how much [kg], and its heat [J].
func (m *mound) drain(frozen bool) (off, carried float64) {
	ice := m.ice()
	off = m.mass - ice - puddleDepth*m.area*heat.WaterDensity
	if ice == 0 && !frozen {
		off = m.mass
	}
	if off <= 0 {
		return 0, 0
	}
	if m.u > 0 {
		carried = m.u * off / m.mass
		m.u -= carried
	}
	m.mass = math.Max(0, m.mass-off)
	m.ranOff.add(off)
	return off, carried
}

// march leaves the mound to the air for dt [s]: x is its surface, melt the heat flow that melts it at least [W/m²].
func (m *mound) march(x *exchange, melt, dt float64, frozen bool) {
	if m.mass <= 0 {
		return
	}
	from := m.ice()
	if left := m.cool(x, dt); left > 0 {
		m.u += math.Max(x.taken(0), melt) * m.area * left
		// Neither colder ice is followed, nor how water that has melted grows warm.
		m.u = math.Min(0, math.Max(m.u, -heat.Fusion*m.mass))
	}
	m.drain(frozen)
	m.note(math.Max(from, m.ice()) > 0, dt)
}

// cool takes water that is warmer than 0 °C towards the temperature at which its surface is in
// balance, and returns what is left of dt once it has come to 0 °C [s].
func (m *mound) cool(x *exchange, dt float64) float64 {
	if m.u <= 0 {
		return dt
	}
	capacity := m.mass * heat.LiquidHeat
	t := m.u / capacity
	gain, slope := x.gain(t)
	rest, lag := t+gain/slope, capacity/(slope*m.area)
	if rest < 0 {
		if cooled := lag * math.Log((t-rest)/-rest); cooled < dt {
			m.u = 0
			return dt - cooled
		}
	}
	m.u = capacity * (rest + (t-rest)*math.Exp(-dt/lag))
	return 0
}

// note keeps the thickest ice, and how long there was any.
func (m *mound) note(iced bool, dt float64) {
	m.time += dt
	if iced {
		m.most.Hours += dt / 3600
	}
	if h := m.thickness(); h > m.most.Thickest {
		m.most.Thickest, m.most.Mass, m.most.At = h, m.ice(), m.time
	}
}

// judge says whether the ice has passed its edge, either way, since the last time, and when [s].
func (m *mound) judge() (turned bool, at float64) {
	h, limit := m.thickness(), m.edge
	if m.over {
		limit *= moundThawed
	}
	was, since := m.before, m.judged
	m.before, m.judged = h, m.time
	if over := h > limit; over == m.over {
		return false, 0
	}
	m.over = !m.over
	return true, since + (m.time-since)*(limit-was)/(h-was)
}

// result is what became of the mound.
func (m *mound) result() Mound {
	out := m.most
	out.Arrived, out.RanOff = m.arrived.value()/heat.WaterDensity, m.ranOff.value()/heat.WaterDensity
	out.Left, out.LeftIce = m.mass, m.ice()
	return out
}
