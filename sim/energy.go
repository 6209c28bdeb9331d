package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// energy is what the ground's surface, or the snow on it, exchanges heat with: sun, sky,
// wind and vapour, one value a weather row. It is used where the record has the sun, and
// long-wave radiation or the dew point.
type energy struct {
	air    []float64 // [°C]
	sun    []float64 // on the horizontal [W/m²]
	sky    []float64 // incoming long-wave radiation [W/m²]
	wind   []float64 // at 2 m [m/s]
	vapour []float64 // pressure of water vapour [Pa]; nil: not known, no evaporation
	water  *drought  // nil: nothing holds evaporation back
}

const (
	sublimation      = 2.834 / 2.501 // heat to make vapour of ice over that of water [-] (at 0 °C, from memory)
	windHeight       = 2.0           // to which wind is brought [m]
	toTwoMetres      = 0.748         // wind at 2 m over wind at 10 m, over grass (FAO 56, eq. 47)
	openExposure     = 0.4           // wind exposure of open ground, which leaves the wind as it is
	leastWind        = 0.3           // [m/s]
	windless         = 1.0           // exchange in calm air [W/(m² K)] (snow models take 0 to 2; from memory)
	coldestSurface   = -70.0         // lowest surface temperature that is looked for [°C]
	warmestSurface   = 80.0          // highest [°C]
	surfaceTries     = 60            // of Newton's method for the surface temperature
	surfaceTolerance = 1e-3          // [K]
	slopeStep        = 1e-3          // each way, for slopes with the surface temperature [K]
	freezesOver      = 0.3           // below 0 °C, until wet ground has frozen and gives off no vapour [K] (common practice, no source)
	groundEmit       = 0.97          // long-wave emissivity of soil, grass and snow (handbook range 0.92 to 0.99, from memory)
)

// face is a surface as air and sun see it.
type face struct {
	albedo, roughness, displacement float64 // [-], [m], [m]
	// pores is the resistance of bare soil to evaporation [s/m]; 0: plants evaporate, +Inf: nothing does.
	pores   float64
	through float64 // share of the sun taken in that reaches the ground below [-]
}

// Albedo and roughness of grass are those of FAO 56; the others Oke 1987, Boundary Layer Climates
// (from memory). Moist bare soil resists with 100 to 300 s/m (from memory).
var faces = map[pipe.Surface]face{
	pipe.Grass:  {0.23, 0.0148, 0.08, 0, throughGrass},
	pipe.Bare:   {0.20, 0.005, 0, 200, 0},
	pipe.Gravel: {0.25, 0.005, 0, math.Inf(1), 0},
	pipe.Paved:  {0.15, 0.002, 0, math.Inf(1), 0},
}

// throughGrass is what Beer's law lets through: exp(−0.65·2.88), with the leaf area of the reference
// grass (FAO 56: 24 times its height of 0.12 m) and an extinction coefficient of usual size (0.5
// to 0.8; from memory).
const throughGrass = 0.15

// Snow: its albedo goes by whether it melts, which the air tells (Verseghy 1991: ageing snow tends to 0.70 dry and
// 0.50 wet; fresh 0.84; from memory).
const (
	snowRoughness = 0.001 // [m]
	snowDry       = 0.75
	snowWet       = 0.60
	snowWhole     = 0.05 // depth that hides the ground [m]
)

// newEnergy brings a record to the surface. Sky radiation that was not recorded comes from
// dew point and cloud; the cloud, where that was not recorded either, from the sun.
func newEnergy(s *weather.Series, exposure float64, soil pipe.Soil) *energy {
	return newEnergyAfter(s, exposure, soil, nil)
}

// newEnergyAfter is newEnergy where the soil lacks so much water at the first row [m]; nil: not known.
func newEnergyAfter(s *weather.Series, exposure float64, soil pipe.Soil, lack *float64) *energy {
	n := len(s.Time)
	e := &energy{air: s.Air, sun: s.Sun, sky: s.LongWave, wind: make([]float64, n)}
	for i := range e.wind {
		wind := calmAssumed
		if s.Wind != nil {
			wind = s.Wind[i]
		}
		e.wind[i] = math.Max(leastWind, wind*math.Min(1, toTwoMetres*exposure/openExposure))
	}
	if s.DewPoint != nil {
		e.vapour = make([]float64, n)
		for i, dew := range s.DewPoint {
			e.vapour[i] = heat.VapourPressure(math.Min(dew, s.Air[i])) // air holds no more
		}
	}
	if e.sky == nil {
		e.sky = skyRadiation(s)
	}
	e.water = newDrought(s, e, soil, lack)
	return e
}

// skyRadiation is the incoming long-wave radiation from air, dew point and cloud [W/m²].
func skyRadiation(s *weather.Series) []float64 {
	cloud := s.Cloud
	if cloud == nil {
		cloud = s.CloudFromSun()
	}
	sky := make([]float64, len(s.Time))
	for i := range sky {
		c := 0.0
		if cloud != nil {
			c = cloud[i]
		}
		k := s.Air[i] + heat.Kelvin
		sky[i] = heat.SkyEmissivity(s.DewPoint[i], c) * heat.StefanBoltzmann * k * k * k * k
	}
	return sky
}

// passed gives the film coefficient h [W/(m² K)] and the temperature behind it [°C] that stand for
// all exchange at a row: its tangent at the surface's own temperature, at which the surface
// passes on to the ground, at `top` [°C] behind a resistance `below` [m² K/W], just what it takes in.
// under is the sun that reaches the ground below by itself [W/m²]. Melting snow is at 0 °C whatever it takes in: then h
// is infinite, and under is the heat that melts it.
func (x *exchange) passed(snow, top, below float64) (h, temp, under float64) {
	ts := x.balanced(top, below)
	if snow > thinSnow && ts > 0 {
		return math.Inf(1), 0, math.Max(0, x.taken(0)+top/below) // what 0 °C neither gives back nor passes on melts snow
	}
	gain, slope := x.gain(ts)
	return slope, ts + gain/slope, x.under
}

// balanced is the temperature [°C] at which the surface passes on to `top` [°C], behind a resistance
// `below` [m² K/W], just what it takes in. The warmer the surface, the less it takes in, so that there is one
// such temperature. It is found by Newton's method, and by halving the bracket where a step would leave it.
func (x *exchange) balanced(top, below float64) float64 {
	low, high := coldestSurface, warmestSurface
	ts := 0.5 * (x.air + top)
	for range surfaceTries {
		gain, slope := x.gain(ts)
		miss := gain - (ts-top)/below
		next := ts + miss/(slope+1/below)
		if math.Abs(next-ts) < surfaceTolerance {
			return next
		}
		if miss > 0 {
			low = ts
		} else {
			high = ts
		}
		if !(next > low && next < high) {
			next = 0.5 * (low + high)
		}
		ts = next
	}
	return ts
}

// exchange is a surface at one row.
type exchange struct {
	air, wind, sky, vapour float64 // [°C], [m/s], [W/m²], [Pa]; vapour NaN when unknown
	sun                    float64 // what the surface itself takes in of it [W/m²]
	under                  float64 // sun that gets through the grass and is taken in by the ground [W/m²]
	resistance             float64 // of the surface itself to evaporation [s/m]
	roughness              float64 // [m]
	displacement           float64 // [m]
	neutral                float64 // resistance of the air without stratification [s/m]
	white                  float64 // share of the ground that snow hides [-]
}

// exchange mixes ground and snow by how much of the ground the snow hides.
func (e *energy) exchange(row int, cover pipe.Surface, snow float64) exchange {
	x := exchange{air: e.air[row], wind: e.wind[row], sky: e.sky[row], vapour: math.NaN()}
	if e.vapour != nil {
		x.vapour = e.vapour[row]
	}
	ground := faces[cover]
	x.white = math.Min(1, snow/snowWhole)
	albedo := snowDry
	if x.air > 0 {
		albedo = snowWet
	}
	x.sun = (1 - ground.albedo - x.white*(albedo-ground.albedo)) * e.sun[row]
	x.under = ground.through * (1 - x.white) * x.sun
	x.sun -= x.under
	x.roughness = ground.roughness * math.Pow(snowRoughness/ground.roughness, x.white)
	x.displacement = ground.displacement * (1 - x.white)
	x.neutral = heat.AerodynamicResistance(x.wind, windHeight, x.displacement, x.roughness)
	x.resistance = ground.pores
	if ground.pores == 0 {
		x.resistance = canopy(x.air, e.sun[row])
	}
	if e.water != nil {
		x.resistance /= math.Max(e.water.stress[row], 1e-3)
	}
	return x
}

// canopy is the resistance of grass to evaporation at air temperature air [°C] under a sun of
// sun [W/m²] [s/m]: in full leaf 50 by day and 200 by night (ASCE standardized reference
// evapotranspiration 2005, short grass), and more as it gets cool, 1 − 0.0016 (25 − T)²
// (Noilhan and Planton 1989, Mon. Weather Rev. 117:536): at 0 °C it is dormant.
func canopy(air, sun float64) float64 {
	const day, night, daylight = 50, 200, 20
	leaf := float64(night)
	if sun > daylight {
		leaf = day
	}
	cool := math.Max(0, 25-air)
	return leaf / math.Max(1-0.0016*cool*cool, 1e-3)
}

// gain is what the surface at ts [°C] takes in from outside [W/m²], and how much less that gets
// with each kelvin that the surface is warmer [W/(m² K)].
func (x *exchange) gain(ts float64) (gain, slope float64) {
	return x.taken(ts), (x.taken(ts-slopeStep) - x.taken(ts+slopeStep)) / (2 * slopeStep)
}

// taken is what the surface at ts [°C] takes in from outside [W/m²].
func (x *exchange) taken(ts float64) float64 {
	k := ts + heat.Kelvin
	resistance := x.neutral / heat.Stratification(x.air, ts, windHeight, x.wind)
	convection := heat.SensibleCoefficient(x.air, resistance) + windless
	return x.sun + groundEmit*(x.sky-heat.StefanBoltzmann*k*k*k*k) - convection*(ts-x.air) - x.evaporation(ts, resistance)
}

// evaporation is the heat [W/m²] that vapour carries off a surface at ts [°C] through a resistance of the air [s/m];
// below 0 where dew or frost falls. Snow exchanges vapour freely, with the vapour pressure of ice. Ground that is free of
// snow has that of water, and holds evaporation back by its own resistance; once it has frozen, frost may fall on it and
// none leaves.
func (x *exchange) evaporation(ts, resistance float64) float64 {
	if math.IsNaN(x.vapour) {
		return 0
	}
	frozen := math.Max(0, math.Min(1, -ts/freezesOver))
	ice, water := 0.0, 0.0
	if x.white > 0 || frozen > 0 {
		ice = sublimation * heat.LatentFlux(x.air, heat.VapourPressureIce(ts), x.vapour, resistance)
	}
	if x.white < 1 && frozen < 1 {
		water = heat.LatentFlux(x.air, heat.VapourPressure(ts), x.vapour, resistance)
	}
	if water > 0 {
		water *= resistance / (resistance + x.resistance)
	}
	return x.white*ice + (1-x.white)*(frozen*math.Min(0, ice)+(1-frozen)*water)
}
