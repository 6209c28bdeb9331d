package weather

import "testing"

func TestReadUSCRN(t *testing.T) {
	r := sampleRecord(t, "uscrn", "sample.txt", Options{})
	if r.format != "USCRN hourly" || r.typical {
		t.Errorf("format %s, typical %v", r.format, r.typical)
	}
	wantStamps(t, r, 5, "2026-01-17 22:00", "2026-01-18 02:00")
	wantColumn(t, "air", r.of(airTemperature), -4, -4.5, none, -5.5, -6)
	wantColumn(t, "rain", r.of(rainfall), 0.0012, 0.0003, none, 0.0002, none)
	// Flag 3 and rows of nines are missing; (0+100)/2, then (100+200)/2.
	wantColumn(t, "sun", r.of(sunshine), 50, 150, 200, none, none)
	depths := []float64{0.05, 0.1, 0.2, 0.5, 1}
	soil := [][]float64{{0.5, 0.4, 0.3, 0.2, 0.1}, {0.8, 0.7, 0.7, 0.6, 0.6}, {1.2, none, 1.2, 1.2, 1.1},
		{3.1, 3.1, 3.1, 3.1, 3.1}, {5, 5, 5, none, 5}}
	k := 0
	for _, c := range r.columns {
		if c.quantity == soilTemperature {
			if c.depth != depths[k] {
				t.Errorf("depth %g, want %g", c.depth, depths[k])
			}
			wantColumn(t, c.name, c.values, soil[k]...)
			k++
		}
	}
	if k != len(depths) {
		t.Errorf("%d soil columns", k)
	}
	wantNote(t, r, false, "clock", "UTC-6")
	wantNote(t, r, false, "dew point", "humidity")
	// Air at -4.2 °C and 100 % is at its dew point; with the hour before, (d-4.2)/2. At
	// -3.5 °C and 80 %: ln 0.8 + 17.625·(-3.5)/239.54 = -0.48067, and 243.04·(-0.48067)/18.10567 = -6.452.
	dew := r.of(dewPoint)
	if d := 2*dew[0] + 4.2; d < -6.4525 || d > -6.4515 {
		t.Errorf("dew point of the first hour %g, want -6.452", d)
	}
	wantColumn(t, "dew point", dew[1:4], -4.2, none, none)
}

// Psychrometric tables have 9.3 °C for 20 °C and 50 %; saturated air is at its own dew point.
func TestDewPointOf(t *testing.T) {
	wantColumn(t, "dew points", []float64{dewPointOf(-12.5, 1), dewPointOf(0, 1.05), dewPointOf(5, 0), dewPointOf(none, 0.5)},
		-12.5, 0, none, none)
	if d := dewPointOf(20, 0.5); d < 9.2 || d > 9.3 {
		t.Errorf("at 20 °C and 50 %%: got %g", d)
	}
}
