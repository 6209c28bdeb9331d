package weather

import "testing"

// By hand: 3.6 km/h = 1 m/s.
func TestReadCanada(t *testing.T) {
	r := sampleRecord(t, "canada", "lst.csv", Options{})
	wantStamps(t, r, 4, "2026-01-17 00:00", "2026-01-17 03:00") // two hours that had not come yet are cut off
	if r.line[0] != 2 || r.line[3] != 5 {
		t.Errorf("lines %v", r.line)
	}
	wantColumn(t, "air", r.of(airTemperature), -12.3, -12.9, none, -14)
	wantColumn(t, "dew point", r.of(dewPoint), -15, -15.4, none, -16.4) // -15.9 is flagged as missing
	wantColumn(t, "wind", r.of(windSpeed), 5, 10, none, 2.5)
	wantColumn(t, "rain", r.of(rainfall), 0.0004, 0.0012, none, none) // each hour's stands at its beginning
	wantNote(t, r, false, "clock", "local standard time", "Date/Time (LST)")
	wantNote(t, r, false, "1 value that the publisher estimated")
	wantNote(t, r, false, "2 rows without a value left out at the ends")
	if len(r.ledger) != 1 || r.ledger[0].Kind != Flagged || r.ledger[0].Evidence != "-15.9, flagged as missing" || r.ledger[0].Line != 4 {
		t.Errorf("ledger has %v", r.ledger)
	}
}

// An older file: a block on the station, Latin-1, other names of the time.
func TestReadCanadaOlder(t *testing.T) {
	r := sampleRecord(t, "canada", "older.csv", Options{})
	wantStamps(t, r, 2, "1998-03-01 00:00", "1998-03-01 01:00")
	if r.line[0] != 14 {
		t.Errorf("first row on line %d, want 14", r.line[0])
	}
	wantColumn(t, "air", r.of(airTemperature), 1.5, 1.1)
	wantColumn(t, "dew point", r.of(dewPoint), -0.5, -0.6)
	wantColumn(t, "wind", r.of(windSpeed), 0, 4/3.6)
	if r.of(rainfall) != nil {
		t.Error("rain from a file that has none")
	}
}
