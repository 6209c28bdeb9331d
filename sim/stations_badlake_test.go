package sim_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"winterline/weather"
)

// badLakeHeader are the depths of the thermometers as the header of the soil files states
// them [m].
var badLakeHeader = []float64{.025, .05, .10, .20, .40, .80, 1.60}

// badLakeDepths are those taken [m]: of the seven thermometers of the Canadian soil temperature
// network of that time (2, 4, 8, 20, 40, 60 and 120 in; from memory). At the header's depths
// the yearly wave would run through soil of a diffusivity below that of any mineral soil, see
// TestStationBadLakeDepths. The header is a left-over in another place too: it calls the columns snow depths.
var badLakeDepths = []float64{.05, .10, .20, .50, 1.00, 1.50, 3.00}

// badLakeReading is the hour at which the soil was read; the record does not say. A morning
// hour is what it tells itself: in July the mean rises from the first thermometer to the third, and
// the daily steps of the uppermost follow the air of the night before up to about 7 in the morning
// and none after 10.
const badLakeReading = 8

// readBadLake reads the hourly weather of the Bad Lake research basin (University of
// Saskatchewan), 1973 to 1975: year, month, day, hour, minute, air temperature [°C], relative
// humidity [%], wind [m/s; height not stated, taken as 10 m], sunshine, precipitation
// [mm/d], global radiation [MJ/(m² h)] and others; and its daily soil temperatures [°F].
//
// Radiation and precipitation stand for the hour that begins at the stamp: radiation is
// symmetric about 11:30 of the stamps in every month, and each day's precipitation runs
// from hour 24 of the day before to hour 23. That also says that the clock is solar time. Air
// temperature is taken as a state at the stamp.
func readBadLake(t *testing.T) *weather.Series {
	rows := dataFields(t, 13, "bad-lake-sk", "Badlake73_76.obs.gz")
	s := &weather.Series{Source: "Bad Lake"}
	sun := make([]float64, len(rows)) // mean of the hour that ends at the stamp [W/m²]
	for i, r := range rows {
		at := time.Date(int(r[0]), time.Month(r[1]), int(r[2]), int(r[3]), 0, 0, 0, time.UTC)
		if i == 0 {
			s.Start = at
		}
		s.Time = append(s.Time, at.Sub(s.Start).Seconds())
		s.Rain = append(s.Rain, r[9]/1000/24)
		sun[i] = rows[max(i-1, 0)][10] * 1e6 / 3600
	}
	s.Air, s.Wind, s.Sun = dataColumn(rows, 5, math.Inf(1)), dataColumn(rows, 7, math.Inf(1)), atStamps(sun)
	s.DewPoint = dewPoints(s.Air, dataColumn(rows, 6, math.Inf(1)))
	for _, d := range badLakeDepths {
		s.Soil = append(s.Soil, weather.SoilTrack{Depth: d, Temp: make([]float64, len(rows))})
		for i := range rows {
			s.Soil[len(s.Soil)-1].Temp[i] = math.NaN()
		}
	}
	for year := 1973; year <= 1975; year++ {
		for _, r := range dataFields(t, 12, "bad-lake-sk", fmt.Sprintf("SOTE%d.OBS", year)) {
			at := time.Date(int(r[0]), time.Month(r[1]), int(r[2]), badLakeReading, 0, 0, 0, time.UTC)
			row := int(at.Sub(s.Start).Hours())
			for k := range s.Soil {
				s.Soil[k].Temp[row] = (r[5+k] - 32) / 1.8
			}
		}
	}
	return s
}

// Facts of the record: its length without gaps, lowest air by winter, lowest soil of 1973.
func TestStationBadLakeRead(t *testing.T) {
	s := readBadLake(t)
	if n := len(s.Time); n != 26280 || s.End() != 26279*3600 {
		t.Errorf("%d rows to hour %g, expected 26280 rows an hour apart", n, s.End()/3600)
	}
	date := func(year, month int) time.Time { return time.Date(year, time.Month(month), 1, 0, 0, 0, 0, time.UTC) }
	for winter, want := range map[int]float64{1973: -32.1, 1974: -32.8, 1975: -31.8, 1976: -32.3} {
		expectRounded(t, "lowest air", winter, 0, lowest(s, s.Air, date(winter-1, 7), date(winter, 7)), want)
	}
	for depth, want := range map[float64]float64{.05: -10.6, .50: -6.7, 1.00: -3.9, 1.50: -0.6} {
		expectRounded(t, "lowest", 1973, depth, lowest(s, soilTrack(t, s, depth), date(1973, 1), date(1974, 1)), want)
	}
}

// withoutSnow is a record whose precipitation is not known, and with it no snow.
func withoutSnow(s *weather.Series) *weather.Series {
	bare := *s
	bare.Rain = nil
	return &bare
}

// withDepths is a record with its thermometers at other depths.
func withDepths(s *weather.Series, depths []float64) *weather.Series {
	moved := *s
	moved.Soil = nil
	for k, track := range s.Soil {
		moved.Soil = append(moved.Soil, weather.SoilTrack{Depth: depths[k], Temp: track.Temp})
	}
	return &moved
}

// What the record itself says of the depths. A yearly wave in uniform ground falls off and lags
// behind by Δz/√(2α/ω) [-], whatever drives it, so each pair of thermometers tells the ground's
// apparent diffusivity α twice. Oke 1987, Boundary Layer Climates, table 2.1 (from memory): 0.18 (dry clay) to 0.74 ×10⁻⁶ m²/s
// (saturated sand) for mineral soil. Between the lower four thermometers, where air and sun play no part, the
// header's depths give about half the least of these, the network's depths values among them.
func TestStationBadLakeDepths(t *testing.T) {
	const least, most = 0.18e-6, 0.74e-6
	s := readBadLake(t)
	omega := 2 * math.Pi / (365 * 86400)
	upper, lower := harmonicOf(s, s.Soil[3].Temp, omega, s.Start, s.Stamp(s.End())), harmonicOf(s, s.Soil[6].Temp, omega, s.Start, s.Stamp(s.End()))
	for _, depths := range [][]float64{badLakeHeader, badLakeDepths} {
		dz := depths[6] - depths[3]
		byAmplitude := omega * dz * dz / 2 / math.Pow(math.Log(upper.amplitude/lower.amplitude), 2)
		byLag := omega * dz * dz / 2 / math.Pow(lower.lag-upper.lag, 2)
		t.Logf("from %g to %g m: diffusivity %.2f by amplitude and %.2f by lag, 10⁻⁶ m²/s", depths[3], depths[6], byAmplitude*1e6, byLag*1e6)
		inside := math.Min(byAmplitude, byLag) >= least && math.Max(byAmplitude, byLag) <= most
		if header := depths[6] == 1.6; inside == header {
			t.Errorf("depths %v: mineral soil %v", depths, inside)
		}
	}
}
