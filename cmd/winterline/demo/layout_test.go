package demo

import (
	"io/fs"
	"strings"
	"testing"

	"winterline/pipe"
)

// The layout reads without a problem, its levels agree, and what it calls unknown is
// listed as a guess, nothing more.
func TestLayout(t *testing.T) {
	text, err := fs.ReadFile(Files(), "layout.toml")
	if err != nil {
		t.Fatal(err)
	}
	layout, problems := pipe.ReadLayout("layout.toml", text)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if _, problems := layout.MakeProfile("layout.toml"); problems.Err() != nil {
		t.Error(problems)
	}
	want := map[string]bool{"site.soil_moisture": true, "site.wind_exposure": true, "site.wind_pressure_coefficient": true, "basin.water_temperature": true,
		"relief[0].spread_area": true, "outlet.spread_area": true}
	for _, g := range layout.Guesses {
		if !want[g.Key] {
			t.Errorf("%s is a guess without being called unknown", g.Key)
		}
		delete(want, g.Key)
	}
	for key := range want {
		t.Errorf("%s is not among the guesses", key)
	}
}

// The pump cycles read, and lie within the weather record.
func TestPumpCycles(t *testing.T) {
	cycles, problems := pipe.ReadCycles("pump.csv", strings.NewReader(pumpFile()))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if len(cycles) < 280 {
		t.Errorf("got %d cycles, want at least 280", len(cycles))
	}
	end := start.AddDate(0, 0, days)
	for _, c := range cycles {
		if c.Start.Before(start) || c.Start.After(end) || c.Run < 40 || c.Run > 60 {
			t.Errorf("cycle at %v of %g s: want one within the record, of 40 to 60 s", c.Start, c.Run)
		}
	}
}
