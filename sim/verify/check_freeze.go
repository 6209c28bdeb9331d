package verify

import (
	"math"

	"winterline/sim/heat"
)

var coolingChecks = map[string]evaluator{
	"lumped-cooling": closed(func(r *record) float64 {
		return heat.CoolingTime(waterCapacity(r), layeredResistance(r), r.number("start_c"), 0, r.number("air_c"))
	}),
	"lumped-cooling-wall": closed(func(r *record) float64 {
		d, bore := r.number("outside_diameter_m"), r.number("bore_m")
		wall := r.number("wall_density_kg_m3") * r.number("wall_heat_j_kg_k") * math.Pi / 4 * (d*d - bore*bore)
		return heat.CoolingTime(waterCapacity(r)+wall, layeredResistance(r), r.number("start_c"), 0, r.number("air_c"))
	}),
	"constant-resistance-freezing": closed(func(r *record) float64 {
		latent := r.number("water_density_kg_m3") * r.number("fusion_j_kg") * boreArea(r)
		return heat.FreezingTime(latent, layeredResistance(r), r.number("air_c"))
	}),
	"ashrae-cooling": closed(ashraeCooling),
	"iso-cooling": closed(func(r *record) float64 {
		return heat.CoolingTimeISO(waterCapacity(r), insulatedResistance(r), r.number("start_c"), r.number("air_c"))
	}),
	"iso-freezing": closed(func(r *record) float64 {
		latent := r.number("ice_percent") / 100 * r.number("ice_density_kg_m3") * r.number("fusion_j_kg") * boreArea(r)
		return heat.FreezingTime(latent, insulationResistance(r), r.number("air_c"))
	}),
	"cylinder-centre": closed(func(r *record) float64 {
		centre, _ := CylinderTransient(r.number("biot"), r.number("fourier"))
		return centre
	}),
	"cylinder-mean": closed(func(r *record) float64 {
		_, mean := CylinderTransient(r.number("biot"), r.number("fourier"))
		return mean
	}),
	"slush-share-given": closed(func(r *record) float64 { // scaled to the row's constants
		return heat.DendriticFraction(r.number("nucleation_c")) *
			(r.number("water_heat_j_kg_k") / heat.LiquidHeat) * (heat.Fusion / r.number("fusion_j_kg"))
	}),
	"ring-after-slush": closed(func(r *record) float64 {
		slush := r.number("water_heat_j_kg_k") * -r.number("nucleation_c") / r.number("fusion_j_kg")
		latent := (1 - slush) * r.number("ice_density_kg_m3") * r.number("fusion_j_kg")
		return heat.InwardFreezingTime(r.number("radius_m"), 0, latent, r.number("ice_conductivity_w_m_k"),
			r.number("resistance_m_k_w"), r.number("air_c"))
	}),
}

var slushChecks = map[string]evaluator{
	"slush-share": columns1(heat.DendriticFraction, "nucleation_c"),
}

var frontChecks = map[string]evaluator{
	"neumann-lambda": closed(func(r *record) float64 { return halfSpace(r).Solve().Lambda() }),
	"neumann-front": closed(func(r *record) float64 {
		return halfSpace(r).Solve().Front(r.number("time_h") / perHour)
	}),
	"neumann-flux": closed(func(r *record) float64 {
		return halfSpace(r).Solve().Flux(r.number("time_h") / perHour)
	}),
	"neumann-temperature": closed(func(r *record) float64 {
		return halfSpace(r).Solve().Temperature(r.number("depth_m"), r.number("time_h")/perHour)
	}),
	"stefan-lambda": columns1(StefanLambda, "stefan"),
	"stefan-over-exact": closed(func(r *record) float64 { // the quasi-steady form over the exact one
		ste := r.number("stefan")
		return heat.FrostDepth(1, 1, ste, 0) / (2 * StefanLambda(ste))
	}),
	"stefan-melting": closed(func(r *record) float64 {
		volume := r.number("density_kg_m3") * r.number("heat_j_kg_k")
		lambda := StefanLambda(r.number("heat_j_kg_k") * r.number("difference_k") / r.number("fusion_j_kg"))
		return 2 * lambda * math.Sqrt(r.number("unfrozen_conductivity_w_m_k")/volume*r.number("time_s"))
	}),
	"stefan-depth": closed(func(r *record) float64 {
		index := -r.number("surface_c") * r.number("time_h") / perHour
		return heat.FrostDepth(r.number("ice_conductivity_w_m_k"), iceLatent(r, "density_kg_m3"), index, 0)
	}),
	"stefan-film-time": closed(func(r *record) float64 {
		return heat.FrostTime(r.number("ice_conductivity_w_m_k"), iceLatent(r, "density_kg_m3"),
			r.number("depth_m"), 1/r.number("film_w_m2_k"), r.number("air_c"))
	}),
	"line-sink-lambda": closed(func(r *record) float64 { return LineSinkLambda(halfSpace(r), r.number("sink_w_m")) }),
	"line-sink-front": closed(func(r *record) float64 {
		n := halfSpace(r)
		return 2 * LineSinkLambda(n, r.number("sink_w_m")) * math.Sqrt(n.Frozen/n.FrozenCap*r.number("time_h")/perHour)
	}),
	"inward-time": closed(func(r *record) float64 {
		radius := r.number("radius_m")
		front := radius * math.Sqrt(1-r.number("ice_share"))
		return heat.InwardFreezingTime(radius, front, iceLatent(r, "ice_density_kg_m3"), r.number("ice_conductivity_w_m_k"),
			r.number("resistance_m_k_w"), r.number("air_c"))
	}),
	"inward-total": closed(func(r *record) float64 { // dimensionless: radius, conductivity, latent heat and difference 1
		return heat.InwardFreezingTime(1, 0, 1, 1, heat.FilmResistance(2, r.number("biot")), -1)
	}),
}

// boreArea returns the row's bore area [m²].
func boreArea(r *record) float64 {
	bore := r.number("bore_m")
	return math.Pi / 4 * bore * bore
}

// waterCapacity returns the heat capacity of a full bore [J/(m K)].
func waterCapacity(r *record) float64 {
	return r.number("water_density_kg_m3") * r.number("water_heat_j_kg_k") * boreArea(r)
}

// iceLatent returns the heat of fusion by volume [J/m³] at the density in the named column.
func iceLatent(r *record, density string) float64 { return r.number(density) * r.number("fusion_j_kg") }

// ashraeCooling returns the time [h] to 32 °F with the resistance of the insulation alone,
// 62.4 lb/ft³ and 1 Btu/(lb °F) as the handbook has them.
func ashraeCooling(r *record) float64 {
	bore := r.number("bore_in") * inch
	capacity := 62.4 * pound / (foot * foot * foot) * britishThermal / pound / kelvinPerF * math.Pi / 4 * bore * bore
	resistance := heat.LayerResistance(r.number("outside_diameter_in"), r.number("insulated_diameter_in"),
		r.number("insulation_conductivity_btu_in_h_ft2_f")*btuInHourFt2F)
	return heat.CoolingTime(capacity, resistance, fahrenheit(r.number("start_f")), 0, fahrenheit(r.number("air_f"))) * perHour
}

// halfSpace returns the row's freezing problem.
func halfSpace(r *record) Neumann {
	n := Neumann{
		Start: r.number("start_c"), Melting: r.number("melting_c"),
		Frozen: r.number("frozen_conductivity_w_m_k"), Unfrozen: r.number("unfrozen_conductivity_w_m_k"),
		FrozenCap: r.number("frozen_capacity_j_m3_k"), UnfrozenCap: r.number("unfrozen_capacity_j_m3_k"),
		Latent: r.number("latent_j_m3"),
	}
	if surface := r.number("surface_c"); !math.IsNaN(surface) {
		n.Surface = surface
	}
	return n
}
