package sim

import (
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// within fails the test where a number lies further from the wanted one than a limit.
func within(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, limit float64) {
	t.Helper()
	if !(math.Abs(got-want) <= limit) {
		t.Errorf("%s: %.7g; want %.7g within %.2g", what, got, want, limit)
	}
}

// sees checks what the ground sees.
func (b behind) sees(t *testing.T, what string, resistance, temperature float64) {
	t.Helper()
	within(t, what+": resistance", b.resistance, resistance, 1e-5)
	within(t, what+": temperature", b.temperature, temperature, 1e-9)
}

// snowed is a surface driven by air, with snow in the open of a depth [m] at 250 kg/m³.
func snowed(cover pipe.Surface, snowOn, depth, air float64) *surface {
	return &surface{cover: cover, snowOn: snowOn, air: []float64{air}, snow: []float64{depth}, density: []float64{250}}
}

// Film, cover and snow lie in series. By hand: film 1/20 = 0.05; snow of 250 kg/m³ conducts 0.024 − 1.23e−4·250 +
// 2.5e−6·250² = 0.1495 W/(m K) (Calonne et al. 2011), so that 30 cm have 2.00669 m²K/W, half of that 1.00334; turf 0.10, gravel and
// paving none of their own.
func TestSurfaceResistancesInSeries(t *testing.T) {
	snowed(pipe.Grass, 1, 0.30, -7).at(0, 0, 0.01).sees(t, "grass under snow", 0.05+0.10+2.00669, -7)
	snowed(pipe.Grass, 0.5, 0.30, -7).at(0, 0, 0.01).sees(t, "half of it", 0.05+0.10+1.00334, -7)
	snowed(pipe.Bare, 1, 0, -7).at(0, 0, 0.01).sees(t, "bare", 0.05, -7)
	snowed(pipe.Gravel, 0, 0.30, -7).at(0, 0, 0.01).sees(t, "gravel, cleared", 0.05, -7)
	snowed(pipe.Paved, 0, 0.30, 12).at(0, 0, 0.01).sees(t, "paving, cleared, in a thaw", 0.05, 12)
	unknown := &surface{cover: pipe.Grass, snowOn: 1, air: []float64{-7}}
	unknown.at(0, 0, 0.01).sees(t, "no snow known", 0.15, -7)
	within(t, "without snow, for the annual wave", snowed(pipe.Grass, 1, 0.30, -7).bare(), 0.15, 1e-12)
}

// Snow that melts wets cold ground with water of 0 °C, from above the centimetre on and in air above 0 °C, but gives no
// more heat than melts it. By hand: 3.5 mm a day and kelvin are 3.5e-3/86400 · 999.84 · 333427 = 13.505 W/(m² K), 40.515 at 3 °C.
// Ground of −0.5 °C takes 0.5/(0.10 + 0.01) = 4.5 of them; of −8 °C it would take 72.7, and gets the 40.515 besides what comes
// through the snow, as from air of 40.515 · 1.437793 = 58.252 °C behind all of it. Ground above 0 °C freezes nothing.
func TestSurfaceMeltingSnow(t *testing.T) {
	snowed(pipe.Grass, 1, 0.20, 3).at(0, -0.5, 0.01).sees(t, "turf", 0.10, 0)
	snowed(pipe.Bare, 1, 0.20, 3).at(0, -0.1, 0.01).sees(t, "bare soil", leastSurface, 0)
	cold := snowed(pipe.Grass, 1, 0.20, 3).at(0, -8, 0.01)
	within(t, "cold ground: resistance", cold.resistance, 1.437793, 1e-5)
	within(t, "cold ground: temperature", cold.temperature, 58.252, 0.01)
	snowed(pipe.Grass, 1, 0.20, 3).at(0, 0.5, 0.01).sees(t, "ground above 0 °C", 0.10+0.20/0.1495, 0)
	snowed(pipe.Grass, 1, 0.01, 3).at(0, 0, 0.01).sees(t, "a centimetre", 0.05+0.10+0.01/0.1495, 3)
	snowed(pipe.Grass, 1, 0.20, 0).at(0, 0, 0.01).sees(t, "air at 0 °C", 0.05+0.10+0.20/0.1495, 0)
	snowed(pipe.Grass, 0.04, 0.20, 3).at(0, 0, 0.01).sees(t, "blown off to 8 mm", 0.05+0.10+0.008/0.1495, 3)
}

// A written surface resistance replaces film, cover and snow, melting snow as well; one of zero is a millimetre of soil.
func TestSurfaceResistanceByHand(t *testing.T) {
	for _, c := range []struct{ written, want float64 }{{0.3, 0.3}, {0, leastSurface}} {
		f := snowed(pipe.Grass, 1, 0.20, 3)
		f.resistance = &c.written
		f.at(0, 0, 0.01).sees(t, "written", c.want, 3)
		within(t, "for the annual wave", f.bare(), c.want, 0)
		if f.covered() {
			t.Error("cover and snow play a part beside a written resistance")
		}
	}
}

// n-factors: the surface is 0.7 times as cold as the air in frost and 1.4 times as warm in thaw, whatever lies on it. A
// thermometer: the surface has what it reads.
func TestSurfaceByNFactorsAndByThermometer(t *testing.T) {
	f := &surface{cover: pipe.Grass, snowOn: 1, air: []float64{-10, 20, 0}, snow: []float64{0.3, 0.3, 0.3}, density: []float64{250, 250, 250},
		nFactor: &pipe.NFactor{Freezing: 0.7, Thawing: 1.4}, drive: NFactorDrive}
	for row, want := range []float64{-7, 28, 0} {
		f.at(row, 0, 0.01).sees(t, "n-factors", leastSurface, want)
	}
	th := &surface{cover: pipe.Grass, snowOn: 1, air: []float64{-10}, snow: []float64{0.3}, density: []float64{250}, drive: ThermometerDrive, measured: []float64{1.25}}
	th.at(0, 0, 0.01).sees(t, "thermometer", leastSurface, 1.25)
	if f.covered() || th.covered() || !snowed(pipe.Bare, 1, 0, 0).covered() {
		t.Error("cover and snow play a part beside air and sun, and beside nothing else")
	}
}

// The surface is driven by its heat balance where the record has the sun and either long-wave radiation or the dew point; written
// n-factors and a written resistance win.
func TestSurfaceDriveByWhatTheRecordHas(t *testing.T) {
	column := []float64{1, 2}
	of := func(sun, long, dew []float64) *weather.Series {
		return &weather.Series{Time: []float64{0, 3600}, Air: column, Sun: sun, LongWave: long, DewPoint: dew}
	}
	written := 0.2
	for _, c := range []struct {
		what string
		s    *weather.Series
		site pipe.Site
		want SurfaceDrive
	}{
		{"air alone", of(nil, nil, nil), pipe.Site{}, AirDrive},
		{"sun alone", of(column, nil, nil), pipe.Site{}, AirDrive},
		{"dew point and long-wave", of(nil, column, column), pipe.Site{}, AirDrive},
		{"sun and long-wave", of(column, column, nil), pipe.Site{}, EnergyDrive},
		{"sun and dew point", of(column, nil, column), pipe.Site{}, EnergyDrive},
		{"n-factors beside them", of(column, nil, column), pipe.Site{NFactor: &pipe.NFactor{}}, NFactorDrive},
		{"a resistance beside them", of(column, nil, column), pipe.Site{SurfaceResistance: &written}, AirDrive},
	} {
		f := newSurface(&c.site, groundKey{pipe.Grass, 1}, c.s, weather.SnowPack{})
		f.prepare()
		if f.drive != c.want || (f.energy != nil) != (c.want == EnergyDrive) {
			t.Errorf("%s: drive %d, balance %t; want drive %d", c.what, f.drive, f.energy != nil, c.want)
		}
	}
}

// Sun that the ground under grass takes in goes part down and part back up through turf and snow. By Kirchhoff's laws at the top of the turf
// (ts) and at its foot (tg): h(temp − ts) = (ts − tg)/below and (ts − tg)/below + under = (tg − top)/half.
func TestSurfaceSunUnderGrass(t *testing.T) {
	const top, half = 2.0, 0.004
	for _, snow := range []float64{0, 0.03} {
		f := &surface{cover: pipe.Grass, snowOn: 1, drive: EnergyDrive, air: []float64{-3}, snow: []float64{snow}, density: []float64{250}, energy: balmy(-3, 60)}
		below := 0.10 + snow/0.1495
		h, temp, under := f.energy.at(0, pipe.Grass, snow, top, below+half)
		if under <= 0 {
			t.Fatalf("no sun gets through grass under %g m of snow", snow)
		}
		through := 1/h + below
		tg := (temp/through + under + top/half) / (1/through + 1/half)
		b := f.at(0, top, half)
		within(t, "heat into the ground [W/m²]", (b.temperature-top)/(b.resistance+half), (tg-top)/half, 1e-6)
	}
}

// balmy is a heat balance of one row in a wind of 3 m/s at 2 m under a sky that is as black and as warm as the air [°C],
// with sun [W/m²] and no vapour known.
func balmy(air, sun float64) *energy {
	return &energy{air: []float64{air}, sun: []float64{sun}, sky: []float64{black(air)}, wind: []float64{3}}
}

// black is what a black body at t [°C] radiates [W/m²].
func black(t float64) float64 { return heat.StefanBoltzmann * math.Pow(t+heat.Kelvin, 4) }

// A clear day from dawn to dusk over bare soil, again and again: the ground at 2 cm is warmest one to four hours after
// noon and coldest between the last hours of the night and an hour after sunrise, warmer than the air by day and
// colder by night; down to 12 cm the daily wave fades and lags as in a half-space, e^(−Δz/d) and Δz/d, d = √(α · 1 day/π).
func TestSurfaceFromDawnToDusk(t *testing.T) {
	const days, air, upper, lower = 6, 12.0, 0.02, 0.12
	s := &weather.Series{Start: time.Date(2021, 5, 1, 0, 0, 0, 0, time.UTC)}
	for h := range days*24 + 1 {
		s.Time = append(s.Time, 3600*float64(h))
		s.Air = append(s.Air, air)
		s.Sun = append(s.Sun, 800*math.Max(0, math.Sin(2*math.Pi*float64(h-6)/24)))
		s.LongWave = append(s.LongWave, 280)
		s.Wind = append(s.Wind, 4)
	}
	soil := pipe.Soil{ConductivityUnfrozen: 1.2, ConductivityFrozen: 1.2, HeatCapacityUnfrozen: 2.4e6, HeatCapacityFrozen: 2.4e6}
	site := &pipe.Site{Soil: soil, Surface: pipe.Bare, SnowOnLine: 1, WindExposure: openExposure}
	g, err := NewGround(site, s, air, upper, lower)
	if err != nil {
		t.Fatal(err)
	}
	last := func(depth float64) (warmest, coldest int, wave complex128) {
		warmest, coldest = 0, 0
		for h := range 24 {
			row := (days-1)*24 + h
			at := g.Temperature(depth, row)
			if at > g.Temperature(depth, (days-1)*24+warmest) {
				warmest = h
			}
			if at < g.Temperature(depth, (days-1)*24+coldest) {
				coldest = h
			}
			sin, cos := math.Sincos(2 * math.Pi * float64(h) / 24)
			wave += complex(at*cos, at*sin) / 12
		}
		return warmest, coldest, wave
	}
	warm, cold, above := last(upper)
	if warm < 13 || warm > 16 || cold < 4 || cold > 7 {
		t.Errorf("warmest at %d h, coldest at %d h", warm, cold)
	}
	if noon, night := g.Temperature(upper, (days-1)*24+12), g.Temperature(upper, (days-1)*24+4); noon < air+3 || night > air-0.5 {
		t.Errorf("%.1f °C at noon and %.1f °C in the night, in air of %g °C", noon, night, air)
	}
	_, _, beneath := last(lower)
	d := math.Sqrt(1.2 / 2.4e6 * 86400 / math.Pi)
	fade := beneath / above
	within(t, "fading from 2 to 12 cm", math.Hypot(real(fade), imag(fade)), math.Exp(-(lower-upper)/d), 0.02)
	within(t, "lag from 2 to 12 cm [rad]", math.Atan2(imag(fade), real(fade)), (lower-upper)/d, 0.03)
}
