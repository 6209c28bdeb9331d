package main

import (
	"strings"
	"testing"

	"winterline/weather"
)

// A column is found by its depth, however its name is written; its unit may be left out.
func TestThermometer(t *testing.T) {
	series, problems := weather.Read("w.csv", strings.NewReader("time,air_temp_c,soil_temp_5cm_c,soil_temp_7cm_c,soil_temp_2.5cm_c\n"+
		"2026-01-05 00:00,-4,1,2,3\n2026-01-05 01:00,-4,1,2,3\n"))
	if problems != nil {
		t.Fatal(problems)
	}
	in := &inputs{series: series, weatherFile: "w.csv"}
	for column, want := range map[string]float64{
		"soil_temp_5cm": 1, "soil_temp_5cm_c": 1, "soil_temp_05.0cm_c": 1, "soil_temp_7cm": 2, "soil_temp_2.5cm_c": 3,
	} {
		track, err := in.thermometer(column)
		if err != nil {
			t.Errorf("%s: %v", column, err)
		} else if track.Temp[0] != want {
			t.Errorf("%s: the column that starts with %v, want %v", column, track.Temp[0], want)
		}
	}
	const known = "; expected a measured column of w.csv: soil_temp_5cm_c, soil_temp_7cm_c, soil_temp_2.5cm_c"
	for _, column := range []string{"soil_temp_20cm", "soil_temp_cm", "soil_temp_5", "5cm_c", "air_temp_c"} {
		_, err := in.thermometer(column)
		if want := `--surface-from: found "` + column + `"` + known; err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", column, err, want)
		}
	}
	if track, err := in.thermometer(""); track != nil || err != nil {
		t.Errorf("none named: %v, %v", track, err)
	}
}
