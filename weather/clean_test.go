package weather

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// mend reads texts as the files a.csv, b.csv and so on, mending what can be mended.
func mend(texts ...string) (*Series, error) { return readTexts(Options{Mend: true}, texts...) }

func readTexts(o Options, texts ...string) (*Series, error) {
	s, problems := ReadFiles(filesOf(texts...), o)
	return s, problems.Err()
}

func filesOf(texts ...string) (files []File) {
	for i, text := range texts {
		files = append(files, File{Name: string(rune('a'+i)) + ".csv",
			Open: func() (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(text)), nil }})
	}
	return files
}

func mended(t *testing.T, text string) *Series {
	t.Helper()
	s, err := mend(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// entries gives the ledger as lines.
func entries(s *Series) string {
	var lines []string
	for _, e := range s.Repairs {
		lines = append(lines, e.String())
	}
	return strings.Join(lines, "\n")
}

func wantEntries(t *testing.T, s *Series, want string) {
	t.Helper()
	if got := entries(s); got != strings.TrimSpace(want) {
		t.Errorf("ledger:\n%s\nwant:\n%s", got, want)
	}
}

// Rows out of order are sorted, rows that stand twice kept once, with what only the second has.
func TestMendOrder(t *testing.T) {
	s := mended(t, `time,air_temp_c,wind_m_s
2026-01-17 05:00,-3,
2026-01-17 08:00,-6,4
2026-01-17 06:00,-4,4
2026-01-17 07:00,-5,4
2026-01-17 05:00,-3,4
2026-01-17 07:00,-5.5,4
`)
	if want := []float64{-3, -4, -5, -6}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	if want := []float64{4, 4, 4, 4}; !slices.Equal(s.Wind, want) {
		t.Errorf("wind: got %v, want %v", s.Wind, want)
	}
	wantEntries(t, s, `
a.csv:4: time: rows out of order, 4 from 2026-01-17 06:00 (after 2026-01-17 08:00 on the row before)
a.csv:6: time: rows twice at 2026-01-17 05:00 (the same values)
a.csv:7: time: rows twice at 2026-01-17 07:00 (air_temp_c differs: the first row is kept, as on line 5)`)
}

// Codes and words for a missing value become gaps.
func TestMendCodes(t *testing.T) {
	s := mended(t, `time,air_temp_c,wind_m_s
2026-01-17 05:00,-3,4
2026-01-17 06:00,-9999,M
2026-01-17 07:00,-5,4
2026-01-17 08:00,-6,NaN
2026-01-17 09:00,-7,4
`)
	if want := []float64{-3, -4, -5, -6, -7}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	wantEntries(t, s, `
a.csv:3: air_temp_c: code for missing at 2026-01-17 06:00 (-9999)
a.csv:3: wind_m_s: code for missing, 2 from 2026-01-17 06:00 (M)
a.csv:3: air_temp_c: joined linearly from 2026-01-17 06:00 (1 h)
a.csv:3: wind_m_s: joined linearly from 2026-01-17 06:00 (1 h)
a.csv:5: wind_m_s: joined linearly from 2026-01-17 08:00 (1 h)`)
}

// Rows without air temperature at the ends go, and so does a header between two files that
// were put one after the other.
func TestMendEnds(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,air_temp_c,wind_m_s\n")
	for h := range 30 {
		air := "-3"
		if h < 8 || h > 26 {
			air = "" // 8 h before, 3 h after
		}
		if h == 15 {
			b.WriteString("time,air_temp_c,wind_m_s\n")
		}
		fmt.Fprintf(&b, "2026-01-%02d %02d:00,%s,4\n", 17+h/24, h%24, air)
	}
	s := mended(t, b.String())
	if len(s.Time) != 22 || s.Start.Hour() != 8 {
		t.Errorf("%d rows from %v, want 22 from 08:00", len(s.Time), s.Start)
	}
	wantEntries(t, s, `
a.csv:17: time: rows twice at 2026-01-17 14:00 (the header row again)
a.csv:2: time: rows left out, 8 from 2026-01-17 00:00 (no air temperature before 2026-01-17 08:00)
a.csv:30: air_temp_c: nearest value held from 2026-01-18 03:00 (3 h)`)
}

// Half-hourly rows come to the hour: states as they stand there, amounts summed. By hand:
// the rain of 05:00 and 05:30 is 0.1 + 0.2 mm.
func TestMendHalfHours(t *testing.T) {
	s := mended(t, `time,air_temp_c,rain_mm
2026-01-17 05:00,-3,0.1
2026-01-17 05:30,-9,0.2
2026-01-17 06:00,-4,0
2026-01-17 06:30,-9,0.4
2026-01-17 07:00,-5,
2026-01-17 07:30,-9,0.8
2026-01-17 08:00,-6,0
`)
	if want := []float64{0, 3600, 7200, 10800}; !slices.Equal(s.Time, want) {
		t.Errorf("time: got %v, want %v", s.Time, want)
	}
	if want := []float64{-3, -4, -5, -6}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	if want := []float64{0.0003, 0.0004, 0.0008, 0}; !slices.Equal(s.Rain, want) {
		t.Errorf("rain: got %v, want %v", s.Rain, want)
	}
	if got := entries(s); !strings.Contains(got, "a.csv:3: time: taken to the hour, 3 from 2026-01-17 05:30 (3 of 7 rows stand between the hours, usually 30 min apart") {
		t.Errorf("ledger: %s", got)
	}
}

// Reports of ten to the hour count for the next hour, specials between them do not; the
// rain of the hour up to such a report belongs to the hour that it mostly fell in.
func TestMendReports(t *testing.T) {
	s := mended(t, `time,air_temp_c,rain_mm
2026-01-17 03:51,-3,0.1
2026-01-17 04:20,-20,
2026-01-17 04:51,-4,0.2
2026-01-17 05:51,-5,0.4
2026-01-17 06:51,-6,0.8
`)
	if s.Start.Hour() != 4 || !slices.Equal(s.Air, []float64{-3, -4, -5, -6}) {
		t.Errorf("from %v: air %v, want -3, -4, -5, -6 from 04:00", s.Start, s.Air)
	}
	if want := []float64{0.0001, 0.0002, 0.0004, 0.0008}; !slices.Equal(s.Rain, want) {
		t.Errorf("rain: got %v, want %v", s.Rain, want)
	}
}

// A jump of 16 K away and back within the hour goes; a front that stays does not.
func TestMendSpikes(t *testing.T) {
	s := mended(t, `time,air_temp_c
2026-01-17 05:00,-3
2026-01-17 06:00,-4
2026-01-17 07:00,12
2026-01-17 08:00,-4
2026-01-17 09:00,-20
2026-01-17 10:00,-21
2026-01-17 11:00,-22
`)
	if want := []float64{-3, -4, -4, -4, -20, -21, -22}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	wantEntries(t, s, `
a.csv:4: air_temp_c: spike taken out at 2026-01-17 07:00 (12 between -4 and -4 in SI; a jump of 12 both ways is the limit)
a.csv:4: air_temp_c: joined linearly from 2026-01-17 07:00 (1 h)`)
}

// hoursOf writes hourly rows from a start on a wall clock; the air is the hour's number.
func hoursOf(start time.Time, hours int, wall func(at time.Time) time.Time) string {
	var b strings.Builder
	b.WriteString("time,air_temp_c\n")
	for h := range hours {
		fmt.Fprintf(&b, "%s,%d\n", wall(start.Add(time.Duration(h)*time.Hour)).Format("2006-01-02 15:04"), h%50-25)
	}
	return b.String()
}

// A year on the clock of an American city, and one on a European one, come back to
// standard time. The clocks are those of the time zone database.
func TestMendSummerTime(t *testing.T) {
	for _, zone := range []string{"America/Chicago", "Europe/Berlin", "Europe/London", "Europe/Helsinki"} {
		place, err := time.LoadLocation(zone)
		if err != nil {
			t.Skip("no time zone database here")
		}
		// From standard time to standard time, over two summers.
		start := time.Date(2023, 1, 15, 12, 0, 0, 0, time.UTC)
		const rows = 22 * 30 * 24
		s := mended(t, hoursOf(start, rows, func(at time.Time) time.Time { return at.In(place) }))
		if len(s.Time) != rows {
			t.Fatalf("%s: %d rows, want %d", zone, len(s.Time), rows)
		}
		for i, at := range s.Time {
			if at != float64(i)*3600 || s.Air[i] != float64(i%50-25) {
				t.Fatalf("%s: row %d stands at %g s with %g", zone, i, at, s.Air[i])
			}
		}
		if n := len(s.Repairs); n != 2 || s.Repairs[0].Kind != SummerTime {
			t.Errorf("%s: ledger %s", zone, entries(s))
		}
	}
}

// An hour missing in spring, with no hour twice in autumn, is a gap like any other, but told.
func TestSpringHourAlone(t *testing.T) {
	text := hoursOf(time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC), 600, func(at time.Time) time.Time { return at })
	text = strings.Replace(text, "2026-03-08 02:00,-5\n", "", 1)
	s := mended(t, text)
	wantEntries(t, s, "a.csv:172: time: joined linearly from 2026-03-08 03:00 (1 h)")
	if len(s.Notes) != 1 || s.Notes[0].About != "clock" || s.Notes[0].Line != 172 || !s.Notes[0].Warning {
		t.Errorf("notes %v, want one on the clock at line 172", s.Notes)
	}
}

// Offsets that change with the season come to the lower one.
func TestMendOffsets(t *testing.T) {
	s := mended(t, `time,air_temp_c
2026-11-01T00:00:00-05:00,-3
2026-11-01T01:00:00-05:00,-4
2026-11-01T01:00:00-06:00,-5
2026-11-01T02:00:00-06:00,-6
`)
	if want := []float64{0, 3600, 7200, 10800}; !slices.Equal(s.Time, want) || s.Start.Format("2006-01-02 15:04") != "2026-10-31 23:00" {
		t.Errorf("from %v: %v", s.Start, s.Time)
	}
	wantEntries(t, s, "a.csv:2: time: offset changed, 2 from 2026-10-31 23:00 (taken to the offset -06:00, that of standard time)")
}

// Stamps in UTC go to the zone that is stated, and stay with a warning where none is.
func TestPlainInUTC(t *testing.T) {
	text := "time,air_temp_c\n2026-01-17T05:00:00Z,-3\n2026-01-17T06:00:00Z,-4\n"
	zone := -6.0
	s, err := readTexts(Options{Zone: &zone}, text)
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Start.Format("2006-01-02 15:04"); got != "2026-01-16 23:00" || len(s.Notes) != 1 || s.Notes[0].Warning {
		t.Errorf("from %s, notes %v", got, s.Notes)
	}
	if s, err = readTexts(Options{}, text); err != nil || s.Start.Hour() != 5 || len(s.Notes) != 1 || !s.Notes[0].Warning {
		t.Errorf("without a zone: %v, %v", s, err)
	}
}

// Files join; what they share and agree in is dropped and listed.
func TestJoin(t *testing.T) {
	one := "time,air_temp_c\n2026-01-17 05:00,-3\n2026-01-17 06:00,-4\n2026-01-17 07:00,-5\n"
	two := "time,air_temp_f,wind_m_s\n2026-01-17 07:00,23,4\n2026-01-17 08:00,14,4\n2026-01-17 06:00,24.8,3\n"
	if _, err := readTexts(Options{}, one, two); err == nil || !strings.Contains(err.Error(), "b.csv:4: time: found 2026-01-17 06:00 after") {
		t.Errorf("disorder in the second: got %v", err)
	}
	s, err := mend(one, two)
	if err != nil {
		t.Fatal(err)
	}
	if want := []float64{-3, -4, -5, -10}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	if want := []float64{3, 3, 4, 4}; !slices.Equal(s.Wind, want) {
		t.Errorf("wind: got %v, want %v", s.Wind, want)
	}
	if got := entries(s); !strings.Contains(got, "b.csv:4: time: rows in two files, 2 from 2026-01-17 06:00 (as in a.csv)") {
		t.Errorf("ledger: %s", got)
	}
	if s.Source != "a.csv, b.csv" {
		t.Errorf("source %q", s.Source)
	}
}

// Files that disagree are refused; mending believes the later one and says so.
func TestJoinDisagree(t *testing.T) {
	one := "time,air_temp_c\n2026-01-17 05:00,-3\n2026-01-17 06:00,-4\n2026-01-17 07:00,-5\n"
	two := "time,air_temp_c\n2026-01-17 06:00,-8\n2026-01-17 07:00,-9\n2026-01-17 08:00,-10\n"
	_, err := readTexts(Options{}, one, two)
	const want = "b.csv:2: time: found air temperature -8 at 2026-01-17 06:00, where a.csv:3 has -4 (SI); " +
		"expected files that agree where they overlap, here and in later rows"
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
	s, err := mend(one, two)
	if err != nil {
		t.Fatal(err)
	}
	if want := []float64{-3, -8, -9, -10}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	if got := entries(s); !strings.Contains(got, "where they differ the later file is believed") {
		t.Errorf("ledger: %s", got)
	}
}

// A gap of more than 6 h splits the record, and each part keeps what concerns it.
func TestSpans(t *testing.T) {
	text := `time,air_temp_c,wind_m_s
2026-01-17 05:00,-3,4
2026-01-17 06:00,,4
2026-01-17 07:00,-5,4
2026-01-17 20:00,-6,4
2026-01-17 21:00,-7,4
2026-01-17 22:00,,4
2026-01-18 05:00,,4
2026-01-18 06:00,-8,4
`
	spans, problems := ReadSpans(filesOf(text), Options{})
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if len(spans) != 2 || !slices.Equal(spans[0].Air, []float64{-3, -4, -5}) || !slices.Equal(spans[1].Air, []float64{-6, -7}) {
		t.Fatalf("got %d spans, %+v", len(spans), spans)
	}
	wantEntries(t, spans[0], "a.csv:3: air_temp_c: joined linearly from 2026-01-17 06:00 (1 h)")
	wantEntries(t, spans[1], "a.csv:5: time: split at a gap at 2026-01-17 20:00 (no air temperature before, since 2026-01-17 07:00)")
}

// Values that speak against the unit of their column are noted, and only those.
func TestDoubts(t *testing.T) {
	year := func(name string, of func(c float64) float64) string {
		var b strings.Builder
		b.WriteString("time," + name + "\n")
		for h := range 8760 {
			// A year with a mean of 8 °C, swings of 14 K and 5 K: −11 to 27 °C.
			c := 8 - 14*math.Cos(2*math.Pi*float64(h)/8760) - 5*math.Cos(2*math.Pi*float64(h)/24)
			fmt.Fprintf(&b, "%s,%.1f\n", time.Date(2025, 1, 1, h, 0, 0, 0, time.UTC).Format("2006-01-02 15:04"), of(c))
		}
		return b.String()
	}
	asFahrenheit := func(c float64) float64 { return c*1.8 + 32 }
	celsius := func(c float64) float64 { return c }
	for _, c := range []struct {
		what, text string
		notes      int
	}{
		{"°C as °C", year("air_temp_c", celsius), 0},
		{"°F as °F", year("air_temp_f", asFahrenheit), 0},
		{"°C as °F", year("air_temp_f", celsius), 1},
		{"°F as °C", year("air_temp_c", func(c float64) float64 { return min(60, asFahrenheit(c)) }), 1},
	} {
		s, err := readTexts(Options{}, c.text)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Notes) != c.notes {
			t.Errorf("%s: notes %v", c.what, s.Notes)
		}
		for _, n := range s.Notes {
			if !n.Warning || n.Evidence == "" || !strings.HasPrefix(n.About, "air_temp") {
				t.Errorf("%s: note %+v", c.what, n)
			}
		}
	}
}

// A wind of 14 m/s on average stands for km/h or mph, one of 0.9 m/s for m/s under a
// name of km/h; 4 m/s is wind.
func TestDoubtWind(t *testing.T) {
	for _, c := range []struct {
		column string
		mean   float64
		notes  int
	}{{"wind_m_s", 4, 0}, {"wind_m_s", 14, 1}, {"wind_km_h", 14, 0}, {"wind_km_h", 3, 1}, {"wind_mph", 9, 0}, {"wind_m_s", 0.8, 0}} {
		var b strings.Builder
		fmt.Fprintf(&b, "time,air_temp_c,%s\n", c.column)
		for h := range 500 {
			fmt.Fprintf(&b, "%s,-1,%.2f\n", time.Date(2025, 1, 1, h, 0, 0, 0, time.UTC).Format("2006-01-02 15:04"), c.mean*(0.5+float64(h%3)/2))
		}
		s, err := readTexts(Options{}, b.String())
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Notes) != c.notes {
			t.Errorf("%s of %g: notes %v", c.column, c.mean, s.Notes)
		}
	}
}

// What is written in the plain form reads back to the bit, whatever it holds.
func TestWritePlainRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := drawnFile(t)
		s, err := mend(text)
		if err != nil {
			t.Skip("not every drawing is a record")
		}
		var b bytes.Buffer
		if err := s.WritePlain(&b); err != nil {
			t.Fatal(err)
		}
		back, problems := Read("a.csv", &b)
		if err := problems.Err(); err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if said := differences(s, back); said != "" {
			t.Fatalf("%s of\n%s", said, text)
		}
	})
}

// drawnFile draws a file in the plain form with gaps, codes, doubles, disorder and rows
// between the hours.
func drawnFile(t *rapid.T) string {
	names := []string{"time", rapid.SampledFrom([]string{"air_temp_c", "air_temp_f"}).Draw(t, "air")}
	for _, choice := range [][]string{{"wind_m_s", "wind_mph", "wind_km_h"}, {"dew_point_c", "dew_point_f"}, {"cloud_fraction"},
		{"snow_depth_m", "snow_depth_cm", "snow_depth_in"}, {"rain_mm", "rain_in"}, {"snowfall_water_mm"}, {"sun_w_m2"},
		{"longwave_w_m2"}, {"soil_temp_5cm_c"}, {"soil_temp_7.1cm_c"}} {
		if rapid.Bool().Draw(t, "has "+choice[0]) {
			names = append(names, rapid.SampledFrom(choice).Draw(t, choice[0]))
		}
	}
	var b strings.Builder
	b.WriteString(strings.Join(names, ",") + "\n")
	at := time.Date(2025, 12, 1, 0, 0, 0, 0, time.UTC)
	step := rapid.SampledFrom([]time.Duration{10 * time.Minute, 30 * time.Minute, time.Hour, 3 * time.Hour}).Draw(t, "step")
	for range rapid.IntRange(2, 60).Draw(t, "rows") {
		b.WriteString(at.Format("2006-01-02 15:04:05"))
		for _, name := range names[1:] {
			b.WriteString("," + drawnValue(t, name))
		}
		b.WriteByte('\n')
		switch rapid.IntRange(0, 19).Draw(t, "next") {
		case 0: // a row twice
		case 1:
			at = at.Add(-step)
		case 2:
			at = at.Add(2*step + 7*time.Second)
		default:
			at = at.Add(step)
		}
	}
	return b.String()
}

func drawnValue(t *rapid.T, name string) string {
	if rapid.IntRange(0, 9).Draw(t, "kind") == 0 {
		return rapid.SampledFrom([]string{"", "-9999", "M"}).Draw(t, "missing")
	}
	v := rapid.Float64Range(0, 1).Draw(t, "value")
	if !strings.HasPrefix(name, "cloud") && !strings.HasPrefix(name, "snow_depth_m") {
		v *= 50
	}
	if rapid.Bool().Draw(t, "short") {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprint(v)
}

// differences says in what two series differ, soil and time included; "" for nothing.
func differences(a, b *Series) string {
	if !a.Start.Equal(b.Start) || !slices.Equal(a.Time, b.Time) {
		return "the time"
	}
	for _, c := range columns {
		if !sameBits(*c.quantity.slot(a), *c.quantity.slot(b)) {
			return fmt.Sprintf("%s: %v and %v", c.quantity.word, *c.quantity.slot(a), *c.quantity.slot(b))
		}
	}
	if !slices.EqualFunc(a.Soil, b.Soil, func(x, y SoilTrack) bool { return x.Depth == y.Depth && sameBits(x.Temp, y.Temp) }) {
		return fmt.Sprintf("soil: %v and %v", a.Soil, b.Soil)
	}
	if a.Typical != b.Typical {
		return "whether it is a typical year"
	}
	return ""
}

// sameBits compares to the bit.
func sameBits(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Float64bits(x) == math.Float64bits(y) })
}
