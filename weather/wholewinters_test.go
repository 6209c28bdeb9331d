package weather

import (
	"math"
	"slices"
	"testing"
	"time"
)

// yearly is a record of so many days from a date on whose air is warm but for frosts: `cold` °C on the days given.
func yearly(start time.Time, days int, cold float64, frosts ...time.Time) *Series {
	s := hourly(24*days, func(h float64) float64 {
		if slices.Contains(frosts, start.Add(time.Duration(h)*time.Hour).Truncate(24*time.Hour)) {
			return cold
		}
		return 8
	})
	s.Start = start
	return s
}

// Of three winters of which the first lacks November and the last March, one is whole. Frosts on 20 September and 12 May
// make its season longer than October to April, by 30 days on either side.
func TestWholeWinters(t *testing.T) {
	start := date(2001, time.November, 2)
	end := date(2004, time.March, 20)
	s := yearly(start, int(end.Sub(start).Hours()/24), -3, date(2002, time.September, 20), date(2003, time.January, 5), date(2003, time.May, 12))
	whole, less := s.WholeWinters()
	if len(whole) != 1 || len(less) != 2 || less[0].Name() != "2001-02" || less[1].Name() != "2003-04" {
		t.Fatalf("whole %+v, less %+v", whole, less)
	}
	w := whole[0]
	if w.Name() != "2002-03" || w.Lowest != -3 || !w.LowestAt.Equal(date(2002, time.September, 20)) {
		t.Errorf("%+v", w)
	}
	// Three days of 23 h at −3 °C and an hour in which the air rises to 8 °C.
	if want := 3 * (23*3 - 2.5) / 24; math.Abs(w.DegreeDays-want) > 1e-9 {
		t.Errorf("%g freezing degree-days, want %g", w.DegreeDays, want)
	}
	from, to := s.Stamp(s.Time[w.Season.From]), s.Stamp(s.Time[w.Season.To-1])
	if want := date(2002, time.August, 21); !from.Equal(want) {
		t.Errorf("season from %v, want %v", from, want)
	}
	if want := date(2003, time.June, 11).Add(23 * time.Hour); !to.Equal(want) {
		t.Errorf("season to %v, want %v", to, want)
	}
}

// A winter without any frost has a season from October to April; one at the record's ends has what there is of it.
func TestSeasonWithoutFrost(t *testing.T) {
	s := yearly(date(2001, time.October, 15), 300, 0)
	whole, _ := s.WholeWinters()
	if len(whole) != 1 {
		t.Fatal(whole)
	}
	if r := whole[0].Season; r.From != 0 || !s.Stamp(s.Time[r.To-1]).Equal(date(2002, time.May, 1)) {
		t.Errorf("season %+v to %v", r, s.Stamp(s.Time[r.To-1]))
	}
}

// A part has the record's values, and of snow, cloud and the yearly wave what the whole record says.
func TestParts(t *testing.T) {
	s := hourly(24*500, func(h float64) float64 { return 8 - 12*math.Cos(2*math.Pi*(h/24-20)/365) + 3*math.Sin(h/9) })
	s.Start = date(2001, time.January, 1)
	for h := range s.Time {
		s.SnowfallWater = append(s.SnowfallWater, 2e-4*math.Max(0, math.Sin(float64(h)/100)))
		s.Sun = append(s.Sun, math.Max(0, 300*math.Sin(2*math.Pi*(float64(h)-6)/24)*(1+0.5*math.Sin(float64(h)/70))))
	}
	s.Soil = []SoilTrack{{0.2, slices.Clone(s.Air)}}
	r := Range{24 * 370, 24 * 420}
	p := s.Parts([]Range{r})[0]
	if !p.Start.Equal(s.Stamp(s.Time[r.From])) || p.Time[0] != 0 || p.End() != s.Time[r.To-1]-s.Time[r.From] {
		t.Errorf("from %v for %g s", p.Start, p.End())
	}
	for _, c := range []struct {
		name        string
		part, whole []float64
	}{
		{"air", p.Air, s.Air}, {"sun", p.Sun, s.Sun}, {"snowfall", p.SnowfallWater, s.SnowfallWater}, {"soil", p.Soil[0].Temp, s.Soil[0].Temp},
		{"snow", p.Snow().Depth, s.Snow().Depth}, {"its density", p.Snow().Density, s.Snow().Density},
		{"cloud", p.CloudFromSun(), s.CloudFromSun()},
	} {
		if !slices.Equal(c.part, c.whole[r.From:r.To]) {
			t.Errorf("%s of the part differs from the record's", c.name)
		}
	}
	if p.Snow().Depth[0] == 0 || p.Wind != nil {
		t.Errorf("snow at the first row %g m, wind %v", p.Snow().Depth[0], p.Wind)
	}
	mean, swing, _ := s.Annual()
	if m, w, ok := p.Annual(); !ok || m != mean || w != swing {
		t.Errorf("yearly wave %g, %g, %v; want %g, %g", m, w, ok, mean, swing)
	}
}
