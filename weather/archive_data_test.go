package weather

import (
	"math"
	"path/filepath"
	"testing"
)

// Recorded typical years, compared with a count of their fields by a script that knows
// nothing of this package: rows, missing, lowest, highest, sum. Sun and long-wave
// radiation are the means of neighbouring hours there, too.
func TestRecordedEPW(t *testing.T) {
	for file, want := range map[string]struct {
		air, dew, wind, cloud, rain, sun, sky summary
		noon                                  float64
	}{
		"USA_MN_Minneapolis-St.Paul.Intl.AP.726580_TMY3.epw.gz": {
			air: summary{8760, 0, -31.1, 37.2, 67733.1}, dew: summary{8760, 0, -35, 25.6, 11396.5},
			wind: summary{8760, 0, 0, 17, 40211.3}, cloud: summary{8760, 0, 0, 1, 4517.6},
			rain: summary{8760, 5114, 0, 0.007, 0.105},
			sun:  summary{8760, 0, 0, 969.5, 1398837}, sky: summary{8760, 0, 140.5, 481.5, 2672727.5}, noon: solarNoon(-93.23, -6)},
		"USA_ND_Fargo-Hector.Intl.AP.727530_TMY3.epw.gz": {
			air: summary{8760, 0, -32.2, 33.3, 46074.5}, dew: summary{8760, 0, -38.9, 22.8, -6712.4},
			wind: summary{8760, 0, 0, 21.6, 43948.5}, cloud: summary{8760, 0, 0, 1, 3910.5},
			rain: summary{8760, 5115, 0, 0.014, 0.162},
			sun:  summary{8760, 0, 0, 920.5, 1405533}, sky: summary{8760, 0, 133.5, 468, 2549580.5}, noon: solarNoon(-96.82, -6)},
		"USA_VT_Burlington.Intl.AP.726170_TMY3.epw.gz": {
			air: summary{8760, 0, -27.8, 37.2, 68907.4}, dew: summary{8760, 0, -30.6, 23.9, 15189.8},
			wind: summary{8760, 0, 0, 21.1, 36874.1}, cloud: summary{8760, 0, 0, 1, 5437.9},
			rain: summary{8760, 7272, 0, 0.007, 0.038},
			sun:  summary{8760, 0, 0, 966, 1341218}, sky: summary{8760, 0, 146, 461, 2710808}, noon: solarNoon(-73.15, -5)},
	} {
		t.Run(file, func(t *testing.T) {
			r := archiveRecord(t, "epw", file)
			wantStamps(t, r, 8760, "2001-01-01 01:00", "2002-01-01 00:00")
			if !r.typical || r.of(snowOnGround) != nil {
				t.Errorf("typical %v, snow %v", r.typical, r.of(snowOnGround) != nil)
			}
			wantSummary(t, "air", r.of(airTemperature), want.air)
			wantSummary(t, "dew point", r.of(dewPoint), want.dew)
			wantSummary(t, "wind", r.of(windSpeed), want.wind)
			wantSummary(t, "cloud", r.of(cloudCover), want.cloud)
			wantSummary(t, "rain", r.of(rainfall), want.rain)
			wantSummary(t, "sun", r.of(sunshine), want.sun)
			wantSummary(t, "long-wave", r.of(longWave), want.sky)
			if got := middleOfSun(r); math.Abs(got-want.noon) > 0.05 {
				t.Errorf("the year's sun has its middle at %.2f h; want %.2f", got, want.noon)
			}
		})
	}
}

// solarNoon returns when the sun is highest [h of local standard time], by the longitude
// [° east] and zone of a header: 4 minutes later for each degree west of the zone's
// meridian. The equation of time is within a minute of nil over a year.
func solarNoon(longitude, zone float64) float64 { return 12 - (longitude-15*zone)/15 }

// middleOfSun returns the mean time of day of the sun of a record [h]. Hours stamped with
// their end rather than centred would have it half an hour late.
func middleOfSun(r *record) float64 {
	var sum, moment float64
	for i, sun := range r.of(sunshine) {
		sum, moment = sum+sun, moment+sun*float64(wall(r.stamp[i]).Hour())
	}
	return moment / sum
}

// Recorded years of one airport, compared in the same way. The hours before the first row
// and after the last have no precipitation.
func TestRecordedISDLite(t *testing.T) {
	for file, want := range map[string]struct {
		last                  string
		air, dew, wind, cloud summary
		rain                  summary
	}{
		"725300-2016.gz": {"2016-12-31 23:00", summary{8782, 0, -24.4, 33.3, 100010.1}, summary{8782, 0, -26.7, 25.6, 48632.7},
			summary{8782, 0, 0, 19, 38042.1}, summary{8782, 4531, 0, 1, 1746.5}, summary{8782, 40, 0, 0.0188, 0.6941}},
		"725300-2017.gz": {"2017-12-31 23:00", summary{8759, 0, -19.4, 35, 100841}, summary{8759, 0, -24.4, 23.9, 39099},
			summary{8759, 1, 0, 17, 39301.4}, summary{8759, 4631, 0, 1, 1708.75}, summary{8759, 2, 0, 0.0246, 0.9815}},
		"725300-2018.gz": {"2018-12-31 23:00", summary{8759, 1, -22.8, 36.1, 92569.9}, summary{8759, 1, -27.2, 25, 37283.7},
			summary{8759, 2, 0, 17, 36723.7}, summary{8759, 4569, 0, 1, 1670.5}, summary{8759, 87, 0, 0.0203, 0.9763}},
	} {
		t.Run(file, func(t *testing.T) {
			r := archiveRecord(t, "chicago-il-isd-lite", file)
			wantStamps(t, r, want.air.n, want.last[:4]+"-01-01 00:00", want.last)
			wantSummary(t, "air", r.of(airTemperature), want.air)
			wantSummary(t, "dew point", r.of(dewPoint), want.dew)
			wantSummary(t, "wind", r.of(windSpeed), want.wind)
			wantSummary(t, "cloud", r.of(cloudCover), want.cloud)
			wantSummary(t, "rain", r.of(rainfall), want.rain)
		})
	}
}

// Three years join into one record without a flag for it; four hours have no row.
func TestRecordedYearsJoin(t *testing.T) {
	folder := dataFolder(t)
	zone := -6.0
	s, problems := openAll([]string{filepath.Join(folder, "chicago-il-isd-lite")}, Options{Zone: &zone})
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if got := s.Start.Format("2006-01-02 15:04"); got != "2015-12-31 18:00" || s.End() != 26303*3600 || len(s.Time) != 26300 {
		t.Errorf("got %d rows over %g h from %s", len(s.Time), s.End()/3600, got)
	}
	if air := summarize(s.Air); air.low != -24.4 || air.high != 36.1 || air.missing != 0 {
		t.Errorf("air %+v", air)
	}
}
