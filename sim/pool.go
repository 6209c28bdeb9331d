package sim

import (
	"sort"

	"winterline/sim/heat"
)

// shape sets the cell's standing mass [kg/m] and the geometry that goes with it, not its
// heat.
func (c *cell) shape(mass float64) {
	s := c.standingAt(mass / heat.WaterDensity)
	c.mass = mass
	if s.area == 0 {
		c.mass = 0
	}
	if c.mesh.scale[0] != s.ratio { // else it would change nothing
		c.mesh.setDepthRatio(s.ratio)
	}
	c.changed()
	c.share, c.width = s.share, s.width
	c.reach = max(c.reach, s.share)
}

// wallJoined is the heat [J] of the wall, insulation and soil that joined the wetted
// share since it was oldShare. They come in, or leave, at the temperature that they have.
func (c *cell) wallJoined(oldShare float64) float64 {
	if c.share == oldShare {
		return 0
	}
	sum := 0.0
	for i := c.mesh.water; i < c.mesh.n; i++ {
		sum += c.mesh.cap[i] * c.u[i]
	}
	return sum * (c.share - oldShare) * c.length
}

// layers is standing water by mass from the wall inwards: each layer with its mass per
// metre [kg/m] and enthalpy [K].
type layers struct {
	mass, u []float64
}

// empty takes all layers away.
func (l *layers) empty() { l.mass, l.u = l.mass[:0], l.u[:0] }

// profile reads the cell's standing water as layers into l.
func (c *cell) profile(l *layers) {
	l.empty()
	if !c.wet() {
		return
	}
	for i := c.mesh.water - 1; i >= 0; i-- {
		l.add(c.mass*c.mesh.part[i], c.u[i])
	}
}

// add puts water on the inside; nothing when mass is not positive.
func (l *layers) add(mass, u float64) {
	if mass > 0 {
		l.mass = append(l.mass, mass)
		l.u = append(l.u, u)
	}
}

// settle orders the layers with the most frozen at the wall: water that runs through a
// cell lets a sheet of ice down on its bed.
func (l *layers) settle() { sort.Stable(byEnthalpy{l}) }

type byEnthalpy struct{ *layers }

func (b byEnthalpy) Len() int           { return len(b.u) }
func (b byEnthalpy) Less(i, j int) bool { return b.u[i] < b.u[j] }
func (b byEnthalpy) Swap(i, j int) {
	b.u[i], b.u[j] = b.u[j], b.u[i]
	b.mass[i], b.mass[j] = b.mass[j], b.mass[i]
}

// equalise lets mixed water have one temperature: what its inside is warmer than 0 °C
// melts the ice around it, from the inside outwards, until one of them is used up.
func (l *layers) equalise() {
	excess, liquid := 0.0, 0.0 // [K kg/m], [kg/m]
	i := len(l.u) - 1
	for ; i >= 0 && l.u[i] >= 0; i-- {
		excess += l.mass[i] * l.u[i]
		liquid += l.mass[i]
	}
	inner := i
	for ; i >= 0 && excess > 0; i-- {
		need := -l.mass[i] * l.u[i]
		if need > excess {
			l.u[i] += excess / l.mass[i]
			excess = 0
			break
		}
		excess -= need
		liquid += l.mass[i]
		inner = i - 1
	}
	for i := inner + 1; i < len(l.u); i++ {
		l.u[i] = excess / liquid
	}
}

// fill spreads the layers, `mass` [kg/m] in all, over shells, which are numbered from
// the core outwards and hold the given parts of it. Enthalpy is kept
// by mass, so nothing is lost.
func (l *layers) fill(shells, part []float64, mass float64) {
	at, left := 0, l.mass[0]
	for i := len(shells) - 1; i >= 0; i-- {
		want := mass * part[i]
		need, sum := want, 0.0
		for need > left && at < len(l.mass)-1 {
			sum += left * l.u[at]
			need -= left
			at++
			left = l.mass[at]
		}
		sum += need * l.u[at]
		left -= need
		shells[i] = sum / want
	}
}
