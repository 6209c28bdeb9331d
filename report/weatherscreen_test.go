package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"winterline/weather"
)

// snapRecord is three weeks at −2 °C with a snap to −22 °C in the middle, wind and snow, as
// a reader gave it with notes and a ledger.
func snapRecord() *weather.Series {
	s := &weather.Series{
		Source: "station.txt", Format: "ISD-Lite", Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC),
		Notes: []weather.Note{
			{File: "station.txt", About: "unit", Text: "taken as tenths", Evidence: "all are whole numbers"},
			{File: "station.txt", About: "clock", Text: "times are UTC and stay so", Warning: true},
			{File: "station.txt", Line: 7, About: "wind", Text: "doubtful", Warning: true},
		},
		Repairs: []weather.Repair{
			{Kind: weather.Joined, Column: "time", File: "station.txt", Line: 9, Time: time.Date(2026, 1, 5, 9, 0, 0, 0, time.UTC), Hours: 2},
			{Kind: weather.Joined, Column: "time", File: "station.txt", Line: 90, Time: time.Date(2026, 1, 8, 9, 0, 0, 0, time.UTC), Hours: 3},
			{Kind: weather.Spike, Column: "wind", File: "station.txt", Line: 44, Time: time.Date(2026, 1, 6, 0, 0, 0, 0, time.UTC), Count: 1, Evidence: "60 between 3 and 4"},
		},
	}
	for h := range 21*24 + 1 {
		s.Time = append(s.Time, float64(h)*3600)
		air := -2.0
		if h >= 240 && h < 264 {
			air = -22
		}
		s.Air = append(s.Air, air)
		s.Wind = append(s.Wind, 4)
		s.SnowDepth = append(s.SnowDepth, 0.2)
	}
	return s
}

func weatherScreen(t *testing.T, o WeatherOptions, spans ...*weather.Series) string {
	t.Helper()
	var b bytes.Buffer
	if err := WeatherScreen(&b, weather.DigestOf(spans...), o); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(b.String(), "\n") {
		if utf8.RuneCountInString(line) > weatherWidth {
			t.Errorf("wider than %d columns: %q", weatherWidth, line)
		}
	}
	return b.String()
}

// Screens to be read; what they say is worked out by hand in the tests of package weather.
func TestWeatherScreens(t *testing.T) {
	s := snapRecord()
	golden(t, "weather-snap-si.txt", []byte(weatherScreen(t, WeatherOptions{System: SI}, s)))
	golden(t, "weather-snap-us-all.txt", []byte(weatherScreen(t, WeatherOptions{System: US, All: true, Written: []string{"mended.csv"}}, s)))
	typical, second := snapRecord(), snapRecord()
	typical.Typical, typical.Notes, typical.Repairs = true, nil, nil
	second.Start = second.Start.AddDate(0, 2, 0)
	golden(t, "weather-typical-spans-si.txt", []byte(weatherScreen(t, WeatherOptions{System: SI}, typical, second)))
}

// What is assumed and what may be wrong are told apart, a file's own name is not repeated,
// and what holds for several files is said once.
func TestNoteWords(t *testing.T) {
	d := weather.DigestOf(snapRecord())
	if got := strings.Join(noteWords(d, false), "\n"); got != "unit: taken as tenths (all are whole numbers)" {
		t.Errorf("assumed %q", got)
	}
	if got := strings.Join(noteWords(d, true), "\n"); got != "clock: times are UTC and stay so\nstation.txt:7: wind: doubtful" {
		t.Errorf("doubted %q", got)
	}
	other := d.Notes[1]
	other.File = "more.txt"
	d.Notes = append(d.Notes, other)
	if got := noteWords(d, true)[0]; got != "station.txt and 1 more: clock: times are UTC and stay so" {
		t.Errorf("of two files %q", got)
	}
}

// No share that is not whole is printed as 100 %.
func TestCoverage(t *testing.T) {
	for share, want := range map[float64]string{1: "100 %", 0.99999: "99.9 %", 0.5: "50 %", 0: "0 %"} {
		if got := coverage(share); got != want {
			t.Errorf("%g: got %s, want %s", share, got, want)
		}
	}
}

// All keys are there, and lists are never null.
func TestWeatherSummaryKeys(t *testing.T) {
	bare := &weather.Series{Time: []float64{0, 3600}, Air: []float64{1, 1}}
	for _, s := range []*weather.Series{snapRecord(), bare} {
		var b bytes.Buffer
		if err := SummarizeWeather(weather.DigestOf(s), Provenance{Version: "1.2"}).Encode(&b); err != nil {
			t.Fatal(err)
		}
		var m map[string]any
		if err := json.Unmarshal(b.Bytes(), &m); err != nil {
			t.Fatal(err)
		}
		want := "cold_spells coldest_day coldest_hour columns design_snap format inputs ledger longest_below notes present rows rows_missing_h schema source spans step_s typical_year version winters"
		if got := keys(t, m); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
		for _, name := range []string{"cold_spells", "columns", "design_snap", "ledger", "longest_below", "notes", "spans", "winters"} {
			if _, ok := m[name].([]any); !ok {
				t.Errorf("%s is %v, want a list", name, m[name])
			}
		}
		if m["schema"] != weatherSchema || m["version"] != "1.2" {
			t.Errorf("schema %v, version %v", m["schema"], m["version"])
		}
	}
}
