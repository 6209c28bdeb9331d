package sim

import (
	"math"

	"winterline/sim/flow"
	"winterline/sim/heat"
)

// airway is the way of air through a drained line, between two ends that are open to the
// outdoors.
type airway struct {
	reaches []airReach // in the order in which the air passes them
	ends    float64    // pressure lost at both ends, over ρ/2 times the flow squared [1/m⁴]
	height  float64    // of one end above the other [m]
}

// airReach is a length of the way with one free cross-section.
type airReach struct {
	length      float64 // [m]
	area        float64 // above water and ice [m²]
	across      float64 // hydraulic diameter of that [m]
	roughness   float64 // [m]
	conductance float64 // from the air to wall and water surface [W/K]; 0: no exchange is counted
	wall        float64 // temperature of wall and water surface [°C]
}

// Losses of pressure at the ends, over the velocity head of the free bore [-] (handbook
// values). An opening narrower than the bore passes air as it passes water, with the discharge
// coefficient openingFlow.
const (
	airEntry = 0.5
	airExit  = 1.0
)

// orifice is the loss at an opening of some area [m²], over ρ/2 times the flow squared [1/m⁴].
func orifice(area float64) float64 {
	through := openingFlow * area
	return 1 / (through * through)
}

// loss is the pressure [Pa] that a flow q [m³/s] of air of density rho [kg/m³] and kinematic
// viscosity nu [m²/s] loses: Darcy–Weisbach over the hydraulic diameter. Fittings are left
// out, so that more air passes (safe side).
func (a *airway) loss(q, rho, nu float64) float64 {
	sum := a.ends * q * q
	last := &airReach{}
	f := 0.0
	for i := range a.reaches {
		r := &a.reaches[i]
		v := q / r.area
		if r.area != last.area || r.across != last.across || r.roughness != last.roughness {
			f = flow.FrictionFactor(v*r.across/nu, r.roughness/r.across)
		}
		sum += f * r.length / r.across * v * v
		last = r
	}
	return rho / 2 * sum
}

// stack is the pressure [Pa] of a column of air at the inside temperature beside one of
// outdoor air, for the height between the ends.
//
// Source: hydrostatics, g·Δz·(ρ out − ρ in), ideal gas.
func (a *airway) stack(outdoors, inside float64) float64 {
	return flow.Gravity * math.Abs(a.height*(heat.AirDensity(outdoors, heat.Atmosphere)-heat.AirDensity(inside, heat.Atmosphere)))
}

// carry follows air of a capacity rate [W/K] along the way. Over a reach its difference from the wall falls
// exponentially, so that its mean temperature there is a share [-] of the temperature outdoors plus a rest
// that the walls have added [°C]; tell is told both of each reach.
func (a *airway) carry(rate float64, tell func(i int, share, rest float64)) {
	share, rest := 1.0, 0.0
	known, mean, end := 0.0, 1.0, 1.0 // the last conductance and its two shares: dry reaches all have the same
	for i := range a.reaches {
		r := &a.reaches[i]
		if r.conductance == 0 {
			tell(i, share, rest)
			continue
		}
		if r.conductance != known {
			units := r.conductance / rate
			fall := -math.Expm1(-units)
			known, mean, end = r.conductance, fall/units, 1-fall
		}
		tell(i, share*mean, rest*mean+r.wall*(1-mean))
		share, rest = share*end, rest*end+r.wall*(1-end)
	}
}

// inside is the mean temperature of the air along the way [°C] at a capacity rate [W/K].
func (a *airway) inside(outdoors, rate float64) float64 {
	sum, length := 0.0, 0.0
	a.carry(rate, func(i int, share, rest float64) {
		sum += (share*outdoors + rest) * a.reaches[i].length
		length += a.reaches[i].length
	})
	return sum / length
}

const (
	flowTolerance = 1e-3 // of the miss: one more step along the chord, taken unchecked, leaves the flow off by some 1e-4
	flowPasses    = 60
)

// drawnFlow is a flow of air that was found, and the start of the search for the next.
type drawnFlow struct {
	rate  float64 // [m³/s]
	falls float64 // how much the miss falls as the logarithm of the flow rises [-]
}

// anyFlow is the start where no flow was found before.
var anyFlow = drawnFlow{1e-4, 1}

// drawn is the flow of air [m³/s] that stack and a wind's pressure [Pa] draw through the way; last, a flow that may be
// near it, saves passes. Stack and wind are taken to act together (safe side). The more air runs, the nearer it stays to
// the temperature outdoors and the less the stack draws.
//
// The balance is looked for in the logarithm of the flow. The miss is half the logarithm of the pressure drawn over the
// pressure lost. As the loss grows with a power of the flow between 1 and 2, adding the miss to the logarithm at least
// halves the error in each pass; dividing it by the slope of the chord through the last two passes does better.
func (a *airway) drawn(outdoors, wind float64, last drawnFlow) drawnFlow {
	rho, nu := heat.AirDensity(outdoors, heat.Atmosphere), heat.AirKinematicViscosity(outdoors)
	low, high := math.Inf(-1), math.Inf(1) // logarithms between which the miss changes its sign
	x, falls, lastX, lastMiss := math.Log(last.rate), last.falls, math.NaN(), 0.0
	for range flowPasses {
		q := math.Exp(x)
		p := wind + a.stack(outdoors, a.inside(outdoors, airRate(q, rho)))
		if !(p > 0) {
			return drawnFlow{}
		}
		miss := math.Log(p/a.loss(q, rho, nu)) / 2
		if chord := (lastMiss - miss) / (x - lastX); chord > 0.25 && chord < 2 {
			falls = chord
		}
		if math.Abs(miss) <= flowTolerance {
			return drawnFlow{q * (1 + miss/falls), falls}
		}
		if miss > 0 {
			low = x
		} else {
			high = x
		}
		lastX, lastMiss = x, miss
		if x += miss / falls; !(x > low && x < high) {
			x = (low + high) / 2
		}
	}
	return drawnFlow{math.Exp(x), falls}
}

// airRate is the capacity rate [W/K] of a flow of air [m³/s] of density rho [kg/m³].
func airRate(q, rho float64) float64 { return q * rho * heat.AirHeatCapacity }

// speed is the air's mean speed along the way [m/s] at a flow q [m³/s].
func (a *airway) speed(q float64) float64 {
	sum, length := 0.0, 0.0
	for _, r := range a.reaches {
		sum += q / r.area * r.length
		length += r.length
	}
	return sum / length
}
