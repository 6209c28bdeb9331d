package weather

import (
	"strings"

	"winterline/pipe/units"
)

// quantity is one thing that a record can hold, in SI.
type quantity struct {
	word      string  // as messages name it
	low, high float64 // what is believed; beyond it the file or its unit is wrong
	amount    bool    // falls between stamps, rather than standing at them
	slot      func(*Series) *[]float64
}

// The quantities of the plain form. The limits on air, wind and snow lie beyond every
// surface observation on record; those on rain and sun beyond a day's and an hour's. A sky
// that radiates 700 W/m² would be as warm as a black body at 60 °C (5.67e-8·333.15⁴).
var (
	airTemperature = &quantity{word: "air temperature", low: -90, high: 60,
		slot: func(s *Series) *[]float64 { return &s.Air }}
	windSpeed = &quantity{word: "wind", low: 0, high: 100,
		slot: func(s *Series) *[]float64 { return &s.Wind }}
	dewPoint = &quantity{word: "dew point", low: -90, high: 60,
		slot: func(s *Series) *[]float64 { return &s.DewPoint }}
	cloudCover = &quantity{word: "cloud cover", low: 0, high: 1,
		slot: func(s *Series) *[]float64 { return &s.Cloud }}
	snowOnGround = &quantity{word: "snow depth", low: 0, high: 20,
		slot: func(s *Series) *[]float64 { return &s.SnowDepth }}
	rainfall = &quantity{word: "rain", low: 0, high: 2, amount: true,
		slot: func(s *Series) *[]float64 { return &s.Rain }}
	snowfallWater = &quantity{word: "snowfall", low: 0, high: 2, amount: true,
		slot: func(s *Series) *[]float64 { return &s.SnowfallWater }}
	sunshine = &quantity{word: "sun", low: 0, high: 1600,
		slot: func(s *Series) *[]float64 { return &s.Sun }}
	longWave = &quantity{word: "long-wave radiation", low: 0, high: 700,
		slot: func(s *Series) *[]float64 { return &s.LongWave }}
	soilTemperature = &quantity{word: "soil temperature", low: -60, high: 80}
)

// column is one column name of the plain form, with the unit that the name carries:
// SI value = (number − shift) × times / over.
type column struct {
	name               string
	quantity           *quantity
	shift, times, over float64
	limits             string // the quantity's limits in the column's own unit
}

// columns are the known names, in the order in which messages suggest them. Factors are
// exact: NIST SP 811 (2008), appendix B.9: 1 mile per hour is 0.44704 m/s, 1 inch 25.4 mm.
// Numerator and divisor are kept apart so that a conversion rounds once.
var columns = []column{
	{"air_temp_c", airTemperature, 0, 1, 1, "-90 to 60 degC"},
	{"air_temp_f", airTemperature, 32, 5, 9, "-130 to 140 degF"},
	{"wind_m_s", windSpeed, 0, 1, 1, "0 to 100 m/s"},
	{"wind_mph", windSpeed, 0, 44704, 100_000, "0 to 223.69 mph"},
	{"wind_km_h", windSpeed, 0, 1, 3.6, "0 to 360 km/h"},
	{"dew_point_c", dewPoint, 0, 1, 1, "-90 to 60 degC"},
	{"dew_point_f", dewPoint, 32, 5, 9, "-130 to 140 degF"},
	{"cloud_fraction", cloudCover, 0, 1, 1, "0 to 1, the covered share of the sky"},
	{"snow_depth_m", snowOnGround, 0, 1, 1, "0 to 20 m"},
	{"snow_depth_cm", snowOnGround, 0, 1, 100, "0 to 2000 cm"},
	{"snow_depth_in", snowOnGround, 0, 254, 10_000, "0 to 787.4 in"},
	{"rain_mm", rainfall, 0, 1, 1000, "0 to 2000 mm"},
	{"rain_in", rainfall, 0, 254, 10_000, "0 to 78.74 in"},
	{"snowfall_water_mm", snowfallWater, 0, 1, 1000, "0 to 2000 mm of water"},
	{"sun_w_m2", sunshine, 0, 1, 1, "0 to 1600 W/m2"},
	{"longwave_w_m2", longWave, 0, 1, 1, "0 to 700 W/m2"},
}

const (
	soilPrefix, soilSuffix = "soil_temp_", "cm_c"
	deepestSoil            = 20.0 // [m]
)

// si converts a number of the column.
func (c *column) si(v float64) float64 { return (v - c.shift) * c.times / c.over }

// within says whether an SI value lies inside the quantity's limits.
func (c *column) within(v float64) bool { return v >= c.quantity.low && v <= c.quantity.high }

// findColumn returns the column of that name; soil columns carry their depth [m].
func findColumn(name string) (c *column, depth float64, ok bool) {
	for i := range columns {
		if columns[i].name == name {
			return &columns[i], 0, true
		}
	}
	middle, found := strings.CutPrefix(name, soilPrefix)
	middle, ends := strings.CutSuffix(middle, soilSuffix)
	if !found || !ends {
		return nil, 0, false
	}
	centimetres, err := units.ParseNumber(middle)
	if depth = centimetres / 100; err != nil || depth < 0 || depth > deepestSoil {
		return nil, 0, false
	}
	return &column{name, soilTemperature, 0, 1, 1, "-60 to 80 degC"}, depth, true
}

// namesOf lists the column names that hold a quantity.
func namesOf(q *quantity) string {
	var names []string
	for _, c := range columns {
		if c.quantity == q {
			names = append(names, c.name)
		}
	}
	return strings.Join(names, " or ")
}

// nameAdvice says what an unknown column could have been meant to be.
func nameAdvice(name string) string {
	known := []string{"time"}
	for _, c := range columns {
		known = append(known, c.name)
	}
	known = append(known, soilPrefix+"10"+soilSuffix)
	meant := units.Nearest(name, known)
	if meant == "" {
		meant = "a known name such as air_temp_c, wind_m_s, dew_point_c, cloud_fraction, snow_depth_cm or rain_mm"
	} else {
		meant += " (the nearest known name)"
	}
	return meant + ", or a name that begins with x_ to leave the column out"
}
