package verify

import (
	"math"

	"winterline/pipe"
	"winterline/sim"
)

// touch is the resistance of a surface that is held at a temperature [m² K/W]: a hundredth of
// a millimetre of soil, of no account.
const touch = 1e-5

// held is a surface that lies under a resistance [m² K/W] and a steady temperature [°C].
func held(resistance, surface float64) func(t float64) (resistance, temperature float64) {
	return func(float64) (float64, float64) { return resistance, surface }
}

// season is a winter as the modified Berggren method has it: ground at one temperature
// whose surface stays at another, below 0 °C, to the winter's end. The column differs from the method's half space by
// its bottom at 10 m, which no heat passes.
type season struct {
	soil           pipe.Soil
	start, surface float64 // [°C]
	resistance     float64 // on the surface [m² K/W]
	length         float64 // [s]
}

// berggrenSite reads a row in the units of TM 5-852: one conductivity and one heat capacity,
// 0.17 + 0.75 w of dry density, frozen and unfrozen; latent heat 144 w of it.
func berggrenSite(r *record) season {
	const cubicFoot = foot * foot * foot
	density, moisture := r.number("dry_density_lb_ft3"), r.number("moisture_percent")/100
	k := r.number("conductivity_btu_h_ft_f") * btuHourFootF
	c := density * (0.17 + 0.75*moisture) * britishThermal / cubicFoot / kelvinPerF
	below := r.number("freezing_index_f_day") / r.number("season_day") * kelvinPerF
	return season{
		soil: pipe.Soil{
			ConductivityUnfrozen: k, ConductivityFrozen: k, HeatCapacityUnfrozen: c, HeatCapacityFrozen: c,
			Latent: 144 * density * moisture * britishThermal / cubicFoot,
		},
		start: fahrenheit(r.number("mean_f")), surface: -below, resistance: touch, length: r.number("season_day") * day,
	}
}

// stefanSite reads a row of a steady winter over ground at 0 °C whose latent heat and frozen conductivity are
// given; a resistance lies on the surface.
func stefanSite(r *record) season {
	const capacity = 2e6 // [J/(m³ K)], usual of soil
	k := r.number("conductivity_w_m_k")
	return season{
		soil: pipe.Soil{
			ConductivityUnfrozen: k, ConductivityFrozen: k, HeatCapacityUnfrozen: capacity, HeatCapacityFrozen: capacity,
			Latent: r.number("latent_j_m3"),
		},
		surface: -r.number("below_zero_k"), resistance: max(touch, r.number("surface_resistance_m2_k_w")), length: r.number("days") * day,
	}
}

// withoutSensibleHeat is the same with what Stefan leaves out taken away: ground at the freezing point
// that stores next to nothing but latent heat.
func (s season) withoutSensibleHeat() season {
	const next = 1e-3
	s.soil.HeatCapacityFrozen *= next
	s.soil.HeatCapacityUnfrozen *= next
	s.start = 0
	return s
}

// frostAfterSeason marches the column through the winter and returns how deep it froze [m].
func (s season) frostAfterSeason() (float64, error) {
	c := sim.NewSoilColumn(s.soil, s.start, sim.Stepping{})
	if err := c.March(held(s.resistance, s.surface), 0, s.length, day); err != nil {
		return 0, err
	}
	return c.Frost(), nil
}

// stepRun is a column in progress whose surface is held at a temperature from time 0.
type stepRun struct {
	*sim.SoilColumn
	surface float64
	at      float64 // [s]
	in      float64 // heat that had come in before [J/m²]
}

// beginStep makes the column of a row of column_step.csv.
func beginStep(r *record) (*stepRun, error) {
	n := stepSpace(r)
	soil := pipe.Soil{
		ConductivityUnfrozen: n.Unfrozen, ConductivityFrozen: n.Frozen,
		HeatCapacityUnfrozen: n.UnfrozenCap, HeatCapacityFrozen: n.FrozenCap, Latent: n.Latent,
	}
	if point := r.number("freezing_point_c"); !math.IsNaN(point) {
		soil.Freezing = pipe.FreezingCurve{Point: point, Exponent: r.number("freezing_exponent")}
	}
	run := &stepRun{SoilColumn: sim.NewSoilColumn(soil, n.Start, sim.Stepping{}), surface: n.Surface}
	_, run.in = run.Books()
	return run, nil
}

// to takes the column on to a row's time.
func (c *stepRun) to(r *record) error {
	end := r.number("day") * day
	err := c.March(held(touch, c.surface), c.at, end, day)
	c.at = end
	return err
}

// frost is the depth of the lowest frozen point [m].
func (c *stepRun) frost(r *record) (float64, error) {
	err := c.to(r)
	return c.Frost(), err
}

// thaw is the depth of the highest frozen point [m].
func (c *stepRun) thaw(r *record) (float64, error) {
	err := c.to(r)
	top, _, _ := c.Layers()
	return top, err
}

// temperature is that at the row's depth [°C].
func (c *stepRun) temperature(r *record) (float64, error) {
	err := c.to(r)
	return c.TemperatureAt(r.number("depth_m")), err
}

// heat is what the ground has given up [MJ/m²].
func (c *stepRun) heat(r *record) (float64, error) {
	err := c.to(r)
	_, in := c.Books()
	return (c.in - in) / 1e6, err
}

// waveRun is a column in progress through the year, in its periodic state.
type waveRun struct {
	*sim.SoilColumn
	drive LayeredWave
	at    float64 // [s]
}

// waveStep is the longest step of a yearly wave [s], and waveYears what its spin-up may take.
const (
	waveStep  = day
	waveYears = 200
)

// beginWave spins up the column of a row of column_wave.csv.
func beginWave(r *record) (*waveRun, error) {
	run := &waveRun{drive: waveDrive(r)}
	soil := waveSoil(r.number("conductivity_w_m_k"), r.number("capacity_j_m3_k"))
	upper, thickness := soil, r.number("upper_m") // NaN where there is one soil
	if !math.IsNaN(thickness) {
		upper = waveSoil(r.number("upper_conductivity_w_m_k"), r.number("upper_capacity_j_m3_k"))
	}
	run.SoilColumn = sim.NewLayeredColumn(func(depth float64) pipe.Soil {
		if depth < thickness {
			return upper
		}
		return soil
	}, run.drive.Mean, sim.Stepping{Longest: waveStep})
	_, err := run.SpinUp(run.drive.above, 0, waveYears)
	return run, err
}

// waveDrive reads what drives a row of column_wave.csv.
func waveDrive(r *record) LayeredWave {
	return LayeredWave{
		Resistance: r.number("surface_resistance_m2_k_w"), Mean: r.number("mean_c"),
		Swing: r.number("swing_k"), Coldest: r.number("coldest_day") * day,
	}
}

// waveSoil is soil whose water neither freezes nor melts.
func waveSoil(conductivity, capacity float64) pipe.Soil {
	return pipe.Soil{
		ConductivityUnfrozen: conductivity, ConductivityFrozen: conductivity,
		HeatCapacityUnfrozen: capacity, HeatCapacityFrozen: capacity,
	}
}

// above is what drives the ground.
func (w LayeredWave) above(t float64) (resistance, temperature float64) {
	return w.Resistance, w.Mean - w.Swing*math.Cos(2*math.Pi*(t-w.Coldest)/(365*day))
}

// temperature takes the column on to the row's day and reads its depth [°C].
func (w *waveRun) temperature(r *record) (float64, error) {
	end := r.number("day") * day
	err := w.March(w.drive.above, w.at, end, waveStep)
	w.at = end
	return w.TemperatureAt(r.number("depth_m")), err
}
