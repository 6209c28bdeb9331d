package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// drought is by how much the soil's dryness holds back evaporation at each weather row:
// 1 where plants find all the water that they want, 0 where they find none. It comes
// from a daily balance of rain and evaporation in the root zone.
//
// Source: FAO Irrigation and Drainage Paper 56 (1998), eqs. 82 to 85: depletion grows by
// Ks·ET and shrinks by rain; Ks = (TAW − D)/((1 − p) TAW) once D passes p·TAW. Snow counts as
// rain on the day that it falls.
type drought []float64

const (
	rootZone   = 0.75   // depth of grass roots [m] (FAO 56, table 22: turf 0.5 to 1.0)
	easyShare  = 0.5    // p, of the available water that is drawn without stress [-] (same table: 0.4 to 0.6)
	canopyLeaf = 70.0   // surface resistance of the reference grass, day and night together [s/m] (FAO 56)
	evaporate  = 2.45e9 // heat of evaporation of a cubic metre of water [J/m³] (FAO 56)
	leastWater = 0.02   // available water by volume where the soil states none [-]
)

// newDrought works the balance through the record, twice through its first year so that it does
// not begin with a full soil. Without rain in the record nothing holds evaporation back.
func newDrought(s *weather.Series, e *energy, soil pipe.Soil) drought {
	if s.Rain == nil || e.vapour == nil {
		return nil
	}
	room := rootZone * math.Max(leastWater, soil.AvailableWater)
	d := make(drought, len(s.Time))
	first := 0
	for first < len(s.Time) && s.Time[first] < secondsYear {
		first++
	}
	missing := 0.0
	for _, rows := range [2]int{first, len(s.Time)} {
		for i := range rows {
			d[i] = math.Min(1, (room-missing)/((1-easyShare)*room))
			if i+1 == len(s.Time) {
				break
			}
			rain := s.Rain[i]
			if s.SnowfallWater != nil {
				rain += s.SnowfallWater[i]
			}
			lost := d[i] * e.reference(i) * (s.Time[i+1] - s.Time[i]) / evaporate
			missing = math.Min(room, math.Max(0, missing+lost-rain))
		}
	}
	return d
}

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
