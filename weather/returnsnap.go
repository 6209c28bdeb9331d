package weather

import (
	"fmt"
	"math"
	"path"
	"strings"

	"winterline/pipe/units"
	"winterline/weather/chance"
)

// ReturnSnap asks for the coldest spell of a record itself, made colder or milder so that
// its coldest 24 h are as cold as those of a winter once in Years on average.
type ReturnSnap struct {
	Years         float64 // return period
	Before, After float64 // taken from the record before and after the coldest 24 h [s]
}

// fewestWinters is how many whole winters a return period is fitted to at least.
const fewestWinters = 10

// Of makes the snap from a record that has come in one span or several, in order, of which
// there is at least one.
//
// Of every whole winter the lowest mean air temperature of 24 h is taken, and a Gumbel
// distribution is fitted to these, with their signs turned, by L-moments. The spell around
// the coldest of them is cut out of the record and every air temperature in it moved by
// the same number of kelvin; the dew point goes with it (relative humidity hardly changes),
// and the sky's radiation by the fourth power of the air's absolute temperature (its
// emissivity stays). Wind, snow, rain and sun stay as recorded. Measured soil is left out.
//
// Refused are typical years, records of fewer than ten whole winters, and a result beyond
// what is believed of air.
func (r ReturnSnap) Of(spans ...*Series) (*Series, units.Problems) {
	refuse := func(found, expected string) (*Series, units.Problems) {
		return nil, units.Problems{{File: spans[0].Source, Found: found, Expected: expected}}
	}
	const expected = "a record of at least 10 winters with December to February whole, for a return period"
	if spans[0].Typical {
		return refuse("a typical year", expected)
	}
	lows := winterLows(spans)
	if len(lows) < fewestWinters {
		return refuse(units.Plural(len(lows), "whole winter"), expected)
	}
	coldest := lows[0]
	var turned []float64
	for _, w := range lows {
		turned = append(turned, -w.mean)
		if w.mean < coldest.mean {
			coldest = w
		}
	}
	fit := chance.FitGumbel(chance.SampleLMoments(turned))
	shift := rounded(-fit.Level(r.Years)-coldest.mean, 100)
	s := coldest.span.cut(coldest.start-r.Before, coldest.start+secondsPerDay+r.After)
	s.warm(shift)
	if _, low := s.Coldest(); low < airTemperature.low {
		return refuse(fmt.Sprintf("air of %s in %s years", bothDegrees(threeDecimals, low), threeDecimals(r.Years)), "a return period that keeps air above "+bothDegrees(threeDecimals, airTemperature.low))
	}
	s.Design = r.words(lows, coldest, fit, shift)
	return s, nil
}

// words say how the snap is made.
func (r ReturnSnap) words(lows []winterLow, coldest winterLow, fit chance.GEV, shift float64) []string {
	words := []string{
		fmt.Sprintf("the coldest spell of %s, every hour %s", withoutFolders(coldest.span.Source), shiftWords(shift)),
		fmt.Sprintf("its coldest 24 h, from %s, then have a mean of %s instead of %s",
			showTime(coldest.span.Stamp(coldest.start)), bothDegrees(twoDecimals, coldest.mean+shift), bothDegrees(twoDecimals, coldest.mean)),
		fmt.Sprintf("so cold a day comes once in %s years on average, with a standard error of %s", threeDecimals(r.Years), bothKelvin(oneDecimal, chance.GumbelLevelError(fit.Scale, r.Years, len(lows)))),
		fmt.Sprintf("Gumbel distribution by L-moments to the coldest 24 h of %d winters, %s to %s: location %s, scale %s",
			len(lows), winterName(lows[0].ends), winterName(lows[len(lows)-1].ends), bothDegrees(twoDecimals, -fit.Location), bothKelvin(twoDecimals, fit.Scale)),
	}
	if r.Years > 2*float64(len(lows)) {
		words = append(words, "note: more than twice as many years as the record has winters, far beyond what was seen")
	}
	return words
}

// withoutFolders takes the folders off the names of files: where they lie is nothing to a
// snap, which is to be the same to the byte wherever it is made.
func withoutFolders(source string) string {
	names := strings.Split(strings.ReplaceAll(source, `\`, "/"), ", ")
	for i, name := range names {
		names[i] = path.Base(name)
	}
	return strings.Join(names, ", ")
}

// shiftWords say by how much air temperatures are moved.
func shiftWords(shift float64) string {
	switch {
	case shift < 0:
		return bothKelvin(threeDecimals, -shift) + " colder than recorded"
	case shift > 0:
		return bothKelvin(threeDecimals, shift) + " milder than recorded"
	}
	return "as recorded"
}

// cut returns the rows of a time [s], without measured soil and without what was said on
// reading. At least two rows lie in it.
func (s *Series) cut(from, to float64) *Series {
	first := s.Row(math.Max(0, from))
	if s.Time[first] < from {
		first++
	}
	end := first
	for end < len(s.Time) && s.Time[end] <= to {
		end++
	}
	out := &Series{Source: s.Source, Format: s.Format, Start: s.Stamp(s.Time[first])}
	for _, t := range s.Time[first:end] {
		out.Time = append(out.Time, t-s.Time[first])
	}
	for _, c := range columns {
		if values := *c.quantity.slot(s); values != nil {
			*c.quantity.slot(out) = append([]float64(nil), values[first:end]...)
		}
	}
	return out
}

// warm moves all air temperatures [K], and what depends on them. What is written is rounded:
// temperatures to 0.001 K, radiation to 0.1 W/m².
func (s *Series) warm(shift float64) {
	const zero = 273.15 // of the Celsius scale [K]
	for i, air := range s.Air {
		s.Air[i] = rounded(air+shift, 1000)
		if s.LongWave != nil {
			s.LongWave[i] = rounded(s.LongWave[i]*math.Pow((air+shift+zero)/(air+zero), 4), 10)
		}
	}
	for i, dew := range s.DewPoint {
		s.DewPoint[i] = rounded(math.Max(dew+shift, dewPoint.low), 1000)
	}
}
