package weather

import "testing"

// The sample is sewn together of January 1997 and February 2003. Hour 22 of the 31st ends
// at 22:00 and becomes 31 January 2001, 22:00.
func TestReadEPW(t *testing.T) {
	r := sampleRecord(t, "epw", "typical.epw", Options{})
	if r.format != "EPW" || !r.typical {
		t.Errorf("format %s, typical %v", r.format, r.typical)
	}
	wantStamps(t, r, 7, "2001-01-31 22:00", "2001-02-01 04:00")
	for i, line := range r.line {
		if int(line) != 9+i || i > 0 && r.stamp[i]-r.stamp[i-1] != 3600 {
			t.Errorf("row %d: line %d, stamp %s", i, line, wall(r.stamp[i]))
		}
	}
	// 99.9 is missing in temperatures, 999 in wind, 99 in sky cover.
	wantColumn(t, "air", r.of(airTemperature), -8, -8.5, -9, none, -10, -10.5, -11)
	wantColumn(t, "dew point", r.of(dewPoint), -10.5, none, -11.5, -12, -12.5, -13, -13.5)
	wantColumn(t, "wind", r.of(windSpeed), 4, none, 4.5, 5, 5.5, 6, 6.5)
	// Opaque cover, 8 tenths = 0.8, rather than total.
	wantColumn(t, "cloud", r.of(cloudCover), 0.8, 0.7, none, 0.5, 0, 0, 1)
	// Means of the hours before and after: (200+210)/2; the row before a missing one and
	// the last one keep their own.
	wantColumn(t, "long-wave", r.of(longWave), 205, 215, 220, none, 245, 255, 260)
	wantColumn(t, "sun", r.of(sunshine), 0, 0, 0, 0, none, 60, 80)
	// 1.5 mm that ended at 01:00 began at 24:00. What will fall after the last row is not known.
	wantColumn(t, "rain", r.of(rainfall), none, 0, 0.0015, 0.002, 0, 0.0005, none)
	if r.of(snowOnGround) != nil {
		t.Error("snow that is 0 in every row was taken as observed")
	}
	wantNote(t, r, true, "snow depth", "0 in every row")
	wantNote(t, r, false, "January 1997, February 2003", "2001")
	wantNote(t, r, false, "clock", "UTC-6")
}

// A record of one year keeps it, with its leap day; half hours end at minutes 30 and 60.
func TestReadEPWHalfHours(t *testing.T) {
	r := sampleRecord(t, "epw", "halfhours.epw", Options{})
	if r.typical {
		t.Error("taken for a typical year")
	}
	wantStamps(t, r, 4, "2016-02-28 23:30", "2016-02-29 01:00")
	wantColumn(t, "air", r.of(airTemperature), -1, -1.5, -2, -2.5)
	wantColumn(t, "cloud, total as there is no opaque", r.of(cloudCover), 0.8, 0.6, 0.4, 0.2)
	wantColumn(t, "snow", r.of(snowOnGround), 0.12, 0.12, 0.13, none)
	wantColumn(t, "rain", r.of(rainfall), 0.0002, 0, 0, none)
	wantColumn(t, "sun", r.of(sunshine), 0, 5, 20, 30)
	wantEarly(t, r, "0.4 mm left out")
}

func TestIsTypicalSource(t *testing.T) {
	for name, want := range map[string]bool{"TMY3": true, "SRC-TMYx": true, "CWEC2016": true, "IWEC2 Data": true,
		"AMY": false, "ISD": false, "INDUSTRY": false, "": false} {
		if isTypicalSource(name) != want {
			t.Errorf("%q: got %v", name, !want)
		}
	}
}
