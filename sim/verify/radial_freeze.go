package verify

import "math"

// Materials of the radial freezing cases and of the reference line. Water and ice
// are those of package heat, with the ice's mass per volume equal to the water's.
const (
	WallConductivity = 0.19   // rigid PVC [W/(m K)]
	WallDensity      = 1400.0 // [kg/m³]
	WallHeatCapacity = 900.0  // [J/(kg K)]
	FoamConductivity = 0.036  // closed-cell foam [W/(m K)]
	FoamDensity      = 30.0   // [kg/m³]
	FoamHeatCapacity = 1300.0 // [J/(kg K)]
)

// RadialCase is one pipe cell of unit length, full of water, that starts at a uniform
// temperature in water, wall and foam and freezes in air through a constant film.
// NaN stands for "does not happen" and "not asked for".
type RadialCase struct {
	ID              string
	Size            string     // nominal
	OutsideDiameter float64    // [m]
	Wall            float64    // [m]
	Foam            float64    // thickness [m]; 0: bare
	Film            float64    // radiation included, at the outermost surface [W/(m² K)]
	Start           float64    // [°C]
	Still           bool       // liquid conducts only; else it has one temperature at any instant
	AirMean         float64    // [°C]
	AirSwing        float64    // amplitude of the air's sine [K]
	AirPeriod       float64    // [s]; NaN: steady air
	AirLead         float64    // start of the run after a rising zero of the sine [s]; NaN: steady air
	End             float64    // run to this time instead of to the last ice [s]; NaN: to the last ice
	FirstIce        float64    // mixed: the liquid reaches 0 °C; still: the water at the wall does [s]
	Ice             [4]float64 // ice first reaches each of RadialLevels [s]
	HeatFirstIce    float64    // heat that left the outer surface until first ice [J/m]
	Heat            [4]float64 // the same until the four levels of ice [J/m]
	IceAtEnd        float64    // share at End [-]; NaN: no End
	RelativeError   float64    // of the times, as estimated by the solver that made them [-]
	Trust           string
}

// RadialLevels are the ice shares whose first times RadialCase.Ice holds [-].
var RadialLevels = [4]float64{0.10, 0.50, 0.90, 0.999}

// Air returns the air temperature [°C] t seconds after the start.
func (c RadialCase) Air(t float64) float64 {
	if c.AirSwing == 0 {
		return c.AirMean
	}
	return c.AirMean + c.AirSwing*math.Sin(2*math.Pi*(t+c.AirLead)/c.AirPeriod)
}

// RadialCases returns the radial freezing cases in table order.
func RadialCases() []RadialCase {
	records := mustRead("radial_freeze.csv")
	cases := make([]RadialCase, len(records))
	for i, r := range records {
		cases[i] = RadialCase{
			ID: r.text("id"), Size: r.text("size"), Trust: r.text("trust"),
			OutsideDiameter: r.number("outside_diameter_m"),
			Wall:            r.number("wall_m"),
			Foam:            r.number("foam_m"),
			Film:            r.number("film_w_m2_k"),
			Start:           r.number("start_c"),
			Still:           r.text("liquid") == "still",
			AirMean:         r.number("air_mean_c"),
			AirSwing:        r.number("air_swing_k"),
			AirPeriod:       3600 * r.number("air_period_h"),
			AirLead:         3600 * r.number("air_lead_h"),
			End:             3600 * r.number("end_h"),
			FirstIce:        3600 * r.number("first_ice_h"),
			HeatFirstIce:    r.number("heat_first_ice_j_m"),
			IceAtEnd:        r.number("ice_at_end"),
			RelativeError:   r.number("relative_error"),
		}
		for k, level := range []string{"10", "50", "90", "999"} {
			cases[i].Ice[k] = 3600 * r.number("ice_"+level+"_h")
			cases[i].Heat[k] = r.number("heat_" + level + "_j_m")
		}
	}
	mustHold(records)
	return cases
}
