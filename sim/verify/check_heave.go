package verify

import (
	"math"
	"strconv"
	"strings"

	"winterline/sim"
	"winterline/sim/heat"
)

const (
	millimetre       = 0.001
	heavePotential   = 1e-5 * millimetre * millimetre // unit in which segregation potentials are printed [m²/(s K)]
	millimetrePerDay = millimetre / day               // [m/s]
)

var heaveChecks = map[string]evaluator{
	"in-situ-heave": closed(func(r *record) float64 {
		return heat.InSituHeave(r.number("porosity"), r.number("saturation"), r.number("thickness_m")) / millimetre
	}),
	"segregation-rate": closed(func(r *record) float64 { return segregationRate(r, r.number("gradient_k_m")) / millimetrePerDay }),
	"heave-rate": closed(func(r *record) float64 {
		swelling := heat.InSituHeave(r.number("porosity"), 1, r.number("front_mm_day"))
		return segregationRate(r, r.number("gradient_k_m"))/millimetrePerDay + swelling
	}),
	"season-heave": closed(func(r *record) float64 { // the rate at the season's end, twice over: it falls as 1/√t
		gradient := r.number("below_zero_k") / stefanFront(r)
		return 2 * segregationRate(r, gradient) * r.number("days") * day / millimetre
	}),
	"stefan-front": closed(stefanFront),
	"segregation-potential": closed(func(r *record) float64 {
		class := frostClass(r)
		if r.text("end") == "low" {
			return class.Low / heavePotential
		}
		return class.High / heavePotential
	}),
	"frost-group": closed(func(r *record) float64 { return frostGroup(frostClass(r).Group) }),
}

// segregationRate returns the rate of heave [m/s] at a gradient [K/m].
func segregationRate(r *record, gradient float64) float64 {
	return heat.SegregationRate(r.number("potential_1e5_mm2_s_k")*heavePotential, gradient)
}

// stefanFront returns the depth [m] that a steady surface freezes to.
func stefanFront(r *record) float64 {
	index := r.number("below_zero_k") * r.number("days") * day
	return heat.FrostDepth(r.number("conductivity_w_m_k"), r.number("latent_j_m3"), index, 0)
}

// frostClass returns the class of the row's texture.
func frostClass(r *record) sim.FrostClass {
	class, ok := sim.FrostClassOf(r.text("texture"))
	if !ok {
		r.fail("texture: found %q; expected a texture class", r.text("texture"))
	}
	return class
}

// frostGroup returns a frost design group as a number: NFS 0, F2 2; NaN for another.
func frostGroup(group string) float64 {
	if group == "NFS" {
		return 0
	}
	n, err := strconv.Atoi(strings.TrimPrefix(group, "F"))
	if err != nil {
		return math.NaN()
	}
	return float64(n)
}
