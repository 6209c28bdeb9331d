package weather

import "math"

// SnowKind says where the snow depth comes from. Results always name it, because snow
// on the ground is the largest single insulation over a buried line.
type SnowKind int

// Sources of snow depth, best last.
const (
	SnowNone     SnowKind = iota // the record says nothing about snow
	SnowModelled                 // worked out from snowfall by the pack model below
	SnowMeasured                 // read from the record
)

// String gives the words for results.
func (k SnowKind) String() string {
	return [...]string{"none", "modelled from snowfall", "measured"}[k]
}

const (
	waterDensity = 1000.0 // [kg/m³]

	// settledSnowDensity is where ageing ends [kg/m³]. Source: limit of Douville, Royer
	// and Mahfouf (1995), Climate Dynamics 12:21-35, as held in public copies of the scheme.
	settledSnowDensity = 300.0

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

// Snow returns the depth of snow on open ground at each row [m] and where it comes from:
// the record's own depth; else a pack built from SnowfallWater, or from Rain that fell
// below 1 °C; else nil. A modelled pack starts bare at the first row, so a record that
// begins in mid-winter has too little.
func (s *Series) Snow() (depth []float64, kind SnowKind) {
	switch {
	case s.SnowDepth != nil:
		return s.SnowDepth, SnowMeasured
	case s.SnowfallWater != nil:
		return s.pack(func(i int) float64 { return s.SnowfallWater[i] }), SnowModelled
	case s.Rain != nil:
		return s.pack(func(i int) float64 {
			if s.airOver(i) < rainSnowLimit {
				return s.Rain[i]
			}
			return 0
		}), SnowModelled
	}
	return nil, SnowNone
}

// pack returns the depth at each row [m] of a pack fed by snowfall(i), the water [m]
// that falls as snow from row i to the next. Within an interval the old pack settles,
// the new snow is laid on it, and melt takes water at the density then reached. Water
// held in the pack, rain on snow, drifting and melt from below are left out.
func (s *Series) pack(snowfall func(i int) float64) []float64 {
	depth := make([]float64, len(s.Time))
	var water float64 // of the pack [m]
	for i := 0; i+1 < len(s.Time); i++ {
		step, air := s.Time[i+1]-s.Time[i], s.airOver(i)
		deep := 0.0
		if water > 0 {
			deep = snowDepth(water, agedDensity(water*waterDensity/depth[i], step))
		}
		fresh := snowfall(i)
		deep += snowDepth(fresh, newSnowDensity(air))
		water += fresh
		left := water - math.Min(water, degreeDayMelt(degreeDayFactor, air, step))
		if left > 0 {
			depth[i+1] = deep * left / water
		}
		water = left
	}
	return depth
}

// airOver returns the mean air temperature from row i to the next [°C].
func (s *Series) airOver(i int) float64 { return (s.Air[i] + s.Air[i+1]) / 2 }

// snowDepth returns the depth [m] of a pack holding water [m] at density rho [kg/m³].
func snowDepth(water, rho float64) float64 { return water * waterDensity / rho }

// newSnowDensity returns the density of fresh snow [kg/m³] fallen at air temperature
// air [°C].
//
// Source: Hedstrom and Pomeroy (1998), Hydrological Processes 12:1611-1625,
// 67.92 + 51.25 exp(T/2.59), for T up to 0 °C. Wet snow above 0 °C is held at the 0 °C
// value: the exponential would run away there.
func newSnowDensity(air float64) float64 {
	return 67.92 + 51.25*math.Exp(math.Min(air, 0)/2.59)
}

// agedDensity returns the density [kg/m³] of snow of density rho after t seconds:
// exponential approach to the settled density; denser snow stays as it is.
//
// Source: Verseghy (1991) and Douville et al. (1995), see the constants.
func agedDensity(rho, t float64) float64 {
	if rho >= settledSnowDensity {
		return rho
	}
	return settledSnowDensity - (settledSnowDensity-rho)*math.Exp(-ageingRate*t)
}

// degreeDayMelt returns the melt [m of water] of t seconds at air temperature air [°C],
// for a factor in m of water per second and K above 0 °C.
func degreeDayMelt(factor, air, t float64) float64 {
	return factor * math.Max(air, 0) * t
}
