package weather

import (
	"math"
	"slices"
	"strings"
)

// reanalysisNames are the quantities that are read, by their names, newer and older.
var reanalysisNames = map[string]*quantity{
	reanalysisAir:  airTemperature,
	"dew_point_2m": dewPoint, "dewpoint_2m": dewPoint,
	"wind_speed_10m": windSpeed, "windspeed_10m": windSpeed,
	"relative_humidity_2m": relativeHumidity, "relativehumidity_2m": relativeHumidity,
	"cloud_cover": cloudCover, "cloudcover": cloudCover,
	"snow_depth": snowOnGround,
	"rain":       rainfall, "showers": rainfall, "precipitation": rainfall,
	"snowfall":            snowfallWater,
	"shortwave_radiation": sunshine,
}

const reanalysisAir = "temperature_2m"

// reanalysisUnits are the units of each quantity as headers write them, without what is
// not ASCII; the names of the columns are those of the units here.
var reanalysisUnits = map[*quantity][]column{
	airTemperature:  temperatureUnits,
	dewPoint:        temperatureUnits,
	soilTemperature: {{"C", nil, 0, 1, 1, "-60 to 80 degC"}, {"F", nil, 32, 5, 9, "-76 to 176 degF"}},
	windSpeed: {{"km/h", nil, 0, 1, 3.6, "0 to 360 km/h"}, {"m/s", nil, 0, 1, 1, limitsWind},
		{"mp/h", nil, 0, 44704, 100_000, "0 to 223.69 mph"}, {"mph", nil, 0, 44704, 100_000, "0 to 223.69 mph"},
		{"kn", nil, 0, 1852, 3600, "0 to 194.38 knots"}},
	relativeHumidity: {{"%", nil, 0, 1, 100, limitsPercent}},
	cloudCover:       {{"%", nil, 0, 1, 100, "0 to 100 %"}},
	snowOnGround:     {{"m", nil, 0, 1, 1, "0 to 20 m"}, {"cm", nil, 0, 1, 100, "0 to 2000 cm"}, {"ft", nil, 0, 3048, 10_000, "0 to 65.6 ft"}},
	rainfall:         {{"mm", nil, 0, 1, 1000, limitsRain}, {"inch", nil, 0, 254, 10_000, "0 to 78.74 in"}},
	snowfallWater:    {{"cm", nil, 0, 1, 700, "0 to 1400 cm of snow"}, {"inch", nil, 0, 254, 70_000, "0 to 551.18 in of snow"}},
	sunshine:         {{"W/m", nil, 0, 1, 1, limitsSun}},
}

var temperatureUnits = []column{{"C", nil, 0, 1, 1, limitsCelsius}, {"F", nil, 32, 5, 9, limitsFahrenheit}}

// bindReanalysis adds the columns of the table that are read, and refuses those of which
// the unit is not known.
func (a *archive) bindReanalysis() {
	for i, header := range a.header {
		name, unit, _ := strings.Cut(header, " (")
		q, depth, ok := reanalysisQuantity(name)
		if !ok || slices.Contains(a.header[:i], header) {
			continue
		}
		unit = strings.TrimSuffix(unit, ")")
		at := slices.IndexFunc(reanalysisUnits[q], func(u column) bool { return u.name == unit })
		if at < 0 {
			a.complain("", a.titles[i], name+" with one of the units "+unitNames(reanalysisUnits[q])+" after it")
			continue
		}
		c := reanalysisUnits[q][at]
		c.quantity = q
		a.bindTo(c, i)
		a.record.columns[len(a.record.columns)-1].depth = depth
	}
	if a.record.column(airTemperature) == nil && len(a.refused.told) == 0 {
		a.complain("", "no "+reanalysisAir, "a table of hours with "+reanalysisAir+" (°C) or (°F)")
	}
}

// unitNames lists units as headers write them.
func unitNames(of []column) string {
	var names []string
	for _, u := range of {
		name := u.name
		switch name {
		case "C", "F":
			name = "°" + name
		case "W/m":
			name = "W/m²"
		}
		names = append(names, "("+name+")")
	}
	return strings.Join(names, ", ")
}

// reanalysisQuantity returns what a column of that name holds. Soil is given for layers,
// soil_temperature_7_to_28cm, which stand for their middle [m], or for depths,
// soil_temperature_6cm.
func reanalysisQuantity(name string) (q *quantity, depth float64, ok bool) {
	if q, ok = reanalysisNames[name]; ok {
		return q, 0, true
	}
	layer, found := strings.CutPrefix(name, "soil_temperature_")
	layer, ends := strings.CutSuffix(layer, "cm")
	if !found || !ends {
		return nil, 0, false
	}
	top, bottom, two := strings.Cut(layer, "_to_")
	if !two {
		bottom = top
	}
	from, ok1 := parseDigits([]byte(top))
	to, ok2 := parseDigits([]byte(bottom))
	depth = float64(from+to) / 200
	return soilTemperature, depth, ok1 && ok2 && depth <= deepestSoil
}

// joinPrecipitation makes one column of rain and one of snowfall of what a table has:
// rain and showers are added; the precipitation, of which both and the snowfall are
// parts, gives the one that is missing.
func (r *record) joinPrecipitation() {
	var total, rain []float64
	for _, c := range r.columns {
		switch {
		case c.quantity != rainfall:
		case strings.HasPrefix(c.name, "precipitation"):
			total = c.values
		case rain == nil:
			rain = c.values
		default:
			for i, v := range c.values {
				if rain[i] += v; rain[i] > rainfall.high {
					rain[i] = math.NaN()
				}
			}
		}
	}
	snow := r.column(snowfallWater)
	switch {
	case rain == nil && snow != nil:
		rain = rest(total, snow.values)
	case rain == nil:
		rain = total // the air tells rain from snow, later
	case snow == nil && total != nil:
		i := r.addColumn(snowfallWater, "precipitation less rain")
		r.columns[i].values = rest(total, rain)
	}
	kept := false
	r.dropColumns(func(c recordColumn) bool {
		drop := c.quantity == rainfall && kept
		kept = kept || c.quantity == rainfall
		return drop
	})
	if c := r.column(rainfall); c != nil {
		c.values = rain
	}
}

// rest returns what is left of a total without a part; nil without a total.
func rest(total, part []float64) []float64 {
	if total == nil {
		return nil
	}
	left := make([]float64, len(total))
	for i := range total {
		left[i] = math.Max(0, total[i]-part[i]) // NaN where either is missing
	}
	return left
}
