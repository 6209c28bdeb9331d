package weather

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// doubt notes where the values of a column speak against the unit that its name states.
// Nothing is changed: the file may be right. The limits are common practice, no source;
// each leaves out every climate in which lines freeze.
func (r *record) doubt() {
	for i := range r.columns {
		switch c := &r.columns[i]; c.quantity {
		case airTemperature:
			r.doubtAir(c)
		case windSpeed:
			r.doubtWind(c)
		}
	}
}

// leastDoubted is how many values a judgement needs: ten days of hours.
const leastDoubted = 240

// spread is what a column's values are like.
type spread struct {
	n               int
	mean            float64
	low, high       float64 // lowest and highest
	nearLow, nearHi float64 // about the 1st and the 99th percentile
}

func spreadOf(values []float64) (s spread) {
	s.low, s.high = math.Inf(1), math.Inf(-1)
	const most = 20_000 // percentiles need no more
	every := len(values)/most + 1
	var some []float64
	for _, v := range values {
		if math.IsNaN(v) {
			continue
		}
		if s.n%every == 0 {
			some = append(some, v)
		}
		s.n++
		s.mean += v
		s.low, s.high = min(s.low, v), max(s.high, v)
	}
	if s.n == 0 {
		return s
	}
	s.mean /= float64(s.n)
	slices.Sort(some)
	s.nearLow, s.nearHi = some[len(some)/100], some[len(some)-1-len(some)/100]
	return s
}

// doubtAir asks whether degrees Fahrenheit stand under a name of degrees Celsius, or the
// other way about.
//
// No place has an annual mean above 31 °C, hardly one spans 75 K from the 1st to the 99th
// percentile of a year, or 60 K of a winter. The other way about, °C read as °F stay below
// the freezing point even at noon in summer.
func (r *record) doubtAir(c *recordColumn) {
	s := spreadOf(c.values)
	if s.n < leastDoubted {
		return
	}
	days := r.at(len(r.stamp)-1) / secondsPerDay
	celsius := !strings.HasSuffix(c.name, "_f")
	switch snow := r.warmSnow(c); {
	case celsius && (s.mean > 31 || s.nearHi-s.nearLow > 75 || days < 150 && s.nearHi-s.nearLow > 60 || snow > 24):
		evidence := fmt.Sprintf("values from %.4g to %.4g, %.4g on average", s.low, s.high, s.mean)
		if snow > 24 {
			evidence += fmt.Sprintf("; snow on the ground at more than 25 in %d rows", snow)
		}
		r.warn(c.name, "taken as °C, though the values look like °F", evidence+fmt.Sprintf("; as °F they would be %.1f to %.1f °C", inCelsius(s.low), inCelsius(s.high)))
	case !celsius && days > 200 && s.nearHi < 2:
		r.warn(c.name, "taken as °F, though the values look like °C", fmt.Sprintf(
			"over %.0f days none above %.1f °C; as °C they would be %.4g to %.4g", days, s.high, inFahrenheit(s.low), inFahrenheit(s.high)))
	}
}

// warmSnow counts the rows in which snow lies under air of more than 25 °C.
func (r *record) warmSnow(air *recordColumn) (rows int) {
	snow := r.column(snowOnGround)
	if snow == nil {
		return 0
	}
	for k, depth := range snow.values {
		if depth > 0.02 && air.values[k] > 25 {
			rows++
		}
	}
	return rows
}

func inCelsius(v float64) float64    { return (v - 32) / 1.8 }
func inFahrenheit(v float64) float64 { return v*1.8 + 32 }

// doubtWind asks whether the wind's numbers fit the unit of its column. Mean winds at 10 m
// lie between 1 and 10 m/s nearly everywhere that people live.
func (r *record) doubtWind(c *recordColumn) {
	s := spreadOf(c.values)
	if s.n < leastDoubted {
		return
	}
	evidence := fmt.Sprintf("%.2g m/s on average, %.3g m/s at most", s.mean, s.high)
	switch {
	case s.mean > 11 || s.nearHi > 36:
		r.warn(c.name, "the wind is so strong that its unit may be another than the column says", evidence+"; km/h, mph or knots under a name of m/s look like this")
	case s.mean > 0 && s.mean < 1.2 && s.high < 7 && c.name != "wind_m_s":
		r.warn(c.name, "the wind is so weak that its unit may be another than the column says", evidence+"; m/s under a name of mph or km/h look like this")
	}
}
