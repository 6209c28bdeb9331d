package pipe

import (
	"math"
	"testing"
)

// TestJohansen evaluates Johansen 1975 (as in Farouki 1981; quartz 7.7, other minerals 2.0 or 3.0, water
// 0.57, ice 2.2 W/m K) at points worked out independently of this code, to 0.1 %.
func TestJohansen(t *testing.T) {
	for _, c := range []struct {
		porosity, quartz, wet float64
		kind                  soilKind
		frozen                bool
		want                  float64
	}{
		{0.40, 0.4, 0.50, fineSoil, false, 1.242505}, {0.40, 0.4, 0.50, fineSoil, true, 1.5572542},
		{0.45, 0.3, 0.80, fineSoil, false, 1.3023192}, {0.45, 0.3, 0.80, fineSoil, true, 2.1271551},
		{0.35, 0.6, 0.30, coarseSoil, false, 1.4887579}, {0.35, 0.6, 0.30, coarseSoil, true, 1.2528711},
		{0.35, 0.6, 0.90, coarseSoil, false, 2.1199619}, {0.35, 0.6, 0.90, coarseSoil, true, 3.1774559},
		{0.50, 0.2, 1.00, fineSoil, false, 1.436928},
		{0.42, 0.5, 0.65, coarseSoil, false, 1.5463709}, {0.42, 0.5, 0.65, coarseSoil, true, 2.0797845},
	} {
		got := textureRow{quartz: c.quartz, kind: c.kind}.packed(&c.porosity, nil).conductivity(c.wet, c.frozen)
		if math.Abs(got/c.want-1) > 0.001 {
			t.Errorf("porosity %g quartz %g wet %g frozen %v: %g, want %g", c.porosity, c.quartz, c.wet, c.frozen, got, c.want)
		}
	}
}

// Peat at saturation: 0.55 W/m K thawed, 1.80 frozen, 0.05 dry (Farouki 1981, from memory), to 5 %.
func TestPeat(t *testing.T) {
	for _, c := range []struct {
		wet    float64
		frozen bool
		want   float64
	}{{0, false, 0.05}, {1, false, 0.55}, {1, true, 1.80}} {
		porosity := 0.9
		if got := (textureRow{kind: peatSoil}).packed(&porosity, nil).conductivity(c.wet, c.frozen); math.Abs(got/c.want-1) > 0.05 {
			t.Errorf("peat wet %g frozen %v: %g, want %g", c.wet, c.frozen, got, c.want)
		}
	}
}

// TestMakeSoilLatent holds latent heat = dry density × moisture × heat of fusion. Frost-depth manuals
// take 333.55 kJ/kg, so that 1600 kg/m³ at 15 % hold 80.05 MJ/m³; ours is IAPWS's 333.427 kJ/kg.
func TestMakeSoilLatent(t *testing.T) {
	soil, err := MakeSoil("loam", 0.15)
	if err != nil {
		t.Fatal(err)
	}
	if want := 8.0052e7 * soil.DryDensity / 1600; math.Abs(soil.Latent/want-1) > 5e-4 {
		t.Errorf("latent heat %g, want %g", soil.Latent, want)
	}
	// Thawed minus frozen capacity is the water's less the ice's, (4.22 − 2.10) kJ/kg K.
	if got, want := soil.HeatCapacityUnfrozen-soil.HeatCapacityFrozen, soil.DryDensity*0.15*2120; math.Abs(got/want-1) > 0.01 {
		t.Errorf("capacities differ by %g, want %g", got, want)
	}
}

// TestSoilTable checks published rows: porosity and field capacity of Rawls, Brakensiek and Miller 1983,
// saturated conductivity of Rawls, Brakensiek and Saxton 1982 (from memory).
func TestSoilTable(t *testing.T) {
	for _, c := range []struct {
		texture               string
		porosity, field, ksat float64
	}{
		{"sand", 0.437, 0.062, 210}, {"loam", 0.463, 0.232, 13.2}, {"silt loam", 0.501, 0.284, 6.8},
		{"sandy clay", 0.430, 0.321, 1.2}, {"silty clay", 0.479, 0.371, 0.9}, {"clay", 0.475, 0.378, 0.6},
	} {
		row, _ := findTexture(c.texture)
		volume := row.fieldCapacity
		soil, err := MakeSoil(c.texture, 0.1)
		if err != nil {
			t.Errorf("%s: %v", c.texture, err)
			continue
		}
		if soil.Porosity != c.porosity || math.Abs(volume-c.field) > 0.0005 || math.Abs(soil.SaturatedConductivity*3.6e6-c.ksat) > 1e-9 {
			t.Errorf("%s: porosity %g, field capacity %g, Ksat %g mm/h; want %v", c.texture, soil.Porosity, volume, soil.SaturatedConductivity*3.6e6, c)
		}
	}
}

// TestPackedByHand works out a loam of 1600 kg/m³ with 15 % of water. By hand: 240 kg/m³ of water give
// 240 · 0.333427 = 80.022 MJ/m³ and 240 · 4219.4 = 1.01266 MJ/m³K, the solids 1600/2700 · 1.92 = 1.13778
// MJ/m³K; porosity 1 − 1600/2700 = 0.40741, filled to 0.240038/0.40741 = 0.58919. Johansen: k_s = 7.7^0.4 ·
// 2^0.6 = 3.42936, k_dry = 280.7/1184.8 = 0.23692, k_sat = 3.42936^0.59259 · 2.2^0.40741 = 2.86200 frozen, so
// 0.23692 + 0.58919 · 2.62508 = 1.78358 W/m K.
func TestPackedByHand(t *testing.T) {
	loam, _ := findTexture("loam")
	density, porosity := 1600.0, 0.55
	soil, err := loam.packed(nil, &density).soil(0.15)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"porosity", soil.Porosity, 0.40741}, {"latent heat", soil.Latent, 80.022e6},
		{"heat capacity", soil.HeatCapacityUnfrozen, 1.13778e6 + 1.01266e6}, {"conductivity frozen", soil.ConductivityFrozen, 1.78358},
	} {
		near(t, c.what, c.got, c.want, 2e-5*c.want)
	}
	soil, err = loam.packed(&porosity, nil).soil(0.15)
	if near(t, "dry density from porosity", soil.DryDensity, 0.45*2700, 1e-9); err != nil {
		t.Error(err)
	}
	both := loam.packed(&porosity, &density) // grains of 1600/0.45 = 3556 kg/m³
	near(t, "porosity of both", both.porosity, 0.55, 0)
	near(t, "dry density of both", both.density, 1600, 0)
	near(t, "moisture of full pores", both.saturation(), 0.55*999.84/1600, 1e-12)
}

// TestSoilDirections holds for every class: wetter is never less conductive or lighter in heat and
// never freezes later, frozen conducts no worse than thawed once damp, and moisture beyond saturation is refused.
func TestSoilDirections(t *testing.T) {
	for _, name := range TextureNames() {
		row, _ := findTexture(name)
		full := row.packed(nil, nil).saturation()
		last := Soil{}
		for i := range 21 {
			soil, err := MakeSoil(name, full*float64(i)/20)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if soil.ConductivityUnfrozen < last.ConductivityUnfrozen || soil.ConductivityFrozen < last.ConductivityFrozen ||
				soil.HeatCapacityUnfrozen < last.HeatCapacityUnfrozen || soil.Latent < last.Latent {
				t.Errorf("%s falls with moisture at %d/20 of saturation", name, i)
			}
			if i > 1 && (soil.Freezing.Point < last.Freezing.Point || soil.Freezing.Exponent <= 0) {
				t.Errorf("%s at %d/20 of saturation freezes from %+v, drier from %+v", name, i, soil.Freezing, last.Freezing)
			}
			last = soil
		}
		if last.ConductivityFrozen <= last.ConductivityUnfrozen {
			t.Errorf("%s at saturation conducts %g frozen and %g thawed", name, last.ConductivityFrozen, last.ConductivityUnfrozen)
		}
		for _, bad := range []float64{-0.01, full * 1.01, math.NaN()} {
			if _, err := MakeSoil(name, bad); err == nil {
				t.Errorf("%s takes a moisture of %g", name, bad)
			}
		}
	}
	if _, err := MakeSoil("marl", 0.1); err == nil {
		t.Error("an unknown class is taken")
	}
}
