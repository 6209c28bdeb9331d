package verify

import (
	"math"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/flow"
)

var infiltrationChecks = map[string]evaluator{
	"green-ampt-depth": closed(func(r *record) float64 {
		return flow.GreenAmpt(soilConductivity(r), soilPull(r), r.number("time_h")/perHour) / centimetre
	}),
	"green-ampt-rate": closed(func(r *record) float64 {
		k, pull := soilConductivity(r), soilPull(r)
		entered := flow.GreenAmpt(k, pull, r.number("time_h")/perHour)
		return flow.GreenAmptRate(k, pull, entered) / (centimetre * perHour)
	}),
	"green-ampt-rate-front": closed(func(r *record) float64 {
		entered := r.number("front_cm") * centimetre * r.number("moisture_deficit")
		return flow.GreenAmptRate(soilConductivity(r), soilPull(r), entered) / (centimetre * perHour)
	}),
	"ponding-time": closed(func(r *record) float64 {
		pull := r.number("suction_cm") * centimetre * r.number("moisture_deficit")
		return flow.PondingTime(soilConductivity(r), pull, r.number("rain_cm_h")*centimetre*perHour) * perHour
	}),
	"frozen-conductivity-ratio": closed(func(r *record) float64 { return flow.FrozenConductivity(1, r.number("ice_share")) }),
	"ponding-depth": closed(func(r *record) float64 {
		rain, pull := r.number("rain_cm_h")*centimetre*perHour, r.number("suction_cm")*centimetre*r.number("moisture_deficit")
		return rain * flow.PondingTime(soilConductivity(r), pull, rain) / centimetre
	}),
	"pocket-fill-time": closed(pocketFillTime),
	"pocket-drain-time": closed(func(r *record) float64 {
		p := rockPocket(r, r.number("depth_m"))
		return bisect(func(t float64) float64 {
			p.Fill(1)
			p.Drain(t)
			return 1e-9 - p.Held()/p.Capacity()
		}, 0, 1e7)
	}),
	"pocket-drained-depth": closed(func(r *record) float64 { // what the soil takes out of a deeper pocket [in]
		const depth = 10
		p := rockPocket(r, depth)
		p.Fill(1)
		return p.Drain(r.number("time_h")/perHour) / p.Capacity() * depth / inch
	}),
}

// rockPocket is the row's pocket of a depth [m]: square, of its area, or where the row counts the floor
// alone so wide that the sides are of no account.
func rockPocket(r *record, depth float64) *sim.RockPocket {
	const wide = 1e6 // [m]
	side := math.Sqrt(r.number("area_m2"))
	if math.IsNaN(r.number("perimeter_m")) {
		side = wide
	}
	l := &pipe.Layout{Pocket: &pipe.Pocket{Length: side, Width: side, Depth: depth, Void: r.number("porosity")}}
	l.Outlet.Weep = &pipe.Slot{Height: 6 * millimetre, Width: 50 * millimetre}
	l.Site.Soil.SaturatedConductivity = r.number("conductivity_mm_h") * millimetre * perHour
	return sim.NewRockPocket(l)
}

// pocketFillTime pours the row's inflow into its pocket in small steps, each drained as a run does.
func pocketFillTime(r *record) float64 {
	const steps = 20000 // that an undrained pocket would take
	p := rockPocket(r, r.number("depth_m"))
	pour := 1.0 / steps // share of the pocket
	dt := pour * r.number("area_m2") * r.number("depth_m") * r.number("porosity") / r.number("inflow_m3_s")
	for n := 0; n < 10*steps; n++ {
		full := p.Held()/p.Capacity() + pour
		if full >= 1 {
			return (float64(n) + 1) * dt
		}
		p.Fill(full)
		p.Drain(dt)
	}
	return math.Inf(1)
}

// soilConductivity returns the row's wetted-front conductivity [m/s].
func soilConductivity(r *record) float64 {
	return r.number("conductivity_cm_h") * centimetre * perHour
}

// soilPull returns suction plus ponding times the moisture that the front fills [m].
func soilPull(r *record) float64 {
	return (r.number("suction_cm") + r.number("ponded_cm")) * centimetre * r.number("moisture_deficit")
}
