package sim

import (
	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// Parts of a run that can be stepped by hand, so that they can be set beside solutions
// which no installation makes: a pipe that is refilled by the clock, a column of ground in its
// periodic state. A run uses the same cells and columns.

// OpenAir is a weather record in which metres of pipe are marched one by one.
type OpenAir struct {
	sky  *sky
	step *stepper
}

// NewOpenAir takes the wind as it is recorded.
func NewOpenAir(s *weather.Series) *OpenAir {
	return &OpenAir{newSky(s, 1), newStepper(Stepping{})}
}

// OpenCell is a metre of pipe in an OpenAir.
type OpenCell struct {
	*cell
	air *OpenAir
}

// Pipe makes a metre of a segment's pipe that stands full, all of it at one temperature [°C].
func (a *OpenAir) Pipe(s pipe.Segment, start float64, shells Shells) *OpenCell {
	b := builder{layout: &pipe.Layout{}, profile: &pipe.Profile{}, shells: shells.orDefault()}
	s.Setting = pipe.OpenAir
	c := b.cell(&s, place{}, 1)
	c.u = make([]float64, c.mesh.n)
	full := &OpenCell{c, a}
	full.Begin(1, start)
	return full
}

// Begin sets all of it to one temperature [°C], with a share of the bore standing full, and
// forgets what it has been through.
func (c *OpenCell) Begin(fill, t float64) {
	c.begin(fill*c.boreArea()*heat.WaterDensity, t, t, c.air.step.control.First)
	c.tally = tally{track: c.tally.track}
}

// Refill sets the water alone to a temperature [°C].
func (c *OpenCell) Refill(t float64) {
	for i := range c.mesh.water {
		c.u[i] = c.mesh.phase[i].enthalpy(t)
	}
	c.changed()
	c.dt = c.air.step.control.First
}

// March takes the cell from t to end [s], both within weather row `row` and the next.
func (c *OpenCell) March(row int, t, end float64) error {
	c.air.sky.row = row
	return c.march(c.air.step, c.air.sky, t, end)
}

// Followed are the times [s] and ice shares [-] of the steps of the last March.
func (c *OpenCell) Followed(each func(t, ice float64)) {
	for _, p := range c.tally.track {
		each(p.t, p.ice/p.all)
	}
}

// HeatLost is what it has given up through its outside [J].
func (c *OpenCell) HeatLost() float64 { return -c.tally.heatIn }

// SoilColumn is ground of one soil down to its 10 m.
type SoilColumn struct {
	*column
	step *stepper
}

// NewSoilColumn builds the column at one temperature [°C].
func NewSoilColumn(soil pipe.Soil, start float64, s Stepping) *SoilColumn {
	return NewLayeredColumn(func(float64) pipe.Soil { return soil }, start, s)
}

// NewLayeredColumn is NewSoilColumn with a soil by depth [m].
func NewLayeredColumn(soil func(depth float64) pipe.Soil, start float64, s Stepping) *SoilColumn {
	return &SoilColumn{newColumn(soil, start), newStepper(s)}
}

// SpinUp repeats the year from start [s] until nothing changes, and reports whether it got there.
func (c *SoilColumn) SpinUp(above func(t float64) (resistance, temperature float64), start float64, years int) (bool, error) {
	_, settled, err := c.spinUp(years, spinSettled, func() error { return c.year(c.step, above, start) })
	return settled, err
}

// March takes the column from t to end [s] with steps no longer than longest [s].
func (c *SoilColumn) March(above func(t float64) (resistance, temperature float64), t, end, longest float64) error {
	c.step.control.Longest = longest
	return c.march(c.step, above, t, end)
}

// Frost is the depth of its lowest frozen point [m]; 0 when nothing is frozen.
func (c *SoilColumn) Frost() float64 {
	if f := c.look(&c.step.scratch).frozen(); f.thickness > 0 {
		return f.bottom
	}
	return 0
}

// Layers are its shallowest and lowest frozen points, NaN when nothing is frozen, and the
// thickness of all that is frozen [m].
func (c *SoilColumn) Layers() (top, bottom, thickness float64) {
	f := c.look(&c.step.scratch).frozen()
	return f.top, f.bottom, f.thickness
}

// TemperatureAt is the temperature at a depth [m], joined straight between nodes, edges and
// fronts [°C].
func (c *SoilColumn) TemperatureAt(depth float64) float64 {
	t, _ := c.look(&c.step.scratch).at(depth)
	return t
}

// Books are its enthalpy and what has come in through the surface [J/m²].
func (c *SoilColumn) Books() (content, in float64) { return c.content(), c.in.value() }
