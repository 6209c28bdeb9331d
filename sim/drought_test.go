package sim

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/weather"
)

// steadyWeather is a record of so many days from 1 January, a row a day, all alike, without rain: air 20 °C, 60 % of humidity, sun
// 250 and sky 350 W/m², wind 2 m/s at 2 m.
func steadyWeather(days int) *weather.Series {
	s := &weather.Series{Start: time.Date(2021, 1, 1, 0, 0, 0, 0, time.UTC), Rain: make([]float64, days+1)}
	for d := range days + 1 {
		s.Time, s.Air, s.DewPoint = append(s.Time, 86400*float64(d)), append(s.Air, 20), append(s.DewPoint, 12)
		s.Sun, s.LongWave, s.Wind = append(s.Sun, 250), append(s.LongWave, 350), append(s.Wind, 2/0.748)
	}
	return s
}

// soilHolding is a soil of whose water plants can draw so much in the root zone [m].
func soilHolding(water float64) pipe.Soil { return pipe.Soil{AvailableWater: water / rootZone} }

// droughtOf is the balance of a record over a soil, and the most that evaporates in a day [m].
func droughtOf(s *weather.Series, soil pipe.Soil) (d *drought, daily float64) {
	e := newEnergy(s, openExposure, soil)
	return e.water, e.reference(0) * 86400 / evaporate
}

// The reference evaporation against FAO 56, eq. 6, in its own units and with its rounded constants, for the weather above: Rn =
// 0.77·250 + 0.97·(350 − 418.8) = 125.8 W/m² = 10.87 MJ/(m² d), Δ 0.145, γ 0.067, es − ea = 2.338 − 1.403 kPa, u2 2:
// [0.408·0.145·10.87 + 0.067·900/293·2·0.935]/[0.145 + 0.067·1.68] = (0.643 + 0.385)/0.2576 = 3.99 mm a day. To 2 %.
func TestReferenceEvaporation(t *testing.T) {
	s := steadyWeather(2)
	_, daily := droughtOf(s, soilHolding(0.1))
	within(t, "evaporation [mm/d]", 1000*daily, 3.99, 0.02*3.99)
	s.Air[0], s.DewPoint[0] = -0.1, -5
	if e := newEnergy(s, openExposure, soilHolding(0.1)); e.reference(0) != 0 || e.reference(1) == 0 {
		t.Errorf("grass gives off %g W/m² below 0 °C and %g above", e.reference(0), e.reference(1))
	}
	s.Sun[1], s.LongWave[1], s.DewPoint[1] = 0, 300, 20
	if e := newEnergy(s, openExposure, soilHolding(0.1)); e.reference(1) != 0 {
		t.Errorf("a dewy night gives off %g W/m²", e.reference(1))
	}
}

// A week by hand (FAO 56, eqs. 82 to 85, p = 0.5) in a soil that holds eight days' evaporation E, from a full root zone. Up to a
// lack of 4 E grass draws E a day; then Ks = (8 − D/E)/4: D/E = 0, 1, 2, 3, 4, 5, Ks 0.75, so 5.75, Ks 0.5625, so 6.3125, Ks
// 0.421875, so 6.734375. Then 3 E of rain fall: 6.734375 + 0.31640625 − 3 = 4.05078125, Ks 0.9873046875, and so much that
// nothing lacks. Day 0 is full because a flood ends the record, which is gone through twice.
func TestDroughtByHand(t *testing.T) {
	s := steadyWeather(12)
	_, e := droughtOf(s, soilHolding(1))
	s.Rain[8], s.Rain[9], s.Rain[11] = 3*e, 20*e, 20*e
	d, _ := droughtOf(s, soilHolding(8*e))
	lack := []float64{0, 1, 2, 3, 4, 5, 5.75, 6.3125, 6.734375, 4.05078125, 0, 1, 0}
	stress := []float64{1, 1, 1, 1, 1, 0.75, 0.5625, 0.421875, 0.31640625, 0.9873046875, 1, 1, 1}
	for i := range lack {
		within(t, "lack over a day's evaporation", d.lack[i]/e, lack[i], 1e-9)
		within(t, "stress coefficient", d.stress[i], stress[i], 1e-9)
	}
}

// The soil that holds 160 mm in FAO 56's example 38 (from memory), but with half of it easy to draw: no stress down to a lack of 80 mm, Ks
// = (160 − D)/80 beyond, 0.60 at 112 mm; two dry months leave hardly anything.
func TestDroughtOfARootZoneInMillimetres(t *testing.T) {
	s := steadyWeather(60)
	s.Rain[59] = 1
	d, _ := droughtOf(s, soilHolding(0.160))
	for i, lack := range d.lack {
		want := math.Min(1, (160-1000*lack)/(0.5*160))
		within(t, "stress coefficient", d.stress[i], want, 1e-9)
	}
	if last := d.lack[59]; !(last > 0.140 && last < 0.160) {
		t.Errorf("after 59 dry days %g m of 0.160 lack", last)
	}
}

// Snowfall is water as rain is.
func TestDroughtCountsSnowfall(t *testing.T) {
	rain, snow := steadyWeather(20), steadyWeather(20)
	snow.SnowfallWater = make([]float64, 21)
	for i := 3; i < 20; i += 4 {
		rain.Rain[i], snow.SnowfallWater[i] = 0.006, 0.006
	}
	a, _ := droughtOf(rain, soilHolding(0.05))
	b, _ := droughtOf(snow, soilHolding(0.05))
	if !slices.Equal(a.lack, b.lack) || a.lack[10] == 0 {
		t.Errorf("lack by rain %v, by snow %v", a.lack, b.lack)
	}
}

// Neither the stress coefficient nor the lack ever leaves its range, be the weather what it may.
func TestDroughtKeepsItsRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := steadyWeather(60)
		for i := range s.Time {
			s.Air[i] = rapid.Float64Range(-20, 45).Draw(t, "air")
			s.DewPoint[i] = s.Air[i] - rapid.Float64Range(0, 40).Draw(t, "dew point below air")
			s.Sun[i] = rapid.Float64Range(0, 400).Draw(t, "sun")
			s.Rain[i] = rapid.SampledFrom([]float64{0, 0, 0, 0.002, 0.3}).Draw(t, "rain")
		}
		room := rapid.Float64Range(0.001, 0.2).Draw(t, "room")
		d, _ := droughtOf(s, soilHolding(room))
		room = math.Max(room, rootZone*leastWater)
		for i := range s.Time {
			if !(d.stress[i] >= 0 && d.stress[i] <= 1 && d.lack[i] >= 0 && d.lack[i] <= room*(1+1e-12)) {
				t.Fatalf("row %d: stress %g, lack %g of %g", i, d.stress[i], d.lack[i], room)
			}
		}
	})
}

// Where it rains more than evaporates every day grass never lacks water.
func TestWetClimateHasNoDrought(t *testing.T) {
	s := steadyWeather(40)
	for i := range s.Rain {
		s.Rain[i] = 0.010
	}
	d, _ := droughtOf(s, soilHolding(0.05))
	if slices.Min(d.stress) != 1 || slices.Max(d.lack) != 0 {
		t.Errorf("stress down to %g, lack up to %g m", slices.Min(d.stress), slices.Max(d.lack))
	}
}

// Nothing holds evaporation back where the record has no rain, or nothing says how damp the air is.
func TestDroughtNeedsRainAndVapour(t *testing.T) {
	s := steadyWeather(3)
	s.Rain = nil
	if d, _ := droughtOf(s, soilHolding(0.05)); d != nil {
		t.Error("a drought without rain in the record")
	}
	s = steadyWeather(3)
	s.DewPoint = nil
	if d := newEnergy(s, openExposure, soilHolding(0.05)).water; d != nil {
		t.Error("a drought without a dew point")
	}
}

// A root zone does not begin full: where half of what could evaporate rains, evaporation comes to rest at Ks = 0.5, which is a lack of
// 1 − 0.5·0.5 of what the soil holds, and the first year begins with it. So does the mean of the cold season, over the
// root zone's depth.
func TestDroughtBeginsWhereItsYearEnds(t *testing.T) {
	const held = 0.060 // [m]
	s := steadyWeather(365)
	_, e := droughtOf(s, soilHolding(held))
	for i := range s.Rain {
		s.Rain[i] = e / 2
	}
	d, _ := droughtOf(s, soilHolding(held))
	for _, row := range []int{0, 100, 365} {
		within(t, "stress coefficient", d.stress[row], 0.5, 1e-3)
		within(t, "lack [m]", d.lack[row], 0.75*held, 1e-4)
	}
	site := &pipe.Site{Soil: soilHolding(held), WindExposure: openExposure}
	within(t, "lack in winter, by volume", winterLack(s, site), 0.75*held/rootZone, 1e-4)
	site.Surface = pipe.Paved
	within(t, "lack under paving", winterLack(s, site), 0, 0)
	site.Surface = pipe.Bare
	s.Sun = nil
	within(t, "lack that nothing tells of", winterLack(s, site), 0, 0)
	part := steadyWeather(300)
	within(t, "lack of a part of a year", winterLack(part, site), 0, 0)
}

// What counts is the cold season, November to March: rain then, and the summer's drought is none of it.
func TestWinterLackIsOfTheColdSeason(t *testing.T) {
	site := &pipe.Site{Soil: soilHolding(0.060), WindExposure: openExposure}
	lack := func(wet func(m time.Month) bool) float64 {
		s := steadyWeather(365)
		for i, at := range s.Time {
			if wet(s.Stamp(at).Month()) {
				s.Rain[i] = 0.200
			}
		}
		return winterLack(s, site)
	}
	cold := func(m time.Month) bool { return m >= time.November || m <= time.March }
	// The dry summer's lack is there on the first morning of November; the day's flood ends it.
	within(t, "rain in the cold season", lack(cold), 0, 0.060/rootZone/150)
	if dry := lack(func(m time.Month) bool { return !cold(m) }); dry < 0.06 {
		t.Errorf("rain in summer alone leaves a lack of %g in winter, of 0.08 that the soil holds", dry)
	}
}

// The moisture that nobody wrote goes down by the lack in winter: silt loam at 10 kPa holds 0.284·(33/10)^0.19485 = 0.3584 by
// volume; after a year without rain it lacks all that plants can draw, 0.284 − 0.135 = 0.149.
func TestMoistureIsAsDryAsTheRecord(t *testing.T) {
	text := "[site]\nsoil = \"silt loam\"\nsurface = \"bare\"\nwind_exposure = 0.4\n" + lineOfPipe
	moisture, _, _, _ := pipe.DefaultMoisture("silt loam")
	byWeight := moisture / 0.3584
	for _, c := range []struct{ rain, left float64 }{{0.010, 0.3584}, {0, 0.3584 - 0.149}} {
		l, problems := pipe.ReadLayout("l.toml", []byte(text))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		s := steadyWeather(365)
		for i := range s.Rain {
			s.Rain[i] = c.rain
		}
		drier := asDryAsRecorded(l, s)
		within(t, "moisture by volume", drier.Site.Soil.Moisture/byWeight, c.left, 5e-4)
		within(t, "the layout's own", l.Site.Soil.Moisture, moisture, 0)
	}
}

// lineOfPipe is a line that a layout must have and that the undisturbed ground does not notice.
const lineOfPipe = `
[[segment]]
name = "line"
pipe = "4 in D3034"
length = "5 m"
slope = "1/8 in/ft"
setting = "buried"
cover = "12 in"
[outlet]
kind = "open"
`

// By the same equation in winds of 1 and 4 m/s at 2 m: (0.643 + 0.192)/(0.145 + 0.067·1.34) = 3.56 and (0.643 + 0.770)/(0.145 +
// 0.067·2.36) = 4.66 mm a day. To 3 %.
func TestReferenceEvaporationInWind(t *testing.T) {
	for _, c := range []struct{ wind, want float64 }{{1, 3.56}, {4, 4.66}} {
		s := steadyWeather(1)
		s.Wind[0] = c.wind / 0.748
		e := newEnergy(s, openExposure, soilHolding(0.1))
		within(t, "evaporation [mm/d]", e.reference(0)*86400/evaporate*1000, c.want, 0.03*c.want)
	}
}
