package sim_test

import (
	"encoding/csv"
	"math"
	"testing"
	"time"

	"winterline/weather"
)

// fargoDepths are those of the thermometers [m].
var fargoDepths = []float64{.05, .10, .20, .30, .40, .50, .60, .80, 1.00, 1.25, 1.50, 1.75, 2.00, 2.25}

// readFargo reads the North Dakota Agricultural Weather Network's hourly deep soil
// temperatures: station, time (m/d/yy H:MM, central standard time), one column a depth, °C.
// Hours without readings are left out, so that what drives the ground is joined across
// them. The record has no air temperature: the thermometer at 5 cm stands in its place, and
// is what drives the ground.
func readFargo(t *testing.T) *weather.Series {
	rows, err := csv.NewReader(dataFile(t, "fargo-nd-deep-soil", "fargo_hourly_deep_soil_temperature.csv.gz")).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	jump := time.Date(2018, 4, 25, 12, 0, 0, 0, time.UTC) // one hour 8 to 16 K off at six depths
	s := &weather.Series{Source: "NDAWN"}
	for _, d := range fargoDepths {
		s.Soil = append(s.Soil, weather.SoilTrack{Depth: d})
	}
	for _, row := range rows[1:] {
		at, err := time.Parse("1/2/06 15:04", row[1])
		if err != nil {
			t.Fatal(err)
		}
		if at.Equal(jump) || math.IsNaN(decimal(row[2])) {
			continue
		}
		if s.Time == nil {
			s.Start = at
		}
		s.Time = append(s.Time, at.Sub(s.Start).Seconds())
		for k := range s.Soil {
			s.Soil[k].Temp = append(s.Soil[k].Temp, decimal(row[2+k]))
		}
	}
	s.Air = s.Soil[0].Temp
	return s
}

// Facts of the record: lowest temperatures by winter and depth.
func TestStationFargoRead(t *testing.T) {
	s := readFargo(t)
	for _, want := range []struct {
		winter int
		low    [4]float64 // at 5, 20, 50, 100 cm [°C]
	}{
		{2015, [4]float64{-14.4, -8.7, -3.6, -0.3}},
		{2016, [4]float64{-8.6, -4.6, -0.9, 0.5}},
		{2017, [4]float64{-12.3, -7.4, -1.9, 0.5}},
		{2018, [4]float64{-16.0, -10.9, -5.7, -1.4}},
	} {
		for k, d := range []float64{.05, .20, .50, 1.00} {
			got := lowest(s, soilTrack(t, s, d), time.Date(want.winter-1, 10, 1, 0, 0, 0, 0, time.UTC), time.Date(want.winter, 6, 1, 0, 0, 0, 0, time.UTC))
			expectRounded(t, "lowest", want.winter, d, got, want.low[k])
		}
	}
}

// lowest is the least value of a column between two instants; NaN: none.
func lowest(s *weather.Series, column []float64, from, to time.Time) float64 {
	low := math.NaN()
	for i, v := range column {
		if at := s.Stamp(s.Time[i]); at.Before(from) || !at.Before(to) || math.IsNaN(v) {
			continue
		}
		if !(low <= v) {
			low = v
		}
	}
	return low
}

// soilTrack is the measured column at a depth [m].
func soilTrack(t *testing.T, s *weather.Series, depth float64) []float64 {
	t.Helper()
	for _, k := range s.Soil {
		if math.Abs(k.Depth-depth) < 1e-9 {
			return k.Temp
		}
	}
	t.Fatalf("no thermometer at %g m", depth)
	return nil
}

// expectRounded fails unless got rounds to what is stated with one decimal.
func expectRounded(t *testing.T, what string, winter int, depth, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 0.05+1e-9) {
		t.Errorf("winter %d, %.1f cm: %s %.2f °C, expected %.1f", winter, 100*depth, what, got, want)
	}
}
