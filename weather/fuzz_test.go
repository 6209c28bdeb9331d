package weather

import (
	"bytes"
	"io"
	"math"
	"testing"
)

// Whatever the bytes, Read either gives a series that keeps its promises or problems
// that say where and what; it never panics.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		"",
		"time,air_temp_c\n2026-01-17 05:00,-3\n2026-01-17 06:00,-3.5\n",
		"\ufefftime,air_temp_f,wind_mph\r\n2026-01-17T05:00:00-05:00,20,\r\n2026-01-17T06:00:00-05:00,,3\r\n",
		"time,air_temp_c,rain_mm,soil_temp_5cm_c\n2026-01-17,1,0,\n2026-01-18,2,,3\n",
		"time,air_temp_c,snow_depth_cm,sun_w_m2,longwave_w_m2\n2026-01-01,-9,30,0,250\n2026-01-02,1,,1600,\n2026-01-12,0,1e-9,5,0\n",
		"time,air_temp_c,snowfall_water_mm,soil_temp_10cm_c\n2026-01-01,-9,30,-9999\n2026-01-02,1,-9999,-9999\n",
		"time,air_temp_c,snow_depth_m,sun_w_m2\n2026-01-01,0,20,1\n2026-01-02,0,0,900\n2026-01-03,0,1e-300,0\n2026-01-04,0,5,90\n2026-01-05,-60,9,0\n2026-01-06,1,0,0\n2026-01-07,1,0,0\n2026-01-08,1,3,0\n2026-01-09,1,0,9\n2026-01-10,1,0,0\n2026-01-11,1,0,0\n2026-01-12,1,2,700\n",
		"time,air_temp_c\n1/12/2026 11:00 PM,-3\n1/13/2026 12:00 AM,-3.5\n",
		"# remark\ntime;air_temp_c\n\"2026-01-17 05:00\",\"-3\n",
		"time,air_temp_c\n2026-11-01 00:00,1\n2026-11-01 01:00,2\n2026-11-01 01:00,3\n2026-11-01 02:00,4\n2027-03-14 01:00,5\n2027-03-14 03:00,6\n",
		"time,air_temp_c,rain_mm,wind_mph\n2026-01-17 05:10,-9999,0.2,\n2026-01-17 05:40,M,1e9,3\ntime,air_temp_c,rain_mm,wind_mph\n2026-01-17 05:20,3,0.1,9\n2026-01-17 05:40,40,,9\n2026-01-17 06:10,3,1,9\n",
		"# typical year\ntime,air_temp_f\n2026-01-17T05:00:00-05:00,20\n2026-01-17T05:00:00-06:00,21\n2026-01-19T05:00:00-06:00,22\n2026-01-19T06:00:00-06:00,23\n",
		"# design cold snap:  by rule \n#design cold snap: no\n# design cold snap: \ntime,air_temp_c\n2026-01-17 05:00,-3\n2026-01-17 06:00,-3.5\n",
		"time,air_temp_c\n1700-01-01,0\n2500-01-01,0\n1900-01-01,0\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, problems := Read("w.csv", bytes.NewReader(data))
		if (s == nil) == (len(problems) == 0) {
			t.Fatalf("got series %v and %d problems; want one or the other", s, len(problems))
		}
		for _, p := range problems {
			if p.File == "" || p.Found == "" || p.Expected == "" || p.Line < 0 {
				t.Fatalf("problem without its parts: %+v", p)
			}
		}
		if s != nil {
			checkSeries(t, s)
		}
		fuzzMended(t, data)
	})
}

// fuzzMended reads the bytes with everything mended and split, and writes what comes out.
func fuzzMended(t *testing.T, data []byte) {
	file := File{Name: "w.csv", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}
	spans, problems := ReadSpans([]File{file, file}, Options{Mend: true})
	if (spans == nil) == (len(problems) == 0) {
		t.Fatalf("got %d spans and %d problems; want one or the other", len(spans), len(problems))
	}
	for _, s := range spans {
		checkSeries(t, s)
		var b bytes.Buffer
		if err := s.WritePlain(&b); err != nil {
			t.Fatal(err)
		}
		back, problems := Read("w.csv", &b)
		if err := problems.Err(); err != nil {
			t.Fatalf("written and not taken back: %v", err)
		}
		if said := differences(s, back); said != "" {
			t.Fatal(said)
		}
	}
	if len(spans) > 0 {
		DigestOf(spans...)
	}
}

func checkSeries(t *testing.T, s *Series) {
	if len(s.Time) < 2 || s.Time[0] != 0 {
		t.Fatalf("time axis %v", s.Time)
	}
	for i := 1; i < len(s.Time); i++ {
		if s.Time[i] <= s.Time[i-1] {
			t.Fatalf("time does not rise at row %d: %v", i, s.Time)
		}
	}
	for _, c := range columns {
		checkColumn(t, s, c.quantity.word, *c.quantity.slot(s), c.quantity.low, c.quantity.high)
	}
	for _, d := range []float64{s.Mean(), degreeDays(s)} {
		if math.IsNaN(d) || math.IsInf(d, 0) {
			t.Fatalf("a statistic is %g", d)
		}
	}
	pack := s.Snow()
	checkColumn(t, s, "depth of the pack", pack.Depth, 0, math.MaxFloat64)
	checkColumn(t, s, "density of the pack", pack.Density, 50, 550)
	checkColumn(t, s, "cloud from the sun", s.CloudFromSun(), 0, 1)
	if _, mean, ok := s.coldestDay(); ok && math.IsInf(mean, 0) {
		t.Fatal("no coldest day found")
	}
	s.Annual()
}

// checkColumn wants one value a row within limits, or no column at all.
func checkColumn(t *testing.T, s *Series, word string, values []float64, low, high float64) {
	if values != nil && len(values) != len(s.Time) {
		t.Fatalf("%s: %d values for %d rows", word, len(values), len(s.Time))
	}
	for _, v := range values {
		if !(v >= low && v <= high) {
			t.Fatalf("%s: %g is out of its limits", word, v)
		}
	}
}
