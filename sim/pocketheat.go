package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// pocketHeat is the warmth of the rock pit: stone and water as one node that exchanges
// heat with the undisturbed ground at its middle.
type pocketHeat struct {
	stone  float64 // heat capacity of the stone [J/K]
	reach  float64 // shape factor from the pocket to the ground [m]
	ground *track
	soil   pipe.Soil
	u      float64 // enthalpy of stone and water, zero at 0 °C with all water liquid [J]
}

// pocketStone is the heat capacity of rock by volume [J/(m³ K)] (de Vries 1963, from memory).
const pocketStone = 1.92e6

// pocketFloor is how deep the pocket's floor lies below ground [m]: its depth below the invert of the
// line's end.
func pocketFloor(k *Case) float64 {
	if k.Layout.Pocket == nil {
		return 0
	}
	last := len(k.Layout.Segments) - 1
	above := k.Profile.Ground(k.Profile.X(last, 1)) - k.Profile.Invert(last, 1)
	return math.Max(0, above) + k.Layout.Pocket.Depth
}

// newPocketHeat places the pocket below the invert of the line's end; nil where the ground
// has no thermal properties.
func newPocketHeat(k *Case, g *grounds) *pocketHeat {
	p := k.Layout.Pocket
	middle := pocketFloor(k) - p.Depth/2
	soil := k.Layout.Site.SoilAt(middle)
	if soil.HeatCapacityUnfrozen <= 0 {
		return nil
	}
	h := &pocketHeat{
		stone: p.Length * p.Width * p.Depth * (1 - p.Void) * pocketStone, reach: pocketReach(p, middle),
		soil: soil, ground: g.own().at(middle),
	}
	return h
}

// pocketReach is the shape factor of a pocket with its middle at a depth [m]: that of a sphere
// of the same surface, S = 4πr/(1 − r/2z) (handbook form, as in Incropera and DeWitt, from
// memory), for a pocket with ground above it; one that reaches the surface counts as deep as its radius.
func pocketReach(p *pipe.Pocket, depth float64) float64 {
	surface := 2 * (p.Length*p.Width + (p.Length+p.Width)*p.Depth)
	r := math.Sqrt(surface / (4 * math.Pi))
	return 4 * math.Pi * r / (1 - r/(2*math.Max(depth, r)))
}

// begin sets stone at the ground's temperature at the first row.
func (h *pocketHeat) begin() { h.u = h.stone * h.ground.temperature(0) }

// state is the temperature [°C] and the ice share [-] with so much water and ice in the pocket [kg].
func (h *pocketHeat) state(held float64) (t, ice float64) {
	latent := held * heat.Fusion
	switch {
	case h.u >= 0:
		return h.u / (h.stone + held*heat.LiquidHeat), 0
	case h.u <= -latent:
		return (h.u + latent) / (h.stone + held*heat.IceHeat), 1
	}
	return 0, -h.u / latent
}

// march lets the ground act for dt [s] up to time t [s] and returns the heat that it gave
// [J]: exactly, for ground that stays at its temperature of time t.
func (h *pocketHeat) march(dt, t, held float64) float64 {
	around := h.ground.temperature(t)
	k := h.soil.ConductivityUnfrozen
	if around < 0 {
		k = h.soil.ConductivityFrozen
	}
	before, latent := h.u, held*heat.Fusion
	for range 3 { // above, at and below 0 °C
		switch {
		case h.u > 0 || h.u == 0 && around >= 0:
			h.u, dt = relax(h.u, 0, h.stone+held*heat.LiquidHeat, h.reach*k, around, dt)
		case h.u < -latent || h.u == -latent && around <= 0:
			h.u, dt = relax(h.u, -latent, h.stone+held*heat.IceHeat, h.reach*k, around, dt)
		default:
			h.u, dt = melt(h.u, latent, h.reach*k*around, dt)
		}
	}
	return h.u - before
}

// relax brings an enthalpy u [J] towards that of its surroundings [°C] through a conductance [W/K] for dt [s], but not
// across 0 °C, where it is `zero`; capacity is its heat capacity [J/K]. It returns the new enthalpy and what of dt is left
// at 0 °C.
func relax(u, zero, capacity, conductance, around, dt float64) (float64, float64) {
	t := (u - zero) / capacity
	next := around + (t-around)*math.Exp(-conductance*dt/capacity)
	if t*next >= 0 {
		return zero + next*capacity, 0
	}
	return zero, dt - capacity/conductance*math.Log((t-around)/-around)
}

// melt adds a heat flow [W] for dt [s] to a node at 0 °C, whose enthalpy lies between −latent and
// 0 [J], until it is all liquid or all ice. It returns the new enthalpy and what of dt is left then.
func melt(u, latent, flow, dt float64) (float64, float64) {
	next := math.Min(0, math.Max(-latent, u+flow*dt))
	if flow == 0 {
		return u, 0
	}
	return next, dt - (next-u)/flow
}

// take removes liquid water [kg] and returns the heat that it carries [J].
func (h *pocketHeat) take(kg, held float64) float64 {
	t, _ := h.state(held)
	carried := kg * heat.LiquidHeat * math.Max(t, 0)
	h.u -= carried
	return carried
}

// slowed is the conductivity of the ground, frozen as it is at t [s], over that unfrozen [-].
func (h *pocketHeat) slowed(t float64) float64 {
	if h.soil.Porosity <= 0 {
		return 1
	}
	water := h.soil.Latent / (heat.WaterDensity * heat.Fusion) // by volume
	ice := h.ground.law.ice(h.ground.enthalpy(t)) * water / h.soil.Porosity
	return flow.FrozenConductivity(1, ice)
}
