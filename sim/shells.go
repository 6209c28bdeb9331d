package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// Shells sets how finely a pipe cell is cut. The zero value takes the defaults, which
// keep freezing times within 1 % of a converged solution.
type Shells struct {
	Water int // water shells; default 9
	// Surface is the number of water shells of upright pipe in which the water's surface lies: ice grows down
	// from there and is carried to the wall cycle after cycle, which takes more; default 20.
	Surface int
	Wall    int // default 1
	Soil    int // soil shells of a buried cell; default 8
	// Layer is the number of shells of each insulation layer; default one for each 15 mm, 3 to 8.
	Layer int
	finer float64 // so many times the default of a layer, as Times asks for [-]; 0: once
}

// orDefault fills in the defaults, but for that of insulation, which depends on its thickness.
func (s Shells) orDefault() Shells {
	def := func(p *int, v int) {
		if *p <= 0 {
			*p = v
		}
	}
	def(&s.Water, 9)
	def(&s.Surface, 20)
	def(&s.Wall, 1)
	def(&s.Soil, 8)
	return s
}

// layer is the number of shells of an insulation layer so thick [m].
func (s Shells) layer(thickness float64) int {
	if s.Layer > 0 {
		return s.Layer
	}
	usual := math.Min(8, math.Max(3, math.Round(thickness/0.015)))
	if s.finer > 0 {
		return times(int(usual), s.finer)
	}
	return int(usual)
}

// mixing multiplies the conductivity of liquid water that is taken to be mixed, so
// that it has one temperature to within a few millikelvin while it gives heat to the
// wall; beyond that the factor has no effect on any result.
const mixing = 2e3

// waterPhase is the law of pipe water, sharp at 0 °C.
var waterPhase = phase{plateau: heat.Fusion / heat.LiquidHeat, ratio: heat.LiquidHeat / heat.IceHeat}

// supercooledPhase is the law of pipe water that has not nucleated.
var supercooledPhase = phase{plateau: 0, ratio: 1}

// waterCapacity is the volumetric heat capacity of liquid water [J/(m³ K)].
const waterCapacity = heat.WaterDensity * heat.LiquidHeat

// earth is a soil with its law, which all volumes of that soil share.
type earth struct {
	pipe.Soil
	law phase
}

// soilPhase is the law of a soil's pore water: along its freezing curve, or sharp at 0 °C.
func soilPhase(s pipe.Soil) phase {
	p := phase{plateau: s.Latent / s.HeatCapacityUnfrozen, ratio: s.HeatCapacityUnfrozen / s.HeatCapacityFrozen}
	if f := s.Freezing; f.Exponent > 0 && f.Point < 0 && s.Latent > 0 {
		p.curve = newCurve(p.plateau, p.ratio, f.Point, f.Exponent, s.ConductivityFrozen/s.ConductivityUnfrozen)
	}
	return p
}

// earths are the soils met so far.
type earths map[pipe.Soil]earth

func (e earths) of(s pipe.Soil) earth {
	one, ok := e[s]
	if !ok {
		one = earth{s, soilPhase(s)}
		e[s] = one
	}
	return one
}

// pipeMesh cuts a pipe of given size, insulation and liquid into shells, and for a
// buried pipe (soil not nil) the soil around it out to the radius that gives the exact
// shape factor of a cylinder with its axis at the given depth [m] below the surface.
func pipeMesh(size pipe.Size, insulation []pipe.Insulation, liquid pipe.Liquid, soil *earth, axis float64, shells Shells) *mesh {
	bore, outside := size.Bore()/2, size.OutsideDiameter/2
	k := heat.LiquidConductivity
	if liquid == pipe.Mixed {
		k *= mixing
	}
	var v []volume
	for i := 1; i <= shells.Water; i++ {
		v = append(v, volume{bore * graded(float64(i)/float64(shells.Water)), waterCapacity, waterPhase, k, heat.IceConductivity})
	}
	v = appendSolid(v, bore, size.Wall, shells.Wall, size.Material)
	r := outside
	for _, layer := range insulation {
		v = appendSolid(v, r, layer.Thickness, shells.layer(layer.Thickness), layer.Material)
		r += layer.Thickness
	}
	if soil != nil {
		v = appendSoil(v, r, heat.EquivalentRadius(r, axis), shells.Soil, *soil)
	}
	return newMesh(0, v, shells.Water, true)
}

// graded is the radius, as a share of the bore's, at which a share x of the water's shells, counted from
// the core, is passed: at wall and core they are half as thick as were all alike, for ice begins at
// the wall, and its last tenth at the core takes a third of the time.
func graded(x float64) float64 { return x - math.Sin(2*math.Pi*x)/(4*math.Pi) }

// appendSolid adds n shells of one material from radius r outwards.
func appendSolid(v []volume, r, thickness float64, n int, m pipe.Material) []volume {
	for i := 1; i <= n; i++ {
		v = append(v, volume{r + thickness*float64(i)/float64(n), m.Density * m.HeatCapacity, phase{ratio: 1}, m.Conductivity, m.Conductivity})
	}
	return v
}

// appendSoil adds n shells of soil from radius r to far, in equal steps of resistance.
func appendSoil(v []volume, r, far float64, n int, s earth) []volume {
	grow := math.Pow(far/r, 1/float64(n))
	for i := 1; i <= n; i++ {
		v = append(v, volume{r * math.Pow(grow, float64(i)), s.HeatCapacityUnfrozen, s.law, s.ConductivityUnfrozen, s.ConductivityFrozen})
	}
	return v
}
