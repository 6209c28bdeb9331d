package weather

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
)

func mustRead(t testing.TB, text string) *Series {
	t.Helper()
	s, problems := Read("w.csv", strings.NewReader(text))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	return s
}

// Every column in its own unit comes out in SI. Expected values by hand from the exact
// factors of NIST SP 811 (2008), appendix B: 1 mi/h = 0.44704 m/s, 1 in = 0.0254 m,
// t/°C = (t/°F − 32)/1.8.
func TestReadUnits(t *testing.T) {
	cases := []struct {
		column, text string
		of           func(*Series) []float64
		want         float64
	}{
		{"wind_m_s", "12.5", func(s *Series) []float64 { return s.Wind }, 12.5},
		{"wind_mph", "10", func(s *Series) []float64 { return s.Wind }, 4.4704},
		{"wind_km_h", "36", func(s *Series) []float64 { return s.Wind }, 10},
		{"dew_point_c", "-7.5", func(s *Series) []float64 { return s.DewPoint }, -7.5},
		{"dew_point_f", "14", func(s *Series) []float64 { return s.DewPoint }, -10},
		{"cloud_fraction", "0.25", func(s *Series) []float64 { return s.Cloud }, 0.25},
		{"snow_depth_m", "0.18", func(s *Series) []float64 { return s.SnowDepth }, 0.18},
		{"snow_depth_cm", "18", func(s *Series) []float64 { return s.SnowDepth }, 0.18},
		{"snow_depth_in", "10", func(s *Series) []float64 { return s.SnowDepth }, 0.254},
		{"rain_mm", "3", func(s *Series) []float64 { return s.Rain }, 0.003},
		{"rain_in", "2", func(s *Series) []float64 { return s.Rain }, 0.0508},
		{"snowfall_water_mm", "4", func(s *Series) []float64 { return s.SnowfallWater }, 0.004},
		{"sun_w_m2", "612", func(s *Series) []float64 { return s.Sun }, 612},
		{"longwave_w_m2", "287.5", func(s *Series) []float64 { return s.LongWave }, 287.5},
		{"soil_temp_20cm_c", "1.5", func(s *Series) []float64 { return s.Soil[0].Temp }, 1.5},
	}
	for _, c := range cases {
		s := mustRead(t, fmt.Sprintf("time,air_temp_f,%s\n2026-01-17 05:00,-40,%[2]s\n2026-01-17 06:00,50,%[2]s\n", c.column, c.text))
		if got := c.of(s); len(got) != 2 || math.Abs(got[0]-c.want) > 1e-12 || got[1] != got[0] {
			t.Errorf("%s of %s: got %v, want %v", c.column, c.text, got, c.want)
		}
		if s.Air[0] != -40 || s.Air[1] != 10 {
			t.Errorf("air_temp_f -40, 50: got %v, want -40, 10", s.Air)
		}
	}
}

// What editors and spreadsheets add to a file does not change what is read.
func TestReadForms(t *testing.T) {
	plain := "time,air_temp_c,wind_m_s\n2026-01-17 05:00,-3,4\n2026-01-17 06:00,-3.5,5\n"
	want := mustRead(t, plain)
	for name, text := range map[string]string{
		"byte-order mark":  "\ufeff" + plain,
		"CRLF":             strings.ReplaceAll(plain, "\n", "\r\n"),
		"no last newline":  strings.TrimSuffix(plain, "\n"),
		"remarks, blanks":  "# a remark\n\n" + strings.ReplaceAll(plain, "\n2026", "\n# remark\n\n2026"),
		"quotes":           strings.ReplaceAll(plain, "-3,", "\"-3\","),
		"blanks in fields": strings.ReplaceAll(plain, ",", " , "),
		"ISO stamps":       strings.ReplaceAll(plain, "17 0", "17T0"),
		"seconds":          strings.ReplaceAll(plain, ":00,", ":00:00,"),
		"offset":           strings.ReplaceAll(strings.ReplaceAll(plain, "17 0", "17T0"), ":00,", ":00:00-06:00,"),
		"ignored column":   "time,x_note,air_temp_c,wind_m_s\n2026-01-17 05:00,windy,-3,4\n2026-01-17 06:00,,-3.5,5\n",
		"column order":     "time,wind_m_s,air_temp_c\n2026-01-17 05:00,4,-3\n2026-01-17 06:00,5,-3.5\n",
	} {
		got := mustRead(t, text)
		if !got.Start.Equal(want.Start) || !slices.Equal(got.Time, want.Time) || !slices.Equal(got.Air, want.Air) || !slices.Equal(got.Wind, want.Wind) {
			t.Errorf("%s: got %+v, want %+v", name, got, want)
		}
	}
	if want.Source != "w.csv" || want.Start.Format("2006-01-02 15:04") != "2026-01-17 05:00" || want.End() != 3600 {
		t.Errorf("got source %s, start %v, end %v", want.Source, want.Start, want.End())
	}
}

// Gaps of up to 6 h are bridged and listed; measured soil keeps its own.
func TestReadBridges(t *testing.T) {
	s := mustRead(t, `time,air_temp_c,wind_m_s,rain_mm,soil_temp_5cm_c
2026-01-17 00:00,-2,,1,0.5
2026-01-17 01:00,,4,,
2026-01-17 02:00,,4,2,
2026-01-17 03:00,-8,4,2,
2026-01-17 04:00,-8,4,2,
2026-01-17 09:00,-8,,0,
2026-01-17 10:00,-8,,0,0.4
`)
	if want := []float64{-2, -4, -6, -8, -8, -8, -8}; !slices.Equal(s.Air, want) {
		t.Errorf("air: got %v, want %v", s.Air, want)
	}
	if want := []float64{4, 4, 4, 4, 4, 4, 4}; !slices.Equal(s.Wind, want) {
		t.Errorf("wind at both ends: got %v, want %v", s.Wind, want)
	}
	if want := []float64{0.001, 0, 0.002, 0.002, 0.002, 0, 0}; !slices.Equal(s.Rain, want) {
		t.Errorf("rain, none where the field is empty: got %v, want %v", s.Rain, want)
	}
	if soil := s.Soil[0]; soil.Depth != 0.05 || !math.IsNaN(soil.Temp[3]) || soil.Temp[6] != 0.4 {
		t.Errorf("soil: got %+v, want depth 0.05 and the gap kept as NaN", soil)
	}
	at := func(hour int) time.Time { return time.Date(2026, 1, 17, hour, 0, 0, 0, time.UTC) }
	want := []Repair{
		{Column: "time", Line: 7, Time: at(9), Hours: 4},
		{Column: "air_temp_c", Line: 3, Time: at(1), Count: 2, Hours: 2},
		{Column: "wind_m_s", Line: 2, Time: at(0), Count: 1, Hours: 1, Kind: Held},
		{Column: "wind_m_s", Line: 7, Time: at(9), Count: 2, Hours: 6, Kind: Held}, // four missing rows and two empty fields
		{Column: "rain_mm", Line: 3, Time: at(1), Count: 1, Hours: 1, Kind: TakenNil},
	}
	for i := range want {
		want[i].File = "w.csv"
	}
	for i := range s.Repairs {
		s.Repairs[i].of = nil // its column tells as much
	}
	if !slices.Equal(s.Repairs, want) {
		t.Errorf("repairs: got %+v, want %+v", s.Repairs, want)
	}
}

// A record as long as the longest archives and a file that never ends are told apart by
// a limit that the message names.
func TestReadTooLong(t *testing.T) {
	if testing.Short() {
		t.Skip("reads two million rows")
	}
	endless := io.MultiReader(strings.NewReader("time,air_temp_c\n"), &endlessRows{})
	s, problems := Read("w.csv", endless)
	if s != nil || !strings.Contains(problems.Error(), "at most 2,000,000") {
		t.Errorf("got %.200s, want the row limit", problems.Error())
	}
}

// endlessRows is a file of minutes without end.
type endlessRows struct {
	rows int64
	row  []byte // what is left of the latest one
}

func (e *endlessRows) Read(p []byte) (int, error) {
	if len(e.row) == 0 {
		e.row = append(appendStamp(e.row[:0], 60*e.rows), ",1\n"...)
		e.rows++
	}
	n := copy(p, e.row)
	e.row = e.row[n:]
	return n, nil
}

func TestReadLongLine(t *testing.T) {
	_, problems := Read("w.csv", strings.NewReader("time,air_temp_c\n"+strings.Repeat("1", 70_000)))
	if !strings.Contains(problems.Error(), "w.csv:2: found a line of more than 64 KiB") {
		t.Errorf("got %s", problems.Error())
	}
}

// A file that is wrong throughout is told in a bounded number of lines.
func TestReadManyProblems(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,air_temp_c\n")
	for day := range 20 {
		for hour := range 24 {
			fmt.Fprintf(&b, "2026-01-%02d %02d:00,%d below\n", day+1, hour, 24*day+hour)
		}
	}
	_, problems := Read("w.csv", strings.NewReader(b.String()))
	if len(problems) != 3 || !strings.Contains(problems[2].Found, `"2 below", and 477 more like it up to line 481`) {
		t.Errorf("got %d problems, the last %v; want 480 told as two and one for all others", len(problems), problems[len(problems)-1])
	}
	header := "time,air_temp_c"
	for i := range 480 {
		header += fmt.Sprintf(",column %d", i)
	}
	_, problems = Read("w.csv", strings.NewReader(header+"\n"))
	if len(problems) != maxProblems+1 || problems[maxProblems].Found != "280 more problems after these" {
		t.Errorf("got %d problems, the last %v; want 480 kinds told as 200 and a count of the other 280",
			len(problems), problems[len(problems)-1])
	}
}

// A code for missing values in every row of a year is one message, told at its first row.
func TestReadMissingCode(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,air_temp_c,soil_temp_10cm_c\n")
	for hour := range 8760 {
		at := time.Date(2026, 1, 1, hour, 0, 0, 0, time.UTC)
		fmt.Fprintf(&b, "%s,-9999,0.5\n", at.Format("2006-01-02 15:04"))
	}
	_, problems := Read("w.csv", strings.NewReader(b.String()))
	const want = "w.csv:2: air_temp_c: found -9999 (often a code for a missing value), here and in 8759 more rows; " +
		"expected -90 to 60 degC, or nothing between the commas where none was recorded"
	if got := problems.Error(); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestIsMissingCode(t *testing.T) {
	for _, code := range []float64{-9999, 9999, -999, 999.9, -99.9, 99, 99.99, -99999, -6999, -7999, -32768, 32767, 1e20, 9.96921e36} {
		if !isMissingCode(code) {
			t.Errorf("%g: not taken for a code", code)
		}
	}
	for _, number := range []float64{9, -1, 61, 98.9, -90.1, 999.8, 9990, 1601, 700.5, 0.99} {
		if isMissingCode(number) {
			t.Errorf("%g: taken for a code", number)
		}
	}
}
