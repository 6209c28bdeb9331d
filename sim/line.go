package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

const (
	cellLength   = 0.5  // of a lying cell outdoors [m]
	indoorLength = 3.0  // of a cell at room temperature [m]
	sliceHeight  = 0.15 // of a slice of an upright pipe [m]
	steep        = 0.5  // rise over length above which a cell fills like an upright pipe
)

// line is the whole pipe as cells in flow order: house pipe, standpipe from its rim
// down, buried line, elbow and riser up to the lid.
type line struct {
	cells []*cell
	slab  []float64 // enthalpy of all cells, one after the other

	level levelRoom
	flume *flume
	kept  []float64 // by cell, what stays on its way while water runs [kg]; see hold
	off   []float64 // by cell, what sets off of what is on its way [kg]; see trickle

	transit []parcel // by cell, water on its way to the outlet above what stands there at rest

	house        int // number of cells of the house pipe, before the loose joint; 0 for a glued line
	jointAt      int // index of the first cell behind the joint, where water can leave before the end; 0: nowhere
	jointSegment int // number of segments before the joint
	crestAt      int // index of the cell that holds the highest invert of what a check valve keeps full
	elbow        int // index of the first cell of the riser to the lid; len(cells) when there is none
	standFrom    int // the standpipe's slices are cells[standFrom:standTo]
	standTo      int

	crest float64 // highest invert up to the joint, or of all of a glued line [m]
	end   float64 // invert where the line ends [m]
	sill  float64 // level over which water leaves at the outlet [m]
	slot  float64 // level to which an open weep slot drains the line [m]
	iced  bool    // ice on the ground shuts the end
}

// builder cuts a layout into cells.
type builder struct {
	layout  *pipe.Layout
	profile *pipe.Profile
	shells  Shells
	ground  *grounds
	nucleus float64
	slush   float64 // limit of shares that shut a bore
	cells   []*cell
}

// newLine cuts the case's layout into cells; their state is not set yet.
func newLine(k *Case, s Settings, g *grounds) *line {
	b := &builder{layout: k.Layout, profile: k.Profile, shells: s.Shells.orDefault(), ground: g, nucleus: s.Nucleation, slush: s.slushLimit()}
	l := &line{crest: math.Inf(-1)}
	for i := range k.Layout.Segments {
		b.segment(i)
		if p := k.Layout.Standpipe; p != nil && p.After == i {
			l.house, l.standFrom = len(b.cells), len(b.cells)
			l.findCrest(b.cells)
			b.standpipe(i)
			l.standTo = len(b.cells)
			l.jointAt, l.jointSegment = l.house, i+1
		}
	}
	l.elbow = len(b.cells)
	last := len(k.Layout.Segments) - 1
	l.end = k.Profile.Invert(last, 1)
	l.sill, l.slot = l.end, l.end
	if k.Layout.Outlet.Kind == pipe.Lid {
		l.sill = b.lid(last, l.end)
	}
	l.cells = b.cells
	l.shareEvenFlow()
	if l.house == 0 {
		l.findCrest(b.cells)
		l.findRelief(k.Layout.Reliefs)
	}
	l.allocate()
	return l
}

// findRelief puts the joint of a glued line at the middle of the segment that carries its
// first relief opening: the cells up to there lie before it.
func (l *line) findRelief(reliefs []pipe.Relief) {
	if len(reliefs) == 0 {
		return
	}
	at := reliefs[0].Segment
	before, along := 0.0, 0.0
	for _, c := range l.cells {
		if c.segment == at && !c.upright {
			along += c.length
		}
	}
	for i, c := range l.cells {
		switch {
		case c.upright || c.segment > at:
		case c.segment < at:
			l.jointAt = i + 1
		case before+0.5*c.length <= along/2+1e-9:
			before += c.length
			l.jointAt = i + 1
		}
	}
	l.jointSegment = at + 1
}

// entry is the index of the first lying cell behind the joint.
func (l *line) entry() int {
	if l.house > 0 {
		return l.standTo
	}
	return min(l.jointAt, len(l.cells)-1)
}

// uprightName names the upright part that cell i belongs to.
func (l *line) uprightName(i int) string {
	if i < l.standTo {
		return "standpipe"
	}
	return "outlet riser"
}

// findCrest finds the highest point of the pipe so far.
func (l *line) findCrest(cells []*cell) {
	for i, c := range cells {
		if z := max(c.z0, c.z1); z > l.crest {
			l.crest, l.crestAt = z, i
		}
	}
}

// trackRoom is how many steps of an interval a cell has room for from the start.
const trackRoom = 32

// allocate gives every cell its part of one slab.
func (l *line) allocate() {
	n := 0
	for _, c := range l.cells {
		n += c.mesh.n
		c.tally.track = make([]icePoint, 0, trackRoom)
	}
	l.slab = make([]float64, n)
	l.transit = make([]parcel, len(l.cells))
	l.makeRoom()
	l.cut()
}

// makeRoom makes what the line works in, where nothing lasts.
func (l *line) makeRoom() {
	shells := 0
	for _, c := range l.cells {
		shells = max(shells, c.mesh.water)
	}
	l.level, l.flume = newLevelRoom(len(l.cells)), newFlume(shells)
	l.kept, l.off = make([]float64, len(l.cells)), make([]float64, len(l.cells))
}

// cut cuts the slab for the cells.
func (l *line) cut() {
	at := l.slab
	for _, c := range l.cells {
		c.u, at = at[:c.mesh.n:c.mesh.n], at[c.mesh.n:]
	}
}

// segment cuts one segment.
func (b *builder) segment(i int) {
	s := &b.layout.Segments[i]
	piece := cellLength
	if s.Setting == pipe.Indoor {
		piece = indoorLength
	}
	n := int(max(1, math.Ceil(s.Length/piece-1e-9)))
	for k := range n {
		a, e := float64(k)/float64(n), float64(k+1)/float64(n)
		p := place{
			segment: i, x0: b.profile.X(i, a), x1: b.profile.X(i, e),
			z0: b.profile.Invert(i, a), z1: b.profile.Invert(i, e),
		}
		p.vertical = math.Abs(p.z1-p.z0) > steep*s.Length/float64(n)
		c := b.cell(s, p, s.Length/float64(n))
		b.cells = append(b.cells, c)
	}
}

// cell builds one cell of a segment.
func (b *builder) cell(s *pipe.Segment, p place, length float64) *cell {
	c := &cell{
		place: p, bore: s.Size.Bore(), manning: s.Size.Manning, length: length, share: 1, mixed: s.Liquid == pipe.Mixed,
		nucleus: pick(s.Nucleation, b.nucleus), slushLimit: b.slush,
		outside: outside{
			setting: s.Setting, film: s.FilmCoefficient, room: b.layout.Site.RoomTemperature,
			shelter: b.layout.Site.ShelteredTemperature, halfway: b.layout.Site.ShelteredHalfway, emission: plasticEmission,
		},
	}
	b.surround(c, s.Size, s.Insulation, s.Liquid, b.shells)
	return c
}

// surround gives a cell its mesh, and a buried one its ground.
func (b *builder) surround(c *cell, size pipe.Size, insulation []pipe.Insulation, liquid pipe.Liquid, shells Shells) {
	radius := size.OutsideDiameter / 2
	for _, layer := range insulation {
		radius += layer.Thickness
	}
	c.outside.radius = radius
	if c.outside.setting != pipe.Buried {
		c.mesh = pipeMesh(size, insulation, liquid, nil, 0, shells)
		c.soil = c.mesh.n
	} else {
		depth := b.depth(c, radius)
		under := b.ground.under(b.surfaceOver(c))
		soil := b.ground.soil.of(b.layout.Site.SoilUnder(under.key.cover, depth))
		c.mesh = pipeMesh(size, insulation, liquid, &soil, depth, shells)
		c.soil = c.mesh.n - shells.Soil
		inner := shells.Water + shells.Wall
		c.mesh.setGround(c.soil, soil.HeatCapacityUnfrozen, inner, shelter(c.mesh.across(inner, c.soil), soil.ConductivityUnfrozen))
		c.outside.ground = under.at(depth)
	}
	if c.nucleus < 0 {
		c.mesh.setPhase(supercooledPhase)
		c.liquid = true
	}
}

// surfaceOver is the kind of surface that a cell lies under.
func (b *builder) surfaceOver(c *cell) groundKey {
	if c.upright || c.segment >= len(b.layout.Segments) {
		return b.ground.own().key
	}
	cover, snow := b.layout.Over(c.segment)
	return groundKey{cover, snow}
}

// shallowest is the least depth of axis over outer radius for which the shape factor of
// a buried cylinder is taken; a pipe that lies shallower is held to it.
const shallowest = 1.2

// depth is that of a buried cell's axis below the ground [m].
func (b *builder) depth(c *cell, radius float64) float64 {
	axis := 0.5 * (c.z0 + c.z1)
	if !c.vertical {
		axis += c.bore / 2
	}
	depth := b.profile.Ground(0.5*(c.x0+c.x1)) - axis
	return max(depth, shallowest*radius)
}

// standpipe slices the standpipe from its rim down to the line's first invert.
func (b *builder) standpipe(after int) {
	p := b.layout.Standpipe
	x := b.profile.X(after, 1)
	bottom := b.profile.Invert(after+1, 0)
	b.upright(p.Size, after+1, x, p.Rim, bottom, true)
}

// lid slices the elbow and the riser from the line's end up to the lid and returns the
// level over which water leaves.
func (b *builder) lid(segment int, end float64) float64 {
	x := b.profile.X(segment, 1)
	level := b.profile.Ground(x) + pick(b.layout.Outlet.Level, 0)
	if level-end < 0.02 {
		return end
	}
	b.upright(b.layout.Segments[segment].Size, segment, x, end, level, false)
	return level
}

// upright slices a vertical pipe between two levels in flow order, from `from` to `to`.
func (b *builder) upright(size pipe.Size, segment int, x, from, to float64, open bool) {
	n := int(max(1, math.Ceil(math.Abs(to-from)/sliceHeight-1e-9)))
	s := &b.layout.Segments[segment]
	for k := range n {
		za := from + (to-from)*float64(k)/float64(n)
		zb := from + (to-from)*float64(k+1)/float64(n)
		p := place{segment: segment, x0: x, x1: x, z0: min(za, zb), z1: max(za, zb), vertical: true, upright: true, free: open || k == n-1, top: !open && k == n-1}
		c := &cell{place: p, bore: size.Bore(), manning: size.Manning, length: math.Abs(zb - za), share: 1, mixed: s.Liquid == pipe.Mixed, nucleus: pick(s.Nucleation, b.nucleus), slushLimit: b.slush}
		if c.free {
			c.nucleus = 0 // frost from the open air seeds the water
		}
		c.outside = outside{setting: pipe.Buried, room: b.layout.Site.RoomTemperature, emission: plasticEmission}
		if 0.5*(p.z0+p.z1) > b.profile.Ground(x) {
			c.outside.setting = pipe.OpenAir
		}
		shells := b.shells
		if c.free {
			shells.Water = shells.Surface
		}
		b.surround(c, size, nil, s.Liquid, shells)
		b.cells = append(b.cells, c)
	}
}

// mid is the level that decides how full a cell stands at a given water level [m]: its
// mid invert.
func (c *cell) mid() float64 { return 0.5 * (c.z0 + c.z1) }

// massAtLevel is the standing water of a cell [kg/m] when the water level beside it is
// level [m].
func (c *cell) massAtLevel(level float64) float64 {
	if c.vertical {
		low, high := min(c.z0, c.z1), max(c.z0, c.z1)
		fill := min(1, max(0, (level-low)/(high-low)))
		return fill * c.boreArea() * heat.WaterDensity
	}
	return pipe.SegmentArea(c.bore, level-c.mid()) * heat.WaterDensity
}
