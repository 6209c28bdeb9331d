package weather

import (
	"reflect"
	"testing"
)

// Hours without a row count for every column; what a column misses beside them is its own.
func TestBridged(t *testing.T) {
	for text, want := range map[string]Bridged{
		"time,air_temp_c,wind_m_s\n2026-01-17 05:00,-3,4\n2026-01-17 06:00,-3,4\n2026-01-17 07:00,-3,4\n": {Others: true},
		"time,air_temp_c,wind_m_s\n2026-01-17 05:00,-3,4\n2026-01-17 06:00,-3,4\n2026-01-17 09:00,-3,4\n2026-01-17 10:00,-3,4\n": {Rows: 2,
			Columns: []BridgedColumn{{"air temperature", 2}}, Others: true},
		"time,air_temp_f,wind_mph,rain_mm\n2026-01-17 05:00,30,4,0\n2026-01-17 06:00,,4,\n2026-01-17 07:00,30,,\n2026-01-17 10:00,30,4,0\n2026-01-17 11:00,30,4,0\n2026-01-17 12:00,30,4,0\n": {Rows: 2,
			Columns: []BridgedColumn{{"air temperature", 3}, {"wind", 3}, {"rain", 4}}},
		"time,air_temp_c,wind_m_s,rain_mm\n2026-01-17 05:00,-3,4,0\n2026-01-17 06:00,-3,,0\n2026-01-17 07:00,-3,4,0\n": {
			Columns: []BridgedColumn{{"wind", 1}}, Others: true},
		// Rows missing on both sides of one without wind.
		"time,air_temp_c,wind_m_s\n2026-01-17 05:00,-3,4\n2026-01-17 06:00,-3,4\n2026-01-17 08:00,-3,\n2026-01-17 10:00,-3,4\n2026-01-17 11:00,-3,4\n2026-01-17 12:00,-3,4\n": {Rows: 2,
			Columns: []BridgedColumn{{"air temperature", 2}, {"wind", 3}}},
	} {
		s, err := readTexts(Options{}, text)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Bridged(); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %+v, want %+v", text, got, want)
		}
	}
}
