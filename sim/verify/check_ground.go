package verify

import (
	"math"

	"winterline/sim/heat"
)

var groundChecks = map[string]evaluator{
	"annual-wave": closed(func(r *record) float64 { return annualWave(r, r.number("diffusivity_m2_s")) }),
	"annual-wave-properties": closed(func(r *record) float64 {
		return annualWave(r, r.number("soil_conductivity_w_m_k")/(r.number("density_kg_m3")*r.number("heat_j_kg_k")))
	}),
	"damping-depth": columns2(heat.DampingDepth, "diffusivity_m2_s", "period_s"),
	"berggren-lambda": closed(func(r *record) float64 {
		return berggrenLambda(r.number("fusion_parameter"), r.number("thermal_ratio"))
	}),
	"berggren-lambda-site": closed(siteLambda),
	"berggren-depth":       closed(func(r *record) float64 { return siteLambda(r) * siteStefan(r) }),
	"berggren-depth-chart": closed(func(r *record) float64 { return r.number("lambda") * siteStefan(r) }),
	"frost-depth-us":       closed(siteStefan),
	"frost-depth": closed(func(r *record) float64 {
		return heat.FrostDepth(r.number("conductivity_w_m_k"), r.number("latent_j_m3"),
			r.number("freezing_index_c_day")*day, r.number("surface_resistance_m2_k_w"))
	}),
	"frost-depth-steady": closed(func(r *record) float64 {
		return heat.FrostDepth(r.number("conductivity_w_m_k"), r.number("latent_j_m3"),
			r.number("below_zero_k")*r.number("days")*day, 0)
	}),
	"step-depth": closed(func(r *record) float64 {
		return bisect(func(z float64) float64 {
			return StepTemperature(z, r.number("day")*day, r.number("diffusivity_m2_s"), r.number("surface_c"), r.number("start_c"))
		}, 0, 10)
	}),
	"step-temperature": closed(func(r *record) float64 {
		return StepTemperature(r.number("depth_m"), r.number("day")*day, r.number("diffusivity_m2_s"), r.number("surface_c"), r.number("start_c"))
	}),
	"film-step-temperature": closed(func(r *record) float64 {
		return FilmStepTemperature(r.number("depth_m"), r.number("day")*day, r.number("soil_conductivity_w_m_k"),
			r.number("capacity_j_m3_k"), r.number("film_w_m2_k"), r.number("air_c"), r.number("start_c"))
	}),
}

func annualWave(r *record, diffusivity float64) float64 {
	return heat.AnnualWave(r.number("depth_m"), r.number("day")*day, r.number("mean_c"), r.number("swing_k"),
		r.number("coldest_day")*day, diffusivity)
}

// berggrenLambda returns the share [-] of Stefan's depth that freezes in ground of equal
// frozen and unfrozen properties: fusion = C·(surface below 0 °C)/latent, ratio = start above
// over surface below 0 °C. It is Neumann's front in other words.
func berggrenLambda(fusion, ratio float64) float64 {
	n := Neumann{Surface: -1, Start: ratio, Frozen: 1, Unfrozen: 1, FrozenCap: 1, UnfrozenCap: 1, Latent: 1 / fusion}
	return n.Solve().Lambda() * math.Sqrt(2/fusion)
}

// siteLambda returns the same for a row in the units of TM 5-852: capacity
// 0.17 + 0.75 w of dry density, latent heat 144 w.
func siteLambda(r *record) float64 {
	density, moisture := r.number("dry_density_lb_ft3"), r.number("moisture_percent")/100
	below := r.number("freezing_index_f_day") / r.number("season_day")
	capacity, latent := density*(0.17+0.75*moisture), 144*density*moisture
	return berggrenLambda(capacity*below/latent, (r.number("mean_f")-32)/below)
}

// siteStefan returns Stefan's depth [ft] for such a row.
func siteStefan(r *record) float64 {
	latent := 144 * r.number("dry_density_lb_ft3") * r.number("moisture_percent") / 100 * britishThermal / (foot * foot * foot)
	index := r.number("freezing_index_f_day") * kelvinPerF * day
	return heat.FrostDepth(r.number("conductivity_btu_h_ft_f")*btuHourFootF, latent, index, 0) / foot
}
