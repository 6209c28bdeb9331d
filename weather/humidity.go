package weather

import "math"

// relativeHumidity is read by formats that have no dew point, and becomes one. A sensor
// in fog shows a little over 100 %.
var relativeHumidity = &quantity{word: "relative humidity", low: 0, high: 1.1}

// dewPointOf returns the dew point [°C] of air at a temperature [°C] and a relative
// humidity over water [-]; NaN where either is missing or the air is all but dry. It is
// the vapour pressure of Alduchov and Eskridge (1996), J. Appl. Meteor. 35:601-609,
// eq. 21, within 0.4 % from -40 to 50 °C, turned round (from memory).
func dewPointOf(air, humidity float64) float64 {
	const b, c, driest = 17.625, 243.04, 0.01
	if !(humidity >= driest) || !(air > -90) {
		return math.NaN()
	}
	x := math.Log(math.Min(humidity, 1)) + b*air/(c+air)
	return c * x / (b - x)
}

// humidityToDewPoint makes a column of dew points of that of relative humidity, where the
// record has none; the humidity goes.
func (r *record) humidityToDewPoint() {
	air, humid := r.column(airTemperature), r.column(relativeHumidity)
	if humid == nil {
		return
	}
	if air != nil && r.column(dewPoint) == nil {
		for i, share := range humid.values {
			humid.values[i] = dewPointOf(air.values[i], share)
		}
		humid.quantity = dewPoint
		r.note(dewPoint.word, "worked out from relative humidity and air temperature", humid.name)
	}
	r.dropColumns(func(c recordColumn) bool { return c.quantity == relativeHumidity })
}
