package weather

import (
	"math"
	"testing"
)

// relative says by how much got misses want.
func relative(got, want float64) float64 { return math.Abs(got-want) / math.Abs(want) }

// Depth = water equivalent × density of water / density of snow (definition). The last
// row is a measured pack: United States Army Cold Regions Research and Engineering
// Laboratory, Special Report 96-4, Table 4: 46.8 mm in 232 mm of snow, relative density 0.202.
func TestSnowDepth(t *testing.T) {
	cases := []struct{ water, density, depth, tolerance float64 }{
		{0.010, 100, 0.1, 0.002},
		{0.025, 100, 0.25, 0.002},
		{0.050, 250, 0.2, 0.002},
		{0.080, 300, 0.266667, 0.002},
		{0.015, 70, 0.214286, 0.002},
		{0.0468, 202, 0.232, 0.005},
	}
	for _, c := range cases {
		if got := SnowDepth(c.water, c.density); relative(got, c.depth) > c.tolerance {
			t.Errorf("%g m of water at %g kg/m³: got %g m, want %g", c.water, c.density, got, c.depth)
		}
	}
}

// Evaluated from Hedstrom and Pomeroy (1998), 67.92 + 51.25 exp(T/2.59), apart from this
// program.
func TestFreshSnowDensity(t *testing.T) {
	cases := []struct{ air, want float64 }{
		{-15, 68.0765}, {-10, 68.9987}, {-2, 91.5973}, {0, 119.17}, {1, 119.17},
	}
	for _, c := range cases {
		if got := FreshSnowDensity(c.air); relative(got, c.want) > 0.002 {
			t.Errorf("at %g °C: got %g kg/m³, want %g", c.air, got, c.want)
		}
	}
}

// Evaluated from limit − (limit − ρ) exp(−0.24 t/day), Verseghy (1991) and Douville et
// al. (1995), apart from this program; the limit is 300 in the cold and 400 in melting snow.
func TestAgedDensity(t *testing.T) {
	cases := []struct{ density, air, hours, want float64 }{
		{100, -5, 6, 111.647}, {100, -5, 24, 142.674}, {100, 0, 240, 281.856},
		{150, -5, 24, 182.006}, {200, -5, 48, 238.122}, {250, -5, 100, 281.606},
		{340, -5, 24, 340}, // denser than settled snow: left as it is
		{300, 1, 48, 338.122}, {250, 0.1, 24, 282.006},
	}
	for _, c := range cases {
		got := AgedDensity(c.density, c.air, c.hours*3600)
		if relative(got, c.want) > 0.00001 {
			t.Errorf("%g kg/m³ after %g h at %g °C: got %g, want %g", c.density, c.hours, c.air, got, c.want)
		}
	}
}

// Melt = factor × degrees above 0 °C × time, factors in mm/(°C day): 2.74 is the general
// value of the USDA National Engineering Handbook, part 630, chapter 11 (0.06 in/(°F day),
// from memory), 2.42 forest in Kuusisto (1980), 3.5 the default here.
func TestDegreeDayMelt(t *testing.T) {
	cases := []struct{ factor, air, hours, want float64 }{
		{2.74, 5, 24, 13.7}, {2.74, 2, 72, 16.44}, {2.42, 4, 24, 9.68},
		{3.5, 1.5, 48, 10.5}, {4, 8, 24, 32}, {3.5, 3, 7, 3.0625}, {3.5, -5, 24, 0},
	}
	for _, c := range cases {
		got := 1000 * DegreeDayMelt(c.factor/1000/secondsPerDay, c.air, c.hours*3600)
		if math.Abs(got-c.want) > 0.001*c.want {
			t.Errorf("factor %g, %g °C, %g h: got %g mm, want %g", c.factor, c.air, c.hours, got, c.want)
		}
	}
	// Kuusisto (1980), abstract: 3.51 mm/(°C day) in the open; to the digits used here.
	if got := degreeDayFactor * 1000 * secondsPerDay; math.Abs(got-3.51) > 0.05 {
		t.Errorf("default factor: got %g mm/(°C day), want 3.51 to one decimal", got)
	}
}

// 10 mm of water fall in one hour at -10 °C, lie for ten days at -10 °C and melt at 4 °C.
// By hand from the formulas above: 0.010·1000/68.9987 = 0.1449 m fresh; density after
// 239 h 300 − 231.0013·exp(−2.39) = 278.83, so 0.03586 m; an hour later 279.044, and after
// 5 h of thaw 400 − 120.956·exp(−0.05) = 284.943; 14 mm melt a day at 4 °C, so that it is
// gone 17.1 h after the thaw begins.
func TestPack(t *testing.T) {
	const thaw = 241
	s := hourly(thaw+30, func(h float64) float64 {
		if h < thaw {
			return -10
		}
		return 4
	})
	s.SnowfallWater = make([]float64, len(s.Time))
	s.SnowfallWater[0] = 0.010
	k := s.Snow()
	depth := k.Depth
	if k.Kind != SnowModelled || depth[0] != 0 {
		t.Fatalf("got kind %v, first depth %g, want modelled and bare", k.Kind, depth[0])
	}
	if relative(depth[1], 0.1449) > 0.001 {
		t.Errorf("fresh: got %g m, want 0.1449", depth[1])
	}
	if i := thaw - 1; relative(depth[i], 0.03586) > 0.001 {
		t.Errorf("settled: got %g m, want 0.03586", depth[i])
	}
	for row, want := range map[int]float64{0: 68.9987, 1: 68.9987, thaw - 1: 278.83, thaw + 5: 284.943, thaw + 25: 119.17} {
		if relative(k.Density[row], want) > 0.0001 {
			t.Errorf("density at row %d: got %g kg/m³, want %g", row, k.Density[row], want)
		}
	}
	if depth[thaw+17] <= 0 || depth[thaw+18] != 0 {
		t.Errorf("17 h and 18 h into the thaw: got %g and %g m, want snow and none", depth[thaw+17], depth[thaw+18])
	}
}

// The pack does not go by how often the record was written: a winter of snowfall, thaw
// and cold in hours and in half-hours, within 1 %.
func TestPackHalfHours(t *testing.T) {
	hours := hourly(24*60, func(h float64) float64 { return -3 + 6*math.Sin(h/40) })
	hours.SnowfallWater = make([]float64, len(hours.Time))
	halves := &Series{Start: hours.Start}
	for i := range hours.Time {
		if i%50 < 8 {
			hours.SnowfallWater[i] = 0.001
		}
		half := hours.SnowfallWater[i] / 2
		halves.SnowfallWater = append(halves.SnowfallWater, half, half)
		halves.Time = append(halves.Time, hours.Time[i], hours.Time[i]+1800)
		halves.Air = append(halves.Air, hours.Air[i], hours.airOver(min(i, len(hours.Time)-2)))
	}
	a, b := hours.Snow(), halves.Snow()
	for i := range a.Depth {
		if math.Abs(a.Depth[i]-b.Depth[2*i]) > 0.01*a.Depth[i]+0.0005 || relative(b.Density[2*i], a.Density[i]) > 0.01 {
			t.Fatalf("hour %d: got %g m of %g kg/m³ from hours, %g m of %g from half-hours",
				i, a.Depth[i], a.Density[i], b.Depth[2*i], b.Density[2*i])
		}
	}
}

// The record's own depth comes first, then snowfall, then rain that fell in the cold.
func TestSnowSource(t *testing.T) {
	s := hourly(4, func(h float64) float64 { return 2*h - 4 }) // means -3, -1, 1, 3
	if k := s.Snow(); k.Kind != SnowNone || k.Depth != nil || k.Density != nil {
		t.Errorf("no columns: got %+v", k)
	}
	s.Rain = []float64{0.002, 0.002, 0.002, 0.002, 0}
	if k := s.Snow(); k.Kind != SnowModelled || k.Depth[2] <= k.Depth[1] || k.Depth[3] >= k.Depth[2] {
		t.Errorf("rain: got %+v, want snow from the first two hours alone", k)
	}
	s.SnowfallWater = make([]float64, 5)
	if k := s.Snow(); k.Kind != SnowModelled || k.Depth[4] != 0 {
		t.Errorf("no snowfall recorded: got %+v, want bare ground", k)
	}
	s.SnowDepth = []float64{0.1, 0.2, 0.3, 0.4, 0.5}
	if k := s.Snow(); k.Kind != SnowMeasured || k.Depth[4] != 0.5 {
		t.Errorf("measured: got %+v", k)
	}
}
