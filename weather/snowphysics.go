package weather

import "math"

const (
	waterDensity = 1000.0 // [kg/m³]

	// settledSnowDensity is where ageing ends in cold snow [kg/m³]. Source: limit of
	// Douville, Royer and Mahfouf (1995), Climate Dynamics 12:21-35, as held in public
	// copies of the scheme.
	settledSnowDensity = 300.0

	// ripeSnowDensity is where ageing ends in melting snow [kg/m³]. Source: ripe seasonal
	// snow lies at 350 to 450 (handbook range, from memory). The limit for melting snow
	// of Brown, Bartlett, MacKay and Verseghy (2006), Atmosphere-Ocean 44:223-238,
	// 700 − 204.7/d (1 − exp(−d/0.673 m)) for d in m, is 417 in 10 cm and 437 in 20 cm
	// (from memory).
	ripeSnowDensity = 400.0

	// oldSnowDensity is taken for a pack of unknown age [kg/m³]: settled snow (common
	// practice, no source).
	oldSnowDensity = 250.0

	// ageingRate is the rate of settling [1/s]: 0.01 per hour, 0.24 per day. Source:
	// Verseghy (1991), International Journal of Climatology 11:111-133.
	ageingRate = 0.01 / 3600

	// degreeDayFactor is the melt [m of water per s and K above 0 °C]: 3.5 mm a day.
	// Source: Kuusisto (1980), Nordic Hydrology 11(5), 3.51 mm/(°C day) for open fields
	// in Finland, 1959-1978; usual range 1.6 to 6.
	degreeDayFactor = 3.5e-3 / secondsPerDay

	// rainSnowLimit is the air temperature below which precipitation of unstated kind is
	// snow [°C]. Source: training notes of the United States National Weather Service on
	// the SNOW-17 model, minor parameters: 1 °C, range 0 to 2.
	rainSnowLimit = 1.0
)

// SnowDepth returns the depth [m] of a pack holding water [m] at density rho [kg/m³].
func SnowDepth(water, rho float64) float64 { return water * waterDensity / rho }

// FreshSnowDensity returns the density of fresh snow [kg/m³] fallen at air temperature
// air [°C].
//
// Source: Hedstrom and Pomeroy (1998), Hydrological Processes 12:1611-1625,
// 67.92 + 51.25 exp(T/2.59), for T up to 0 °C. Wet snow above 0 °C is held at the 0 °C
// value: the exponential would run away there.
//
// Wind is left out. It packs snow on open plains: Liston et al. (2007), Journal of
// Glaciology 53:241-255, add 25 + 250 (1 − exp(−0.2 (u − 5 m/s))) above 5 m/s at 2 m
// (from memory). Beside houses there is no such wind, and a gauge in the open does not
// tell where there is. Wind-packed snow keeps the ground less warm than is computed here.
func FreshSnowDensity(air float64) float64 {
	return 67.92 + 51.25*math.Exp(math.Min(air, 0)/2.59)
}

// settledDensity returns the density [kg/m³] towards which snow ages at air temperature
// air [°C].
func settledDensity(air float64) float64 {
	if air > 0 {
		return ripeSnowDensity
	}
	return settledSnowDensity
}

// AgedDensity returns the density [kg/m³] that snow of density rho has after t seconds at air
// temperature air [°C]; snow denser than the settled stays as it is.
//
// Source: exponential approach of Verseghy (1991) and Douville et al. (1995), see the
// constants.
func AgedDensity(rho, air, t float64) float64 {
	limit := settledDensity(air)
	return math.Max(rho, limit-(limit-rho)*math.Exp(-ageingRate*t))
}

// DegreeDayMelt returns the melt [m of water] of t seconds at air temperature air [°C],
// for a factor in m of water per second and K above 0 °C.
func DegreeDayMelt(factor, air, t float64) float64 {
	return factor * math.Max(air, 0) * t
}
