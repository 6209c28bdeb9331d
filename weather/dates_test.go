package weather

import (
	"slices"
	"strings"
	"testing"
)

// datesOf reads a column of times to stamps, or the problem with it.
func datesOf(texts ...string) (stamps []string, note, problem string) {
	r := &record{source: "w.csv"}
	times := timeColumn{record: r}
	for i, text := range texts {
		stamp, err := times.parse([]byte(text))
		if err != nil {
			return nil, "", err.Error()
		}
		r.addRow(stamp, i+2)
	}
	if p := times.settle("time"); p != nil {
		return nil, "", p.Error()
	}
	for _, s := range r.stamp {
		stamps = append(stamps, showTime(wall(s)))
	}
	for _, n := range r.notes {
		note = n.String()
	}
	return stamps, note, ""
}

// A column is read only where it leaves no doubt about day and month.
func TestDates(t *testing.T) {
	for _, c := range []struct {
		name, times, want, note string
	}{
		{"month first", "1/12/2026 11:00 PM, 1/13/2026 12:00 AM, 1/13/2026 12:30 PM", "2026-01-12 23:00, 2026-01-13 00:00, 2026-01-13 12:30",
			"dates read month first (1/13/2026 on line 3 can be read no other way)"},
		{"day first", "12/01/2026 23:00, 13/01/2026 00:00", "2026-01-12 23:00, 2026-01-13 00:00", "dates read day first (13/1/2026 on line 3"},
		{"year first", "2026/1/2 5:00, 2026/1/3 5:00", "2026-01-02 05:00, 2026-01-03 05:00", "dates read year first"},
		{"the same in every order", "3/3/2026 5:00, 3/3/2026 6:00", "2026-03-03 05:00, 2026-03-03 06:00", "each row is the same day"},
		{"date alone", "1/31/2026, 2/1/2026", "2026-01-31 00:00, 2026-02-01 00:00", "month first"},
		{"seconds, small letters, no blank", "1/31/2026 5:00:30am", "2026-01-31 05:00:30", "month first"},
		{"narrow blank", "1/31/2026 5:00\u202fPM", "2026-01-31 17:00", "month first"},
		{"years of two digits", "1/31/26 5:00, 12/31/29 5:00", "2026-01-31 05:00, 2029-12-31 05:00", "years as 1930 to 2029"},
		{"an old year of two digits", "12/31/98 5:00", "1998-12-31 05:00", "month first"},
		{"stamps", "2026-01-02 05:00, 2026-01-02T06:00:00Z", "2026-01-02 05:00, 2026-01-02 06:00", ""},
	} {
		stamps, note, problem := datesOf(strings.Split(c.times, ", ")...)
		if got := strings.Join(stamps, ", "); got != c.want || !strings.Contains(note, c.note) {
			t.Errorf("%s: got %s, note %q, problem %q; want %s, note %q", c.name, got, note, problem, c.want, c.note)
		}
	}
}

func TestDatesRefused(t *testing.T) {
	for _, c := range []struct{ name, times, want string }{
		{"no day after the 12th", "1/1/2026 5:00 AM, 1/2/2026 5:00 AM",
			"w.csv:3: time: found 1/2/2026, which is 2026-01-02 (month first) or 2026-02-01 (day first), and no row that decides; " +
				"expected dates such as 2026-01-17, or a day after the 12th somewhere in the column"},
		{"year first or day first", "17/1/26 5:00",
			"w.csv:2: time: found 17/1/26, which is 2026-01-17 (day first) or 2017-01-26 (year first), and no row that decides; " +
				"expected dates such as 2026-01-17, or a day after the 12th somewhere in the column"},
		{"both orders", "1/17/2026 5:00, 18/1/2026 5:00",
			"w.csv:3: time: found 18/1/2026 after 1/17/2026 on line 2, where the other number is the month; " +
				"expected day and month in one order throughout, such as 2026-01-17"},
		{"two forms", "2026-01-17 05:00, 1/17/2026 6:00",
			`found "1/17/2026 6:00", in another form than the times before; expected one form throughout, such as 2026-01-17 05:00`},
		{"two forms, the other way about", "1/17/2026 5:00, 2026-01-17 06:00",
			`found "2026-01-17 06:00", in another form than the times before; expected one form throughout, such as 2026-01-17 05:00`},
	} {
		if _, _, problem := datesOf(strings.Split(c.times, ", ")...); problem != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, problem, c.want)
		}
	}
	for _, text := range []string{"2/30/2026 5:00", "13/13/2026", "1/17/2026 25:00", "1/17/2026 13:00 PM", "1/17/2026 0:00 AM", "1/17/2026 5",
		"1/17/2026 5:60", "1/17/2026 5:00:00:00", "1/17/20260", "1/17", "1/17/2026/1", "/1/2026", "1/17/2026 PM", "1/17/3026", "1/17/026", "a/b/c"} {
		if stamps, _, problem := datesOf(text); !strings.Contains(problem, "expected a time such as 2026-01-17 05:00") {
			t.Errorf("%s: got %v, %s", text, stamps, problem)
		}
	}
}

// A plain file that a spreadsheet has saved reads like the one that it was made of, and
// the user is told how the dates were taken.
func TestReadDates(t *testing.T) {
	want := mustRead(t, "time,air_temp_c\n2026-01-12 23:00,-3\n2026-01-13 00:00,-3.5\n2026-01-13 06:00,-4\n2026-01-13 12:00,-4\n")
	got := mustRead(t, "time,air_temp_c\n1/12/2026 11:00 PM,-3\n1/13/2026 12:00 AM,-3.5\n1/13/2026 6:00 AM,-4\n1/13/2026 12:00 PM,-4\n")
	if !got.Start.Equal(want.Start) || !slices.Equal(got.Time, want.Time) || !slices.Equal(got.Air, want.Air) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if len(got.Notes) != 1 || got.Notes[0].String() != "w.csv: clock: dates read month first (1/13/2026 on line 3 can be read no other way)" {
		t.Errorf("notes %v", got.Notes)
	}
}
