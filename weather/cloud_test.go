package weather

import (
	"math"
	"testing"
	"time"
)

// Kasten and Czeplak (1980) by hand: 0.5^3.4 = 0.094732, so half a sky of cloud leaves
// 0.928951; 0.8^3.4 = 0.468280, so 0.648790; 0.3^3.4 = 0.016681, so 0.987490; an overcast
// sky 0.25.
func TestCloudBehind(t *testing.T) {
	cases := []struct{ share, want float64 }{
		{1, 0}, {1.2, 0}, {0.987490, 0.3}, {0.928951, 0.5}, {0.648790, 0.8}, {0.25, 1}, {0.1, 1}, {0, 1},
	}
	for _, c := range cases {
		if got := cloudBehind(c.share); math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%g of the clear sky's sun: got cloud %g, want %g", c.share, got, c.want)
		}
	}
}

// invented returns hourly rows of whole days in which the sun shines from 6 to 18 h, with
// a mean [W/m²] of clear(day) without cloud, dimmed by the cloud of each day as Kasten
// and Czeplak have it.
func invented(days int, clear, cloud func(day int) float64) *Series {
	s := hourly(24*days, func(float64) float64 { return 0 })
	var shape [24]float64
	sum := 0.0
	for h := 6; h < 18; h++ {
		shape[h] = math.Sin(math.Pi * float64(h-6) / 12)
		sum += shape[h]
	}
	for i := range s.Time {
		day := i / 24
		s.Sun = append(s.Sun, 24*shape[i%24]/sum*clear(day)*(1-0.75*math.Pow(cloud(day), 3.4)))
	}
	return s
}

// A sun that knows no seasons: on clear days it stands above the 0.95 of the clearest day
// that counts as clear; days of cloud 0.8 have 0.648790/0.95 = 0.682936 of it, which is
// cloud (0.317064/0.75)^(1/3.4) = 0.7763; overcast days have 0.25/0.95 = 0.263158, which is
// 0.9948. Between overcast days the night is overcast too; at midnight between a clear and
// an overcast day half of each counts, 0.625/0.95 = 0.657895, which is 0.7938.
func TestCloudFromEvenSun(t *testing.T) {
	days := [...]float64{0, 0, 0.8, 0, 1, 1, 0, 0.8, 0.8, 0}
	s := invented(40, func(int) float64 { return 120 }, func(day int) float64 { return days[day%10] })
	got := s.CloudFromSun()
	if len(got) != len(s.Time) {
		t.Fatalf("got %d values, want one a row", len(got))
	}
	want := map[float64]float64{0: 0, 0.8: 0.7763, 1: 0.9948}
	for day := range 40 {
		if noon := got[24*day+12]; math.Abs(noon-want[days[day%10]]) > 1e-3 {
			t.Errorf("day %d: got cloud %g, want %g", day, noon, want[days[day%10]])
		}
	}
	for row, want := range map[int]float64{24 * 4: 0.7938, 24 * 5: 0.9948, 24: 0, 0: 0, 24*40 - 3: 0} {
		if math.Abs(got[row]-want) > 1e-3 {
			t.Errorf("row %d: got cloud %g, want %g", row, got[row], want)
		}
	}
}

// clearAt45 is the clear sky's mean sun [W/m²] of a day at 45° north: 0.75 of that outside
// the atmosphere, FAO Irrigation and Drainage Paper 56 (1998), eqs. 21 to 25.
func clearAt45(day int) float64 {
	year := 2 * math.Pi * float64(day+1) / 365
	declination := 0.409 * math.Sin(year-1.39)
	sunset := math.Acos(-math.Tan(declination)) // at 45° tan φ = 1
	return 0.75 * 1367 / math.Pi * (1 + 0.033*math.Cos(year)) * math.Sqrt2 / 2 *
		(sunset*math.Sin(declination) + math.Cos(declination)*math.Sin(sunset))
}

// The cloud of an invented sun at 45° comes back from three years of it to what a clear
// day is known to, here 6 %, and from one winter alone to 8 %. Near the clear sky a little
// sun is much cloud, so sun is compared: 1 − 0.75 n^3.4.
func TestCloudFromSeasons(t *testing.T) {
	days := [...]float64{0.9, 1, 0.3, 0, 0.7, 0.95, 0.8, 0, 0.5, 1, 1}
	for _, c := range []struct {
		days  int
		close float64
	}{{3 * 365, 0.06}, {120, 0.08}} {
		s := invented(c.days, clearAt45, func(day int) float64 { return days[day%len(days)] })
		got := s.CloudFromSun()
		for day := range c.days {
			share := func(n float64) float64 { return 1 - 0.75*math.Pow(n, 3.4) }
			n, want := got[24*day+12], days[day%len(days)]
			if math.Abs(share(n)-share(want)) > c.close {
				t.Errorf("%d days, day %d: got cloud %g, want %g", c.days, day, n, want)
			}
		}
	}
}

// Where the sun does not tell, there is no cloud cover.
func TestCloudFromNoSun(t *testing.T) {
	clear := func(int) float64 { return 0 }
	even := func(int) float64 { return 100 }
	for name, s := range map[string]*Series{
		"no column":      hourly(24*30, func(float64) float64 { return 0 }),
		"less than 10 d": invented(9, even, clear),
		"polar night":    invented(30, clear, clear),
	} {
		if got := s.CloudFromSun(); got != nil {
			t.Errorf("%s: got %d values, want none", name, len(got))
		}
	}
	if got := invented(10, even, clear).CloudFromSun(); got == nil {
		t.Error("10 d: got none, want cloud")
	}
}

// Rows that do not begin at midnight and stand unevenly give the same cloud.
func TestCloudFromUnevenRows(t *testing.T) {
	days := [...]float64{0, 0.9, 0.6, 0, 1}
	s := invented(40, func(int) float64 { return 120 }, func(day int) float64 { return days[day%5] })
	whole := s.CloudFromSun()
	u := &Series{Start: s.Start.Add(7 * time.Hour)}
	for i := 7; i < len(s.Time); i++ {
		if i%11 == 5 && s.Sun[i-1] == 0 && s.Sun[i+1] == 0 {
			continue // a missing row of the night
		}
		u.Time, u.Sun = append(u.Time, s.Time[i]-7*3600), append(u.Sun, s.Sun[i])
	}
	got := u.CloudFromSun()
	for i, at := range u.Time {
		if row := int(at/3600) + 7; row > 20 && row < len(whole)-20 && math.Abs(got[i]-whole[row]) > 1e-6 {
			t.Fatalf("hour %d: got cloud %g, want %g", row, got[i], whole[row])
		}
	}
}
