package weather

import "testing"

// By hand: t/°C = (t/°F − 32)·5/9, 1 knot = 1852/3600 m/s, 1 in = 0.0254 m (NIST SP 811,
// 2008, appendix B.9).
func TestReadMetar(t *testing.T) {
	zone := -6.0
	r := sampleRecord(t, "metar", "us.csv", Options{Zone: &zone})
	wantStamps(t, r, 6, "2026-01-17 04:53", "2026-01-17 07:53") // 10:53 and 13:53 UTC
	if r.line[0] != 4 || r.line[5] != 9 {
		t.Errorf("lines %v", r.line)
	}
	wantColumn(t, "air", r.of(airTemperature), -5, none, -4, 0, -40, 10)
	wantColumn(t, "dew point", r.of(dewPoint), -10, none, -9, none, -380./9, 5)
	wantColumn(t, "wind", r.of(windSpeed), 18520./3600, 0, 0, 9260./3600, none, 37040./3600)
	wantColumn(t, "cloud", r.of(cloudCover), 0.75, 1, 1, 1, 0, none)
	wantColumn(t, "snow", r.of(snowOnGround), none, 0.1778, none, none, none, none)
	// From 10:53 to 11:53 UTC 0.05 in fell: 0.02 by 11:20, 0.03 by 11:41. Then traces.
	wantColumn(t, "rain", r.of(rainfall), 0.02*0.0254, 0.01*0.0254, 0.02*0.0254, 0, 0, none)
	wantNote(t, r, false, "clock", "UTC-6 as stated")
	wantNote(t, r, false, "rain", "53 minutes after the hour")
	codes := map[string]int{}
	for _, e := range r.ledger {
		codes[e.Column+" "+e.Evidence] = e.Count
	}
	if codes["tmpf M"] != 1 || codes["dwpf M"] != 2 || codes["sknt M"] != 1 || codes["snowdepth M"] != 4 || len(codes) != 4 {
		t.Errorf("ledger has %v", codes)
	}
}

// Columns in metric units, and no zone: the times stay, and the user is warned.
func TestReadMetarMetric(t *testing.T) {
	r := sampleRecord(t, "metar", "metric.csv", Options{})
	wantStamps(t, r, 3, "2026-01-17 10:00", "2026-01-17 12:00")
	wantColumn(t, "air", r.of(airTemperature), -5, -4.5, -4)
	wantColumn(t, "dew point", r.of(dewPoint), -10, -9.5, -9)
	wantColumn(t, "wind", r.of(windSpeed), 4.4704, 0, 8.9408)
	wantColumn(t, "rain", r.of(rainfall), 0.0025, none, none)
	wantNote(t, r, true, "clock", "UTC", "no zone is stated")
}

// Reports that spreadsheets have touched still read, and give the same record.
func TestReadMetarSpreadsheet(t *testing.T) {
	text := "station,valid,tmpf\nABCD,1/12/2026 11:53 PM,23\nABCD,1/13/2026 12:53 AM,22\n"
	r := recordOf(t, "w.csv", []byte(text), Options{})
	wantStamps(t, r, 2, "2026-01-12 23:53", "2026-01-13 00:53")
	wantNote(t, r, false, "month first", "1/13/2026 on line 3")
}
