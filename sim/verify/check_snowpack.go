package verify

import (
	"time"

	"winterline/weather"
)

// snowpackChecks are what the pack on the ground, and the roof's, are made of.
var snowpackChecks = map[string]evaluator{
	"snow-depth": closed(func(r *record) float64 {
		return weather.SnowDepth(r.number("water_mm")*millimetre, r.number("density_kg_m3"))
	}),
	"snow-relative-density": closed(func(r *record) float64 { // the depth that its water would have, over its own
		const water = 1000 // [kg/m³]
		return weather.SnowDepth(r.number("water_mm"), water) / r.number("depth_mm")
	}),
	"fresh-snow-density": columns1(weather.FreshSnowDensity, "air_c"),
	"aged-snow-density": closed(func(r *record) float64 {
		return weather.AgedDensity(r.number("density_kg_m3"), r.number("air_c"), r.number("hours")/perHour)
	}),
	"degree-day-melt": closed(func(r *record) float64 { // [mm]
		factor := r.number("factor_mm_day_k") * millimetrePerDay
		return weather.DegreeDayMelt(factor, r.number("air_c"), r.number("hours")/perHour) / millimetre
	}),
	"degree-day-factor": closed(func(*record) float64 { // what a day at 1 °C melts [mm]
		s := steadyDay(1)
		s.SnowfallWater = []float64{1, 0}
		_, melt := s.Runoff()
		return melt[0] / millimetre
	}),
	"melt-base": closed(func(*record) float64 { // where snow begins to melt
		return bisect(func(air float64) float64 {
			s := steadyDay(air)
			s.SnowfallWater = []float64{1, 0}
			_, melt := s.Runoff()
			return melt[0] - 1e-12
		}, -10, 10)
	}),
	"rain-snow-limit": closed(func(*record) float64 { // where what falls runs off as rain
		return bisect(func(air float64) float64 {
			s := steadyDay(air)
			s.Rain = []float64{1, 0}
			rain, _ := s.Runoff()
			return rain[0] - 0.5
		}, -10, 10)
	}),
}

// steadyDay is a day of one air temperature [°C].
func steadyDay(air float64) *weather.Series {
	start := time.Date(2001, time.January, 1, 0, 0, 0, 0, time.UTC)
	return &weather.Series{Start: start, Time: []float64{0, day}, Air: []float64{air, air}}
}
