package weather

import (
	"fmt"
	"math"
	"testing"
)

// By hand: 36 km/h = 10 m/s; 7 cm of snowfall are 10 mm of water, so 1.4 cm are 2 mm; a
// layer of soil stands for its middle.
func TestReadReanalysis(t *testing.T) {
	r := sampleRecord(t, "reanalysis", "newer.csv", Options{})
	wantStamps(t, r, 4, "2026-01-17 00:00", "2026-01-17 03:00")
	if r.line[0] != 5 {
		t.Errorf("first row on line %d, want 5", r.line[0])
	}
	wantColumn(t, "air", r.of(airTemperature), -3.5, -3, 0.5, 1)
	wantColumn(t, "dew point", r.of(dewPoint), -5, -4.5, none, 0)
	wantColumn(t, "wind", r.of(windSpeed), 10, 5, 2.5, 0)
	wantColumn(t, "snow depth", r.of(snowOnGround), 0.20, 0.22, 0.22, 0.21)
	wantColumn(t, "snowfall", r.of(snowfallWater), 0.002, 0, 0, none)
	wantColumn(t, "rain and showers", r.of(rainfall), 0, 0.0015, 0.002, none)
	wantColumn(t, "cloud", r.of(cloudCover), 1, 0.75, 0.5, 0)
	wantColumn(t, "sun", r.of(sunshine), 0, 50, 150, 200) // between the hours' means
	if len(r.columns) != 10 {
		t.Errorf("%d columns, want 10", len(r.columns))
	}
	top, below := r.columns[8], r.columns[9]
	if top.depth != 0.035 || below.depth != 0.64 {
		t.Errorf("soil at %g and %g m, want 0.035 and 0.64", top.depth, below.depth)
	}
	wantColumn(t, "soil", top.values, 0.4, 0.4, 0.4, none)
	wantNote(t, r, false, "clock", "UTC-5")
}

// Older names, US units, no block on the place. By hand: 1 ft = 0.3048 m; 0.7 in of snow
// are 0.1 in of water, 2.54 mm.
func TestReadReanalysisOlder(t *testing.T) {
	r := sampleRecord(t, "reanalysis", "older.csv", Options{})
	wantColumn(t, "air", r.of(airTemperature), -5, 0, 10)
	// Saturated air is at its dew point; that of 10 °C and 50 % is 0.1 °C (psychrometric tables, to 0.1 K).
	dew := r.of(dewPoint)
	wantColumn(t, "dew point", dew[:2], -5, 0)
	if math.Abs(dew[2]-0.1) > 0.1 {
		t.Errorf("dew point %g, want 0.1", dew[2])
	}
	wantColumn(t, "wind", r.of(windSpeed), 4.4704, 2.2352, 0)
	wantColumn(t, "snow depth", r.of(snowOnGround), 0.3048, 0.1524, 0)
	wantColumn(t, "snowfall", r.of(snowfallWater), 0.00254, 0, none)
	wantColumn(t, "precipitation less snowfall", r.of(rainfall), 0, 0.00508, none)
	wantNote(t, r, true, "clock", "local standard time")
}

// A table of one row before the hours and a table of days after them are passed over.
// Rain is 0.4 mm of a precipitation of 1 mm: the rest is snow.
func TestReadReanalysisBlocks(t *testing.T) {
	zone := -6.0
	r := sampleRecord(t, "reanalysis", "blocks.csv", Options{Zone: &zone})
	wantStamps(t, r, 3, "2026-01-16 18:00", "2026-01-16 20:00")
	wantColumn(t, "air", r.of(airTemperature), -3.5, -3, -2.5)
	wantColumn(t, "wind", r.of(windSpeed), 10, 5, 2.5)
	wantColumn(t, "rain", r.of(rainfall), 0.0004, 0, none)
	wantColumn(t, "snowfall", r.of(snowfallWater), 0.0006, 0, none)
	wantNote(t, r, false, "UTC-6 as stated")
}

// What becomes of 00:00 by the clock that the file states and the zone that the user does.
func TestReanalysisClock(t *testing.T) {
	for _, c := range []struct {
		longitude   float64
		offset      int
		zone, short string
		stated      float64 // 0: not
		want        string
		warning     bool
		word        string
	}{
		{-75, -18000, "Etc/GMT+5", "GMT-5", 0, "2026-01-17 00:00", false, "that of Etc/GMT+5, UTC-5"},
		{-71, -14400, "America/New_York", "GMT-4", 0, "2026-01-16 23:00", true, "UTC-4 taken to UTC-5 (that is the standard time of America/New_York"},
		{-84, -18000, "America/New_York", "GMT-5", 0, "2026-01-17 00:00", false, "that of America/New_York, UTC-5"},
		{-75, -14400, "", "EDT", 0, "2026-01-16 23:00", true, "set back by an hour"},
		{-79, -14400, "Nowhere", "GMT-4", 0, "2026-01-17 00:00", true, "1.3 h behind the clock"}, // 79/15 = 5.27
		{-75, -18000, "", "EST", 0, "2026-01-17 00:00", false, "utc_offset_seconds says UTC-5"},
		{-75, -14400, "", "GMT-4", -5, "2026-01-16 23:00", false, "UTC-4 taken to UTC-5"},
		{-90, 0, "GMT", "GMT", 0, "2026-01-17 00:00", true, "no zone is stated"},
		{-90, 0, "GMT", "GMT", -6, "2026-01-16 18:00", false, "UTC-6 as stated"},
		{0, 0, "GMT", "GMT", 0, "2026-01-17 00:00", false, "UTC+0"},
	} {
		text := fmt.Sprintf("latitude,longitude,utc_offset_seconds,timezone,timezone_abbreviation\n45,%g,%d,%s,%s\n\n"+
			"time,temperature_2m (°C)\n2026-01-17T00:00,1\n2026-01-17T01:00,2\n", c.longitude, c.offset, c.zone, c.short)
		o := Options{}
		if c.stated != 0 {
			o.Zone = &c.stated
		}
		r := recordOf(t, "w.csv", []byte(text), o)
		if got := showTime(wall(r.stamp[0])); got != c.want {
			t.Errorf("%s %s at %g: first row at %s, want %s", c.zone, c.short, c.longitude, got, c.want)
		}
		wantNote(t, r, c.warning, "clock", c.word)
	}
}
