package weather

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// samples are the files of testdata with the format that they are in.
var samples = map[string]string{
	"epw/typical.epw": "EPW", "epw/halfhours.epw": "EPW", "tmy3/sample.csv": "TMY3",
	"isdlite/sample.txt": "ISD-Lite", "isdlite/sixhours.txt": "ISD-Lite", "uscrn/sample.txt": "USCRN hourly",
}

// Each sample is recognised by its own format and by no other, also where its first row
// is spoiled, and nothing else is.
func TestRecognition(t *testing.T) {
	texts := map[string]string{}
	for file, want := range samples {
		data, err := os.ReadFile(filepath.Join("testdata", file))
		if err != nil {
			t.Fatal(err)
		}
		texts[string(data)] = want
		if want == "ISD-Lite" || want == "USCRN hourly" {
			texts["spoiled\n"+string(data)] = want
		}
	}
	for _, text := range []string{"", "\n\n", "LOCATION", "time,air_temp_c\n2026-01-17 05:00,1\n",
		"2023 12 31 22 -15 -30 10200 310 46 0 0\n",                          // eleven fields
		"2023 12 31 22 -1.5 -3.0 1020.0 310 4.6 0 0 -9999\n",                // not whole numbers
		"99999 20260118 0400 20260117 2200  2.623  -90.00   45.00 -4.0\n"} { // a line cut off
		texts[text] = ""
	}
	for text, want := range texts {
		for _, f := range formats() {
			if got := f.recognise([]byte(text)); got != (f.name == want) && f.name != plainName {
				t.Errorf("%.40q: recognised as %s: %v, want %s", text, f.name, got, want)
			}
		}
	}
}

// Line ends, a byte-order mark, blank lines at the end and compression change nothing.
func TestArchiveForms(t *testing.T) {
	for file := range samples {
		data, err := os.ReadFile(filepath.Join("testdata", file))
		if err != nil {
			t.Fatal(err)
		}
		unix := strings.ReplaceAll(string(data), "\r\n", "\n")
		want, problems := Read("w", strings.NewReader(unix))
		if err := problems.Err(); err != nil {
			t.Fatal(file, err)
		}
		var packed bytes.Buffer
		z := gzip.NewWriter(&packed)
		if _, err := z.Write(data); err != nil || z.Close() != nil {
			t.Fatal(err)
		}
		for form, text := range map[string]string{
			"CRLF":            strings.ReplaceAll(unix, "\n", "\r\n"),
			"byte-order mark": "\ufeff" + unix,
			"blank lines":     unix + "\n \n",
			"no last end":     strings.TrimSuffix(unix, "\n"),
			"gzip":            packed.String(),
		} {
			got, problems := Read("w", strings.NewReader(text))
			if err := problems.Err(); err != nil {
				t.Errorf("%s, %s: %v", file, form, err)
			} else if g, w := fmt.Sprintf("%+v", got), fmt.Sprintf("%+v", want); g != w {
				t.Errorf("%s, %s: got\n%s\nwant\n%s", file, form, g, w)
			}
		}
	}
}

// What stood in place of values is in the ledger, each called what it is: codes of the
// format, numbers that look like one, flagged values, and readings beyond belief.
func TestArchiveLedger(t *testing.T) {
	data, err := os.ReadFile("testdata/uscrn/sample.txt")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), "   45.00    -5.5", "   45.00   655.5", 1)
	r := recordOf(t, "w.txt", []byte(text), Options{})
	var got []string
	for _, entry := range r.ledger {
		got = append(got, entry.String())
	}
	want := []string{
		"w.txt:3: T_CALC: code for missing at 2026-01-18 00:00 (-9999.0)",
		"w.txt:4: T_CALC: value beyond limits taken out at 2026-01-18 01:00 (655.5, beyond -90 to 60 degC)",
		"w.txt:4: RH_HR_AVG: flagged value taken out at 2026-01-18 01:00 (50, its quality flag is not 0)",
		"w.txt:4: P_CALC: code for missing at 2026-01-18 01:00 (-9999.0)",
		"w.txt:5: SOLARAD: code for missing at 2026-01-18 02:00 (-99999, looks like one: beyond 0 to 1600 W/m2)",
		"w.txt:4: SOLARAD: flagged value taken out at 2026-01-18 01:00 (300, its quality flag is not 0)",
		"w.txt:2: SOIL_TEMP_20: code for missing at 2026-01-17 23:00 (-9999.0)",
		"w.txt:4: SOIL_TEMP_100: code for missing at 2026-01-18 01:00 (-9999.0)",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	wantColumn(t, "air", r.of(airTemperature), -4, -4.5, none, none, -6)
}
