package verify

import (
	"math"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

var frictionChecks = map[string]evaluator{
	"friction-colebrook":   columns2(flow.FrictionColebrook, "reynolds", "roughness_over_diameter"),
	"friction-haaland":     columns2(flow.FrictionHaaland, "reynolds", "roughness_over_diameter"),
	"friction-swamee-jain": columns2(flow.FrictionSwameeJain, "reynolds", "roughness_over_diameter"),
	"friction-laminar":     closed(func(r *record) float64 { return flow.FrictionFactor(r.number("reynolds"), 0) }),
	"head-loss":            closed(headLoss),
	"hazen-williams":       columns4(flow.HeadLossHazenWilliams, "flow_m3_s", "diameter_m", "length_m", "hazen_williams"),
	"hazen-williams-100-ft": closed(func(r *record) float64 {
		return flow.HeadLossHazenWilliams(r.number("flow_gal_min")*gallonPerMin, r.number("diameter_in")*inch,
			r.number("length_ft")*foot, r.number("hazen_williams")) / foot
	}),
	"fitting-loss": closed(func(r *record) float64 {
		return r.number("loss") * flow.VelocityHead(r.number("flow_m3_s"), r.number("diameter_m"))
	}),
	"reynolds-water": closed(func(r *record) float64 {
		return flow.Reynolds(r.number("flow_m3_s"), r.number("diameter_m"), heat.WaterKinematicViscosity(r.number("temperature_c")))
	}),
	"pump-operating-point": closed(func(r *record) float64 {
		run := pipeOf(r.number("diameter_m"), r.number("length_m"), r.number("roughness_m"), r.number("loss"))
		return operatingPoint(r, run)
	}),
	"flow-of-two-pipes-us": closed(func(r *record) float64 {
		first := pipeOf(r.number("diameter_in")*inch, r.number("length_ft")*foot, r.number("roughness_m"), r.number("loss"))
		second := pipeOf(r.number("second_diameter_in")*inch, r.number("second_length_ft")*foot, r.number("roughness_m"), r.number("second_loss"))
		line := sim.NewPumpLine(nil, []pipe.Segment{first, second}, heat.WaterKinematicViscosity(r.number("temperature_c")))
		return bisect(func(q float64) float64 { return line.HeadLost(q) - r.number("head_ft")*foot }, 0, 1) / gallonPerMin
	}),
}

func headLoss(r *record) float64 {
	return flow.HeadLoss(r.number("flow_m3_s"), r.number("diameter_m"), r.number("length_m"),
		r.number("roughness_m"), r.number("viscosity_m2_s"))
}

// pipeOf is a stretch of pipe by bore, length and roughness [m], with fittings of a sum of loss coefficients.
func pipeOf(bore, length, roughness, loss float64) pipe.Segment {
	return pipe.Segment{Size: pipe.Size{OutsideDiameter: bore, Roughness: roughness}, Length: length, Loss: loss}
}

// operatingPoint returns the flow [m³/s] that the row's pump, its curve a parabola, lifts through a run of pipe.
func operatingPoint(r *record, run ...pipe.Segment) float64 {
	const points = 1000 // straight between them
	shutoff := r.number("shutoff_m")
	largest := math.Sqrt(shutoff / r.number("pump_s2_m5"))
	var curve []pipe.CurvePoint
	for i := range points + 1 {
		part := 1 - float64(i)/points
		curve = append(curve, pipe.CurvePoint{Head: shutoff * (1 - part*part), Flow: part * largest})
	}
	return sim.NewPumpLine(curve, run, r.number("viscosity_m2_s")).FlowTo(r.number("static_m"))
}

var gravityChecks = map[string]evaluator{
	"discharge-over-full": closed(func(r *record) float64 {
		return flow.Discharge(1, 1, 1, r.number("fill")) / flow.FullDischarge(1, 1, 1)
	}),
	"velocity-over-full": closed(func(r *record) float64 {
		return flow.Velocity(1, 1, 1, r.number("fill")) / flow.Velocity(1, 1, 1, 1)
	}),
	"discharge": closed(func(r *record) float64 {
		d := r.number("diameter_m")
		return flow.Discharge(d, r.number("slope"), r.number("manning"), r.number("fill")*d)
	}),
	"velocity": closed(func(r *record) float64 {
		d := r.number("diameter_m")
		return flow.Velocity(d, r.number("slope"), r.number("manning"), r.number("fill")*d)
	}),
	"normal-depth": closed(func(r *record) float64 {
		depth, ok := flow.NormalDepth(r.number("flow_m3_s"), r.number("diameter_m"), r.number("slope"), r.number("manning"))
		if !ok {
			return math.NaN()
		}
		return depth
	}),
	"storm-drain-capacity": closed(func(r *record) float64 {
		return flow.FullDischarge(r.number("nominal_in")*inch, r.number("slope_in_ft")*inch/foot, r.number("manning")) / gallonPerMin
	}),
	"full-discharge-us": closed(func(r *record) float64 {
		return flow.FullDischarge(r.number("diameter_ft")*foot, r.number("slope"), r.number("manning")) / (foot * foot * foot)
	}),
	"full-velocity-us": closed(func(r *record) float64 {
		d := r.number("diameter_ft") * foot
		return flow.Velocity(d, r.number("slope"), r.number("manning"), d) / foot
	}),
	"darcy-part-full": closed(darcyPartFull),
}

// darcyPartFull returns the uniform flow [gal/min] of water at 60 °F by Darcy with four
// times the hydraulic radius as diameter; area and radius come out of Manning's relations.
func darcyPartFull(r *record) float64 {
	d, fill := r.number("diameter_m"), r.number("fill")
	area := flow.Discharge(1, 1, 1, fill) / flow.Velocity(1, 1, 1, fill) * d * d
	diameter := 4 * math.Pow(flow.Velocity(1, 1, 1, fill), 1.5) * d
	viscosity := heat.WaterKinematicViscosity(fahrenheit(60))
	velocity := 1.0
	for range 30 {
		f := flow.FrictionFactor(velocity*diameter/viscosity, r.number("roughness_over_diameter"))
		velocity = math.Sqrt(2 * flow.Gravity * diameter * r.number("slope") / f)
	}
	return velocity * area / gallonPerMin
}

var blockageChecks = map[string]evaluator{
	"ring-capacity": closed(func(r *record) float64 {
		return flow.FullDischarge(1-2*r.number("ice_over_diameter"), 1, 1) / flow.FullDischarge(1, 1, 1)
	}),
	"ring-head-loss-hazen-williams": closed(func(r *record) float64 {
		return flow.HeadLossHazenWilliams(1, 1-2*r.number("ice_over_diameter"), 1, 150) / flow.HeadLossHazenWilliams(1, 1, 1, 150)
	}),
	"ring-head-loss": closed(func(r *record) float64 {
		open := r.number("diameter_m") - 2*r.number("ice_m")
		iced := flow.HeadLoss(r.number("flow_m3_s"), open, r.number("length_m"), r.number("ice_roughness_m"), r.number("viscosity_m2_s"))
		return iced / headLoss(r)
	}),
	"ring-mass": closed(ringMass),
	"ring-heat": closed(func(r *record) float64 { return ringMass(r) * heat.Fusion / 1000 }),
	"ring-area": closed(func(r *record) float64 {
		open := 1 - 2*r.number("ice_over_diameter")
		return pipe.SegmentArea(open, open) / pipe.SegmentArea(1, 1)
	}),
	"iced-operating-point": closed(func(r *record) float64 {
		d, iced := r.number("diameter_m"), r.number("iced_length_m")
		open, rough := d-2*r.number("ice_m"), r.number("roughness_m")
		widening := 1 - open*open/(d*d) // Borda–Carnot, at the narrow bore
		return operatingPoint(r, pipeOf(d, r.number("length_m")-iced, rough, r.number("loss")),
			pipeOf(open, iced, rough, widening*widening))
	}),
	"composite-manning": columns2(flow.CompositeManning, "manning", "ice_manning"),
}

// ringMass returns the mass [kg/m] of a ring of ice of the row's thickness.
func ringMass(r *record) float64 {
	d := r.number("diameter_m")
	open := d - 2*r.number("ice_m")
	return heat.IceDensity * math.Pi / 4 * (d*d - open*open)
}
