package weather

import (
	"slices"
	"testing"
)

func TestReadISDLite(t *testing.T) {
	zone := -6.0
	r := sampleRecord(t, "isdlite", "sample.txt", Options{Zone: &zone})
	if r.format != "ISD-Lite" || r.typical {
		t.Errorf("format %s, typical %v", r.format, r.typical)
	}
	// 22 h UTC is 16 h in a zone of UTC-6.
	wantStamps(t, r, 6, "2023-12-31 16:00", "2023-12-31 21:00")
	// Tenths of a degree and of a metre a second; -9999 is missing.
	wantColumn(t, "air", r.of(airTemperature), -1.5, -2, none, -3, -3.5, -4)
	wantColumn(t, "dew point", r.of(dewPoint), -3, -3.5, -4, none, -5, -5.5)
	wantColumn(t, "wind", r.of(windSpeed), 4.6, 5.1, none, 5.7, 6.2, 0)
	// 4 of 8; 9 is a sky that cannot be seen; 13 tells of one layer only.
	wantColumn(t, "cloud", r.of(cloudCover), 0, 0.5, 1, 1, none, none)
	// A trace (-1) is nothing; 12 tenths of a millimetre that ended at 00 h began at 23 h.
	wantColumn(t, "rain", r.of(rainfall), 0, 0.0012, 0.0035, 0, none, none)
	wantNote(t, r, false, "clock", "UTC-6 as stated")
	sky := slices.DeleteFunc(slices.Clone(r.ledger), func(e Repair) bool { return e.Column != "sky condition" })
	if len(sky) != 2 || sky[0].Kind != Emptied || sky[0].Evidence != "-9999" || sky[1].Kind != Uncoded || sky[1].Evidence != "13, which stands for single layers, not for the whole sky" {
		t.Errorf("the ledger says of the sky %v", sky)
	}
}

// Without a zone the hours stay those of the file, and a warning says so.
func TestReadISDLiteUTC(t *testing.T) {
	r := sampleRecord(t, "isdlite", "sample.txt", Options{})
	wantStamps(t, r, 6, "2023-12-31 22:00", "2024-01-01 03:00")
	wantNote(t, r, true, "clock", "times are UTC and stay so")
}

// Where there are only totals of six hours these are spread: 6.0 mm from 00 h to 06 h are
// 1 mm an hour, and a trace from 06 h to 12 h is nothing.
func TestReadISDLiteSixHours(t *testing.T) {
	r := sampleRecord(t, "isdlite", "sixhours.txt", Options{})
	wantColumn(t, "rain", r.of(rainfall), 0.001, 0.001, 0.001, 0.001, 0.001, 0.001, 0, 0, 0, 0, 0, 0, none, none)
}
