package weather

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"testing"
)

func FuzzReadEPW(f *testing.F) {
	fuzzFormat(f, epwForm, "testdata/epw/*", "../testdata/bad-weather/epw-*.epw")
}

func FuzzReadTMY3(f *testing.F) {
	fuzzFormat(f, tmy3Form, "testdata/tmy3/*", "../testdata/bad-weather/tmy3-*.csv")
}

func FuzzReadISDLite(f *testing.F) {
	fuzzFormat(f, isdLiteForm, "testdata/isdlite/*", "../testdata/bad-weather/isdlite-*.txt")
}

func FuzzReadUSCRN(f *testing.F) {
	fuzzFormat(f, uscrnForm, "testdata/uscrn/*", "../testdata/bad-weather/uscrn-*.txt")
}

func FuzzReadLCD(f *testing.F) {
	fuzzFormat(f, lcdForm, "testdata/lcd/*", "../testdata/bad-weather/lcd-*.csv")
}

func FuzzReadCanada(f *testing.F) {
	fuzzFormat(f, canadaForm, "testdata/canada/*", "../testdata/bad-weather/canada-*.csv")
}

func FuzzReadMetar(f *testing.F) {
	fuzzFormat(f, metarForm, "testdata/metar/*", "../testdata/bad-weather/metar-*.csv")
}

func FuzzReadReanalysis(f *testing.F) {
	fuzzFormat(f, reanalysisForm, "testdata/reanalysis/*", "../testdata/bad-weather/reanalysis-*.csv")
}

// fuzzFormat gives a reader whatever bytes, recognised or not: it has to return a record
// in which every column has a value a row, within its limits, or problems that say where
// and what.
func fuzzFormat(f *testing.F, form format, seeds ...string) {
	for _, pattern := range seeds {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatalf("no seeds %s: %v", pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	zone := -6.0
	f.Fuzz(func(t *testing.T, data []byte) {
		form.recognise(data)
		r, problems := form.read(newSource("w", bytes.NewReader(data), Options{Zone: &zone}))
		if (r == nil) == (len(problems) == 0) {
			t.Fatalf("got record %v and %d problems; want one or the other", r != nil, len(problems))
		}
		for _, p := range problems {
			if p.File == "" || p.Found == "" || p.Expected == "" || p.Line < 0 {
				t.Fatalf("problem without its parts: %+v", p)
			}
		}
		if r != nil {
			checkRecord(t, r)
		}
		if s, _ := Read("w", bytes.NewReader(data)); s != nil {
			checkSeries(t, s)
		}
	})
}

func checkRecord(t *testing.T, r *record) {
	if len(r.line) != len(r.stamp) {
		t.Fatalf("%d lines for %d rows", len(r.line), len(r.stamp))
	}
	for _, c := range r.columns {
		if len(c.values) != len(r.stamp) {
			t.Fatalf("%s: %d values for %d rows", c.name, len(c.values), len(r.stamp))
		}
		for _, v := range c.values {
			if !math.IsNaN(v) && !(v >= c.quantity.low && v <= c.quantity.high) {
				t.Fatalf("%s: %g is out of its limits", c.name, v)
			}
		}
	}
}
