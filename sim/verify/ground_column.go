package verify

import (
	"fmt"
	"math"
)

// GroundCase is a soil column of 10 m in its periodic state, driven at the surface
// through a constant resistance; pore water freezes sharply at 0 °C and no heat passes
// the bottom.
type GroundCase struct {
	ID                   string
	ConductivityUnfrozen float64 // [W/(m K)]
	ConductivityFrozen   float64 // [W/(m K)]
	CapacityUnfrozen     float64 // [J/(m³ K)]
	CapacityFrozen       float64 // [J/(m³ K)]
	Latent               float64 // [J/m³]
	SurfaceResistance    float64 // [m² K/W]
	AirMean              float64 // [°C]
	AnnualSwing          float64 // half the range of the yearly wave [K]
	DailySwing           float64 // half the range of the daily wave [K]
	DeepestFrost         float64 // [m]
	DeepestFrostTime     float64 // after the coldest day [s]
	States               []GroundState
	Trust                string
}

// GroundState is the column at one instant.
type GroundState struct {
	Time        float64                    // after the coldest day [s]
	Frost       float64                    // depth of the lowest frozen point [m]
	Temperature [len(GroundDepths)]float64 // [°C]
	// What both change by when the solver that made them works on half the resolution.
	FrostChange       float64 // [m]
	TemperatureChange float64 // [K]
}

// GroundDepths are the depths of GroundState.Temperature [m].
var GroundDepths = [5]float64{0.1, 0.2, 0.5, 1, 2}

// Air returns the temperature [°C] that drives the column t seconds after the coldest day.
func (c GroundCase) Air(t float64) float64 {
	days := t / 86400
	return c.AirMean - c.AnnualSwing*math.Cos(2*math.Pi*days/365) - c.DailySwing*math.Cos(2*math.Pi*days)
}

// GroundCases returns the soil columns in table order.
func GroundCases() []GroundCase {
	records := mustRead("ground_column.csv")
	var cases []GroundCase
	for _, r := range records {
		if id := r.text("case"); len(cases) == 0 || cases[len(cases)-1].ID != id {
			cases = append(cases, newGroundCase(id, r))
		}
		last := &cases[len(cases)-1]
		last.States = append(last.States, newGroundState(r))
	}
	mustHold(records)
	return cases
}

func newGroundCase(id string, r *record) GroundCase {
	return GroundCase{
		ID: id, Trust: r.text("trust"),
		ConductivityUnfrozen: r.number("conductivity_unfrozen_w_m_k"),
		ConductivityFrozen:   r.number("conductivity_frozen_w_m_k"),
		CapacityUnfrozen:     r.number("capacity_unfrozen_j_m3_k"),
		CapacityFrozen:       r.number("capacity_frozen_j_m3_k"),
		Latent:               r.number("latent_j_m3"),
		SurfaceResistance:    r.number("surface_resistance_m2_k_w"),
		AirMean:              r.number("air_mean_c"),
		AnnualSwing:          r.number("annual_swing_k"),
		DailySwing:           r.number("daily_swing_k"),
		DeepestFrost:         r.number("deepest_frost_m"),
		DeepestFrostTime:     86400 * r.number("deepest_frost_day"),
	}
}

func newGroundState(r *record) GroundState {
	s := GroundState{
		Time:              86400 * r.number("day"),
		Frost:             r.number("frost_m"),
		FrostChange:       r.number("change_frost_m"),
		TemperatureChange: r.number("change_temperature_k"),
	}
	for k, depth := range GroundDepths {
		s.Temperature[k] = r.number(fmt.Sprintf("soil_%.1fm_c", depth))
	}
	return s
}
