package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/heat"
)

// A pool's shells are those of a full pipe, and all their resistances, frozen or not, go with the depth ratio: the
// resistance of a ring, ln(b/a)/(2πk), times the ratio.
func TestPoolScalesItsResistances(t *testing.T) {
	m, _ := plainMesh()
	for _, ratio := range []float64{0.4, 0.7} { // one after the other
		m.setDepthRatio(ratio)
		for i := range m.water {
			a, b, c := m.edge[i], m.edge[i+1], m.centre(i)
			outer := ratio * math.Log(b/c) / (2 * math.Pi)
			within(t, "outer half, frozen", m.outFrozen[i], outer/heat.IceConductivity, 1e-12*outer)
			within(t, "outer half, liquid", m.outLiquid[i], outer/heat.LiquidConductivity, 1e-12*outer)
			if i > 0 {
				inner := ratio * math.Log(c/a) / (2 * math.Pi)
				within(t, "inner half, frozen", m.inFrozen[i], inner/heat.IceConductivity, 1e-12*inner)
				within(t, "inner half, liquid", m.inLiquid[i], inner/heat.LiquidConductivity, 1e-12*inner)
			}
			ring := math.Pi * (b*b - a*a)
			within(t, "heat capacity", m.cap[i], ratio*ring*waterCapacity, 1e-12*m.cap[i])
		}
	}
}

// A ring's centre halves its cross-section.
func TestCentreHalvesTheRing(t *testing.T) {
	m, _ := plainMesh()
	for i := range m.n {
		a, b, c := m.edge[i], m.edge[i+1], m.centre(i)
		within(t, "area within the centre", c*c-a*a, (b*b-a*a)/2, 1e-12*b*b)
	}
}

// When the undisturbed ground warms, all the heat that it would have brought to the place of pipe, foam and soil comes in: what
// the pipe does not take the soil around does.
func TestGroundHeatOfThePipesPlace(t *testing.T) {
	soil, err := pipe.MakeSoil("silt", 0.2)
	if err != nil {
		t.Fatal(err)
	}
	foam := pipe.Material{Conductivity: 0.034, Density: 30, HeatCapacity: 1400}
	wall := pipe.Material{Conductivity: 0.19, Density: 1400, HeatCapacity: 900}
	for _, layers := range [][]pipe.Insulation{nil, {{Thickness: 0.05, Material: foam}}} {
		m := pipeMesh(pipe.Size{OutsideDiameter: 0.0603, Wall: 0.0039, Material: wall}, layers, pipe.Still, &earth{soil, soilPhase(soil)}, 0.6, Shells{}.orDefault())
		first := m.n - Shells{}.orDefault().Soil
		m.setGround(first, soil.HeatCapacityUnfrozen, m.water+1, 0.3)
		far := m.edge[m.n]
		want := soil.HeatCapacityUnfrozen * math.Pi * far * far // for one kelvin, over the whole cross-section
		within(t, "heat for one kelvin [J/(m K)]", m.groundGain(0, 1), want, 1e-9*want)
	}
}

// A cylinder heated evenly throughout is warmer than its rim by q/(8πk) on average, q being all its heat per metre: by
// adding up a thousand rings. Insulation that resists as much leaves half of the ground's own change.
func TestShelterByHand(t *testing.T) {
	const k, rings = 1.3, 1000
	mean, temp := 0.0, 0.0 // from the rim inwards, radius 1, q = 1
	for i := rings; i > 0; i-- {
		r, dr := (float64(i)-0.5)/rings, 1.0/rings
		inside := r * r                                         // of the heat
		mean += 2 * r * dr * (temp + inside*dr/(4*math.Pi*k*r)) // half way through the ring
		temp += inside * dr / (2 * math.Pi * k * r)
	}
	within(t, "share behind insulation", shelter(mean, k), 0.5, 1e-5)
	within(t, "share behind none", shelter(0, k), 1, 0)
}

// Ice throughout a shell makes it conduct as ice, none as water, half of it half way between.
func TestBlendByHand(t *testing.T) {
	m, _ := plainMesh()
	for _, c := range []struct{ ice, k float64 }{{frontTrace, heat.LiquidConductivity}, {0.5 + frontTrace, (heat.LiquidConductivity + heat.IceConductivity) / 2}, {1 + frontTrace, heat.IceConductivity}} {
		got := m.blend(3, c.ice).out
		want := math.Log(m.edge[4]/m.centre(3)) / (2 * math.Pi * c.k)
		within(t, "resistance", got, want, 1e-9*want)
	}
}
