package verify

import (
	"math"

	"winterline/sim/flow"
)

var openingChecks = map[string]evaluator{
	"torricelli":    columns1(flow.Torricelli, "head_m"),
	"sharp-orifice": constant(flow.SharpOrifice),
	"orifice-flow": closed(func(r *record) float64 {
		return flow.OrificeFlow(r.number("coefficient"), circleArea(r, "diameter_m"), r.number("head_m"))
	}),
	"orifice-head": closed(func(r *record) float64 {
		return flow.OrificeHead(r.number("coefficient"), circleArea(r, "diameter_m"), r.number("inflow_m3_s"))
	}),
	"slot-flow": closed(func(r *record) float64 { // the row's head stands at the slot's centre
		height := r.number("height_m")
		return flow.SlotFlow(r.number("coefficient"), r.number("width_m"), height, r.number("head_m")+height/2)
	}),
	"side-hole-flow": columns3(flow.SideHoleFlow, "coefficient", "diameter_m", "head_m"),
	"emptying-time": closed(func(r *record) float64 {
		return flow.EmptyingTime(circleArea(r, "tank_m"), r.number("coefficient"), circleArea(r, "diameter_m"),
			r.number("head_m"), r.number("end_head_m"))
	}),
	"filling-time": closed(func(r *record) float64 {
		return flow.FillingTime(circleArea(r, "tank_m"), r.number("coefficient"), circleArea(r, "diameter_m"),
			r.number("inflow_m3_s"), r.number("head_m"))
	}),
	"weir-flow":            columns3(flow.WeirFlow, "weir", "length_m", "head_m"),
	"weir-flow-contracted": columns3(flow.WeirFlowContracted, "weir", "length_m", "head_m"),
	"rim-flow":             columns2(flow.RimFlow, "diameter_m", "head_m"),
	"rim-head":             columns2(flow.RimHead, "diameter_m", "flow_m3_s"),
	"riser-weir-us": closed(func(r *record) float64 {
		return flow.WeirFlow(flow.RimWeir, math.Pi*r.number("diameter_ft")*foot, r.number("head_ft")*foot) / (foot * foot * foot)
	}),
	"riser-orifice-us": closed(func(r *record) float64 {
		d := r.number("diameter_ft") * foot
		return flow.OrificeFlow(flow.RimOrifice, math.Pi/4*d*d, r.number("head_ft")*foot) / (foot * foot * foot)
	}),
	"blocked-outlet-level": closed(blockedLevel),
	"blocked-outlet-relief": closed(func(r *record) float64 {
		return reliefFlow(r, blockedLevel(r)) / r.number("inflow_m3_s")
	}),
}

// circleArea returns the area [m²] of a circle of the diameter in the named column.
func circleArea(r *record, column string) float64 {
	d := r.number(column)
	return math.Pi / 4 * d * d
}

// reliefFlow returns what the row's round relief opening lets go at a level [m].
func reliefFlow(r *record, level float64) float64 {
	return flow.SideHoleFlow(r.number("coefficient"), r.number("diameter_m"), level-r.number("invert_m"))
}

// blockedLevel returns the level [m] at which relief and rim carry the whole inflow.
func blockedLevel(r *record) float64 {
	rim, tank := r.number("rim_m"), r.number("tank_m")
	return bisect(func(level float64) float64 {
		return reliefFlow(r, level) + flow.RimFlow(tank, level-rim) - r.number("inflow_m3_s")
	}, 0, rim+1)
}

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
	"pocket-fill-time": closed(func(r *record) float64 {
		return flow.PocketFillTime(r.number("area_m2"), 0, r.number("depth_m"), r.number("porosity"),
			r.number("inflow_m3_s"), r.number("conductivity_mm_h")/1000*perHour)
	}),
	"pocket-drain-time": closed(func(r *record) float64 {
		perimeter := r.number("perimeter_m")
		if math.IsNaN(perimeter) { // floor alone
			perimeter = 0
		}
		return flow.PocketDrainTime(r.number("area_m2"), perimeter, r.number("depth_m"), r.number("porosity"),
			r.number("conductivity_mm_h")/1000*perHour)
	}),
}

// soilConductivity returns the row's wetted-front conductivity [m/s].
func soilConductivity(r *record) float64 {
	return r.number("conductivity_cm_h") * centimetre * perHour
}

// soilPull returns suction plus ponding times the moisture that the front fills [m].
func soilPull(r *record) float64 {
	return (r.number("suction_cm") + r.number("ponded_cm")) * centimetre * r.number("moisture_deficit")
}
