package sim

import (
	"math"

	"winterline/pipe"
)

// layers is the chain of resistances from the ice's front in cell c, or from its water, out to the air at t [s].
func (w *winter) layers(c *cell, t float64) []Layer {
	size, insulation := w.wallOf(c)
	var room scratch // not the winter's own, so that telling of a cause changes nothing
	m := c.mesh
	room.begin(m, c.firstShell(), c.u)
	chilled, icy := m.chilled, m.icy
	room.linearise(m, c.firstShell(), c.u)
	m.chilled, m.icy = chilled, icy
	across := func(from, to int) float64 {
		sum := 0.0
		for i := from; i < to; i++ {
			sum += room.node[i].in + room.node[i].out
		}
		return sum / c.share
	}
	out := []Layer{{Kind: LayerIce, Thickness: math.NaN(), Resistance: c.frontToWall(&room) / c.share}}
	at, radius := m.water, size.OutsideDiameter/2
	add := func(kind, material string, thickness float64) {
		to := at
		for to < m.n && m.edge[to+1] <= radius*(1+1e-9) {
			to++
		}
		out = append(out, Layer{Kind: kind, Material: material, Thickness: thickness, Resistance: across(at, to)})
		at = to
	}
	add(LayerWall, "", size.Wall)
	for _, x := range insulation {
		radius += x.Thickness
		add(LayerInsulation, x.Material.Name, x.Thickness)
	}
	if c.outside.setting == pipe.Buried {
		out = append(out, Layer{Kind: LayerSoil, Thickness: c.outside.ground.depth - c.outside.radius, Resistance: across(at, m.n)})
		out = append(out, w.overGround(c)...)
	} else {
		r, _ := c.outside.atSurface(w.sky, t, c.surfaceTemperature())
		out = append(out, Layer{Kind: LayerAir, Thickness: math.NaN(), Resistance: r / c.share})
	}
	shareOut(out)
	return out
}

// wallOf is the pipe of a cell, and what is wrapped around it.
func (w *winter) wallOf(c *cell) (pipe.Size, []pipe.Insulation) {
	s := &w.k.Layout.Segments[c.segment]
	switch {
	case !c.upright:
		return s.Size, s.Insulation
	case w.k.Layout.Standpipe != nil && c.part == len(w.k.Layout.Segments):
		return w.k.Layout.Standpipe.Size, nil
	}
	return s.Size, nil
}

// frontToWall is the resistance [m K/W] from the front of ice that has grown from the wall to the wall, for the whole
// circumference; without ice there, from the outermost water.
func (c *cell) frontToWall(room *scratch) float64 {
	m, sum := c.mesh, 0.0
	for i := m.water - 1; i >= 0; i-- {
		ice := m.phase[i].ice(c.u[i])
		if ice < 1 {
			if ice > 0 || i == m.water-1 {
				sum += room.node[i].out
			}
			break
		}
		if sum += room.node[i].out; i > 0 { // nothing lies further in than the core
			sum += room.node[i].in
		}
	}
	return sum
}

// overGround is what lies on the ground over a buried cell: cover and snow. They are part of the undisturbed ground. To
// set them beside the cell's own layers, each is replaced by soil of the same resistance on top of what lies over the
// pipe, which adds to the shape factor's arcosh(depth/radius)/(2π k).
func (w *winter) overGround(c *cell) []Layer {
	f := w.surfaceOf(c).surface
	if f.drive == NFactorDrive || f.drive == ThermometerDrive {
		return nil // the surface's temperature is given
	}
	k, z, r := c.mesh.kFrozen[c.soil], c.outside.ground.depth, c.outside.radius
	over := func(more float64) float64 { return math.Acosh(max(1, (z+k*more)/r)) / (2 * math.Pi * k) / c.share }
	bare := f.bare()
	out := []Layer{{Kind: LayerCover, Thickness: math.NaN(), Resistance: over(bare) - over(0), Beyond: true}}
	if f.resistance == nil && f.snow != nil {
		if depth, snow := f.snowAt(w.sky.row); snow > 0 {
			out = append(out, Layer{Kind: LayerSnow, Thickness: depth, Resistance: over(bare+snow) - over(bare), Beyond: true})
		}
	}
	return out
}

// surfaceOf is the ground under which a buried cell lies.
func (w *winter) surfaceOf(c *cell) *ground {
	if c.upright {
		return w.ground.own()
	}
	cover, snow := w.k.Layout.Over(c.segment)
	return w.ground.under(groundKey{cover, snow})
}

// shareOut works out the share of each layer.
func shareOut(all []Layer) {
	sum := 0.0
	for _, l := range all {
		sum += l.Resistance
	}
	for i := range all {
		all[i].Share = all[i].Resistance / sum
	}
}

// frontIce is the ice [kg] at t [s] by the track of an interval, straight between its points.
func frontIce(track []icePoint, t float64) float64 {
	for i := 1; i < len(track); i++ {
		if a, b := track[i-1], track[i]; t <= b.t && b.t > a.t {
			return a.ice + (b.ice-a.ice)*max(0, t-a.t)/(b.t-a.t)
		}
	}
	if len(track) == 0 {
		return 0
	}
	return track[len(track)-1].ice
}
