package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// isdLiteRow is a row of ISD-Lite with air temperature and precipitation of one hour and of
// six [tenths of a millimetre].
func isdLiteRow(year, month, day, hour, rain, six int) string {
	return fmt.Sprintf("%d %02d %02d %02d   -15   -30 10200   310    46     0 %5d %5d\n", year, month, day, hour, rain, six)
}

// isdLiteRows are hourly rows from..to-1, counted from the midnight before New Year's Eve.
func isdLiteRows(from, to int, rain func(hour int) (one, six int)) string {
	var b strings.Builder
	for h := from; h < to; h++ {
		one, six := rain(h)
		if h < 24 {
			b.WriteString(isdLiteRow(2016, 12, 31, h, one, six))
		} else {
			b.WriteString(isdLiteRow(2017, 1, 1, h-24, one, six))
		}
	}
	return b.String()
}

const notStated = isdLiteNotStated

// total is what falls in all of a record [mm].
func total(s *Series) float64 {
	sum := 0.0
	for _, v := range s.Rain {
		sum += 1000 * v
	}
	return math.Round(1e6*sum) / 1e6
}

// The hour that ends with the first row of a file belongs to the last row of the file
// before: no precipitation is lost at the seam, whatever the order of the names.
func TestSeamKeepsTheHour(t *testing.T) {
	hourly := func(h int) (int, int) { return h - 17, notStated } // 0.1, 0.2, … mm
	old, fresh := isdLiteRows(18, 24, hourly), isdLiteRows(24, 30, hourly)
	whole, err := readTexts(Options{}, isdLiteRows(18, 30, hourly))
	if err != nil {
		t.Fatal(err)
	}
	for _, texts := range [][]string{{old, fresh}, {fresh, old}, {isdLiteRows(18, 26, hourly), fresh}} {
		s, err := readTexts(Options{}, texts...)
		if err != nil {
			t.Fatal(err)
		}
		wantColumn(t, "rain", s.Rain, whole.Rain...)
		if s.Rain[5] != 0.0007 { // of 23:00, told by the row of 00:00
			t.Errorf("from 23:00 on: %g m, want 0.0007", s.Rain[5])
		}
		wantLost(t, s, "0.1 mm left out") // of the very first row alone
	}
}

// wantLost asks for one note on precipitation left out.
func wantLost(t *testing.T, s *Series, want string) {
	t.Helper()
	var lost []string
	for _, n := range s.Notes {
		if n.About == rainfall.word && strings.Contains(n.Text, "left out") {
			lost = append(lost, n.String())
		}
	}
	if len(lost) != 1 || !strings.Contains(lost[0], want) {
		t.Errorf("left out: %q; want one note with %q", lost, want)
	}
}

// A total of six hours that ends with the first row of a file goes to the rows of the file
// before, and where that file tells these hours itself nothing is counted twice.
func TestSeamKeepsSixHours(t *testing.T) {
	sixes := func(h int) (int, int) { // 6 mm that end at midnight, 3 mm at 06:00
		switch h {
		case 24:
			return notStated, 60
		case 30:
			return notStated, 30
		}
		return notStated, notStated
	}
	dry := func(int) (int, int) { return 0, notStated }
	for _, c := range []struct {
		what        string
		before      string
		total, from float64 // all of it, and that of 19:00 [mm]
	}{
		{"hours not told", isdLiteRows(18, 24, sixes), 9, 1},
		{"hours told", isdLiteRows(18, 24, dry), 3, 0},
	} {
		s, err := readTexts(Options{}, c.before, isdLiteRows(24, 31, sixes))
		if err != nil {
			t.Fatal(err)
		}
		if got := total(s); got != c.total || math.Abs(1000*s.Rain[1]-c.from) > 1e-9 {
			t.Errorf("%s: %g mm in all, %g from 19:00; want %g and %g", c.what, got, 1000*s.Rain[1], c.total, c.from)
		}
	}
}

// Without a file that has these hours, or after a long gap, what fell is told.
func TestSeamOverAGap(t *testing.T) {
	rain := func(h int) (int, int) { return 5, notStated }
	spans, problems := ReadSpans(filesOf(isdLiteRows(0, 16, rain), isdLiteRows(24, 40, rain)), Options{})
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if len(spans) != 2 {
		t.Fatalf("%d spans, want 2", len(spans))
	}
	var lost []string
	for _, n := range spans[0].Notes {
		if n.Warning && n.About == rainfall.word {
			lost = append(lost, n.String())
		}
	}
	if len(lost) != 2 || !strings.HasPrefix(lost[0], "a.csv:1:") || !strings.HasPrefix(lost[1], "b.csv:1:") || !strings.Contains(lost[1], "0.5 mm left out") {
		t.Errorf("told: %q; want 0.5 mm of either file", lost)
	}
}

// Reports at minute 51 across a seam: what was told at 00:51 fell in the hour from 00:00 on,
// as near as hours go.
func TestSeamOfReports(t *testing.T) {
	const head = "station,valid,tmpf,p01i\n"
	one := head + "ABCD,2026-01-16 21:51,20,0\nABCD,2026-01-16 22:51,20,0\nABCD,2026-01-16 23:51,20,0.01\n"
	two := "ABCD,2026-01-17 00:51,20,0.10\nABCD,2026-01-17 01:51,20,0\nABCD,2026-01-17 02:51,20,0\n"
	whole, err := readTexts(Options{}, one+two)
	if err != nil {
		t.Fatal(err)
	}
	s, err := readTexts(Options{}, one, head+two)
	if err != nil {
		t.Fatal(err)
	}
	wantColumn(t, "rain", s.Rain, whole.Rain...)
	if got := total(s); math.Abs(got-2.794) > 1e-6 { // 0.11 in
		t.Errorf("%g mm in all, want 2.794", got)
	}
}
