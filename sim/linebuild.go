package sim

import (
	"math"

	"winterline/pipe"
)

const (
	cellLength   = 0.5  // of a lying cell outdoors [m]
	indoorLength = 3.0  // of a cell at room temperature [m]
	sliceHeight  = 0.15 // of a slice of an upright pipe [m]
	steep        = 0.5  // rise over length above which a cell fills like an upright pipe
)

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
