package sim

import (
	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// What the tests of package sim_test need of the inside.

// TestVolume is one control volume of a Row: its outer edge [m], heat capacities by volume
// [J/(m³ K)], heat of fusion [J/m³] and conductivities [W/(m K)].
type TestVolume struct {
	Outer, CapLiquid, CapFrozen, Latent, Liquid, Frozen float64
}

// Row is a row of control volumes, planar or radial, that exchanges heat at its outer edge
// only and is stepped as a ground column is.
type Row struct {
	column
	step *stepper
}

// NewRow builds a row at one temperature [°C].
func NewRow(inner float64, volumes []TestVolume, radial bool, start float64, s Stepping) *Row {
	var v []volume
	for _, x := range volumes {
		v = append(v, volume{x.Outer, x.CapLiquid, phase{x.Latent / x.CapLiquid, x.CapLiquid / x.CapFrozen}, x.Liquid, x.Frozen})
	}
	r := &Row{column{mesh: newMesh(inner, v, 0, radial), dt: 1}, newStepper(s)}
	r.u = make([]float64, r.mesh.n)
	r.Start(func(int) float64 { return start })
	return r
}

// Start sets the temperature of every volume [°C].
func (r *Row) Start(at func(i int) float64) {
	for i := range r.u {
		r.u[i] = r.mesh.phase[i].enthalpy(at(i))
	}
}

// March takes the row from t to end [s]; beyond its outer edge lie a resistance (of a square
// metre, or of a metre of pipe) and a temperature [°C] by time.
func (r *Row) March(outside func(t float64) (resistance, temperature float64), t, end float64) error {
	return r.march(r.step, outside, t, end)
}

// HeatIn is what has come in through the outer edge [J/m² or J/m].
func (r *Row) HeatIn() float64 { return r.in }

// Centre is where a volume's temperature stands [m].
func (r *Row) Centre(i int) float64 { return r.mesh.centre(i) }

// Temperature of a volume [°C].
func (r *Row) Temperature(i int) float64 { return r.mesh.phase[i].temperature(r.u[i]) }

// Ice is the share of a volume's cross-section, times that cross-section, summed: the
// thickness [m] or area [m²] that is frozen.
func (r *Row) Ice() float64 {
	sum := 0.0
	for i, u := range r.u {
		sum += r.mesh.phase[i].ice(u) * r.mesh.measure(r.mesh.edge[i], r.mesh.edge[i+1])
	}
	return sum
}

// Ground is the undisturbed ground of a site, from one temperature throughout instead of a
// spin-up, through a weather record.
type Ground struct {
	tracks *groundTracks
	above  *column // the same column once more, read as it marches
	step   *stepper
}

// NewGround marches the ground under a site through a record and keeps it at the given
// depths [m, whole centimetres].
func NewGround(site *pipe.Site, s *weather.Series, start float64, depths ...float64) (*Ground, error) {
	g := &Ground{tracks: newGround(site, s, newSky(s, 1)), step: newStepper(Stepping{})}
	for _, d := range depths {
		g.tracks.at(d)
	}
	soil := func(depth float64) pipe.Soil { return soilAt(site, depth) }
	g.above = newColumn(soil, start)
	g.above.dt = 60
	return g, g.tracks.record(newColumn(soil, start), newStepper(Stepping{}))
}

// Read takes the column from weather row i to the next and returns its temperatures at the
// given depths there, joined straight between volumes [°C].
func (g *Ground) Read(i int, depths ...float64) ([]float64, error) {
	k := g.tracks.sky
	k.row = i
	if err := g.above.march(g.step, g.tracks.cover, k.time[i], k.time[i+1]); err != nil {
		return nil, err
	}
	var t []float64
	for _, d := range depths {
		t = append(t, g.above.temperatureAt(d))
	}
	return t, nil
}

// Frost is the depth of the lowest frozen point at a weather row [m].
func (g *Ground) Frost(i int) float64 { return g.tracks.frost[i] }

// BuriedCell is a metre of buried pipe in a Ground.
type BuriedCell struct {
	*cell
	g    *Ground
	step *stepper
}

// Pipe buries a pipe that stands full of water, mixed, with its axis at a depth [m] and all
// of it at the ground's temperature.
func (g *Ground) Pipe(size pipe.Size, axis float64) *BuriedCell {
	b := builder{layout: &pipe.Layout{Site: *g.tracks.site}, profile: &pipe.Profile{}, ground: g.tracks}
	invert := -axis - size.Bore()/2
	c := b.cell(&pipe.Segment{Size: size, Setting: pipe.Buried, Liquid: pipe.Mixed}, place{z0: invert, z1: invert}, 1)
	c.u = make([]float64, c.mesh.n)
	c.begin(c.boreArea()*heat.WaterDensity, c.outside.ground.temperature(0), Stepping{}.orDefault().First)
	return &BuriedCell{c, g, newStepper(Stepping{})}
}

// Inert buries a cell that is soil from its axis out, of the given radius as a pipe, and dry.
func (g *Ground) Inert(radius, axis float64) *BuriedCell {
	soil := soilAt(g.tracks.site, axis)
	volumes := appendSoil(nil, radius/20, radius, 4, soil)
	volumes = appendSoil(volumes, radius, heat.EquivalentRadius(radius, axis), Shells{}.orDefault().Soil, soil)
	c := &cell{mesh: newMesh(radius/20, volumes, 0, true), length: 1, share: 1, mixed: true}
	c.outside = outside{setting: pipe.Buried, radius: radius, ground: g.tracks.at(axis)}
	c.u = make([]float64, c.mesh.n)
	c.begin(0, 0, Stepping{}.orDefault().First)
	return &BuriedCell{c, g, newStepper(Stepping{})}
}

// March takes the cell from weather row i to the next.
func (c *BuriedCell) March(i int) error {
	k := c.g.tracks.sky
	k.row = i
	return c.march(c.step, k, k.time[i], k.time[i+1])
}

// Temperatures are those of all volumes, from the axis out [°C].
func (c *BuriedCell) Temperatures() []float64 {
	var t []float64
	for i, u := range c.u {
		t = append(t, c.mesh.phase[i].temperature(u))
	}
	return t
}

// IceShare is that of the standing water [-].
func (c *BuriedCell) IceShare() float64 { return c.iceShare() }

// Followed are the times [s] and ice shares [-] of the steps of the last March.
func (c *BuriedCell) Followed(each func(t, ice float64)) {
	for _, p := range c.tally.track {
		each(p.t, p.ice/p.all)
	}
}
