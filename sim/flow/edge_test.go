package flow_test

import (
	"math"
	"testing"

	"winterline/sim/flow"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.7g; want %.7g within %g of it", what, got, want, share)
	}
}

// Where nothing drives the water none runs, however it is asked.
func TestNothingRunsWithoutHead(t *testing.T) {
	full, slot, weir := flow.FullPipeFlow(0, 0.05, 10, 1e-6, 1.5e-6, 2), flow.SlotFlow(0.61, 0.1, 0.05, 0), flow.WeirFlow(flow.RimWeir, 1, -0.1)
	entered, flat := flow.GreenAmpt(1e-6, 0.1, 0), flow.Discharge(0.1, 0, 0.009, 0.05)
	if full != 0 || slot != 0 || weir != 0 || entered != 0 || flat != 0 || flow.Velocity(0.1, 0.01, 0.009, 0) != 0 {
		t.Errorf("full pipe %g, slot %g, weir %g m³/s, %g m entered, %g m³/s on the level", full, slot, weir, entered, flat)
	}
}

// Soil without suction drinks at its conductivity; with it, how deep and how long are the same equation, and steady rain
// ponds once it has brought what the rate by Green and Ampt just takes.
func TestGreenAmptBothWays(t *testing.T) {
	const k, pull = 2e-6, 0.05
	near(t, "without suction [m]", flow.GreenAmpt(k, 0, 3600), k*3600, 1e-12)
	near(t, "and the time back [s]", flow.GreenAmptTime(k, 0, k*3600), 3600, 1e-12)
	near(t, "time back with suction [s]", flow.GreenAmptTime(k, pull, flow.GreenAmpt(k, pull, 5000)), 5000, 1e-9)
	const rain = 5e-6
	near(t, "rate when rain begins to pond", flow.GreenAmptRate(k, pull, rain*flow.PondingTime(k, pull, rain)), rain, 1e-12)
	if !math.IsInf(flow.PondingTime(k, pull, k), 1) {
		t.Error("rain no faster than the soil drinks ponds")
	}
	near(t, "frozen pores", flow.FrozenConductivity(k, 0.5), k/1000, 1e-12)
}

// A tank that drains without inflow, by small steps; one that nothing drains fills at its inflow.
func TestTanksBySmallSteps(t *testing.T) {
	const area, cd, hole = 0.3, 0.61, 1e-4
	h, time := 0.8, 0.0
	for h > 0.2 {
		h -= flow.OrificeFlow(cd, hole, h) / area * 0.5
		time += 0.5
	}
	near(t, "emptying [s]", flow.EmptyingTime(area, cd, hole, 0.8, 0.2), time, 1e-3)
	near(t, "filling a shut tank [s]", flow.FillingTime(area, cd, 0, 1e-3, 0.5), 150, 1e-12)
}

// Francis 1855: 3.33 L h^(3/2) in feet; a foot over a foot of crest carries 3.33 ft³/s. An open channel with an ice cover as
// rough as its bed has its n; half full a pipe runs as fast as full.
func TestOpenFlowByHand(t *testing.T) {
	const foot = 0.3048
	near(t, "Francis weir [m³/s]", flow.WeirFlow(1.84, foot, foot), 3.33*foot*foot*foot, 2e-3)
	near(t, "n under ice", flow.CompositeManning(0.012, 0.012), 0.012, 1e-12)
	near(t, "velocity half full", flow.Velocity(0.1, 0.01, 0.009, 0.05), flow.FullDischarge(0.1, 0.01, 0.009)/(math.Pi/400), 1e-12)
	near(t, "Swamee and Jain beside Colebrook", flow.FrictionSwameeJain(1e5, 1e-4), flow.FrictionColebrook(1e5, 1e-4), 0.01)
}
