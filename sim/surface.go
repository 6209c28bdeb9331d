package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// surface is what lies between the sky and the ground, and how they drive it: at every
// weather row it gives the resistance down to the ground and the temperature behind it.
type surface struct {
	cover      pipe.Surface
	snowOn     float64  // share of the snow in the open that lies on it [-]
	resistance *float64 // written: replaces film, cover and snow [m² K/W]
	nFactor    *pipe.NFactor
	drive      SurfaceDrive
	air        []float64  // [°C]
	snow       []float64  // depth in the open [m]; nil: none, or not known
	density    []float64  // of that snow [kg/m³]
	energy     *energy    // for EnergyDrive, once it is prepared
	rows       []exchange // of it, one a weather row; nil: not worked out beforehand
	balance    func() *energy
	lack       *float64  // of water in the root zone at the first row [m]; nil: not known
	measured   []float64 // for ThermometerDrive [°C]
}

// behind is what the ground sees at an instant: a temperature [°C] behind a resistance [m² K/W].
type behind struct{ resistance, temperature float64 }

const (
	groundFilm = 20.0 // air film over open ground, radiation included [W/(m² K)] (0.05 m² K/W)
	thinSnow   = 0.01 // depth from which snow holds the surface at or below 0 °C [m]
)

// leastSurface is the least resistance at the ground's surface, that of a millimetre of
// soil [m² K/W]: with none at all the uppermost volume would have no temperature of its own.
const leastSurface = 1e-3

// coverResistance is that of what grows on the ground [m² K/W]: turf and thatch as a few centimetres
// of loose organic matter (common practice, no source). Paving and gravel have none of their own:
// depths count from their top, and they conduct about as the soil does that stands in their place.
var coverResistance = map[pipe.Surface]float64{pipe.Grass: 0.10}

// newSurface brings a record to one kind of surface on a site; it must be prepared before use.
func newSurface(site *pipe.Site, key groundKey, s *weather.Series, pack weather.SnowPack) *surface {
	f := &surface{
		cover: key.cover, snowOn: key.snowOn, resistance: site.SurfaceResistance, nFactor: site.NFactor,
		air: s.Air, snow: pack.Depth, density: pack.Density,
	}
	switch {
	case f.nFactor != nil:
		f.drive = NFactorDrive
	case f.resistance == nil && drivenByEnergy(s):
		f.drive = EnergyDrive
		f.balance = func() *energy {
			return newEnergyAfter(s, site.WindExposure, site.SoilUnder(key.cover, rootZone/2), f.lack)
		}
	}
	return f
}

// prepare works out what drives the heat balance. A ground that a store has already does not need it.
func (f *surface) prepare() {
	if f.balance == nil {
		return
	}
	f.energy, f.balance = f.balance(), nil
	f.rows = make([]exchange, len(f.air))
	for i := range f.rows {
		snow, _ := f.snowAt(i)
		f.rows[i] = f.energy.exchange(i, f.cover, snow)
	}
}

// exchange is that at a row under so much snow [m].
func (f *surface) exchange(row int, snow float64) exchange {
	if f.rows != nil {
		return f.rows[row]
	}
	return f.energy.exchange(row, f.cover, snow)
}

// drivenByEnergy says whether a record has what the surface's heat balance takes.
func drivenByEnergy(s *weather.Series) bool {
	return s.Sun != nil && (s.LongWave != nil || s.DewPoint != nil)
}

// covered says whether cover and snow play a part.
func (f *surface) covered() bool {
	return f.resistance == nil && (f.drive == AirDrive || f.drive == EnergyDrive)
}

// bare is the resistance from air to ground without snow [m² K/W].
func (f *surface) bare() float64 {
	switch {
	case f.resistance != nil:
		return math.Max(*f.resistance, leastSurface)
	case f.drive == NFactorDrive, f.drive == ThermometerDrive:
		return leastSurface
	}
	return 1/groundFilm + coverResistance[f.cover]
}

// at is what the ground sees at a weather row. top is the temperature of the uppermost volume's node [°C] and half the
// resistance from there to the surface [m² K/W]: they decide how warm the surface gets in the sun.
func (f *surface) at(row int, top, half float64) behind {
	air := f.air[row]
	switch {
	case f.drive == ThermometerDrive:
		return behind{leastSurface, f.measured[row]}
	case f.drive == NFactorDrive && air < 0:
		return behind{leastSurface, f.nFactor.Freezing * air}
	case f.drive == NFactorDrive:
		return behind{leastSurface, f.nFactor.Thawing * air}
	case f.resistance != nil:
		return behind{f.bare(), air}
	}
	snow, resistance := f.snowAt(row)
	below := coverResistance[f.cover] + resistance
	if f.drive == EnergyDrive {
		x := f.exchange(row, snow)
		h, temp, under := x.passed(snow, top, below+half)
		if math.IsInf(h, 1) {
			return f.wet(below, under, top, half)
		}
		r := math.Max(1/h+below, leastSurface)
		return behind{r, temp + under*r} // heat let in below a resistance is a warmer air behind it
	}
	if snow > thinSnow && air > 0 {
		return f.wet(below, meltHeat*air, top, half)
	}
	return behind{1/groundFilm + below, air}
}

// meltHeat is the heat that melts snow in air above 0 °C [W/(m² K)]: 3.5 mm of water a day for each
// kelvin (Kuusisto 1980, as the snow pack has it) times the heat of fusion.
const meltHeat = 3.5e-3 / 86400 * heat.WaterDensity * heat.Fusion

// wet is what the ground sees under melting snow; `below` is the resistance down to it, snow included. Water at 0 °C seeps
// down and freezes on cold ground, which then stands at 0 °C as if there were no snow, but takes no more heat than `melt`
// [W/m²] has turned into water.
func (f *surface) wet(below, melt, top, half float64) behind {
	soaked := behind{math.Max(coverResistance[f.cover], leastSurface), 0}
	dry := behind{math.Max(below, leastSurface), 0}
	if top >= 0 {
		return dry // nothing freezes
	}
	dry.temperature = melt * dry.resistance
	if -top/(soaked.resistance+half) < (dry.temperature-top)/(dry.resistance+half) {
		return soaked
	}
	return dry
}

// snowAt is the snow on this surface at a row: its depth [m] and resistance [m² K/W].
func (f *surface) snowAt(row int) (depth, resistance float64) {
	if f.snow == nil {
		return 0, 0
	}
	depth = f.snow[row] * f.snowOn
	return depth, depth / heat.SnowConductivityCalonne(f.density[row])
}
