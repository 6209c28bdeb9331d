package verify

import (
	"math"

	"winterline/sim/heat"
)

var filmChecks = map[string]evaluator{
	"nusselt-forced":  columns2(heat.NusseltForced, "reynolds", "prandtl"),
	"nusselt-natural": columns2(heat.NusseltNatural, "rayleigh", "prandtl"),
	"film-forced":     columns4(heat.FilmForced, "air_c", "surface_c", "diameter_m", "wind_m_s"),
	"film-natural":    columns3(heat.FilmNatural, "air_c", "surface_c", "diameter_m"),
	"film-blended": closed(func(r *record) float64 {
		return heat.FilmBlended(r.number("air_c"), r.number("surface_c"), r.number("diameter_m"), r.number("wind_m_s"), r.number("power"))
	}),
	"film-forced-loss": closed(func(r *record) float64 {
		air, surface, d := r.number("air_c"), r.number("surface_c"), r.number("diameter_m")
		return heat.FilmForced(air, surface, d, r.number("wind_m_s")) * math.Pi * d * r.number("length_m") * (surface - air)
	}),
	"film-outdoor-iso": columns2(heat.FilmOutdoorISO, "diameter_m", "wind_m_s"),
	"film-indoor-iso":  columns2(heat.FilmIndoorISO, "diameter_m", "difference_k"),

	// Worked examples, with the air properties that the book takes.
	"textbook-reynolds":       closed(reynolds),
	"textbook-nusselt-forced": closed(nusseltForced),
	"textbook-film-forced": closed(func(r *record) float64 {
		return nusseltForced(r) * r.number("conductivity_w_m_k") / r.number("diameter_m")
	}),
	"textbook-loss-forced": closed(func(r *record) float64 {
		return nusseltForced(r) * r.number("conductivity_w_m_k") * math.Pi * (r.number("surface_c") - r.number("air_c"))
	}),
	"textbook-rayleigh":        closed(rayleigh),
	"textbook-nusselt-natural": closed(nusseltNatural),
	"textbook-film-natural": closed(func(r *record) float64 {
		return nusseltNatural(r) * r.number("conductivity_w_m_k") / r.number("diameter_m")
	}),
	"textbook-loss-natural": closed(func(r *record) float64 {
		return nusseltNatural(r) * r.number("conductivity_w_m_k") * math.Pi * r.number("length_m") *
			(r.number("surface_c") - r.number("air_c"))
	}),
}

func reynolds(r *record) float64 {
	return r.number("wind_m_s") * r.number("diameter_m") / r.number("viscosity_m2_s")
}

func nusseltForced(r *record) float64 { return heat.NusseltForced(reynolds(r), r.number("prandtl")) }

func rayleigh(r *record) float64 {
	air, surface := r.number("air_c"), r.number("surface_c")
	return heat.Rayleigh(r.number("diameter_m"), surface-air, (air+surface)/2, r.number("viscosity_m2_s"), r.number("prandtl"))
}

func nusseltNatural(r *record) float64 { return heat.NusseltNatural(rayleigh(r), r.number("prandtl")) }

var insideChecks = map[string]evaluator{
	"nusselt-gnielinski":     columns3(heat.NusseltGnielinski, "reynolds", "prandtl", "friction"),
	"nusselt-dittus-boelter": columns2(heat.NusseltDittusBoelter, "reynolds", "prandtl"),
	"nusselt-laminar":        columns1(heat.NusseltLaminar, "graetz"),
	"friction-smooth":        columns1(heat.FrictionSmooth, "reynolds"),
	"water-prandtl":          columns1(heat.WaterPrandtl, "temperature_c"),
}
