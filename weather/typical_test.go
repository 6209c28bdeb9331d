package weather

import (
	"testing"
	"time"
)

// daysOf is a record with a row at noon of each of the given dates.
func daysOf(dates ...string) *record {
	r := &record{source: "w"}
	for i, date := range dates {
		day, err := time.Parse("2006-01-02", date)
		if err != nil {
			panic(err)
		}
		r.addRow(day.Unix()+12*3600, i+1)
	}
	return r
}

func TestJoinMonths(t *testing.T) {
	for name, c := range map[string]struct {
		in, want []string
		labelled bool
		typical  bool
	}{
		"months of different years": {[]string{"1990-01-30", "1990-01-31", "1983-02-01", "2004-03-01", "2004-04-01"},
			[]string{"2001-01-30", "2001-01-31", "2001-02-01", "2001-03-01", "2001-04-01"}, false, true},
		"over the turn of the year": {[]string{"1990-11-30", "1992-12-31", "1983-01-01"},
			[]string{"2001-11-30", "2001-12-31", "2002-01-01"}, false, true},
		"a leap day": {[]string{"1992-02-29", "1983-03-01"}, []string{"2000-02-29", "2000-03-01"}, false, true},
		"a leap day in the second year": {[]string{"1990-12-31", "1983-01-01", "1992-02-29", "1983-03-01"},
			[]string{"1999-12-31", "2000-01-01", "2000-02-29", "2000-03-01"}, false, true},
		"a true record": {[]string{"2015-12-31", "2016-01-01", "2016-01-31", "2016-02-01"},
			[]string{"2015-12-31", "2016-01-01", "2016-01-31", "2016-02-01"}, false, false},
		"a true record with a hole": {[]string{"2015-12-31", "2016-04-30", "2018-10-01"},
			[]string{"2015-12-31", "2016-04-30", "2018-10-01"}, false, false},
		"one year that says it is typical": {[]string{"2016-02-28", "2016-03-01"},
			[]string{"2001-02-28", "2001-03-01"}, true, true},
	} {
		r := daysOf(c.in...)
		r.joinMonths(c.labelled)
		for i, stamp := range r.stamp {
			if got := wall(stamp).Format("2006-01-02 15"); got != c.want[i]+" 12" {
				t.Errorf("%s: %s became %s, want %s at noon", name, c.in[i], got, c.want[i])
			}
		}
		if r.typical != c.typical {
			t.Errorf("%s: typical %v", name, r.typical)
		}
	}
}

func TestUTCOffset(t *testing.T) {
	for hours, want := range map[float64]string{-6: "UTC-6", 0: "UTC+0", 5.5: "UTC+5:30", -3.5: "UTC-3:30", 12.75: "UTC+12:45"} {
		if got := utcOffset(hours); got != want {
			t.Errorf("%g h: got %s, want %s", hours, got, want)
		}
	}
}

// A record that is warmest at 20:00 UTC lies in a zone of UTC-6 to UTC-4; in one that is
// warmest at midnight UTC, days are ten to eight hours late.
func TestFromUTCEvidence(t *testing.T) {
	for warm, want := range map[int64]string{20: "from UTC-6 to UTC-4", 0: "from UTC-10 to UTC-8", 5: "from UTC+9 to UTC+11"} {
		r := hourlyRecord(airTemperature, nil)
		for hour := range int64(24 * 12) {
			r.addRow(hour*3600, int(hour)+1)
			if r.set(0, -5); hour%24 == warm {
				r.set(0, 3)
			}
		}
		r.fromUTC(Options{})
		wantNote(t, r, true, "clock", want)
	}
}
