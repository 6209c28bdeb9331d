package weather

import (
	"os"
	"strings"
	"testing"
)

// The sample is sewn together of December 1988 and January 1979 and dated as from 2001 on.
func TestReadTMY3(t *testing.T) {
	r := sampleRecord(t, "tmy3", "sample.csv", Options{})
	if r.format != "TMY3" || !r.typical {
		t.Errorf("format %s, typical %v", r.format, r.typical)
	}
	wantStamps(t, r, 5, "2001-12-31 22:00", "2002-01-01 02:00")
	if r.line[0] != 3 || r.line[4] != 7 {
		t.Errorf("lines %v", r.line)
	}
	// -9900 is missing throughout.
	wantColumn(t, "air", r.of(airTemperature), 2, 2.5, 3, none, 1.5)
	wantColumn(t, "dew point", r.of(dewPoint), -1, -1.5, -2, -2.5, none)
	wantColumn(t, "wind", r.of(windSpeed), 3.1, 3.6, none, 4.1, 4.6)
	wantColumn(t, "opaque cloud", r.of(cloudCover), 1, none, 0.9, 0.5, 0.4)
	wantColumn(t, "sun", r.of(sunshine), 0, 0, 10, 40, 60)
	// 6 mm in 6 h that end at 23:00 cover hours of which one has a record of its own, so
	// they are not spread. The 1 mm that ended at 01:00 began at 24:00.
	wantColumn(t, "rain", r.of(rainfall), none, none, 0.001, 0, none)
	wantNote(t, r, false, "December 1988, January 1979")
	wantNote(t, r, false, "UTC-5")
}

// Two hours of precipitation are given to both of them where neither has its own.
func TestReadTMY3SpreadRain(t *testing.T) {
	data, err := os.ReadFile("testdata/tmy3/sample.csv")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "0.2,0,1,D", "0.2,-9900,-9900,D", 1) // the row of 22:00
	text = strings.Replace(text, "0.2,6,6,D", "0.2,6,2,D", 1)                  // 6 mm from 21:00 to 23:00
	r := recordOf(t, "sample.csv", []byte(text), Options{})
	wantColumn(t, "rain", r.of(rainfall), 0.003, none, 0.001, 0, none)
	wantEarly(t, r, "3 mm left out") // those from 21:00 to 22:00
}
