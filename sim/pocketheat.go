package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// pocketHeat is the warmth of the rock pocket: stone and water as one node that exchanges
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

// newPocketHeat places the pocket below the invert of the line's end; nil where the ground
// has no thermal properties.
func newPocketHeat(k *Case, g *grounds) *pocketHeat {
	p := k.Layout.Pocket
	last := len(k.Layout.Segments) - 1
	x := k.Profile.X(last, 1)
	middle := math.Max(p.Depth/2, k.Profile.Ground(x)-k.Profile.Invert(last, 1)+p.Depth/2)
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

// temperature [°C] and ice share [-] with so much water and ice in the pocket [kg].
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

// march lets the ground act for dt [s] up to time t [s] and returns the heat that it gave [J]:
// one implicit step, far shorter than the days that a pocket takes to follow the ground.
func (h *pocketHeat) march(dt, t, held float64) float64 {
	around := h.ground.temperature(t)
	k := h.soil.ConductivityUnfrozen
	if around < 0 {
		k = h.soil.ConductivityFrozen
	}
	g := h.reach * k * dt
	latent := held * heat.Fusion
	liquid, frozen := h.stone+held*heat.LiquidHeat, h.stone+held*heat.IceHeat
	next := (h.u + g*around) / (1 + g/liquid)
	if next < 0 {
		next = math.Min(0, (h.u+g*(around-latent/frozen))/(1+g/frozen))
		if next > -latent {
			next = math.Max(-latent, math.Min(0, h.u+g*around))
		}
	}
	gained := next - h.u
	h.u = next
	return gained
}

// take removes liquid water [kg] and returns the heat that it carries [J].
func (h *pocketHeat) take(kg, held float64) float64 {
	t, _ := h.state(held)
	carried := kg * heat.LiquidHeat * math.Max(t, 0)
	h.u -= carried
	return carried
}

// slowed is how much slower the frozen ground drinks, as a share [-].
func (h *pocketHeat) slowed(t float64) float64 {
	if h.soil.Porosity <= 0 {
		return 1
	}
	water := h.soil.Latent / (heat.WaterDensity * heat.Fusion) // by volume
	ice := h.ground.law.ice(h.ground.enthalpy(t)) * water / h.soil.Porosity
	return flow.FrozenConductivity(1, ice)
}
