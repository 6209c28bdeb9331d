package pipe

import (
	"math"
	"testing"
)

// TestFreezingByHand works out curves of soils at field capacity. By hand: 999.84 · 333.427 / 273.15 = 1220.478
// kPa/K, so that the point is −33/1220.478 = −0.0270386 °C for each; 1/b = ln(θ33/θ1500)/ln(1500/33) with
// ln(1500/33) = 3.816713:
//
//	clay       ln(0.378/0.265) = 0.355164, 1/b = 0.0930550; at −1 °C e^(−0.0930550 · 3.610490) = 0.71464, at −5 °C 0.61524
//	silt loam  ln(0.284/0.135) = 0.743699, 1/b = 0.1948534; 0.49484 and 0.36164
//	sand       ln(0.062/0.024) = 0.949081, 1/b = 0.2486644; 0.40746 and 0.27307
func TestFreezingByHand(t *testing.T) {
	for _, c := range []struct {
		texture             string
		exponent, one, five float64
	}{{"clay", 0.0930550, 0.71464, 0.61524}, {"silt loam", 0.1948534, 0.49484, 0.36164}, {"sand", 0.2486644, 0.40746, 0.27307}} {
		row, _ := findTexture(c.texture)
		f := row.freezing(row.fieldCapacity)
		near(t, c.texture+" point", f.Point, -0.0270386, 1e-6)
		near(t, c.texture+" exponent", f.Exponent, c.exponent, 1e-6)
		near(t, c.texture+" liquid at -1 °C", f.Liquid(-1), c.one, 1e-4)
		near(t, c.texture+" liquid at -5 °C", f.Liquid(-5), c.five, 1e-4)
		near(t, c.texture+" liquid above the point", f.Liquid(-0.027), 1, 0)
	}
}

// TestFreezingAtAnyMoisture: the wilting point's water freezes from 1500/1220.478 = −1.22903 °C on. In wetter soil
// that water is what stays liquid there, full sand included, whose point would be −0.00001 °C and is held at
// −0.001 °C; drier soil begins no lower than −5 °C. Soil without water has no curve.
func TestFreezingAtAnyMoisture(t *testing.T) {
	for _, row := range textures {
		near(t, row.name+" at the wilting point", row.freezing(row.wilting).Point, -1.22903, 1e-4)
		for _, water := range []float64{row.fieldCapacity, row.porosity} {
			f := row.freezing(water)
			near(t, row.name+" liquid there", water*f.Liquid(-1.22903), row.wilting, 1e-5)
		}
		if f := row.freezing(row.wilting / 3); f.Point < -5 || f.Point > -1.229 || f.Exponent <= 0 {
			t.Errorf("dry %s freezes along %+v", row.name, f)
		}
	}
	sand, _ := findTexture("sand")
	near(t, "full sand", sand.freezing(sand.porosity).Point, -0.001, 0)
	near(t, "nearly dry sand", sand.freezing(0.01).Point, -5, 0)
	if f := sand.freezing(0); f != (FreezingCurve{}) || f.Liquid(0) != 1 || f.Liquid(-1e-9) != 0 {
		t.Errorf("dry sand freezes along %+v, %g liquid", f, f.Liquid(-1e-9))
	}
}

// TestUnfrozenWater sets the curves beside the regression of unfrozen water on specific surface of Anderson and
// Tice 1972: ln w = 0.2618 + 0.5519 ln S − 1.449 S^−0.264 ln|T|, w in % of dry weight, S in m²/g, here 2 m²/g for each %
// of clay with the clay of Cosby and others 1984 (all from memory). The two come from different measurements, so
// they need only agree within a factor: 1.5 at −1 °C and 2 at −5 °C, where drying curves hold more; 2.2 in sands at
// −1 °C and 2.7 in silt loam at −5 °C.
func TestUnfrozenWater(t *testing.T) {
	for _, c := range []struct {
		texture   string
		clay      float64 // [%]
		one, five float64 // factors allowed
	}{
		{"sand", 3, 2.2, 2}, {"loamy sand", 6, 2.2, 2}, {"sandy loam", 10, 1.5, 2}, {"loam", 18, 1.5, 2},
		{"silt loam", 13, 1.5, 2.7}, {"sandy clay loam", 27, 1.5, 2}, {"clay loam", 34, 1.5, 2}, {"silty clay loam", 34, 1.5, 2},
		{"sandy clay", 42, 1.5, 2}, {"silty clay", 47, 1.5, 2}, {"clay", 58, 1.5, 2},
	} {
		moisture, _, _, _ := DefaultMoisture(c.texture)
		soil, err := MakeSoil(c.texture, moisture)
		if err != nil {
			t.Fatal(err)
		}
		surface := 2 * c.clay
		for _, p := range []struct{ temperature, factor float64 }{{-1, c.one}, {-5, c.five}} {
			regression := math.Exp(0.2618+0.5519*math.Log(surface)-1.449*math.Pow(surface, -0.264)*math.Log(-p.temperature)) / 100
			regression = math.Min(regression, moisture)
			got := moisture * soil.Freezing.Liquid(p.temperature)
			if off := math.Abs(math.Log(got / regression)); off > math.Log(p.factor) {
				t.Errorf("%s at %g °C holds %.1f %% of liquid water, the regression %.1f %%; want within a factor of %g",
					c.texture, p.temperature, 100*got, 100*regression, p.factor)
			}
		}
	}
}

// TestSiltRetention works out the moisture of silt from van Genuchten's curve, θ = 0.034 + 0.426 (1 + (α h)^1.37)^(−0.27007),
// at h = 33 and 1500 kPa over 9.80665 kPa/m: α h = 1.6 · 3.365 = 5.384 and 1.6 · 152.96 = 244.7. By hand 0.2567 and 0.0897.
func TestSiltRetention(t *testing.T) {
	row, _ := findTexture("silt")
	near(t, "field capacity", row.fieldCapacity, 0.2567, 0.005)
	near(t, "wilting point", row.wilting, 0.0897, 0.005)
}
