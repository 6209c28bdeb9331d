package verify

import (
	"math"

	"winterline/sim"
	"winterline/sim/flow"
)

var openingChecks = map[string]evaluator{
	"torricelli":    columns1(flow.Torricelli, "head_m"),
	"sharp-orifice": constant(flow.SharpOrifice),
	"orifice-flow": closed(func(r *record) float64 {
		return flow.OrificeFlow(r.number("coefficient"), circleArea(r, "diameter_m"), r.number("head_m"))
	}),
	"orifice-head": closed(func(r *record) float64 { // nothing but the row's opening takes the inflow
		const rim, bore = 10, 0.1
		hole := func(level float64) float64 {
			return flow.OrificeFlow(r.number("coefficient"), circleArea(r, "diameter_m"), level)
		}
		return sim.NewJoint(0, rim, bore).Part(0, r.number("inflow_m3_s"), hole).Level
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
	"rim-head": closed(func(r *record) float64 { // nothing but the rim takes the flow
		const rim = 0.5
		return sim.NewJoint(0, rim, r.number("diameter_m")).Part(0, r.number("flow_m3_s"), shut).Level - rim
	}),
	"orifice-flow-us": closed(func(r *record) float64 {
		d := r.number("diameter_ft") * foot
		return flow.OrificeFlow(r.number("coefficient"), math.Pi/4*d*d, r.number("head_ft")*foot) / gallonPerMin
	}),
	"riser-weir-us": closed(func(r *record) float64 {
		return flow.WeirFlow(flow.RimWeir, math.Pi*r.number("diameter_ft")*foot, r.number("head_ft")*foot) / (foot * foot * foot)
	}),
	"riser-orifice-us": closed(func(r *record) float64 {
		d := r.number("diameter_ft") * foot
		return flow.OrificeFlow(flow.RimOrifice, math.Pi/4*d*d, r.number("head_ft")*foot) / (foot * foot * foot)
	}),
	"blocked-outlet-level": closed(func(r *record) float64 { return blocked(r).Level }),
	"blocked-outlet-relief": closed(func(r *record) float64 {
		return blocked(r).Relief / r.number("inflow_m3_s")
	}),
}

// circleArea returns the area [m²] of a circle of the diameter in the named column.
func circleArea(r *record, column string) float64 {
	d := r.number(column)
	return math.Pi / 4 * d * d
}

// shut is a line that takes nothing.
func shut(float64) float64 { return 0 }

// blocked parts the row's inflow at a standpipe whose line is shut. The relief openings of a layout
// are rectangles; the row's round one is the rectangle of its height and area.
func blocked(r *record) sim.Parting {
	d, bottom := r.number("diameter_m"), r.number("invert_m")
	hole := sim.Opening{Bottom: bottom, Top: bottom + d, Width: circleArea(r, "diameter_m") / d}
	return sim.NewJoint(0, r.number("rim_m"), r.number("tank_m"), hole).Part(0, r.number("inflow_m3_s"), shut)
}
