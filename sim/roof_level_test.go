package sim_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// roofOnly is reliefHouse with a lid, a slot and a pocket in tight clay at the end of its line, and a downspout that
// joins it. The pump never runs.
func roofOnly(t *testing.T, rain []float64, step float64) *sim.Result {
	t.Helper()
	text := reliefHouse[:strings.LastIndex(reliefHouse, "[[segment]]")]
	text = strings.Replace(text, "every 10 h for 100 s", "every 1000 h for 1 s", 1)
	text = strings.Replace(text, "length = \"2 m\"\ndrop = \"0 m\"", "length = \"6 m\"\ndrop = \"0.06 m\"", 1)
	text = strings.Replace(text, "return_share = \"50 %\"\nreturn_delay = \"1 h\"\n",
		"ground_slope = \"0 %\"\n[site.soil_override]\nsaturated_conductivity = \"0.0001 mm/h\"\n", 1)
	text += "[outlet]\nkind = \"lid\"\nlevel = \"3 cm\"\nweep = \"10 mm x 50 mm\"\n" +
		"[pocket]\nlength = \"0.5 m\"\nwidth = \"0.5 m\"\ndepth = \"0.4 m\"\nvoid = \"40 %\"\n" +
		"[[extra_inflow]]\nkind = \"roof\"\narea = \"40 m2\"\njoins = \"out\"\n"
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC), Rain: rain}
	for i := range rain {
		s.Time, s.Air = append(s.Time, float64(i)*step), append(s.Air, 5)
	}
	k := caseOf(t, text, s, sim.Supply{})
	r := resultOf(t, k)
	return r
}

// Roof water stands in standpipe and outlet riser to one level, as communicating vessels do: that of the lid. The
// pocket takes 40 L, the line some 60 L; of 480 L the rest leaves while it rains, and nothing after that.
func TestRoofWaterStandsLevel(t *testing.T) {
	rain := make([]float64, 24)
	rain[2], rain[3], rain[4] = 4e-3, 4e-3, 4e-3
	r := roofOnly(t, rain, 3600)
	fill := map[string]float64{}
	last := len(rain) - 1
	for i, s := range r.Segments {
		fill[s.Name] = r.Hourly.Segments[i].Fill[last]
	}
	if fill["out"] < 0.999 || fill["outlet riser"] < 0.98 {
		t.Errorf("the line stands %.3f full, the riser to the lid %.3f", fill["out"], fill["outlet riser"])
	}
	bottom := r.Hourly.Standpipe[0] // dry: the invert; the rim lies at 0.8 m
	if level := bottom + fill["standpipe"]*(0.8-bottom); math.Abs(level-0.03) > 0.02 {
		t.Errorf("the standpipe stands at %.3f m beside a lid at 0.03 m", level)
	}
	if out := r.Hourly.Outlet; out[last]-out[6] > 1e-9 || out[5] < 0.36 {
		t.Errorf("%.4f m³ left by the end of the rain, %.4f m³ after it", out[5], out[last]-out[6])
	}
}

// A sixth of the rain of an hour in each of six rows leaves the line as full.
func TestRoofWaterByRowSpacing(t *testing.T) {
	hourly, often := make([]float64, 12), make([]float64, 67)
	for i := 2; i < 5; i++ {
		hourly[i] = 4e-3
		for k := range 6 {
			often[6*i+k] = 4e-3 / 6
		}
	}
	a, b := roofOnly(t, hourly, 3600), roofOnly(t, often, 600)
	for i, s := range a.Segments {
		x, y := a.Hourly.Segments[i].Fill[11], b.Hourly.Segments[i].Fill[66]
		if math.Abs(x-y) > 0.02 {
			t.Errorf("%s: %.3f full with hourly rows, %.3f with rows of 10 min", s.Name, x, y)
		}
	}
}
