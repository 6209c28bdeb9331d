package sim_test

import (
	"math"
	"testing"
	"time"

	"winterline/weather"
)

// bondvilleDepths are those of the thermometers [m].
var bondvilleDepths = []float64{.02, .04, .08, .16, .32, .64}

// bondvilleMoved is when the thermometers stopped being where the column list has them: the one
// at 64 cm falls by 5 K in three hours, and all jump. See TestStationBondvilleMoved.
var bondvilleMoved = time.Date(1998, 7, 14, 14, 0, 0, 0, time.UTC)

// readBondville reads the half-hourly record of 1998 of the flux site Bondville (National
// Oceanic and Atmospheric Administration, Air Resources Laboratory): 33 columns without
// header, local standard time, means and amounts of the half-hour that ends at the stamp.
// Column numbers below count from 0; −6999 is missing.
//
// A row of the series stands in the middle of a half-hour, where its mean belongs; of the
// rain of each half-hour one half falls before its row and one half after.
func readBondville(t *testing.T) *weather.Series {
	const missing, inch = -6999, 0.0254
	rows := dataFields(t, 33, "bondville-il", "forcing98_with_validation.dat.gz")
	s := &weather.Series{Source: "Bondville", Start: time.Date(1998, 1, 1, 0, 15, 0, 0, time.UTC)}
	for i := range rows {
		s.Time = append(s.Time, float64(i)*1800)
	}
	s.Air = join(dataColumn(rows, 4, missing))
	s.Wind = notBelowZero(join(dataColumn(rows, 2, missing)))
	s.DewPoint = dewPoints(s.Air, join(dataColumn(rows, 5, missing)))
	s.Sun = notBelowZero(join(dataColumn(rows, 7, missing)))
	s.LongWave = join(dataColumn(rows, 29, missing))
	rain := dataColumn(rows, 12, missing)
	for i := range rain {
		next := rain[min(i+1, len(rain)-1)]
		s.Rain = append(s.Rain, inch*(orNone(rain[i])+orNone(next))/2)
	}
	for k, d := range bondvilleDepths {
		s.Soil = append(s.Soil, weather.SoilTrack{Depth: d, Temp: dataColumn(rows, 15+k, missing)})
	}
	return s
}

// notBelowZero lifts slightly negative readings of an instrument to 0.
func notBelowZero(values []float64) []float64 {
	for i, v := range values {
		values[i] = math.Max(0, v)
	}
	return values
}

// orNone is an amount, 0 where it is missing.
func orNone(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

// Facts of the record: its length, lowest temperatures of air and soil.
func TestStationBondvilleRead(t *testing.T) {
	s := readBondville(t)
	if n := len(s.Time); n != 17520 {
		t.Errorf("%d half-hours, expected 17520", n)
	}
	date := func(month, day int) time.Time { return time.Date(1998, time.Month(month), day, 0, 0, 0, 0, time.UTC) }
	end := time.Date(1999, 1, 1, 0, 0, 0, 0, time.UTC)
	expectRounded(t, "lowest air", 1998, 0, lowest(s, s.Air, date(1, 13), date(1, 14)), -14.2)
	expectRounded(t, "lowest air", 1998, 0, lowest(s, s.Air, date(3, 11), date(3, 13)), -16.8)
	expectRounded(t, "lowest air", 1999, 0, lowest(s, s.Air, date(12, 22), end), -20.4)
	for depth, want := range map[float64]float64{.02: -16.7, .08: -7.3, .16: -4.1, .32: -1.2, .64: 0.7} {
		expectRounded(t, "lowest", 1998, depth, lowest(s, soilTrack(t, s, depth), date(1, 1), end), want)
	}
}

// What the record itself says of the thermometers. On 14 July 1998 the one at 64 cm falls by
// more than 4 K in four hours, which no ground does there. From 21 November, after a day
// without readings, the daily wave passes from the fourth to the fifth and from there to the sixth in half
// the time that it took before the summer: as the lag goes with the distance, they then lie about
// half as far apart as stated.
func TestStationBondvilleMoved(t *testing.T) {
	s := readBondville(t)
	deep := soilTrack(t, s, .64)
	row := int(bondvilleMoved.Sub(s.Start).Seconds() / 1800)
	if before, after := deep[row], deep[row+8]; !(before-after > 4) {
		t.Errorf("64 cm: %.1f °C, four hours later %.1f; expected a fall of over 4 K", before, after)
	}
	date := func(month, day int) time.Time { return time.Date(1998, time.Month(month), day, 0, 0, 0, 0, time.UTC) }
	lag := func(from, to time.Time) (hours float64) {
		upper, lower := harmonicOf(s, soilTrack(t, s, .16), daily, from, to), harmonicOf(s, soilTrack(t, s, .32), daily, from, to)
		return math.Mod(lower.lag-upper.lag+2*math.Pi, 2*math.Pi) / daily / 3600
	}
	spring, december := lag(date(2, 1), date(7, 1)), lag(date(11, 21), date(12, 31))
	t.Logf("the daily wave from 16 to 32 cm: %.1f h from February to June, %.1f h from 21 November", spring, december)
	if !(spring > 4.5 && december < 3) {
		t.Errorf("lags %.1f and %.1f h, expected about 5 and 2.5", spring, december)
	}
}
