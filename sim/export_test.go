package sim

import (
	"context"

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
		v = append(v, volume{x.Outer, x.CapLiquid, phase{plateau: x.Latent / x.CapLiquid, ratio: x.CapLiquid / x.CapFrozen}, x.Liquid, x.Frozen})
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
func (r *Row) HeatIn() float64 { return r.in.value() }

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
type Ground struct{ all *grounds }

// NewGround marches the ground under a site through a record and keeps it at the given
// depths [m, whole centimetres].
func NewGround(site *pipe.Site, s *weather.Series, start float64, depths ...float64) (*Ground, error) {
	g := &Ground{newGrounds(site, s, newSky(s, 1))}
	for _, d := range depths {
		g.all.own().at(d)
	}
	g.all.own().surface.prepare()
	c := newColumn(func(depth float64) pipe.Soil { return site.SoilAt(depth) }, start)
	return g, g.all.own().record(context.Background(), c, newStepper(Stepping{}), nil)
}

// Temperature is that which cells at a depth are told at a weather row [°C].
func (g *Ground) Temperature(depth float64, row int) float64 {
	t := g.all.own().at(depth)
	return t.law.temperature(t.u[row])
}

// BuriedCell is a metre of buried pipe in a Ground.
type BuriedCell struct {
	*cell
	g    *Ground
	step *stepper
}

// Pipe buries a pipe that stands full of water, mixed, with its axis at a depth [m] and all
// of it at the ground's temperature.
func (g *Ground) Pipe(size pipe.Size, axis float64) *BuriedCell {
	b := builder{layout: &pipe.Layout{Site: *g.all.site}, profile: &pipe.Profile{}, shells: Shells{}.orDefault(), ground: g.all}
	invert := -axis - size.Bore()/2
	c := b.cell(&pipe.Segment{Size: size, Setting: pipe.Buried, Liquid: pipe.Mixed}, place{z0: invert, z1: invert}, 1)
	c.u = make([]float64, c.mesh.n)
	c.begin(c.boreArea()*heat.WaterDensity, c.outside.ground.temperature(0), c.outside.ground.temperature(0), Stepping{}.orDefault().First)
	return &BuriedCell{c, g, newStepper(Stepping{})}
}

// Inert buries a dry cell whose pipe, of the given radius, is soil as well, from its axis out.
func (g *Ground) Inert(radius, axis float64) *BuriedCell {
	soil := g.all.soil.of(g.all.site.SoilAt(axis))
	const core = 4
	volumes := appendSoil(nil, radius/20, radius, core, soil)
	volumes = appendSoil(volumes, radius, heat.EquivalentRadius(radius, axis), Shells{}.orDefault().Soil, soil)
	c := &cell{mesh: newMesh(radius/20, volumes, 0, true), length: 1, share: 1, mixed: true, soil: core}
	c.mesh.setGround(core, soil.HeatCapacityUnfrozen, 0, 1)
	c.outside = outside{setting: pipe.Buried, radius: radius, ground: g.all.own().at(axis)}
	c.u = make([]float64, c.mesh.n)
	c.begin(0, c.outside.ground.temperature(0), 0, Stepping{}.orDefault().First)
	return &BuriedCell{c, g, newStepper(Stepping{})}
}

// March takes the cell from weather row i to the next.
func (c *BuriedCell) March(i int) error {
	k := c.g.all.sky
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

// Books are its enthalpy, what has come in through outside and free surface [J], and its
// standing water and ice [kg].
func (c *OpenCell) Books() (content, in, mass float64) {
	return c.heatContent(), c.tally.heatIn + c.tally.surfaceIn, c.mass * c.length
}

// Pass sends a stream through the cell for run seconds from t and leaves a share of the bore
// standing; it returns what goes on, and the heat of wall that joined the wetted share [J].
func (c *OpenCell) Pass(row int, t, run float64, in []Parcel, fill float64) ([]Parcel, float64, error) {
	c.air.sky.row = row
	p := passage{start: t, run: run, rate: 1e-3}
	out, wall, err := c.pass(c.air.step, c.air.sky, newFlume(c.mesh.water), p, toStream(in), fill*c.boreArea()*heat.WaterDensity)
	return fromStream(out), wall, err
}

// Parcel is an amount of moving water [kg] with one enthalpy [K].
type Parcel struct{ Mass, U float64 }

func toStream(p []Parcel) stream {
	var s stream
	for _, x := range p {
		s = append(s, parcel{x.Mass, x.U})
	}
	return s
}

func fromStream(s stream) []Parcel {
	var p []Parcel
	for _, x := range s {
		p = append(p, Parcel{x.mass, x.u})
	}
	return p
}

// ParcelLimit is how many parcels a stream keeps apart.
const ParcelLimit = parcelLimit

// Gather joins parcels until no more than ParcelLimit are left.
func Gather(p []Parcel) []Parcel { return fromStream(toStream(p).gather()) }

// Split takes the last kilograms off a stream.
func Split(p []Parcel, mass float64) (on, stay []Parcel) {
	a, b := toStream(p).split(mass, nil)
	return fromStream(a), fromStream(b)
}

// SplitFront takes the first kilograms off a stream.
func SplitFront(p []Parcel, mass float64) (rest, front []Parcel) {
	a, b := splitFront(toStream(p), mass, nil)
	return fromStream(a), fromStream(b)
}

func toLayers(p []Parcel) *layers {
	l := &layers{}
	for _, x := range p {
		l.add(x.Mass, x.U)
	}
	return l
}

func (l *layers) parcels() []Parcel {
	var p []Parcel
	for i := range l.mass {
		p = append(p, Parcel{l.mass[i], l.u[i]})
	}
	return p
}

// SettleLayers lets ice down to the wall; layers are listed from the wall inwards.
func SettleLayers(p []Parcel) []Parcel { l := toLayers(p); l.settle(); return l.parcels() }

// EqualiseLayers lets mixed water have one temperature.
func EqualiseLayers(p []Parcel) []Parcel { l := toLayers(p); l.equalise(); return l.parcels() }

// FillShells spreads layers over n shells of equal mass and returns their enthalpies, from the core out.
func FillShells(p []Parcel, n int) []float64 {
	l, sum := toLayers(p), 0.0
	for _, m := range l.mass {
		sum += m
	}
	shells, part := make([]float64, n), make([]float64, n)
	for i := range part {
		part[i] = 1 / float64(n)
	}
	l.fill(shells, part, sum)
	return shells
}

// Law is the law between enthalpy and temperature.
type Law struct{ p phase }

// NewLaw makes the law of a volume that takes latent [J/m³] and has the given heat capacities
// [J/(m³ K)].
func NewLaw(latent, liquid, frozen float64) Law {
	return Law{phase{plateau: latent / liquid, ratio: liquid / frozen}}
}

// WaterLaw is that of pipe water, SupercooledLaw that of water that has not nucleated.
func WaterLaw() Law       { return Law{waterPhase} }
func SupercooledLaw() Law { return Law{supercooledPhase} }

func (l Law) Temperature(u float64) float64 { return l.p.temperature(u) }
func (l Law) Enthalpy(t float64) float64    { return l.p.enthalpy(t) }
func (l Law) Ice(u float64) float64         { return l.p.ice(u) }

// StandingCell is one cell of a line at rest: where it lies, and its standing water as an area
// of the bore and as a mass per metre [m, m², kg/m].
type StandingCell struct {
	Segment        int
	X0, X1, Z0, Z1 float64
	Bore, Length   float64
	Upright        bool
	Level, Mass    float64 // level beside it; -Inf: nothing holds water there
}

// AtRest is the line of a case when nothing runs, cut as a run cuts it, at the first weather row;
// shut tells which cells ice has shut.
func AtRest(k *Case, shut func(c StandingCell) bool) []StandingCell {
	w := bare(k)
	if k.Layout.Outlet.Weep != nil {
		w.sill = w.line.slot
	}
	var all []StandingCell
	for _, c := range w.line.cells {
		s := StandingCell{Segment: c.segment, X0: c.x0, X1: c.x1, Z0: c.z0, Z1: c.z1, Bore: c.bore, Length: c.length, Upright: c.upright}
		w.shut = append(w.shut, shut != nil && shut(s))
		all = append(all, s)
	}
	levels := w.line.levels(w.rest())
	for i, m := range w.line.massAt(levels) {
		all[i].Level, all[i].Mass = levels[i], m
	}
	return all
}

// bare is a winter with line and joint, without any state.
func bare(k *Case) *winter {
	sky := newSky(k.Weather, 1)
	w := &winter{k: k, sky: sky, ground: newGrounds(&k.Layout.Site, k.Weather, sky)}
	w.line = newLine(k, Settings{}, w.ground)
	w.joint = newJoint(k, w.line)
	w.sill = w.line.sill
	return w
}

// DepthTemperature is a temperature [°C] at a depth [m].
type DepthTemperature struct{ Depth, Temperature float64 }

// LayerEdgeTemperatures reads a uniform column of clay over sand, its edge at 1 m, through the
// laws of the soil at each depth.
func LayerEdgeTemperatures(t float64) []DepthTemperature {
	clay, _ := pipe.MakeSoil("clay", 0.25)
	sand, _ := pipe.MakeSoil("sand", 0.05)
	site := &pipe.Site{Soil: sand, Layers: []pipe.SoilLayer{{To: 1, Soil: clay}}}
	c := newColumn(func(z float64) pipe.Soil { return site.SoilAt(z) }, t)
	var out []DepthTemperature
	for z := 0.9; z < 1.1; z += 0.01 {
		law := soilPhase(site.SoilAt(z))
		out = append(out, DepthTemperature{z, law.temperature(law.enthalpyWith(c.look(&newStepper(Stepping{}).scratch).at(z)))})
	}
	return out
}

// PocketWarmth is the warmth of a pocket in ground of one steady temperature.
type PocketWarmth struct{ h *pocketHeat }

// NewPocketWarmth makes a pocket of length, width, depth [m] and void share, its middle at a
// depth [m], in soil that conducts k [W/(m K)] whether frozen or not.
func NewPocketWarmth(length, width, depth, void, middle, k, ground float64) PocketWarmth {
	p := &pipe.Pocket{Length: length, Width: width, Depth: depth, Void: void}
	at := &track{sky: &sky{time: []float64{0, 1e9}}, law: phase{ratio: 1}, u: []float64{ground, ground}}
	return PocketWarmth{&pocketHeat{
		stone: length * width * depth * (1 - void) * pocketStone, reach: pocketReach(p, middle), ground: at,
		soil: pipe.Soil{ConductivityUnfrozen: k, ConductivityFrozen: k},
	}}
}

// Reach is its shape factor [m]; Begin sets a dry pocket's temperature [°C]; Add adds heat [J].
func (p PocketWarmth) Reach() float64   { return p.h.reach }
func (p PocketWarmth) Begin(t float64)  { p.h.u = p.h.stone * t }
func (p PocketWarmth) Add(heat float64) { p.h.u += heat }

// March, State and Take are the pocket's own.
func (p PocketWarmth) March(dt, held float64) float64          { return p.h.march(dt, 0, held) }
func (p PocketWarmth) State(held float64) (t, ice float64)     { return p.h.state(held) }
func (p PocketWarmth) Take(kg, held float64) (carried float64) { return p.h.take(kg, held) }

// Returning is water on its way back to the basin.
type Returning struct{ r *returning }

// NewReturning makes it of a share [-], a delay [s] and a largest mass at one instant [kg].
func NewReturning(share, delay, lump float64) Returning {
	return Returning{&returning{share: share, delay: delay, lump: lump}}
}

// LetGo, Due and Arrived take and give kg.
func (r Returning) LetGo(t, mass float64) { r.r.letGo(t, mass) }
func (r Returning) Due(t float64) float64 { return r.r.due(t) }
func (r Returning) Arrived() float64      { return r.r.arrived.value() }

// TrappedBound is the greatest pressure of trapped water [Pa], and whether a rigid pipe sets it.
func TrappedBound(frozen, coldest float64) (pressure float64, rigid bool) {
	return trappedBound(frozen, coldest)
}

// ShortCyclingEvents are those of pump cycles.
func ShortCyclingEvents(cycles []CycleRecord) []Event {
	s := CountShortCycling(cycles)
	return s.events()
}
