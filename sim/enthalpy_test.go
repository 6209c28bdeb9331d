package sim_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"winterline/sim"
)

// near fails the test where two numbers differ by more than a share of the wanted one.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.12g; want %.12g", what, got, want)
	}
}

// drawLaw draws soils and waters: latent heat 0.5 to 320 MJ/m³, heat capacities 1 to 4.3 MJ/(m³ K).
func drawLaw(t *rapid.T) sim.Law {
	return sim.NewLaw(rapid.Float64Range(5e5, 3.2e8).Draw(t, "latent"),
		rapid.Float64Range(1e6, 4.3e6).Draw(t, "liquid"), rapid.Float64Range(1e6, 4.3e6).Draw(t, "frozen"))
}

func TestEnthalpyThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		law := drawLaw(t)
		want := rapid.Float64Range(-40, 40).Draw(t, "temperature")
		u := law.Enthalpy(want)
		if got := law.Temperature(u); math.Abs(got-want) > 1e-12*(1+math.Abs(u)) {
			t.Fatalf("%g °C comes back as %g", want, got)
		}
		if ice := law.Ice(u); want > 0 && ice != 0 || want < -1e-9 && ice != 1 {
			t.Fatalf("ice share %g at %g °C", ice, want)
		}
	})
}

func TestEnthalpyIsMonotoneAndContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		law := drawLaw(t)
		u := rapid.Float64Range(-200, 40).Draw(t, "u")
		more := rapid.Float64Range(0, 1).Draw(t, "more")
		rise := law.Temperature(u+more) - law.Temperature(u)
		if rise < 0 || rise > 4.3*more+1e-12 { // the steepest of the drawn heat capacities' ratios
			t.Fatalf("temperature goes by %g K as enthalpy rises by %g", rise, more)
		}
		if law.Ice(u+more) > law.Ice(u) {
			t.Fatalf("ice grows from %g to %g as enthalpy rises", law.Ice(u), law.Ice(u+more))
		}
	})
}

// From t1 below 0 °C to t2 above, a volume takes frozen heat, latent heat and liquid heat, no more
// and no less, whichever way it goes: c_f·(−t1) + L + c_l·t2.
func TestNoEnergyAtTheKink(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		latent := rapid.Float64Range(5e5, 3.2e8).Draw(t, "latent")
		liquid, frozen := rapid.Float64Range(1e6, 4.3e6).Draw(t, "liquid"), rapid.Float64Range(1e6, 4.3e6).Draw(t, "frozen")
		cold, warm := rapid.Float64Range(-30, -1e-6).Draw(t, "cold"), rapid.Float64Range(0, 30).Draw(t, "warm")
		law := sim.NewLaw(latent, liquid, frozen)
		took := liquid * (law.Enthalpy(warm) - law.Enthalpy(cold))
		near(t, "heat from cold to warm", took, frozen*-cold+latent+liquid*warm, 1e-12)
	})
}

// Pipe water at −10 °C lies 333.427 + 20.97 kJ/kg under water at 0 °C (heat of fusion of IAPWS
// R6-95 less R10-06, heat capacity 2.097 kJ/(kg K) of R10-06), at half ice by half the heat of
// fusion, with the 4.219 kJ/(kg K) of R6-95 as unit.
func TestPipeWater(t *testing.T) {
	law := sim.WaterLaw()
	near(t, "enthalpy at −10 °C", law.Enthalpy(-10)*4.219, -333.427-20.97, 1e-6)
	if half := -333.427 / 2 / 4.219; law.Temperature(half) != 0 || math.Abs(law.Ice(half)-0.5) > 1e-6 {
		t.Errorf("half frozen: %g °C, ice share %g", law.Temperature(half), law.Ice(half))
	}
	for _, at := range []float64{0, 5, 20} {
		if law.Enthalpy(at) != at || law.Temperature(at) != at {
			t.Errorf("liquid at %g °C does not read as such", at)
		}
	}
}

// Water that nucleates keeps its enthalpy, returns to 0 °C and turns to slush by the adiabatic
// balance c·ΔT/L: 4.219·4/333.427 = 5.06 % at −4 °C.
func TestNucleationKeepsEnthalpy(t *testing.T) {
	u := sim.SupercooledLaw().Enthalpy(-4)
	if got := sim.SupercooledLaw().Temperature(u); got != -4 || sim.SupercooledLaw().Ice(u) != 0 {
		t.Errorf("supercooled water reads %g °C", got)
	}
	if got := sim.WaterLaw().Temperature(u); got != 0 {
		t.Errorf("%g °C after nucleation; want 0", got)
	}
	near(t, "slush", sim.WaterLaw().Ice(u), 0.0506, 1e-3)
}
