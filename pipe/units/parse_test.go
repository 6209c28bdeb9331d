package units

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestParse holds definitions and factors of NIST SP 811 (2008), appendix B: expected values and
// tolerances are the printed ones; 0 means that the definition is exact.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		text string
		want float64
		tol  float64
	}{
		// Exact by definition: inch 25.4 mm, foot 0.3048 m, yard 0.9144 m.
		{Length, "1 in", 0.0254, 0}, {Length, "1 ft", 0.3048, 0}, {Length, "1 yd", 0.9144, 0},
		{Length, "1-1/2 in", 0.0381, 0}, {Length, "1 1/2 in", 0.0381, 0}, {Length, "1½ in", 0.0381, 0}, {Length, "1.5 in", 0.0381, 0},
		{Length, "3/8 in", 0.009525, 0}, {Length, `18"`, 0.4572, 0}, {Length, "8 ft 6 in", 2.5908, 0}, {Length, `8'6"`, 2.5908, 0},
		{Length, "48.3 mm", 0.0483, 1e-17}, {Length, "-2 in", -0.0508, 0}, {Length, "−2 in", -0.0508, 0}, {Length, "1e3 mm", 1, 0}, {Length, "\t9 ft ", 2.7432, 0},
		{Area, "1 ft2", 9.290304e-2, 0}, {Area, "1 in²", 6.4516e-4, 0}, {Area, "40 m2", 40, 0},
		{Volume, "1 gal", 3.785412e-3, 5e-10}, {Volume, "1 ft3", 2.831685e-2, 5e-9}, {Volume, "25 L", 0.025, 0},
		{Duration, "45 s", 45, 0}, {Duration, "6 h", 21600, 0}, {Duration, "3 days", 259200, 0}, {Duration, "2 min", 120, 0},
		{Speed, "1 mph", 4.4704e-1, 0}, {Speed, "1 ft/s", 3.048e-1, 0}, {Speed, "1 km/h", 2.777778e-1, 5e-8}, {Speed, "1 knot", 5.144444e-1, 5e-8},
		{Flow, "1 gal/min", 6.309020e-5, 5e-12}, {Flow, "1 gpm", 6.309020e-5, 5e-12}, {Flow, "1 gal/d", 4.381264e-8, 5e-15},
		{Flow, "60 L/min", 1e-3, 0}, {Flow, "3600 L/h", 1e-3, 1e-18}, {Flow, "3600 m3/h", 1, 0},
		// SP 811 B.9: t/°C = (t/°F − 32)/1.8. Fixed points of the scales.
		{Temperature, "32 degF", 0, 0}, {Temperature, "212 °F", 100, 0}, {Temperature, "-40 F", -40, 0}, {Temperature, "9 degC", 9, 0},
		// A difference has no 32: a kelvin is 1.8 degrees Fahrenheit.
		{TemperatureDifference, "18 degF", 10, 0}, {TemperatureDifference, "12 K", 12, 0}, {TemperatureDifference, "5 degC", 5, 0},
		{Fraction, "24 %", 0.24, 0}, {Fraction, "0.24", 0.24, 0},
		{Slope, "1/8 in/ft", 1. / 96, 0}, {Slope, "1/4 in/ft", 1. / 48, 0}, {Slope, "2 %", 0.02, 0}, {Slope, "10 mm/m", 0.01, 0},
		{Conductivity, "1.2 W/m/K", 1.2, 0}, {Conductivity, "1.2 W/(m K)", 1.2, 0}, {Conductivity, "1.2 W/(m·K)", 1.2, 0},
		{Conductivity, "1 Btu in/h/ft2/degF", 1.442279e-1, 5e-8}, {Conductivity, "1 Btu/h/ft/degF", 1.730735, 5e-7},
		{Density, "1 lb/ft3", 1.601846e1, 5e-6}, {Density, "1400 kg/m3", 1400, 0}, {Density, "1 g/cm³", 1000, 0},
		{SpecificHeat, "900 J/kg/K", 900, 0}, {SpecificHeat, "1 Btu/lb/degF", 4.1868e3, 0},
		{VolumetricHeat, "2.6 MJ/m3/K", 2.6e6, 0}, {VolumetricHeat, "1 Btu/ft3/degF", 6.70661e4, 0.5},
		{VolumetricLatent, "80 MJ/m3", 80e6, 0}, {VolumetricLatent, "1 Btu/ft3", 3.725895e4, 5e-3},
		{FilmCoefficient, "15 W/m2/K", 15, 0}, {FilmCoefficient, "1 Btu/h/ft2/degF", 5.678263, 5e-7},
		{ThermalResistance, "0.10 m2K/W", 0.1, 0}, {ThermalResistance, "1 h ft2 degF/Btu", 1.761102e-1, 5e-8},
		{HydraulicConductivity, "3600 mm/h", 1e-3, 0}, {HydraulicConductivity, "1 in/h", 7.055556e-6, 5e-13},
	} {
		got, err := Parse(c.d, c.text)
		if err != nil || math.Abs(got-c.want) > c.tol {
			t.Errorf("Parse(%s, %q) = %v, %v; want %v within %g", c.d, c.text, got, err, c.want, c.tol)
		}
	}
}

// TestFractionsRound checks every sixty-fourth of an inch up to 4 in against exact arithmetic:
// 1/64 in is 0.396875 mm, and k·0.396875 mm is exact in decimal.
func TestFractionsRound(t *testing.T) {
	for k := 1; k < 256; k++ {
		text := fractionText(k)
		got, err := Parse(Length, text+" in")
		want := float64(k) * 396875 / 1e9
		if err != nil || got != want {
			t.Errorf("%s in = %v, %v; want %v", text, got, err, want)
		}
		if below := math.Nextafter(want, 0); got <= below {
			t.Errorf("%s in = %v is not above its lower neighbour", text, got)
		}
	}
}

func fractionText(sixtyFourths int) string {
	whole, num, den := sixtyFourths/64, sixtyFourths%64, 64
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	digits := func(n int) string { return strings.TrimSpace(Write(Fraction, float64(n))) }
	switch {
	case num == 0:
		return digits(whole)
	case whole == 0:
		return digits(num) + "/" + digits(den)
	}
	return digits(whole) + "-" + digits(num) + "/" + digits(den)
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		d           Dimension
		text        string
		found, want string // parts of what is found and expected
	}{
		{Length, "9", "(no unit)", "a length"},
		{Length, "4 degF", "a temperature", "a length"},
		{Temperature, "9 K", "a temperature difference", "a temperature"},
		{TemperatureDifference, "9 ft", "a length", "a temperature difference"},
		{Length, "9 furlong", "unknown unit", "a length"},
		{Length, "", "nothing", "a length"}, {Length, "ft", "ft", "a length"}, {Length, "about 9 ft", "about", "a length"},
		{Length, "1,200 ft", "1,200", "a length"}, {Length, "30 CM", `unknown unit "CM" (did you mean "cm"?)`, "a length"}, {Length, "1-3/2 in", "1-3/2", "a length"}, {Length, "1/0 in", "1/0", "a length"},
		{Length, "1/2/3 in", "1/2/3", "a length"}, {Length, "8 ft 13 in", "8 ft 13 in", "a length"}, {Length, "nan m", "nan", "a length"},
		{Length, "inf m", "inf", "a length"}, {Length, "1e400 m", "1e400", "a length"}, {Length, "1e308 km", "1e308", "a value below 1.8e308"},
		{Length, "0x10 m", "0x10", "a length"}, {Length, "9 9 m", "9 9", "a length"}, {Slope, "1/8 in", "a length", "a slope"},
		{Conductivity, "15 W/m2/K", "a film coefficient", "a thermal conductivity"}, {Fraction, "24 mm", "a length", "a share"},
		{Length, strings.Repeat("9", 5000) + " parsec", "…", "a length"},
	} {
		v, err := Parse(c.d, c.text)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%s, %q) = %v, %v; want an *Error", c.d, c.text, v, err)
			continue
		}
		if !strings.Contains(e.Found, c.found) || !strings.HasPrefix(e.Expected, c.want) || len(e.Error()) > 400 {
			t.Errorf("Parse(%s, %q): %v; want found …%s…, expected %s…", c.d, c.text, e, c.found, c.want)
		}
	}
}

// TestEveryUnitReadsBack writes each value in SI and reads it back to the bit, and reads each
// spelling of each unit in its own dimension alone.
func TestEveryUnitReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension(rapid.IntRange(int(Length), int(HydraulicConductivity)).Draw(t, "dimension"))
		v := rapid.Float64Range(-1e12, 1e12).Draw(t, "value")
		text := Write(d, v)
		if got, err := Parse(d, text); err != nil || got != v {
			t.Fatalf("Parse(%s, %q) = %v, %v; want %v", d, text, got, err, v)
		}
	})
	for d := Length; d <= HydraulicConductivity; d++ {
		for _, u := range unitsOf(d) {
			for _, name := range strings.Fields(u.names) {
				got, err := Parse(d, "3 "+name)
				if want := (3 - u.offset) * u.num / u.den; err != nil || got != want {
					t.Errorf("3 %s = %v, %v; want %v", name, got, err, want)
				}
			}
		}
		if len(unitsOf(d)) == 0 || d.Expected() == "" {
			t.Errorf("dimension %d has no units or no description", d)
		}
	}
}

// FuzzParse holds that no text makes the reader panic or hand out what is no number.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"1-1/2 in", "9 degC", "½ ft", "8 ft 6 in", "1e5 mm", "--1 m", "1/ /2 m", "\xff m"} {
		f.Add(int(Length), s)
	}
	f.Fuzz(func(t *testing.T, d int, s string) {
		dim := Dimension(((d % 18) + 18) % 18)
		if v, err := Parse(dim, s); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Fatalf("Parse(%s, %q) = %v", dim, s, v)
		}
	})
}
