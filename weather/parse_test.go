package weather

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"winterline/pipe/units"
)

// The fast way to read numbers gives the very bits of the standard library's, and takes
// and refuses the same texts.
func TestParseDecimal(t *testing.T) {
	same := func(text string) (bool, float64, float64, error) {
		fast, ok := parseDecimal([]byte(text))
		slow, err := units.ParseNumber(text)
		return ok == (err == nil) && math.Float64bits(fast) == math.Float64bits(slow) || !ok && err != nil, fast, slow, err
	}
	for _, text := range []string{"", "0", "-0", "-0.0", "+5", ".5", "5.", ".", "-", "+-1", "1.2.3", "1e3", "1E-5", "0x10",
		"1_000", "NaN", "Inf", "12 cm", "123456789012345", "1234567890123456", "0.1", "0.30000000000000004",
		"-12.3456789012345", "999999999999999", ".000000000000001", "1e999", "٣"} {
		if ok, fast, slow, err := same(text); !ok {
			t.Errorf("%q: got %v, the standard library %v %v", text, fast, slow, err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[-+]?[0-9]{0,17}\.?[0-9]{0,17}([eE][-+]?[0-9]{1,3})?`).Draw(t, "text")
		if ok, fast, slow, err := same(text); !ok {
			t.Fatalf("%q: got %v, the standard library %v %v", text, fast, slow, err)
		}
	})
}

// The fast way to read stamps gives what the slow one gives, offsets beside it.
func TestParseStamp(t *testing.T) {
	for text, offset := range map[string]string{
		"2026-01-17 05:00": "", "2026-01-17T05:00": "", "2026-01-17T05:00:30": "", "2026-01-17T05:00:00-06:00": "-06:00",
		"2026-01-17T05:00Z": "Z", "2026-01-17 05:00:07+00:30": "+00:30", "2026-01-17": "", "2024-02-29 23:59": "",
		"2026-01-17T05:00:00.25-06:00": "-06:00",
	} {
		want, err := units.ParseTime(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, zone, err := parseStamp([]byte(text)); err != nil || !wall(got).Equal(want.Truncate(time.Second)) || string(zone) != offset {
			t.Errorf("%s: got %v with offset %q, %v; want %v with %q", text, wall(got), zone, err, want, offset)
		}
	}
	for _, text := range []string{"", "2023-02-29 05:00", "2026-13-01 05:00", "2026-01-17 24:00", "2026-01-17 05:60", "1699-12-31 23:00",
		"2501-01-01 00:00", "2026-01-17T05:00:00-6:00", "2026-01-17 05:00 windy", "17.01.2026 05:00"} {
		if got, _, err := parseStamp([]byte(text)); err == nil {
			t.Errorf("%s: taken as %v", text, wall(got))
		}
	}
}
