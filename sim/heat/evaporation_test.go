package heat_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"winterline/sim/heat"
)

// within fails the test where a number lies further from the wanted one than a limit.
func within(t *testing.T, what string, got, want, limit float64) {
	t.Helper()
	if !(math.Abs(got-want) <= limit) {
		t.Errorf("%s: %.6g; want %.6g within %.3g", what, got, want, limit)
	}
}

// near is within a share of the wanted number.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	within(t, what, got, want, share*math.Abs(want))
}

// Saturation pressure and its slope as FAO 56 prints them: example 3 (1.705 kPa at 15 °C, 3.075 at 24.5), annex 2,
// tables 2.3 and 2.4 (the others; all from memory). The limits are half a unit of the last digit printed.
func TestVapourPressureOfFAO56(t *testing.T) {
	for _, c := range []struct{ t, kilopascal float64 }{{1, 0.657}, {15, 1.705}, {20, 2.338}, {24.5, 3.075}, {30, 4.243}, {40, 7.376}} {
		within(t, "pressure", heat.VapourPressure(c.t), 1000*c.kilopascal, 0.6)
	}
	for _, c := range []struct{ t, kilopascal float64 }{{1, 0.047}, {10, 0.082}, {20, 0.145}, {30, 0.243}, {40, 0.393}} {
		within(t, "slope", heat.VapourPressureSlope(c.t), 1000*c.kilopascal, 0.5)
	}
}

// The slope is that of the pressure, by a central difference over 0.02 K.
func TestVapourPressureSlopeIsItsDerivative(t *testing.T) {
	for at := -40.0; at <= 50; at += 2.5 {
		want := (heat.VapourPressure(at+0.01) - heat.VapourPressure(at-0.01)) / 0.02
		near(t, "slope", heat.VapourPressureSlope(at), want, 1e-6)
	}
}

// Saturation pressure over ice as the Smithsonian Meteorological Tables print it from Goff and Gratch 1946 (6.107,
// 4.015, 2.597, 1.032, 0.1283 hPa; from memory), to 0.3 %: more than the forms differ by. Over water that has not
// frozen it is higher, the more so the colder; at 0 °C the two meet.
func TestVapourPressureOverIce(t *testing.T) {
	for _, c := range []struct{ t, hectopascal float64 }{{0, 6.107}, {-5, 4.015}, {-10, 2.597}, {-20, 1.032}, {-40, 0.1283}} {
		near(t, "pressure over ice", heat.VapourPressureIce(c.t), 100*c.hectopascal, 0.003)
	}
	near(t, "water over ice at 0 °C", heat.VapourPressure(0)/heat.VapourPressureIce(0), 1, 0.001)
	last := 1.001
	for at := -1.0; at >= -40; at-- {
		if ratio := heat.VapourPressure(at) / heat.VapourPressureIce(at); ratio <= last {
			t.Errorf("water over ice %g at %g °C, %g a degree above", ratio, at, last)
		} else {
			last = ratio
		}
	}
}

// Over the reference grass of FAO 56 (box 4: height 0.12 m, displacement ⅔ and roughness 0.123 of it) the
// resistance at 2 m is 208/u s/m, a figure that its authors rounded from 207.6. By hand over bare soil at 2 m, roughness 5 mm, 3
// m/s: ln 400 · ln 4000 / (0.41² · 3) = 5.99146 · 8.29405/0.5043 = 98.54 s/m.
func TestAerodynamicResistance(t *testing.T) {
	for _, u := range []float64{0.5, 2, 8} {
		near(t, "grass", heat.AerodynamicResistance(u, 2, 0.08, 0.0148), 208/u, 0.004)
	}
	near(t, "bare soil", heat.AerodynamicResistance(3, 2, 0, 0.005), 98.54, 1e-4)
}

// By hand at 20 °C: dry air 101325 · 0.0289586/(8.314463 · 293.15) = 1.20384 kg/m³, times 1013 J/(kg K) 1219.5 J/(m³
// K); behind 100 s/m 12.195 W/(m² K). Bowen's ratio, heat over vapour for 1 K and 1 Pa, is the psychrometric constant:
// 67.4 Pa/K at sea level (FAO 56, table 2.2: 0.067 kPa/K; from memory).
func TestExchangeCoefficients(t *testing.T) {
	near(t, "heat", heat.SensibleCoefficient(20, 100), 12.195, 1e-4)
	for _, at := range []float64{-20, 0, 35} {
		bowen := heat.SensibleCoefficient(at, 80) * 5 / heat.LatentFlux(at, 1200, 900, 80)
		near(t, "Bowen's ratio", bowen, 67.4*5/300, 1e-9)
	}
	if dew := heat.LatentFlux(10, 800, 1000, 100); !(dew < 0) {
		t.Errorf("vapour that condenses carries %g W/m² off", dew)
	}
}

// FAO 56, example 19 (from memory): grass by the hour in October in Senegal, at 3 pm 38 °C, 52 % humidity, 3.3 m/s, net
// radiation 1.749 and ground 0.175 MJ/(m² h), which give 0.63 mm/h; at 3 am 28 °C, 90 %, 1.9 m/s, −0.100 and −0.050
// MJ/(m² h), which give 0.00. The canopy's resistance is 70 s/m, evaporation takes 2.45 MJ/kg. FAO's form rounds the
// constants of the air; the limit is half its last digit.
func TestHourlyExampleOfFAO56(t *testing.T) {
	for _, c := range []struct{ t, humidity, wind, net, want float64 }{{38, 0.52, 3.3, 1.749 - 0.175, 0.63}, {28, 0.90, 1.9, -0.100 + 0.050, 0.00}} {
		vapour := c.humidity * heat.VapourPressure(c.t)
		flux := heat.PenmanMonteith(c.t, vapour, c.net*1e6/3600, 208/c.wind, 70)
		within(t, "evaporation [mm/h]", flux*3600/2.45e6, c.want, 0.005)
	}
}

// Over a wet surface in saturated air evaporation is in equilibrium: slope/(slope + γ) of the net radiation (Slatyer and
// McIlroy 1961, from memory), whatever the wind. By hand at 20 °C: 144.74/(144.74 + 67.4) = 0.6823.
func TestEquilibriumEvaporation(t *testing.T) {
	for _, aerodynamic := range []float64{20, 200} {
		near(t, "share of 300 W/m²", heat.PenmanMonteith(20, heat.VapourPressure(20), 300, aerodynamic, 0)/300, 0.6823, 1e-4)
	}
}

// Penman–Monteith is the balance of a surface whose vapour pressure runs straight: a surface dt warmer than the air gives
// off heat and vapour, and what it takes in to do so is its net radiation.
func TestPenmanMonteithIsTheSurfaceBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air, dt := rapid.Float64Range(0, 35).Draw(t, "air"), rapid.Float64Range(-5, 5).Draw(t, "warmer")
		humidity := rapid.Float64Range(0.1, 1).Draw(t, "humidity")
		aerodynamic, surface := rapid.Float64Range(10, 300).Draw(t, "aerodynamic"), rapid.Float64Range(0, 500).Draw(t, "surface")
		vapour := humidity * heat.VapourPressure(air)
		straight := heat.VapourPressure(air) + heat.VapourPressureSlope(air)*dt
		latent := heat.LatentFlux(air, straight, vapour, aerodynamic+surface)
		net := latent + heat.SensibleCoefficient(air, aerodynamic)*dt
		if got := heat.PenmanMonteith(air, vapour, net, aerodynamic, surface); math.Abs(got-latent) > 1e-9*(1+math.Abs(net)) {
			t.Fatalf("%g W/m²; the surface gives off %g", got, latent)
		}
	})
}

// By hand for air of 0 °C at 2 m moving at 2 m/s: Ri = 9.81 · 2 · (Ta − Ts)/(273.15 · 4). Over a surface of −5 °C it is
// 0.089786, the factor 1/1.89786 = 0.52691; over one of 2 °C −0.035914, the factor 1.35914; over one of 20 °C 1 − 10 Ri is 4.59,
// held to 3. In calm air a warm surface keeps the 3, and a cold one loses all exchange.
func TestStratification(t *testing.T) {
	for _, c := range []struct{ surface, wind, want float64 }{{-5, 2, 0.52691}, {0, 2, 1}, {2, 2, 1.35914}, {20, 2, 3}, {2, 0.1, 3}} {
		near(t, "factor", heat.Stratification(0, c.surface, 2, c.wind), c.want, 1e-5)
	}
	if calm := heat.Stratification(0, -5, 2, 0.01); calm > 1e-4 {
		t.Errorf("in calm air a cold surface keeps a factor of %g", calm)
	}
}

// The warmer the surface, the better the exchange, without a jump as it passes the air's temperature.
func TestStratificationRisesWithTheSurface(t *testing.T) {
	for _, wind := range []float64{0.3, 1, 3, 10} {
		last := 0.0
		for ts := -20.0; ts <= 20; ts += 0.01 {
			now := heat.Stratification(5, ts, 2, wind)
			if now < last || ts > -20 && now > last*1.05+0.05 {
				t.Fatalf("wind %g: the factor goes from %g to %g at %g °C", wind, last, now, ts)
			}
			last = now
		}
	}
}
