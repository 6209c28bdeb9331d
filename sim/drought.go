package sim

import (
	"math"
	"slices"
	"time"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// drought is the water that the root zone lacks at each weather row, from a balance of rain and
// evaporation between the rows.
//
// Source: FAO Irrigation and Drainage Paper 56 (1998), eqs. 82 to 85, which are printed for days: depletion D
// grows by Ks·ET and shrinks by rain; Ks = (TAW − D)/((1 − p) TAW) once D passes p·TAW. What rain brings beyond
// D = 0 drains away. Snow counts as rain when it falls.
type drought struct {
	stress []float64 // Ks: 1 where plants find all the water that they want, 0 where they find none [-]
	lack   []float64 // D [m]
}

const (
	rootZone   = 0.75   // depth of grass roots [m] (FAO 56, table 22: turf 0.5 to 1.0)
	easyShare  = 0.5    // p, of the available water that is drawn without stress [-] (same table: 0.4 to 0.6)
	canopyLeaf = 70.0   // surface resistance of the reference grass, day and night together [s/m] (FAO 56)
	evaporate  = 2.45e9 // heat of evaporation of a cubic metre of water [J/m³] (FAO 56)
	leastWater = 0.02   // available water by volume where the soil states none [-]
)

// newDrought works the balance through the record, from what the soil lacks at its first row [m]. Where that is not known
// (nil), the first year is gone through once beforehand, so that the record does not begin with a full soil. The result
// is nil without rain or vapour in the record; then nothing holds evaporation back.
func newDrought(s *weather.Series, e *energy, soil pipe.Soil, lack *float64) *drought {
	if s.Rain == nil || e.vapour == nil {
		return nil
	}
	n := len(s.Time)
	d := &drought{make([]float64, n), make([]float64, n)}
	room := rootZone * math.Max(leastWater, soil.AvailableWater)
	first, missing := 0, 0.0
	if lack != nil {
		missing = *lack
	} else {
		first, _ = slices.BinarySearch(s.Time, secondsYear)
	}
	for _, rows := range [2]int{first, n} {
		for i := range rows {
			d.lack[i] = missing
			d.stress[i] = math.Min(1, (room-missing)/((1-easyShare)*room))
			if i+1 < n {
				lost := d.stress[i] * e.reference(i) * (s.Time[i+1] - s.Time[i]) / evaporate
				missing = math.Min(room, math.Max(0, missing+lost-fallen(s, i)))
			}
		}
	}
	return d
}

// fallen is the water that falls from a row to the next [m].
func fallen(s *weather.Series, row int) float64 {
	if s.SnowfallWater == nil {
		return s.Rain[row]
	}
	return s.Rain[row] + s.SnowfallWater[row]
}

// winterLack is the mean lack of water in the root zone from November to March, as a share of its volume
// [-]; 0 where the record does not tell.
func winterLack(s *weather.Series, site *pipe.Site) float64 {
	grown := site.Surface == pipe.Grass || site.Surface == pipe.Bare
	if _, _, whole := s.Annual(); !whole || !grown || !drivenByEnergy(s) {
		return 0
	}
	d := newEnergy(s, site.WindExposure, site.SoilAt(rootZone/2)).water
	if d == nil {
		return 0
	}
	total, n := 0.0, 0.0
	for i, lack := range d.lack {
		if m := s.Stamp(s.Time[i]).Month(); m >= time.November || m <= time.March {
			total, n = total+lack, n+1
		}
	}
	return total / math.Max(n, 1) / rootZone
}

// asDryAsRecorded returns the layout with soil as dry as the record's rain and evaporation leave it, where nobody wrote
// its moisture.
func asDryAsRecorded(l *pipe.Layout, s *weather.Series) *pipe.Layout {
	lack := winterLack(s, &l.Site)
	if lack < leastLack {
		return l
	}
	return l.Drier(lack, "less what rain and evaporation of the record leave missing from November to March")
}

// leastLack is a lack of water that is worth telling, by volume [-].
const leastLack = 0.01

// reference is the latent heat flux of a well-watered grass at a row [W/m²]; none below 0 °C.
//
// Source: Penman–Monteith, FAO 56, eq. 3, with the ground's heat flux left out.
func (e *energy) reference(row int) float64 {
	air := e.air[row]
	if air <= 0 {
		return 0
	}
	k := air + heat.Kelvin
	grass := faces[pipe.Grass]
	net := (1-grass.albedo)*e.sun[row] + groundEmit*(e.sky[row]-heat.StefanBoltzmann*k*k*k*k)
	aero := heat.AerodynamicResistance(e.wind[row], windHeight, grass.displacement, grass.roughness)
	return math.Max(0, heat.PenmanMonteith(air, e.vapour[row], net, aero, canopyLeaf))
}
