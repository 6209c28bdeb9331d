package sim_test

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// longRecord is invented weather from 1 July on, over so many winters. Where it is sunny it has what the surface's heat
// balance takes, and rain and snowfall by their water in place of a measured snow depth.
func longRecord(winters int, sunny bool) *weather.Series {
	s := inventedWeather(7, time.Date(2001, 7, 1, 0, 0, 0, 0, time.UTC), winters*365*24+24)
	if !sunny {
		return s
	}
	s.SnowDepth = nil
	for h := range s.Time {
		sun := math.Max(0, math.Sin(2*math.Pi*(float64(h)-6)/24)) * (450 - 300*math.Cos(2*math.Pi*(s.Time[h]/86400-174)/365))
		rain := math.Max(0, math.Sin(float64(h)/37)*math.Sin(float64(h)/91)-0.8) * 4e-3
		s.Sun, s.Rain = append(s.Sun, sun*(1-0.7*s.Cloud[h])), append(s.Rain, rain)
	}
	return s
}

// wintersOf takes a case apart.
func wintersOf(t testing.TB, k *sim.Case) ([]weather.Winter, []*sim.Case) {
	t.Helper()
	winters, _ := k.Weather.WholeWinters()
	each, err := sim.EachWinter(context.Background(), []*sim.Case{k}, winters, sim.Settings{}, 2)
	if err != nil {
		t.Fatal(err)
	}
	return winters, each[0]
}

// groundTolerance is how far the ground of a winter taken out of its record may be from that of the record run whole
// [K]: steps are the same, but clocks that begin elsewhere round otherwise.
const groundTolerance = 1e-9

// The ground of a winter taken out of a record is that of the record run whole, whatever drives it: soil temperatures,
// frost, snow. So is what becomes of the line, but for rounding, though it begins anew at every season.
func TestWinterGoesOnWithTheGround(t *testing.T) {
	for _, sunny := range []bool{false, true} {
		n := 2
		if long() {
			n = 5
		}
		s := longRecord(n, sunny)
		k := caseOf(t, winterLines[2].text("every 6 h for 45 s"), s, sim.Supply{})
		whole, err := sim.Run(context.Background(), k, oneSimulation)
		if err != nil {
			t.Fatal(err)
		}
		winters, cases := wintersOf(t, k)
		if len(winters) != n {
			t.Fatalf("%d winters, want %d", len(winters), n)
		}
		for i, one := range cases {
			name := fmt.Sprintf("sunny %v, winter %s", sunny, winters[i].Name())
			r, err := sim.Run(context.Background(), one, oneSimulation)
			if err != nil {
				t.Fatal(err)
			}
			first := winters[i].Season.From
			worst := 0.0
			for j, track := range r.Ground.Tracks {
				for row, temp := range track.Temp {
					worst = math.Max(worst, math.Abs(temp-whole.Ground.Tracks[j].Temp[first+row]))
				}
			}
			t.Logf("%s: ground differs by up to %.2g K", name, worst)
			if !(worst <= groundTolerance) {
				t.Errorf("%s: ground differs by up to %.2g K", name, worst)
			}
			sameIce(t, name, r, whole, first)
		}
	}
}

// sameIce wants the ice of a winter to be that of the record's run from a row on, once the line had a month to settle.
func sameIce(t *testing.T, name string, r, whole *sim.Result, first int) {
	t.Helper()
	worst, most := 0.0, 0.0
	for j, s := range r.Hourly.Segments {
		for row := 30 * 24; row < len(s.Ice); row++ {
			most = math.Max(most, s.Ice[row])
			worst = math.Max(worst, math.Abs(s.Ice[row]-whole.Hourly.Segments[j].Ice[first+row]))
		}
	}
	t.Logf("%s: most ice %.3f, differs by up to %.2g", name, most, worst)
	if !(worst <= 0.02) {
		t.Errorf("%s: ice differs by a share of up to %.3f", name, worst)
	}
}

// A winter that is warmer or colder begins with the ground as the record left it, and feels the shift from there on.
func TestShiftedWinterStartsFromThePast(t *testing.T) {
	k := caseOf(t, winterLines[2].text("every 6 h for 45 s"), longRecord(2, true), sim.Supply{})
	_, cases := wintersOf(t, k)
	run := func(by float64) *sim.Result {
		r, err := sim.Run(context.Background(), cases[1].Warmer(by), oneSimulation)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	usual, colder := run(0), run(-4)
	for j, track := range usual.Ground.Tracks {
		shifted, last := colder.Ground.Tracks[j].Temp, len(track.Temp)/2
		if track.Temp[0] != shifted[0] {
			t.Errorf("%g m: begins at %g °C, shifted at %g °C", track.Depth, track.Temp[0], shifted[0])
		}
		if !(shifted[last] < track.Temp[last]) {
			t.Errorf("%g m: in mid-winter %g °C, colder by 4 K %g °C", track.Depth, track.Temp[last], shifted[last])
		}
	}
}

// A winter cut out of a record, without what the ground remembers, is no year to repeat before it: the ground then begins
// with the annual wave of the record, and freezes about as deep as in the record run whole, not to the bottom.
func TestGroundOfAPartBeginsWithAYear(t *testing.T) {
	s := longRecord(2, false)
	k := caseOf(t, winterLines[2].text("every 6 h for 45 s"), s, sim.Supply{})
	winters, _ := s.WholeWinters()
	season := winters[1].Season
	deepest := func(on *weather.Series, from, to int) float64 {
		r, err := sim.SimulateGround(context.Background(), &sim.GroundCase{Layout: k.Layout, Profile: k.Profile, Weather: on}, sim.GroundSettings{})
		if err != nil {
			t.Fatal(err)
		}
		deep := 0.0
		for _, z := range r.FrostBottom[from:to] {
			if z > deep {
				deep = z
			}
		}
		return deep
	}
	whole := deepest(s, season.From, season.To)
	part := deepest(s.Parts([]weather.Range{season})[0], 0, season.To-season.From)
	t.Logf("deepest frost %.2f m; of the part alone %.2f m", whole, part)
	if !(math.Abs(part-whole) <= 0.3) {
		t.Errorf("deepest frost %.2f m; of the part alone %.2f m", whole, part)
	}
}
