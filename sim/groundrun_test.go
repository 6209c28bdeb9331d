package sim_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// record is a weather record from a day on, a row every step [s], with air [°C] by time [s].
func record(start time.Time, rows int, step float64, air func(t float64) float64) *weather.Series {
	s := &weather.Series{Start: start}
	for i := range rows {
		s.Time = append(s.Time, float64(i)*step)
		s.Air = append(s.Air, air(s.Time[i]))
	}
	return s
}

// groundOf reads a layout with these lines on its site and puts it under a record.
func groundOf(t *testing.T, site string, s *weather.Series) *sim.GroundCase {
	t.Helper()
	l, problems := pipe.ReadLayout("l.toml", []byte("title = \"station\"\n[site]\n"+site+stationLine))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p, problems := l.MakeProfile("l.toml")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return &sim.GroundCase{Name: "station", Layout: l, Profile: p, Weather: s}
}

// simulated runs it; the books of every run must close.
func simulated(t *testing.T, k *sim.GroundCase, s sim.GroundSettings) *sim.GroundResult {
	t.Helper()
	r, err := sim.SimulateGround(context.Background(), k, s)
	if err != nil {
		t.Fatal(err)
	}
	if !(r.HeatRelative <= closeLimit) {
		t.Errorf("the heat book closes to %g only", r.HeatRelative)
	}
	return r
}

var january = time.Date(2022, 1, 1, 0, 0, 0, 0, time.UTC)

// wintry is air through the year, coldest in January: −6 to 18 °C, with a wave of 4 K by the day.
func wintry(t float64) float64 {
	return 6 - 12*math.Cos(2*math.Pi*(t/day-15)/365) - 4*math.Cos(2*math.Pi*t/day)
}

// A year under a thermometer that reads 4.9 and 5.1 °C by turns, with no heat through the bottom: 5 °C from a metre down, to the 5
// mK that a spin-up may leave, within the readings above that; no frost, no season. Above the thermometer nothing is known.
func TestGroundUnderASteadyThermometer(t *testing.T) {
	const at, deep = 0.10, 1.0
	s := record(january, 365*2+1, 12*hour, wintry)
	steady := weather.SoilTrack{Depth: at}
	for i := range s.Time {
		steady.Temp = append(steady.Temp, 4.9+0.2*float64(i%2))
	}
	s.Soil = []weather.SoilTrack{steady}
	r := simulated(t, groundOf(t, `soil = "silt loam"`, s), sim.GroundSettings{SurfaceFrom: &steady, Depths: []float64{0.05, 0.2, deep, 3, 9.9}})
	for _, track := range r.Tracks {
		limit := 0.1
		if track.Depth >= deep {
			limit = 0.005
		}
		for i, got := range track.Temp {
			if above := track.Depth < at; above != math.IsNaN(got) || !above && math.Abs(got-5) > limit+1e-3 {
				t.Fatalf("%g m, row %d: %g °C", track.Depth, i, got)
			}
		}
	}
	for i := range r.Time {
		if !math.IsNaN(r.FrostTop[i]) || !math.IsNaN(r.FrostBottom[i]) || r.Frozen[i] != 0 {
			t.Fatalf("row %d: frozen from %g to %g m", i, r.FrostTop[i], r.FrostBottom[i])
		}
	}
	if r.Field.Depths[0] < at || len(r.Seasons) != 0 || r.Surface.Drive != sim.ThermometerDrive || r.Surface.Depth != at {
		t.Errorf("picture from %g m, seasons %v, %+v", r.Field.Depths[0], r.Seasons, r.Surface)
	}
	if m := r.Measured; len(m) != 1 || m[0].All.N != len(s.Time) || math.Abs(m[0].All.Bias) > 0.001 || m[0].All.RMSE > 0.01 {
		t.Errorf("the thermometer beside the ground that it drives: %+v", m)
	}
}

// Three days of a thermometer give no annual mean: the ground starts from the mean that is listed as a guess, 8 °C, which the deepest of it
// still has; with 6 K of swing nothing freezes and shifts it.
func TestGroundUnderAShortThermometerRecord(t *testing.T) {
	s := record(january, 73, hour, wintry)
	cold := &weather.SoilTrack{Depth: 0.1, Temp: slices.Repeat([]float64{2}, 73)}
	r := simulated(t, groundOf(t, "soil = \"silt loam\"\nground_swing = \"6 K\"", s), sim.GroundSettings{SurfaceFrom: cold, Depths: []float64{9}})
	near(t, "temperature at 9 m", r.Tracks[0].Temp[72], 8, 0.03)
	i := slices.IndexFunc(r.Guesses, func(g pipe.Guess) bool { return g.Key == "site.ground_mean" })
	if i < 0 || r.Guesses[i].Value != 8 {
		t.Errorf("guesses %+v", r.Guesses)
	}
}

// A thermometer that reads what a column under air has at 10 cm drives the ground below it as that column does, through a year with
// frost: to 0.03 K in the mean and 0.15 K at any time, and to 1 cm in frost depth. The first days are left out: the two
// begin with states of daily means.
func TestGroundBelowAThermometerIsTheSameGround(t *testing.T) {
	const site, firstDays = "soil = \"silt loam\"\nsurface = \"bare\"", 10
	s := record(january, 365*2+1, 12*hour, func(t float64) float64 { // cold and mild spells by turns
		return 6 - 12*math.Cos(2*math.Pi*(t/day-15)/365) - 5*math.Cos(2*math.Pi*t/(20*day))
	})
	depths := []float64{0.1, 0.2, 0.5, 1, 2}
	whole := simulated(t, groundOf(t, site, s), sim.GroundSettings{Depths: depths})
	below := simulated(t, groundOf(t, site, s), sim.GroundSettings{Depths: depths, SurfaceFrom: &weather.SoilTrack{Depth: 0.1, Temp: whole.Tracks[0].Temp}})
	for k, z := range depths {
		worst, sum := 0.0, 0.0
		for i := 2 * firstDays; i < len(s.Time); i++ {
			off := math.Abs(whole.Tracks[k].Temp[i] - below.Tracks[k].Temp[i])
			worst, sum = math.Max(worst, off), sum+off
		}
		if mean := sum / float64(len(s.Time)-2*firstDays); worst > 0.15 || mean > 0.03 {
			t.Errorf("%g m: %.3f K apart in the mean, %.3f at most", z, mean, worst)
		}
	}
	a, b := whole.Seasons, below.Seasons
	if len(a) == 0 || len(a) != len(b) || math.Abs(a[0].Deepest-b[0].Deepest) > 0.01 || a[0].Deepest < 0.2 {
		t.Errorf("seasons %+v, below the thermometer %+v", a, b)
	}
}

// Measured columns are set beside the tracks of their depths, in order of depth. By hand: computed less measured is 1, −2, 3 K in
// the rows of March and −4 in April; a row of each kind is missing. All: bias −2/4 = −0.5, RMSE √(30/4) = 2.738613. Winter
// 2022: 2/3 and √(14/3) = 2.160247. A column without readings has no misfit, and one at a depth not asked for no place.
func TestMeasuredColumnsByHand(t *testing.T) {
	nan := math.NaN()
	s := record(time.Date(2022, 3, 28, 0, 0, 0, 0, time.UTC), 6, day, wintry) // 28 to 31 March, 1 and 2 April
	computed := []float64{2, 3, 4, 5, 6, 7}
	s.Soil = []weather.SoilTrack{
		{Depth: 0.5, Temp: []float64{nan, nan, nan, nan, nan, nan}},
		{Depth: 0.2, Temp: []float64{1, 5, nan, 2, 10, nan}},
		{Depth: 0.3, Temp: []float64{1, 1, 1, 1, 1, 1}},
	}
	m := sim.MeasuredDepths(s, []sim.GroundTrack{{Depth: 0.2, Temp: computed}, {Depth: 0.5, Temp: computed}})
	if len(m) != 2 || m[0].Depth != 0.2 || m[1].Depth != 0.5 {
		t.Fatalf("set beside: %+v", m)
	}
	near(t, "bias", m[0].All.Bias, -0.5, 1e-12)
	near(t, "RMSE", m[0].All.RMSE, 2.738613, 1e-6)
	if w := m[0].Winters; len(w) != 1 || w[0].Winter != 2022 || w[0].N != 3 || m[0].All.N != 4 {
		t.Fatalf("%d readings, winters %+v", m[0].All.N, w)
	}
	near(t, "bias in winter", m[0].Winters[0].Bias, 2.0/3, 1e-12)
	near(t, "RMSE in winter", m[0].Winters[0].RMSE, 2.160247, 1e-6)
	if m[1].All != (sim.Misfit{}) || m[1].Winters != nil {
		t.Errorf("no readings, but %+v", m[1])
	}
}

// Winters of the misfit are November to March, named by the year in which they end.
func TestMeasuredWinters(t *testing.T) {
	s := record(time.Date(2020, 10, 1, 0, 0, 0, 0, time.UTC), 456, day, wintry) // to 30 December 2021
	track := make([]float64, len(s.Time))
	s.Soil = []weather.SoilTrack{{Depth: 0.2, Temp: track}}
	w := sim.MeasuredDepths(s, []sim.GroundTrack{{Depth: 0.2, Temp: track}})[0].Winters
	if len(w) != 2 || w[0].Winter != 2021 || w[0].N != 30+31+31+28+31 || w[1].Winter != 2022 || w[1].N != 30+30 {
		t.Errorf("winters %+v; want 2021 with 151 days and 2022 with 60", w)
	}
}

// A season of frost runs from July to June. By hand: frost on 10 and 12 January to 40 and 60 cm, on 30 June to 10 cm, and from 1 July
// on, at noon, to 20 cm for two days. In air of −5 °C the freezing index is 5 K d for each day between first and last frost.
func TestFrostSeasons(t *testing.T) {
	s := record(january, 365, day, func(float64) float64 { return -5 })
	r := &sim.GroundResult{Start: s.Start.Add(12 * time.Hour), Time: s.Time, Air: s.Air}
	frost := map[string]float64{"01-10": 0.4, "01-12": 0.6, "01-20": 0.6, "06-30": 0.1, "07-01": 0.2, "07-02": 0.2}
	for _, at := range s.Time {
		deep, ok := frost[s.Stamp(at).Format("01-02")]
		if !ok {
			deep = math.NaN()
		}
		r.FrostBottom = append(r.FrostBottom, deep)
	}
	got := sim.FrostSeasons(r)
	want := []sim.FrostSeason{
		{From: 9 * day, To: 180 * day, Deepest: 0.6, DeepestAt: 11 * day, FreezingDays: 5 * 171},
		{From: 181 * day, To: 182 * day, Deepest: 0.2, DeepestAt: 181 * day, FreezingDays: 5},
	}
	if !slices.Equal(got, want) {
		t.Errorf("seasons %+v; want %+v", got, want)
	}
	for i := range r.FrostBottom {
		r.FrostBottom[i] = math.NaN()
	}
	if none := sim.FrostSeasons(r); len(none) != 0 {
		t.Errorf("no frost, but seasons %+v", none)
	}
}

// The freezing index counts only what is below 0 °C, by the mean of neighbouring rows: −4, 2, 6, −2 °C by days make 1 + 0 + 0.
func TestFreezingIndexByHand(t *testing.T) {
	air := []float64{-4, 2, 6, -2}
	s := record(january, 4, day, func(t float64) float64 { return air[int(t/day)] })
	r := &sim.GroundResult{Start: s.Start, Time: s.Time, Air: s.Air, FrostBottom: []float64{0.1, 0.1, 0.1, 0.1}}
	near(t, "freezing index [K d]", sim.FrostSeasons(r)[0].FreezingDays, 1, 1e-12)
}

// Six hours without a reading are joined straight, seven are refused with the times of the readings around them; at the record's ends the
// nearest reading holds.
func TestGapsOfADrivingThermometer(t *testing.T) {
	const rows = 40
	s := record(january, rows, hour, func(float64) float64 { return 0 })
	reading := func(i int) float64 { return 1 + 0.25*float64(i) }
	silent := func(from, n int) []float64 {
		temps := make([]float64, rows)
		for i := range temps {
			if temps[i] = reading(i); i >= from && i < from+n {
				temps[i] = math.NaN()
			}
		}
		return temps
	}
	for _, c := range []struct {
		what    string
		from, n int
		want    func(i int) float64 // in the gap
	}{
		{"none", 0, 0, nil}, {"an hour", 20, 1, reading}, {"six hours", 20, 6, reading},
		{"the first six hours", 0, 6, func(int) float64 { return reading(6) }},
		{"the last six hours", rows - 6, 6, func(int) float64 { return reading(rows - 7) }},
	} {
		temps := silent(c.from, c.n)
		got, err := sim.Bridged(temps, s.Time)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		for i, v := range got {
			want := reading(i)
			if i >= c.from && i < c.from+c.n {
				want = c.want(i)
			}
			if math.Abs(v-want) > 1e-12 {
				t.Errorf("%s: %g °C at row %d; want %g", c.what, v, i, want)
			}
		}
		if c.n > 0 && !math.IsNaN(temps[c.from]) {
			t.Errorf("%s: the record itself was changed", c.what)
		}
	}
	for _, c := range []struct {
		what           string
		from, n        int
		gapFrom, gapTo float64
	}{
		{"seven hours", 20, 7, 19 * hour, 27 * hour}, {"the first half day", 0, 12, 0, 12 * hour},
		{"the last half day", rows - 12, 12, (rows - 13) * hour, (rows - 1) * hour}, {"all", 0, rows, 0, (rows - 1) * hour},
	} {
		var gap *sim.GapError
		if _, err := sim.Bridged(silent(c.from, c.n), s.Time); !errors.As(err, &gap) || gap.From != c.gapFrom || gap.To != c.gapTo {
			t.Errorf("%s: %v; want a gap from %g to %g s", c.what, err, c.gapFrom, c.gapTo)
		}
	}
	k := groundOf(t, `soil = "silt loam"`, s)
	_, err := sim.SimulateGround(context.Background(), k, sim.GroundSettings{SurfaceFrom: &weather.SoilTrack{Depth: 0.1, Temp: silent(20, 7)}})
	if err == nil || err.Error() != "no reading for 8 h" {
		t.Errorf("a run under it: %v", err)
	}
}

// Depths that are asked for and those of measured columns are shown, in order; a thermometer below the column's 10 m is not.
func TestGroundShowsMeasuredDepths(t *testing.T) {
	s := record(january, 49, hour, wintry)
	for _, depth := range []float64{12, 0.35, 10, 9.5} {
		s.Soil = append(s.Soil, weather.SoilTrack{Depth: depth, Temp: s.Air})
	}
	r := simulated(t, groundOf(t, "soil = \"silt loam\"\nsurface = \"bare\"", s), sim.GroundSettings{Depths: []float64{1, 0.2, 0.35}})
	var tracks, measured []float64
	for _, track := range r.Tracks {
		tracks = append(tracks, track.Depth)
	}
	for _, m := range r.Measured {
		measured = append(measured, m.Depth)
	}
	if !slices.Equal(tracks, []float64{0.2, 0.35, 1, 9.5}) || !slices.Equal(measured, []float64{0.35, 9.5}) {
		t.Errorf("tracks at %v, measured columns at %v", tracks, measured)
	}
	// Bias and RMSE are those of the track that is shown.
	sum, squares := 0.0, 0.0
	for i, v := range r.Tracks[1].Temp {
		sum, squares = sum+v-s.Air[i], squares+(v-s.Air[i])*(v-s.Air[i])
	}
	near(t, "bias", r.Measured[0].All.Bias, sum/49, 1e-9)
	near(t, "RMSE", r.Measured[0].All.RMSE, math.Sqrt(squares/49), 1e-9)
}

// Guesses are listed where they matter: cover and snow only where air or sun drive the ground through them, the wind only in a
// heat balance, soil and topsoil always, mean and swing where the record is shorter than a year and nobody wrote them.
func TestGroundListsGuessesWhereTheyMatter(t *testing.T) {
	airOnly := record(january, 25, hour, wintry)
	sunny := record(january, 25, hour, wintry)
	sunny.Sun, sunny.DewPoint = make([]float64, 25), slices.Repeat([]float64{-8}, 25)
	year := record(january, 365*2+1, 12*hour, wintry)
	thermometer := &weather.SoilTrack{Depth: 0.1, Temp: slices.Repeat([]float64{2}, 25)}
	const means, soil, cover, snow, wind = "site.ground_mean site.ground_swing", "site.soil_moisture site.topsoil", "site.surface", "site.snow_on_line", "site.wind_exposure"
	for _, c := range []struct {
		what, site string
		s          *weather.Series
		from       *weather.SoilTrack
		want       []string
	}{
		{"air", `soil = "loam"`, airOnly, nil, []string{cover, means, snow, soil}},
		{"sun", `soil = "loam"`, sunny, nil, []string{cover, means, snow, soil, wind}},
		{"n-factors", "soil = \"loam\"\nn_factor = { freezing = 0.5, thawing = 1 }", sunny, nil, []string{means, soil}},
		{"a thermometer", `soil = "loam"`, sunny, thermometer, []string{means, soil}},
		{"mean and swing by hand", "soil = \"loam\"\nground_mean = \"7 degC\"\nground_swing = \"10 K\"", airOnly, nil, []string{cover, snow, soil}},
		{"a whole year", `soil = "loam"`, year, nil, []string{cover, snow, soil}},
		{"all written", "soil = \"loam\"\nsoil_moisture = \"20 %\"\ntopsoil = \"none\"\nsurface = \"bare\"\nsnow_on_line = 1", year, nil, nil},
	} {
		r := simulated(t, groundOf(t, c.site, c.s), sim.GroundSettings{SurfaceFrom: c.from, Depths: []float64{0.5}})
		var got []string
		for _, g := range r.Guesses {
			got = append(got, g.Key)
		}
		want := strings.Fields(strings.Join(c.want, " "))
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: guesses %v; want %v", c.what, got, want)
		}
	}
}

// What the reader must know: a record shorter than a year, one with few rows a day, snow that is worked out and starts bare in
// winter, and no word of snow where snow would count.
func TestGroundWarnings(t *testing.T) {
	codes := func(site string, s *weather.Series) string {
		var all []string
		for _, w := range simulated(t, groundOf(t, site, s), sim.GroundSettings{Depths: []float64{0.5}}).Warnings {
			all = append(all, w.Kind)
		}
		return strings.Join(all, " ")
	}
	short, year := record(january, 25, hour, wintry), record(january, 365*2+1, 12*hour, wintry)
	snowy := record(january, 25, hour, wintry)
	snowy.SnowDepth = make([]float64, 25)
	modelled := record(january, 25, hour, wintry)
	modelled.SnowfallWater = make([]float64, 25)
	summer := record(january.AddDate(0, 6, 0), 25, hour, wintry)
	summer.SnowfallWater = make([]float64, 25)
	for _, c := range []struct {
		what, site string
		s          *weather.Series
		want       string
	}{
		{"snow worked out from January on", `soil = "loam"`, modelled, "short-record snow-starts-bare"},
		{"snow worked out from July on", `soil = "loam"`, summer, "short-record"},
		{"short, no snow", `soil = "loam"`, short, "short-record no-snow-record"},
		{"a year of half days, no snow", `soil = "loam"`, year, "coarse-rows no-snow-record"},
		{"short, snow known", `soil = "loam"`, snowy, "short-record"},
		{"n-factors", "soil = \"loam\"\nn_factor = { freezing = 0.5, thawing = 1 }", year, "coarse-rows"},
	} {
		if got := codes(c.site, c.s); got != c.want {
			t.Errorf("%s: %q; want %q", c.what, got, c.want)
		}
	}
}

// A buried line under grass on a paved site makes a ground of its own beside the site's: warmer in frost under its snow, and without the
// measured columns. A thermometer drives one ground alone.
func TestGroundUnderOtherSurfaces(t *testing.T) {
	s := record(january, 24*4+1, hour, func(t float64) float64 { return wintry(t) - 8 })
	s.SnowDepth = slices.Repeat([]float64{0.3}, len(s.Time))
	s.Soil = []weather.SoilTrack{{Depth: 0.2, Temp: s.Air}}
	k := groundOf(t, "soil = \"loam\"\nsurface = \"paved\"\nsnow_on_line = \"cleared\"", s)
	lawn, snow := pipe.Grass, 1.0
	k.Layout.Segments[0].Surface, k.Layout.Segments[0].SnowOnLine = &lawn, &snow
	r := simulated(t, k, sim.GroundSettings{Depths: []float64{0.05, 0.2}})
	if len(r.Others) != 1 || r.Surface.Cover != pipe.Paved || r.Others[0].Surface.Cover != pipe.Grass || len(r.Measured) != 1 || r.Others[0].Measured != nil {
		t.Fatalf("%d other surfaces; %+v", len(r.Others), r.Surface)
	}
	last := len(s.Time) - 1
	paved, grass := r.Tracks[0].Temp[last], r.Others[0].Tracks[0].Temp[last]
	if !(grass > paved+0.5) || r.Others[0].Snow[last] != 0.3 || r.Snow[last] != 0 {
		t.Errorf("%.2f °C at 5 cm under cleared paving, %.2f under 30 cm of snow on grass", paved, grass)
	}
	if r := simulated(t, k, sim.GroundSettings{SurfaceFrom: &s.Soil[0], Depths: []float64{0.5}}); len(r.Others) != 0 {
		t.Errorf("a thermometer drives %d other surfaces", len(r.Others))
	}
}

// A run that is cancelled says so: before it begins, and on its way.
func TestGroundIsCancelled(t *testing.T) {
	s := record(january, 1000, hour, wintry)
	k := groundOf(t, "soil = \"silt loam\"\nsurface = \"bare\"", s)
	ctx, cancel := context.WithCancel(context.Background())
	seen := 0.0
	_, err := sim.SimulateGround(ctx, k, sim.GroundSettings{Progress: func(share float64) {
		seen = share
		cancel()
	}})
	if !errors.Is(err, context.Canceled) || seen > 0.5 {
		t.Errorf("cancelled on its way: %v, seen at %g of the way", err, seen)
	}
	if r, err := sim.SimulateGround(ctx, k, sim.GroundSettings{}); !errors.Is(err, context.Canceled) || r != nil {
		t.Errorf("cancelled before it began: %v", err)
	}
}

// The result carries what it was made of, and the frost it tells hangs together: frozen ground lies between top and bottom.
func TestGroundResultHangsTogether(t *testing.T) {
	s := record(january, 24*20+1, hour, func(t float64) float64 { return wintry(t) - 3 })
	s.SnowDepth = slices.Repeat([]float64{0.08}, len(s.Time))
	k := groundOf(t, "soil = \"silt loam\"\nsurface = \"bare\"\nsnow_on_line = \"50 %\"", s)
	r := simulated(t, k, sim.GroundSettings{})
	if r.Title != "station" || r.Name != "station" || !r.Start.Equal(january) || len(r.Tracks) != len(sim.DefaultDepths) || r.Surface.SnowKind != weather.SnowMeasured {
		t.Errorf("%q, %q, %v, %d tracks, %+v", r.Title, r.Name, r.Start, len(r.Tracks), r.Surface)
	}
	frozen := 0
	for i := range r.Time {
		near(t, "snow on the ground", r.Snow[i], 0.04, 1e-12)
		if math.IsNaN(r.FrostBottom[i]) {
			continue
		}
		frozen++
		if r.FrostTop[i] > r.FrostBottom[i] || r.Frozen[i] > r.FrostBottom[i]-r.FrostTop[i]+1e-9 || r.Frozen[i] <= 0 {
			t.Fatalf("row %d: frozen from %g to %g m, %g m in all", i, r.FrostTop[i], r.FrostBottom[i], r.Frozen[i])
		}
		for _, track := range r.Tracks {
			if track.Depth > r.FrostBottom[i] && track.Temp[i] < -0.1 {
				t.Fatalf("row %d: %g °C at %g m, below the frost's %g m", i, track.Temp[i], track.Depth, r.FrostBottom[i])
			}
		}
	}
	if frozen < len(r.Time)/2 || len(r.Seasons) != 1 {
		t.Errorf("frozen in %d of %d rows, seasons %+v", frozen, len(r.Time), r.Seasons)
	}
}

// Ground that has come to rest under a thermometer of 5.3 °C exchanges next to nothing; its heat book closes all the same.
func TestGroundAtRest(t *testing.T) {
	const rows = 365*2 + 1
	s := record(january, rows, 12*hour, func(float64) float64 { return 4 })
	steady := &weather.SoilTrack{Depth: 1, Temp: slices.Repeat([]float64{5.3}, rows)}
	r := simulated(t, groundOf(t, `soil = "silt loam"`, s), sim.GroundSettings{SurfaceFrom: steady, Depths: []float64{1.5, 5}})
	for _, track := range r.Tracks {
		near(t, "temperature", track.Temp[rows-1], 5.3, 1e-3)
	}
}
