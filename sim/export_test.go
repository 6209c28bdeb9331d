package sim

import (
	"context"
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// Handles through which the tests of package sim_test reach what is not exported.

// PhaseLaw gives the three maps of a phase law.
func PhaseLaw(plateau, ratio float64) (temperature, enthalpy, ice func(float64) float64) {
	p := phase{plateau, ratio}
	return p.temperature, p.enthalpy, p.ice
}

// WaterPlateau and WaterRatio are those of pipe water.
var WaterPlateau, WaterRatio = waterPhase.plateau, waterPhase.ratio

// Cell is a pipe cell of one metre on its own, in the open.
type Cell struct {
	c    *cell
	sky  *sky
	step *stepper
	ice  []IceAt
}

// IceAt is the ice share of a cell at an instant.
type IceAt struct{ Time, Share float64 }

// NewCell makes a cell that stands full at a temperature, under a record's air.
func NewCell(size pipe.Size, insulation []pipe.Insulation, liquid pipe.Liquid, film, start float64, set Settings, s *weather.Series) *Cell {
	c := &cell{bore: size.Bore(), length: 1, share: 1, mixed: liquid == pipe.Mixed}
	c.mesh = pipeMesh(size, insulation, liquid, nil, 0, set.Shells)
	c.soil = c.mesh.n
	c.outside = outside{setting: pipe.OpenAir, radius: c.mesh.edge[c.mesh.n], film: &film}
	c.u = make([]float64, c.mesh.n)
	c.begin(c.boreArea()*heat.WaterDensity, start, set.Stepping.orDefault().First)
	return &Cell{c: c, sky: newSky(s, 1), step: newStepper(set.Stepping)}
}

// March takes the cell through one row of the record, between two times, and returns its
// ice at every step.
func (k *Cell) March(row int, from, to float64) ([]IceAt, error) {
	k.sky.row = row
	if err := k.c.march(k.step, k.sky, from, to); err != nil {
		return nil, err
	}
	k.ice = k.ice[:0]
	for _, p := range k.c.tally.track {
		k.ice = append(k.ice, IceAt{p.t, p.ice / k.c.mass})
	}
	return k.ice, nil
}

// Refill sets all water to a temperature.
func (k *Cell) Refill(t float64) {
	for i := range k.c.mesh.water {
		k.c.u[i] = k.c.mesh.phase[i].enthalpy(t)
	}
	k.c.dt = k.step.control.First
}

// HeatLost is what left through the outside so far [J].
func (k *Cell) HeatLost() float64 { return -k.c.tally.heatIn }

// Steps made so far, and Newton iterations.
func (k *Cell) Steps() (steps, newton int) { return k.step.steps, k.step.newton }

// Column is a column of undisturbed ground on its own.
type Column struct {
	c    *column
	step *stepper
}

// NewColumn makes a column of one soil at one temperature.
func NewColumn(soil pipe.Soil, t float64) *Column {
	return &Column{newColumn(func(float64) pipe.Soil { return soil }, t), newStepper(Stepping{Longest: 86400})}
}

// SetTemperatures sets the column to a profile by depth.
func (k *Column) SetTemperatures(at func(depth float64) float64) { k.c.setTemperatures(at) }

// Longest limits the steps [s].
func (k *Column) Longest(h float64) { k.step.control.Longest = h }

// SpinUp repeats the year from start under a cover until it repeats itself.
func (k *Column) SpinUp(above func(t float64) (resistance, temperature float64), start float64) (bool, error) {
	return k.c.spinUp(k.step, above, start, 200)
}

// March takes the column to a time.
func (k *Column) March(above func(t float64) (resistance, temperature float64), from, to float64) error {
	return k.c.march(k.step, above, from, to)
}

// Temperature at a depth.
func (k *Column) Temperature(depth float64) float64 { return k.c.temperatureAt(depth) }

// Frost is the depth of the lowest frozen point.
func (k *Column) Frost() float64 { return k.c.frost() }

// Books gives the heat that came in through the surface and the column's content [J/m²].
func (k *Column) Books() (in, content float64) { return k.c.in, k.c.content() }

// InertCell marches a cell that is soil throughout, its inside too, at the depth of a track
// of a case's ground, and returns the largest difference in temperature to the ground
// there in any volume at any weather row [K].
func InertCell(k *Case, depth float64) (worst, coldest float64, err error) {
	s := Settings{}
	w := &winter{k: k, s: s, step: newStepper(s.Stepping)}
	w.sky = newSky(k.Weather, 1)
	g := newGround(&k.Layout.Site, k.Weather, w.sky)
	ground := g.at(depth)
	if err := g.run(newStepper(s.Stepping), k.Weather); err != nil {
		return 0, 0, err
	}
	c := inertCell(soilAt(&k.Layout.Site, depth), ground)
	coldest = math.Inf(1)
	for i := 0; i+1 < len(w.sky.time); i++ {
		w.sky.row = i
		if err := c.march(w.step, w.sky, w.sky.time[i], w.sky.time[i+1]); err != nil {
			return 0, 0, err
		}
		want := ground.temperature(w.sky.time[i+1])
		coldest = math.Min(coldest, want)
		for j := c.mesh.water; j < c.mesh.n; j++ {
			worst = math.Max(worst, math.Abs(c.mesh.phase[j].temperature(c.u[j])-want))
		}
	}
	return worst, coldest, nil
}

// inertCell is a dry cell whose wall is soil almost to its axis.
func inertCell(soil pipe.Soil, ground *track) *cell {
	const core, radius = 1e-3, 0.057
	v := []volume{{core, waterCapacity, waterPhase, heat.LiquidConductivity, heat.IceConductivity}}
	v = appendSoil(v, core, radius, 8, soil)
	v = appendSoil(v, radius, heat.EquivalentRadius(radius, ground.depth), 14, soil)
	c := &cell{bore: 2 * core, length: 1, share: 1, mesh: newMesh(0, v, 1, true), soil: 1}
	c.outside = outside{setting: pipe.Buried, radius: radius, ground: ground}
	c.u = make([]float64, c.mesh.n)
	c.begin(0, ground.temperature(0), 20)
	return c
}

// StoredHeatAfter simulates a case and returns the heat stored in its line at the end [J].
func StoredHeatAfter(k *Case) (float64, error) {
	w, err := newWinter(k, Settings{})
	if err != nil {
		return 0, err
	}
	if _, err := w.simulate(context.Background()); err != nil {
		return 0, err
	}
	return w.storedHeat(), nil
}

// Parcel is moving water, or a layer of standing water.
type Parcel struct{ Mass, U float64 }

func toStream(p []Parcel) (s stream) {
	for _, x := range p {
		s = append(s, parcel{x.Mass, x.U})
	}
	return s
}

func fromStream(s stream) (p []Parcel) {
	for _, x := range s {
		p = append(p, Parcel{x.mass, x.u})
	}
	return p
}

// SplitStream takes the last `mass` kg off a stream.
func SplitStream(p []Parcel, mass float64) (on, stay []Parcel) {
	a, b := toStream(p).split(mass)
	return fromStream(a), fromStream(b)
}

// GatherStream joins parcels until few are left; ParcelLimit says how few.
func GatherStream(p []Parcel) []Parcel { return fromStream(toStream(p).gather()) }

// ParcelLimit is how many parcels a stream keeps apart.
const ParcelLimit = parcelLimit

func toLayers(p []Parcel) *layers {
	l := &layers{}
	for _, x := range p {
		l.add(x.Mass, x.U)
	}
	return l
}

func (l *layers) parcels() (p []Parcel) {
	for i := range l.u {
		p = append(p, Parcel{l.mass[i], l.u[i]})
	}
	return p
}

// FillShells spreads layers, given from the wall inwards, over n water shells and returns
// those in the same order.
func FillShells(p []Parcel, n int) []Parcel {
	mass := 0.0
	for _, x := range p {
		mass += x.Mass
	}
	u := make([]float64, n)
	toLayers(p).fill(u, mass)
	var out []Parcel
	for i := n - 1; i >= 0; i-- {
		out = append(out, Parcel{mass * float64(2*i+1) / float64(n*n), u[i]})
	}
	return out
}

// SettleLayers lets ice sink to the wall.
func SettleLayers(p []Parcel) []Parcel {
	l := toLayers(p)
	l.settle()
	return l.parcels()
}

// EqualiseLayers gives mixed water one temperature.
func EqualiseLayers(p []Parcel) []Parcel {
	l := toLayers(p)
	l.equalise()
	return l.parcels()
}

// Opening is a relief opening by its levels and width [m].
type Opening struct{ Bottom, Top, Width float64 }

// PartJoint parts an inflow [m³/s] at a standpipe with the given rim and bore, before a
// line that takes line(level).
func PartJoint(bottom, rim, bore float64, openings []Opening, inflow, snow float64, line func(level float64) float64) (level, into, relief, over float64) {
	j := &joint{bottom: bottom, rim: rim, bore: bore, gap: math.Inf(1)}
	for _, o := range openings {
		j.reliefs = append(j.reliefs, opening{bottom: o.Bottom, top: o.Top, width: o.Width, snowFactor: 1})
	}
	p := j.part(snow, rim+1, func(float64) float64 { return inflow }, line)
	return p.level, p.line, p.relief, p.rim
}

// DrainPocket lets the soil drink from a pocket that starts full, in steps, and returns the
// share of its void still full after each.
func DrainPocket(length, width, depth, void, conductivity, dt float64, steps int) []float64 {
	p := &pocket{area: length * width, perimeter: 2 * (length + width), depth: depth, void: void, soil: conductivity}
	p.held = p.capacity()
	var out []float64
	for range steps {
		p.drain(dt)
		out = append(out, p.fill())
	}
	return out
}

// RestCell is a cell of a line at rest.
type RestCell struct {
	X0, X1, Z0, Z1, Level, Fill float64
	Segment                     int
	Upright                     bool
}

// AtRest cuts a case's line into cells and lets the water come to rest at its first row.
// The cell at index shut, if not negative, is taken to be frozen shut.
func AtRest(k *Case, shut int) ([]RestCell, error) {
	w, err := newWinter(k, Settings{})
	if err != nil {
		return nil, err
	}
	if shut >= 0 {
		w.shut[shut] = true
	}
	levels := w.line.levels(w.rest())
	mass := w.line.massAt(levels)
	var out []RestCell
	for i, c := range w.line.cells {
		out = append(out, RestCell{c.x0, c.x1, c.z0, c.z1, levels[i], mass[i] / heat.WaterDensity / c.boreArea(), c.segment, c.upright})
	}
	return out, nil
}
