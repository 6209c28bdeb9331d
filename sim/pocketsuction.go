package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
)

// firstFilling is how fast dry soil drinks from the rock pit. Suction draws the water in only when
// the pocket has been empty for some days; until it is empty again, a wetting front runs into the soil
// after Green and Ampt, ever slower. Later fillings find the soil wet.
type firstFilling struct {
	suction float64 // head at the wetting front [m]
	deficit float64 // water by volume that the soil takes [-]
	dry     float64 // how long the pocket has been empty [s]
	taken   float64 // depth that has gone into the soil since the filling began [m]
	on      bool    // the filling is on
}

// driedOut is how long the pocket must have been empty for the soil to draw again [s]: three days
// (model definition). Before the record's first row it counts as wet, which is the safe side.
const driedOut = 3 * 86400.0

// newFirstFilling reads the soil.
func newFirstFilling(s pipe.Soil) firstFilling {
	return firstFilling{suction: s.FrontSuction, deficit: s.MoistureDeficit()}
}

// hastened is how many times its conductivity k [m/s] the soil takes for dt [s] per wetted area, with
// water standing to a head [m] at their start. The head adds to the suction.
func (f *firstFilling) hastened(k, head, dt float64) float64 {
	if head <= 0 {
		f.dry, f.on = f.dry+dt, false
		return 1
	}
	if f.dry >= driedOut {
		f.on, f.taken = true, 0
	}
	f.dry = 0
	pull := (f.suction + head) * f.deficit
	if !f.on || !(k*dt > 0) || pull <= 0 {
		return 1
	}
	before := f.taken
	f.taken = flow.GreenAmpt(k, pull, flow.GreenAmptTime(k, pull, before)+dt)
	return math.Max(1, (f.taken-before)/(k*dt))
}
