package report

import (
	"math"
	"testing"

	"winterline/pipe/units"
)

func TestPrintedQuantities(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		// Fixed points of the scales: 0 °C is 32 °F, -40 is the same in both.
		{US.temperature(0), "32 °F"},
		{US.temperature(-40), "-40 °F"},
		{SI.temperature(-0.2), "0 °C"},
		{US.bothTemperatures(8), "46 °F (8 °C)"},
		{SI.bothTemperatures(-3), "-3 °C (27 °F)"},
		// A difference has no 32 in it: 5 K are 9 °F.
		{US.bothDifferences(5), "9 °F (5 °C)"},
		{US.bothDifferences(4), "7 °F (4 °C)"},
		{SI.difference(-0.4), "0 °C"},
		// 1 in = 25.4 mm and 1 ft = 12 in exactly.
		{US.length(0.0254), "1 in"},
		{US.length(0.0254 * 1.5), "1.5 in"},
		{US.length(0.0254 * 14), "14 in"},
		{US.length(0.3048 * 2), "2 ft"},
		{US.length(0.3048 * 7.5), "7.5 ft"},
		{US.length(0.3048 * 14), "14 ft"},
		{US.length(0), "0 in"},
		{SI.length(0.0095), "10 mm"},
		{SI.length(0.25), "25 cm"},
		{SI.length(4.27), "4.3 m"},
		{SI.length(123.4), "123 m"},
		{SI.length(-0.25), "-25 cm"},
		// 1 US gallon = 3.785411784 L exactly.
		{US.volume(3.785411784e-3 * 4310), "4,310 gal"},
		{US.volume(3.785411784e-3 * 9.5), "9.5 gal"},
		{SI.volume(1.2345678), "1,235 L"},
		{US.flow(3.785411784e-3 * 42 / 60), "42 gal/min"},
		{SI.flow(0.0021 / 60), "2.1 L/min"},
		// 1 mph = 0.44704 m/s exactly.
		{US.speed(0.44704 * 12), "12 mph"},
		{SI.speed(3.14159), "3.1 m/s"},
		{US.airSpeed(0.3048 * 2.14), "2.1 ft/s"},
		{SI.airSpeed(0.62), "0.6 m/s"},
		{SI.length(math.NaN()), "unknown"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// Each step of a ladder is left exactly where its rounded number would reach the limit.
func TestLadderEdges(t *testing.T) {
	for _, c := range []struct {
		edge         float64
		below, above string
		print        func(float64) string
	}{
		{0.995, "99 cm", "1 m", SI.length},
		{0.0295, "29 mm", "3 cm", SI.length},
		{99.95, "99.9 m", "100 m", SI.length},
		{0.00995, "9.9 L", "10 L", SI.volume},
		{23.5 * 0.0254, "23 in", "2 ft", US.length},
	} {
		if got := c.print(math.Nextafter(c.edge, 0) - 1e-12); got != c.below {
			t.Errorf("below %v: got %q, want %q", c.edge, got, c.below)
		}
		if got := c.print(c.edge + 1e-12); got != c.above {
			t.Errorf("above %v: got %q, want %q", c.edge, got, c.above)
		}
	}
}

func TestFixedNumbers(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{-0.0004, 3, "0.000"}, {-0.0006, 3, "-0.001"}, {math.Copysign(0, -1), 2, "0.00"},
		{1234.5, 1, "1234.5"}, {math.NaN(), 2, ""}, {math.Inf(1), 2, ""},
	} {
		if got := fixed(c.v, c.decimals); got != c.want {
			t.Errorf("fixed(%v, %d) = %q, want %q", c.v, c.decimals, got, c.want)
		}
	}
	for v, want := range map[float64]string{999: "999", 1000: "1,000", -1234567: "-1,234,567"} {
		if got := number(v, 0); got != want {
			t.Errorf("number(%v) = %q, want %q", v, got, want)
		}
	}
}

func TestUnitsOfDimensions(t *testing.T) {
	// Only pure numbers have no unit.
	for d := units.Length; d <= units.HydraulicConductivity; d++ {
		pure := d == units.Fraction || d == units.Slope
		if (siUnit(d) == "") != pure {
			t.Errorf("dimension %d has unit %q", d, siUnit(d))
		}
	}
}

func TestSpokenDuration(t *testing.T) {
	for seconds, want := range map[float64]string{
		20: "less than a minute", 60: "1 minute", 89 * 60: "89 minutes", 90 * 60: "2 hours",
		47.4 * 3600: "47 hours", 48 * 3600: "2 days", 18.2 * 86400: "18 days",
	} {
		if got := spokenDuration(seconds); got != want {
			t.Errorf("%v s: got %q, want %q", seconds, got, want)
		}
	}
}

// 1 psi is 6894.757 Pa: 3.5 MPa are 507.6 psi, 0.034 MPa 4.93, and 208.5 MPa 30,237.
func TestPressures(t *testing.T) {
	for p, want := range map[float64]string{3.5e6: "510 psi (3.5 MPa)", 0.034e6: "4.9 psi (0.034 MPa)", 208.5e6: "30,000 psi (210 MPa)", 6.894757e6: "1,000 psi (6.9 MPa)", 2e6: "290 psi (2 MPa)"} {
		if got := US.bothPressures(p); got != want {
			t.Errorf("%g Pa: %q, want %q", p, got, want)
		}
	}
}
