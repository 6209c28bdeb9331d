package verify

import (
	"math"

	"winterline/sim/heat"
)

var waterChecks = map[string]evaluator{
	"water-density":              columns1(heat.WaterDensityAt, "temperature_c"),
	"water-conductivity":         columns1(heat.WaterConductivityAt, "temperature_c"),
	"water-viscosity":            columns1(heat.WaterViscosity, "temperature_c"),
	"water-heat-capacity":        columns1(heat.WaterHeatCapacityAt, "temperature_c"),
	"ice-conductivity":           columns1(heat.IceConductivityAt, "temperature_c"),
	"solver-water-density":       constant(heat.WaterDensity),
	"solver-liquid-heat":         constant(heat.LiquidHeat),
	"solver-liquid-conductivity": constant(heat.LiquidConductivity),
	"solver-ice-density":         constant(heat.IceDensity),
	"solver-ice-heat":            constant(heat.IceHeat),
	"solver-ice-conductivity":    constant(heat.IceConductivity),
	"solver-fusion":              constant(heat.Fusion),
	"solver-fusion-kj":           constant(heat.Fusion / 1000),
	"solver-fusion-btu-lb":       constant(heat.Fusion / britishThermal * pound),
	"solver-expansion":           constant(heat.IceExpansion),
	"melting-pressure": closed(func(r *record) float64 {
		return heat.MeltingPressure(r.number("temperature_c")) / 1e6
	}),
	"melting-slope": closed(func(*record) float64 { // one kelvin across 0 °C
		return (heat.MeltingPressure(-0.5) - heat.MeltingPressure(0.5)) / 1e6
	}),
	"trapped-pressure": closed(func(r *record) float64 {
		return heat.TrappedPressure(r.number("ice_share"), r.number("compressibility_1_pa")) / 1e6
	}),
}

var airChecks = map[string]evaluator{
	"air-density":             columns2(heat.AirDensity, "temperature_c", "pressure_pa"),
	"air-viscosity":           columns1(heat.AirViscosity, "temperature_c"),
	"air-conductivity":        columns1(heat.AirConductivity, "temperature_c"),
	"air-kinematic-viscosity": columns1(heat.AirKinematicViscosity, "temperature_c"),
	"air-prandtl":             columns1(heat.AirPrandtl, "temperature_c"),
}

var skyChecks = map[string]evaluator{
	"sky-clark-allen": closed(clarkAllen),
	"sky-clark-allen-temperature": closed(func(r *record) float64 {
		return heat.SkyTemperature(r.number("air_c"), clarkAllen(r))
	}),
	"sky-clark-allen-example": closed(func(r *record) float64 {
		return heat.SkyClarkAllen(r.number("dew_k") - heat.Kelvin)
	}),
	"sky-clark-allen-infrared": closed(func(r *record) float64 {
		return heat.StefanBoltzmann * heat.SkyClarkAllen(r.number("dew_k")-heat.Kelvin) * math.Pow(r.number("air_k"), 4)
	}),
	"sky-martin-berdahl": closed(func(r *record) float64 {
		return heat.SkyMartinBerdahl(r.number("dew_c"), r.number("hour"), 100*r.number("pressure_hpa"))
	}),
	"sky-berdahl-martin": columns1(heat.SkyBerdahlMartin, "dew_c"),
	"sky-swinbank":       columns1(heat.SkySwinbank, "air_c"),
	"sky-brutsaert": closed(func(r *record) float64 {
		return heat.SkyBrutsaert(r.number("air_c"), 100*r.number("vapour_hpa"))
	}),
	"cloud-linear":          columns2(heat.CloudLinear, "clear_emissivity", "cloud_tenths"),
	"cloud-campbell-norman": columns2(heat.CloudCampbellNorman, "clear_emissivity", "cloud"),
	"radiation-coefficient": columns3(heat.RadiationCoefficient, "surface_c", "surroundings_c", "emissivity"),
	"net-long-wave":         columns3(heat.NetLongWave, "surface_c", "surroundings_c", "emissivity"),
}

// clarkAllen returns the sky's emissivity with Walton's clouds.
func clarkAllen(r *record) float64 {
	return heat.SkyClarkAllen(r.number("dew_c")) * heat.CloudWalton(r.number("cloud_tenths"))
}

var snowChecks = map[string]evaluator{
	"snow-conductivity":         columns1(heat.SnowConductivity, "density_kg_m3"),
	"snow-conductivity-calonne": columns1(heat.SnowConductivityCalonne, "density_kg_m3"),
	"snow-conductivity-yen":     columns1(heat.SnowConductivityYen, "density_kg_m3"),
	"snow-resistance":           columns2(heat.SnowResistance, "depth_m", "density_kg_m3"),
}
