package verify

import (
	"math"

	"winterline/sim/heat"
)

var conductionChecks = map[string]evaluator{
	"buried-shape-factor": columns2(heat.BuriedShapeFactor, "diameter_m", "axis_depth_m"),
	"buried-log-over-exact": closed(func(r *record) float64 {
		d, z := r.number("diameter_m"), r.number("axis_depth_m")
		return 2 * math.Pi / math.Log(4*z/d) / heat.BuriedShapeFactor(d, z)
	}),
	"buried-shape-factor-length": closed(func(r *record) float64 {
		return heat.BuriedShapeFactor(r.number("diameter_m"), r.number("axis_depth_m")) * r.number("length_m")
	}),
	"buried-loss": closed(func(r *record) float64 {
		factor := heat.BuriedShapeFactor(r.number("diameter_m"), r.number("axis_depth_m")) * r.number("length_m")
		return factor * r.number("soil_conductivity_w_m_k") * (r.number("pipe_c") - r.number("surface_c"))
	}),
	"buried-field": closed(func(r *record) float64 {
		return BuriedField(r.number("aside_m"), r.number("depth_m"), r.number("diameter_m")/2, r.number("axis_depth_m"))
	}),
	"buried-resistance": closed(func(r *record) float64 { // soil as a ring of equivalent radius
		radius := r.number("outside_diameter_m") / 2
		outer := heat.EquivalentRadius(radius, r.number("axis_depth_m"))
		return wallResistance(r) + heat.LayerResistance(radius, outer, r.number("soil_conductivity_w_m_k"))
	}),
	"layered-resistance": closed(layeredResistance),
	"two-layer-loss": closed(func(r *record) float64 {
		r1 := r.number("bore_m") / 2
		r2 := r1 + r.number("wall_m")
		r3 := r2 + r.number("insulation_m")
		total := heat.LayerResistance(r1, r2, r.number("wall_conductivity_w_m_k")) +
			heat.LayerResistance(r2, r3, r.number("insulation_conductivity_w_m_k")) +
			heat.FilmResistance(2*r3, r.number("film_w_m2_k"))
		return (r.number("inside_c") - r.number("outside_c")) / total
	}),
	"critical-radius": columns2(heat.CriticalRadius, "insulation_conductivity_w_m_k", "film_w_m2_k"),
	"critical-loss": closed(func(r *record) float64 {
		k, h := r.number("insulation_conductivity_w_m_k"), r.number("film_w_m2_k")
		critical := heat.CriticalRadius(k, h)
		total := heat.LayerResistance(r.number("outside_diameter_m")/2, critical, k) + heat.FilmResistance(2*critical, h)
		return (r.number("pipe_c") - r.number("air_c")) / total
	}),
	"bare-loss": closed(func(r *record) float64 {
		return (r.number("pipe_c") - r.number("air_c")) / heat.FilmResistance(r.number("outside_diameter_m"), r.number("film_w_m2_k"))
	}),
	"layered-loss": closed(layeredLoss),
	"layered-interface": closed(func(r *record) float64 {
		return r.number("inside_c") - layeredLoss(r)*wallResistance(r)
	}),
	"wire-interface": closed(func(r *record) float64 { // the wire's surface under its cover
		d := r.number("outside_diameter_m")
		total := insulationResistance(r) + heat.FilmResistance(d+2*r.number("insulation_m"), r.number("film_w_m2_k"))
		return r.number("air_c") + r.number("heat_w")/r.number("length_m")*total
	}),
}

// wallResistance returns that of the row's pipe wall [m K/W].
func wallResistance(r *record) float64 {
	return heat.LayerResistance(r.number("bore_m")/2, r.number("outside_diameter_m")/2, r.number("wall_conductivity_w_m_k"))
}

// insulationResistance returns that of the row's insulation [m K/W].
func insulationResistance(r *record) float64 {
	radius := r.number("outside_diameter_m") / 2
	return heat.LayerResistance(radius, radius+r.number("insulation_m"), r.number("insulation_conductivity_w_m_k"))
}

// layeredResistance returns wall, insulation and film in series [m K/W].
func layeredResistance(r *record) float64 {
	return wallResistance(r) + insulatedResistance(r)
}

// insulatedResistance returns insulation and film in series [m K/W].
func insulatedResistance(r *record) float64 {
	outer := r.number("outside_diameter_m") + 2*r.number("insulation_m")
	return insulationResistance(r) + heat.FilmResistance(outer, r.number("film_w_m2_k"))
}

// layeredLoss returns the heat [W/m] through wall and insulation between two surfaces.
func layeredLoss(r *record) float64 {
	return (r.number("inside_c") - r.number("outside_c")) / (wallResistance(r) + insulationResistance(r))
}
