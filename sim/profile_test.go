package sim

import (
	"math"
	"testing"

	"winterline/pipe"
)

// Soils that freeze at 0 °C, and one that freezes along a curve and conducts the same frozen or not, so that a steady
// profile through it is straight.
var (
	profileLoam  = pipe.Soil{ConductivityUnfrozen: 1.2, ConductivityFrozen: 1.8, HeatCapacityUnfrozen: 2.8e6, HeatCapacityFrozen: 2.1e6, Latent: 90e6}
	profileSand  = pipe.Soil{ConductivityUnfrozen: 0.6, ConductivityFrozen: 1.4, HeatCapacityUnfrozen: 1.9e6, HeatCapacityFrozen: 1.6e6, Latent: 40e6}
	profileCurve = pipe.Soil{ConductivityUnfrozen: 1.5, ConductivityFrozen: 1.5, HeatCapacityUnfrozen: 2.8e6, HeatCapacityFrozen: 2.1e6, Latent: 90e6,
		Freezing: pipe.FreezingCurve{Point: -0.2, Exponent: 0.3}}
)

// profileEdge is where the two soils of a test meet [m].
const profileEdge = 0.25

// handColumn is a column whose state is set by hand.
type handColumn struct{ *column }

// newHandColumn makes a column of one soil, or of two that meet at profileEdge.
func newHandColumn(soil ...pipe.Soil) handColumn {
	at := func(z float64) pipe.Soil {
		if z > profileEdge {
			return soil[len(soil)-1]
		}
		return soil[0]
	}
	return handColumn{newColumn(at, 5, profileEdge)}
}

// set gives every volume the temperature of its centre [°C]; then each front [m] gets its volume, which is part ice: frozen
// above it, or below it.
func (s handColumn) set(at func(depth float64) float64, fronts ...handFront) handColumn {
	s.setTemperatures(at)
	m := s.mesh
	for _, f := range fronts {
		i := m.holds(columnDepth - f.depth)
		share := (columnDepth - f.depth - m.edge[i]) / (m.edge[i+1] - m.edge[i]) // that lies below the front
		if f.frozenAbove {
			share = 1 - share
		}
		s.u[i] = -share * m.phase[i].plateau
	}
	return s
}

// handFront is where ground at just 0 °C is part ice.
type handFront struct {
	depth       float64 // [m]
	frozenAbove bool
}

func (s handColumn) look() *profile { return s.column.look(&scratch{}) }

// steady is the temperature at a depth [°C] where a steady flux [W/m²] rises through ground that is frozen above a front [m] and
// thawed below it: 0 °C at the front, and a slope of flux over conductivity on either side.
func steady(s pipe.Soil, front, flux float64) func(depth float64) float64 {
	return func(z float64) float64 {
		k := s.ConductivityUnfrozen
		if z < front {
			k = s.ConductivityFrozen
		}
		return flux / k * (z - front)
	}
}

// reads checks temperatures at depths.
func (p *profile) reads(t *testing.T, want func(depth float64) float64, depths ...float64) {
	t.Helper()
	for _, z := range depths {
		if got, _ := p.at(z); math.Abs(got-want(z)) > 1e-9 {
			t.Errorf("%g m: %.6f °C; want %.6f", z, got, want(z))
		}
	}
}

// isFrozen checks the frost [m].
func (p *profile) isFrozen(t *testing.T, what string, top, bottom, thickness float64) {
	t.Helper()
	const limit = 1e-9
	f := p.frozen()
	if !(math.Abs(f.top-top) <= limit && math.Abs(f.bottom-bottom) <= limit && math.Abs(f.thickness-thickness) <= limit) {
		t.Errorf("%s: frozen from %.6f to %.6f m, %.6f m in all; want %.6f, %.6f and %.6f", what, f.top, f.bottom, f.thickness, top, bottom, thickness)
	}
}

// Ground frozen from above down to a front inside a volume, with a steady flux through it: the profile reads the front, and the exact
// temperature at any depth above and below it, the surface included.
func TestProfileFrozenFromAbove(t *testing.T) {
	const at = 0.2037
	exact := steady(profileLoam, at, 12)
	p := newHandColumn(profileLoam).set(exact, handFront{at, true}).look()
	p.isFrozen(t, "frozen from above", 0, at, at)
	p.reads(t, exact, 0, 0.002, 0.1, 0.1999, 0.201, at, 0.206, 0.2101, 0.4, 1.3, 4)
	for _, side := range []struct {
		depth, ice float64
	}{{at - 1e-6, 1}, {at + 1e-6, 0}, {0.05, 1}, {3, 0}} {
		if _, ice := p.at(side.depth); ice != side.ice {
			t.Errorf("ice share %g at %g m; want %g", ice, side.depth, side.ice)
		}
	}
}

// The same with the front in a volume below the fine ones, which are several centimetres thick: it stands where the ice share
// says, not at an edge.
func TestProfileFrontInAThickVolume(t *testing.T) {
	for _, at := range []float64{0.9, 1.4, 2.7} {
		exact := steady(profileLoam, at, 5)
		p := newHandColumn(profileLoam).set(exact, handFront{at, true}).look()
		p.isFrozen(t, "deep frost", 0, at, at)
		p.reads(t, exact, 0.3, at-0.004, at, at+0.004, 5)
	}
}

// Thawed down to 8.3 cm, frozen from there to 40.7 cm, −0.6 °C in its middle, thawed below: top, bottom and thickness are those of
// the frozen layer, and thawed ground lies on it.
func TestProfileThawedFromAbove(t *testing.T) {
	const from, to = 0.083, 0.407
	at := func(z float64) float64 {
		switch {
		case z < from:
			return 20 * (from - z)
		case z < to:
			return -0.6 * math.Sin(math.Pi*(z-from)/(to-from))
		}
		return 3 * (z - to)
	}
	p := newHandColumn(profileLoam).set(at, handFront{from, false}, handFront{to, true}).look()
	p.isFrozen(t, "thawed from above", from, to, to-from)
	p.reads(t, at, 0, 0.04, from, to, 0.45, 2)
	for _, c := range []struct{ depth, low, high float64 }{{0.0825, 0, 0.02}, {0.0835, -0.01, 0}, {0.245, -0.6001, -0.59}, {0.4065, -0.01, 0}} {
		if got, _ := p.at(c.depth); !(got >= c.low && got <= c.high) {
			t.Errorf("%g °C at %g m; want from %g to %g", got, c.depth, c.low, c.high)
		}
	}
}

// Frozen anew from above to 5.3 cm, thawed to 15.6 cm, frozen to 40.7 cm: two layers, whose thicknesses add up.
func TestProfileTwoFrozenLayers(t *testing.T) {
	const refrozen, from, to = 0.053, 0.156, 0.407
	at := func(z float64) float64 {
		switch {
		case z < refrozen:
			return -30 * (refrozen - z)
		case z < from:
			return 0.5 * math.Sin(math.Pi*(z-refrozen)/(from-refrozen))
		case z < to:
			return -0.4 * math.Sin(math.Pi*(z-from)/(to-from))
		}
		return 2 * (z - to)
	}
	p := newHandColumn(profileLoam).set(at, handFront{refrozen, true}, handFront{from, false}, handFront{to, true}).look()
	p.isFrozen(t, "two layers", 0, to, refrozen+to-from)
	p.reads(t, at, 0.02, refrozen, from, to, 0.6)
}

// Warm ground, and ground cooled to exactly 0 °C without any ice.
func TestProfileNothingFrozen(t *testing.T) {
	for _, soil := range []pipe.Soil{profileLoam, profileCurve} {
		for _, surface := range []float64{0.001, 0, 8} {
			p := newHandColumn(soil).set(func(z float64) float64 { return surface + z }).look()
			if f := p.frozen(); !math.IsNaN(f.top) || !math.IsNaN(f.bottom) || f.thickness != 0 {
				t.Errorf("surface at %g °C: %+v is frozen", surface, f)
			}
		}
	}
	// Supercooled by no more than its freezing point, soil that freezes along a curve is not frozen either.
	p := newHandColumn(profileCurve).set(func(float64) float64 { return -0.19 }).look()
	if f := p.frozen(); f.thickness != 0 {
		t.Errorf("at −0.19 °C, above its freezing point: %+v is frozen", f)
	}
}

// All frozen: from the surface to the bottom of the column.
func TestProfileAllFrozen(t *testing.T) {
	for _, soil := range []pipe.Soil{profileLoam, profileCurve} {
		newHandColumn(soil).set(func(float64) float64 { return -2 }).look().isFrozen(t, "all", 0, columnDepth, columnDepth)
	}
}

// A steady flux through two soils that meet at an edge: the temperature there is one, and its slope on either side flux over
// conductivity; frozen to a front in the upper soil, in the lower one, and not at all.
func TestProfileOfTwoSoils(t *testing.T) {
	const flux = 9.0
	for _, at := range []float64{0.1234, 0.3371, 0} {
		// exact integrates flux/k from the front; k is the upper or the lower soil's, frozen above the front.
		exact := func(z float64) float64 {
			rise := func(from, to float64, s pipe.Soil) float64 {
				frozen := math.Max(0, math.Min(to, at)-from) // of a stretch, what lies above the front
				return flux * (frozen/s.ConductivityFrozen + (math.Max(to, from)-from-frozen)/s.ConductivityUnfrozen)
			}
			below := func(z float64) float64 {
				return rise(0, math.Min(z, profileEdge), profileLoam) + rise(profileEdge, z, profileSand)
			}
			return below(z) - below(at)
		}
		s := newHandColumn(profileLoam, profileSand)
		if at == 0 {
			s.set(exact).look().reads(t, exact, 0.005, 0.1, profileEdge-0.002, profileEdge, profileEdge+0.002, 0.5, 3)
			continue
		}
		p := s.set(exact, handFront{at, true}).look()
		p.isFrozen(t, "two soils", 0, at, at)
		p.reads(t, exact, 0, 0.05, at-0.001, at, at+0.001, profileEdge-0.002, profileEdge, profileEdge+0.002, 0.5, 3)
	}
}

// Frost that ends just at an edge, be it that the volume above is all ice or that the one below has its first trace, and frost in
// a part of the uppermost volume, from above and from below.
func TestProfileAtEdges(t *testing.T) {
	line := func(z float64) float64 { return 10 * (z - 0.15) }
	s := newHandColumn(profileLoam).set(line)
	s.isAt(t, "between two volumes", 0.15)
	i := s.mesh.holds(columnDepth - 0.145)
	s.u[i] = -s.mesh.phase[i].plateau // all ice, at 0 °C
	s.isAt(t, "a volume that is just all ice", 0.15)
	s.u[i-1] = -1e-12
	s.isAt(t, "a trace of ice in the next", 0.15)

	top := s.mesh.n - 1
	s = newHandColumn(profileLoam).set(func(float64) float64 { return 1 })
	s.u[top] = -0.4 * s.mesh.phase[top].plateau
	s.look().isFrozen(t, "the uppermost 4 mm", 0, 0.004, 0.004)
	s = newHandColumn(profileLoam).set(func(z float64) float64 { return -1 })
	s.u[top] = -0.4 * s.mesh.phase[top].plateau
	s.look().isFrozen(t, "the uppermost 6 mm thawed", 0.006, columnDepth, columnDepth-0.006)
}

// isAt checks a frost from the surface.
func (s handColumn) isAt(t *testing.T, what string, depth float64) {
	t.Helper()
	s.look().isFrozen(t, what, 0, depth, depth)
}

// As a volume freezes through, the frost goes down through it evenly, without a jump at either end.
func TestProfileFrontMovesEvenly(t *testing.T) {
	s := newHandColumn(profileLoam).set(func(z float64) float64 { return 10 * (z - 0.15) })
	i := s.mesh.holds(columnDepth - 0.155)
	for share := 1.0 / 64; share <= 1; share += 1.0 / 64 {
		s.u[i] = -share * s.mesh.phase[i].plateau
		s.isAt(t, "share of the volume frozen", 0.15+0.01*share)
	}
}

// The last of a thawed pocket between frozen volumes counts by its ice: more than half of it frozen, all is.
func TestProfilePocketBetweenFrost(t *testing.T) {
	for _, c := range []struct{ ice, thickness float64 }{{0.7, 0.30}, {0.3, 0.29}} {
		s := newHandColumn(profileLoam).set(func(z float64) float64 { return 4 * (z - 0.3) })
		i := s.mesh.holds(columnDepth - 0.105)
		s.u[i] = -c.ice * s.mesh.phase[i].plateau
		s.look().isFrozen(t, "pocket", 0, 0.3, c.thickness)
	}
}

// Soil that freezes along a curve is frozen from its freezing point down, wherever that lies between two nodes.
func TestProfileAlongACurve(t *testing.T) {
	for _, slope := range []float64{7, 2, 0.9} { // −0.2 °C at 0.27, 0.20 and 0.08 m
		line := func(z float64) float64 { return slope*(z-0.3) + 0.01 }
		at := 0.3 - 0.21/slope
		p := newHandColumn(profileCurve).set(line).look()
		p.isFrozen(t, "frozen from above", 0, at, at)
		p.reads(t, line, 0, 0.003, 0.1, at, 0.5, 3)
		thaw := newHandColumn(profileCurve).set(func(z float64) float64 { return -line(z) - 0.4 }).look()
		thaw.isFrozen(t, "thawed from above", at, columnDepth, columnDepth-at)
	}
}

// Frost, as results show it, is what is at or below 0 °C, where water in a pipe would freeze: deeper than the freezing point of soil that
// freezes along a curve, and the front itself in soil that freezes at 0 °C. By hand: 2(z − 0.3) + 0.01 is 0 °C at 0.295 m.
func TestProfileFrostIsBelowZero(t *testing.T) {
	const limit = 1e-9
	line := func(z float64) float64 { return 2*(z-0.3) + 0.01 }
	f := newHandColumn(profileCurve).set(line).look().frost()
	if math.Abs(f.bottom-0.295) > limit || math.Abs(f.thickness-0.295) > limit || f.top != 0 {
		t.Errorf("along a curve: %+v; want 0.295 m", f)
	}
	f = newHandColumn(profileCurve).set(func(z float64) float64 { return -line(z) }).look().frost()
	if math.Abs(f.top-0.295) > limit || f.bottom != columnDepth {
		t.Errorf("thawed from above along a curve: %+v; want from 0.295 m", f)
	}
	f = newHandColumn(profileCurve).set(func(float64) float64 { return -0.01 }).look().frost()
	if math.Abs(f.thickness-columnDepth) > limit {
		t.Errorf("at −0.01 °C, above the freezing point: %+v; want all", f)
	}
	const at = 0.2037
	f = newHandColumn(profileLoam).set(steady(profileLoam, at, 12), handFront{at, true}).look().frost()
	if math.Abs(f.bottom-at) > limit {
		t.Errorf("sharp: %+v; want %g m", f, at)
	}
}

// Depths beyond the column read its ends.
func TestProfileEnds(t *testing.T) {
	s := newHandColumn(profileLoam).set(func(z float64) float64 { return 3 + z })
	p := s.look()
	bottom, _ := p.at(columnDepth)
	if below, _ := p.at(25); below != bottom || math.Abs(bottom-s.phaseAt(0)) > 1e-12 {
		t.Errorf("%g °C at the bottom, %g below it; the lowest volume has %g", bottom, below, s.phaseAt(0))
	}
	if surface, _ := p.at(0); math.Abs(surface-3) > 1e-9 {
		t.Errorf("%g °C at the surface; want 3", surface)
	}
}

// phaseAt is the temperature of a volume [°C].
func (s handColumn) phaseAt(i int) float64 { return s.mesh.phase[i].temperature(s.u[i]) }
