package weather

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// The older version, in whole °F, mph and inches. By hand: t/°C = (t/°F − 32)·5/9,
// 1 mph = 0.44704 m/s, 1 in = 0.0254 m (NIST SP 811, 2008, appendix B.9).
func TestReadLCD(t *testing.T) {
	r := sampleRecord(t, "lcd", "us.csv", Options{})
	// Six reports, on lines 2 to 7; the summaries of a day and a month are passed over.
	wantStamps(t, r, 6, "2026-01-17 04:53", "2026-01-17 07:53")
	if r.line[0] != 2 || r.line[5] != 7 {
		t.Errorf("lines %v", r.line)
	}
	wantColumn(t, "air", r.of(airTemperature), -5, -40./9, 0, 0, none, -40)
	wantColumn(t, "dew point", r.of(dewPoint), -10, -85./9, none, -80./9, -75./9, -75./9)
	wantColumn(t, "wind", r.of(windSpeed), 4.4704, 0, 2.2352, 2.68224, 8.9408, none)
	// Broken above few, overcast, a sky that cannot be seen, nothing told, clear, a code without a share.
	wantColumn(t, "cloud", r.of(cloudCover), 0.75, 1, 1, none, 0, none)
	// 0.05 in fell from 04:53 to 05:53, of which 0.02 in before the special report of 05:20;
	// the synoptic report of 06:00 repeats them. Each amount stands where its time begins.
	wantColumn(t, "rain", r.of(rainfall), 0.02*0.0254, 0.03*0.0254, none, 0, 0.10*0.0254, none)
	// The day's 7 in of snow stand at 12:00 UTC, 06:00 at 90° west.
	wantColumn(t, "snow", r.of(snowOnGround), none, none, none, 0.1778, none, none)
	wantNote(t, r, false, "unit", "°F, mph and inches", "11 pressures in inches of mercury")
	wantNote(t, r, false, "local standard time")
	wantNote(t, r, false, "3 values marked as suspect")
	for _, e := range r.ledger {
		if e.Kind != Emptied || e.Column != lcdDew || e.Evidence != "*" || e.Line != 4 || e.Count != 1 {
			t.Errorf("ledger has %+v; want the asterisk of line 4", e)
		}
	}
}

// The newer version has the same names, tenths of °C, m/s and mm.
func TestReadLCDCelsius(t *testing.T) {
	r := sampleRecord(t, "lcd", "si.csv", Options{})
	wantColumn(t, "air", r.of(airTemperature), -5, -4.4, -3.9)
	wantColumn(t, "dew point", r.of(dewPoint), -10, -9.4, -8.9)
	wantColumn(t, "wind", r.of(windSpeed), 4.6, 2.1, 0)
	wantColumn(t, "rain", r.of(rainfall), 0.0013, 0, none)
	wantColumn(t, "cloud", r.of(cloudCover), 3.5/8, 1, 0)
	wantNote(t, r, false, "unit", "°C, m/s and mm", "2 of 3 air temperatures have tenths, as -4.4 on line 3")
}

// Rows without a value at the beginning shift neither precipitation nor the days' snow;
// three days of snow are one column.
func TestReadLCDDays(t *testing.T) {
	var b strings.Builder
	b.WriteString("DATE,LONGITUDE,REPORT_TYPE,HourlyDryBulbTemperature,HourlyPrecipitation,DailySnowDepth\n2026-01-16T23:53:00,-75,FM-16,,,\n")
	for day := 17; day <= 19; day++ {
		for hour := range 24 {
			fmt.Fprintf(&b, "2026-01-%d T%02d:00:00,-75,FM-16,20,0.01,\n2026-01-%[1]d T%02[2]d:53:00,-75,FM-15,20,0.02,\n", day, hour)
		}
		fmt.Fprintf(&b, "2026-01-%dT23:59:00,-75,SOD,,,%d\n", day, day-12)
	}
	text := strings.ReplaceAll(b.String(), " T", "T")
	r := recordOf(t, "w.csv", []byte(text), Options{})
	sum := 0.0
	for _, v := range r.of(rainfall) {
		if !math.IsNaN(v) {
			sum += v
		}
	}
	if want := (72*0.02 - 0.01) * 0.0254; math.Abs(sum-want) > 1e-12 { // that of 00:00 on the 17th fell before the first row
		t.Errorf("%g m of rain, want %g", sum, want)
	}
	s, problems := Read("w.csv", strings.NewReader(text))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	// 5 in at 07:00 on the 17th, 6 in a day later, half an inch more at 19:00 between them.
	at := func(hour int) float64 { return s.SnowDepth[hour] / 0.0254 }
	if math.Abs(at(7)-5) > 1e-9 || math.Abs(at(19)-5.5) > 1e-9 || math.Abs(at(31)-6) > 1e-9 {
		t.Errorf("snow of %g, %g, %g in; want 5, 5.5, 6", at(7), at(19), at(31))
	}
}

// The depth of the newer version is in a unit that the file does not state.
func TestReadLCDCelsiusSnow(t *testing.T) {
	r := recordOf(t, "w.csv", []byte("DATE,REPORT_TYPE,HourlyDryBulbTemperature,DailySnowDepth\n"+
		"2026-01-17T06:00:00,FM-15,-3.5,\n2026-01-17T07:00:00,FM-15,-3.4,\n2026-01-17T23:59:00,SOD,,180\n"), Options{})
	if r.of(snowOnGround) != nil {
		t.Errorf("snow of %v", r.of(snowOnGround))
	}
	wantNote(t, r, true, "snow depth", "left out", "DailySnowDepth")
}

// What tells the versions apart, one piece of evidence at a time.
func TestLCDVersion(t *testing.T) {
	for _, c := range []struct {
		name, rows string
		air        float64 // of the first row [°C]
		word       string
		doubtful   bool
	}{
		{"tenths", "23.4,1013.2\n", 23.4, "1 of 1 air temperatures have tenths", false},
		{"tenths alone", "23.4,\n", 23.4, "1 of 1 air temperatures have tenths", false},
		{"tenths against pressures", "23.4,29.92\n", 23.4, "though pressures are in inches of mercury", true},
		{"hPa", "23,1013.2\n24,1013.0\n", 23, "2 pressures are in hPa, as 1013.2 on line 2", false},
		{"inches", "23.0,29.92\n", -5, "pressures in inches of mercury", false},
		{"nothing but whole degrees", "23,\n", -5, "no pressures to tell by", true},
		{"one tenth among a hundred", "33.8,29.92\n" + strings.Repeat("23,29.92\n", 99), 1, "pressures in inches of mercury", false},
	} {
		var b strings.Builder
		b.WriteString("DATE,HourlyDryBulbTemperature,HourlyStationPressure\n")
		for _, row := range strings.SplitAfter(strings.TrimSuffix(c.rows, "\n"), "\n") {
			b.WriteString("2026-01-17T05:00:00," + row)
		}
		r := recordOf(t, "w.csv", []byte(b.String()), Options{})
		if got := r.of(airTemperature)[0]; math.Abs(got-c.air) > 1e-12 {
			t.Errorf("%s: got %v, want %v", c.name, got, c.air)
		}
		wantNote(t, r, c.doubtful, "unit", c.word)
	}
}
