package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"winterline/pipe/units"
)

const epwName = "EPW"

// epwForm is the weather file of building energy programs: eight header lines, then a
// row an hour. Fields, units and codes for missing values follow the data dictionary of
// the format's documentation ("Auxiliary Programs", chapter on weather data; from memory,
// and compared with published files).
//
// Hour 1 ends at 01:00. Air, dew point, wind and clouds are what was observed at the end
// of the hour, so its end is their stamp; precipitation is moved to the hour's beginning,
// and sun and long-wave radiation, means of the hour, are centred (see hourending.go). The
// ground temperatures of the header are computed from the air and are not read.
var epwForm = format{name: epwName, recognise: isEPW, read: readEPW}

const epwOpaque = "opaque sky cover"

// epwColumns are the fields that are read.
var epwColumns = []fieldColumn{
	{field: 7, name: "dry bulb temperature", quantity: airTemperature, times: 1, over: 1, limits: limitsCelsius, missing: 99.9},
	{field: 8, name: "dew point temperature", quantity: dewPoint, times: 1, over: 1, limits: limitsCelsius, missing: 99.9},
	{field: 13, name: "horizontal infrared radiation", quantity: longWave, times: 1, over: 1, limits: limitsSky, missing: 9999, mean: true},
	{field: 14, name: "global horizontal radiation", quantity: sunshine, times: 1, over: 1, limits: limitsSun, missing: 9999, mean: true},
	{field: 22, name: "wind speed", quantity: windSpeed, times: 1, over: 1, limits: limitsWind, missing: 999},
	{field: 23, name: "total sky cover", quantity: cloudCover, times: 1, over: 10, limits: limitsTenths, missing: 99},
	{field: 24, name: epwOpaque, quantity: cloudCover, times: 1, over: 10, limits: limitsTenths, missing: 99},
	{field: 31, name: "snow depth", quantity: snowOnGround, times: 1, over: 100, limits: "0 to 2000 cm", missing: 999},
	{field: 34, name: "liquid precipitation depth", quantity: rainfall, times: 1, over: 1000, limits: limitsRain, missing: 999},
}

const (
	epwRain       = 8  // in epwColumns
	epwRainHours  = 35 // field: the hours in which the precipitation fell
	epwFields     = 35
	epwFewest     = 31 // up to the snow depth: older files end there
	epwHeaderMost = 20 // lines until DATA PERIODS, of which the format has eight
)

func isEPW(head []byte) bool {
	const first = "LOCATION,"
	return len(head) > len(first) && strings.EqualFold(string(head[:len(first)]), first)
}

// epwReader reads one file.
type epwReader struct {
	*fieldReader
	perHour int  // rows an hour
	typical bool // says so of itself
}

func readEPW(src *source) (*record, units.Problems) {
	r := &epwReader{fieldReader: newFieldReader(src, epwName, epwColumns)}
	if r.header() {
		r.rows()
	}
	rec, ps := r.result(func() { r.record.joinMonths(r.typical) })
	if rec != nil {
		rec.keepOpaque(epwOpaque)
		rec.dropNils(snowOnGround, rainfall, longWave)
	}
	return rec, ps
}

// header reads the lines before the rows.
func (r *epwReader) header() bool {
	var fields [][]byte
	for range epwHeaderMost {
		line, ok := r.src.next()
		if !ok {
			break
		}
		fields = splitCommas(line, fields)
		switch strings.ToUpper(string(fields[0])) {
		case "LOCATION":
			r.location(fields)
		case "DATA PERIODS":
			return r.dataPeriods(fields)
		}
	}
	r.complain("", "no line DATA PERIODS", "eight header lines, of which the last is such as DATA PERIODS,1,1,Data,Sunday,1/1,12/31")
	return false
}

// location takes what LOCATION, place, region, country, source, station number, latitude,
// longitude, zone, elevation tells of the kind of record and its clock.
func (r *epwReader) location(fields [][]byte) {
	const source, zone = 4, 8
	if len(fields) > source {
		r.typical = isTypicalSource(string(fields[source]))
	}
	if len(fields) > zone {
		if hours, ok := parseDecimal(fields[zone]); ok && math.Abs(hours) <= farthestZone {
			r.record.note("clock", "times are local standard time", "LOCATION has "+utcOffset(hours))
		}
	}
}

// isTypicalSource says whether a name such as SRC-TMYx or CWEC2016 is that of a set of
// typical years.
func isTypicalSource(name string) bool {
	words := strings.FieldsFunc(strings.ToUpper(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return slices.ContainsFunc(words, func(word string) bool {
		return slices.ContainsFunc([]string{"TMY", "TRY", "WYEC", "CWEC", "IWEC"}, func(set string) bool { return strings.HasPrefix(word, set) })
	})
}

// dataPeriods takes the number of rows an hour.
func (r *epwReader) dataPeriods(fields [][]byte) bool {
	const perHour = 2
	n := 0
	if len(fields) > perHour {
		n, _ = parseDigits(fields[perHour])
	}
	if n < 1 || n > 60 || 60%n != 0 {
		found := "no number of rows an hour"
		if len(fields) > perHour {
			found = strconv.Quote(units.Shorten(string(fields[perHour]))) + " rows an hour"
		}
		r.complain("DATA PERIODS", found, "1, or another whole part of 60")
		return false
	}
	r.perHour = n
	return true
}

func (r *epwReader) rows() {
	var fields [][]byte
	for !r.src.full(r.record) {
		line, ok := r.src.next()
		if !ok {
			return
		}
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		fields = splitCommas(line, fields)
		if !r.whole(fields, epwFewest, epwFields, "35, of which the last four may be left out") {
			continue
		}
		stamp, ok := r.stamp(fields)
		if !ok {
			continue
		}
		r.take(stamp, fields)
		if r.perHour == 1 && len(fields) >= epwRainHours {
			r.spreadRain(epwRain, fields[epwRainHours-1])
		}
	}
}

// stamp returns the end of the row's time: year, month, day, hour 1 to 24, minute. The
// minute counts only where there are several rows an hour.
func (r *epwReader) stamp(fields [][]byte) (int64, bool) {
	var parts [5]int
	if !parseAllDigits(fields, parts[:]) {
		r.complain("date", strconv.Quote(units.Shorten(string(bytes.Join(fields[:len(parts)], []byte(","))))), "year, month, day, hour and minute as whole numbers")
		return 0, false
	}
	year, month, day, hour, minute := parts[0], parts[1], parts[2], parts[3], parts[4]
	midnight, ok := clock(year, month, day, 0, 0, 0)
	switch {
	case !ok:
		r.complain("date", fmt.Sprintf("%d-%02d-%02d", year, month, day), "a date of the calendar from 1700 to 2500")
		return 0, false
	case hour < 1 || hour > 24:
		r.complain("hour", strconv.Itoa(hour), "1 to 24, the hour that ends then")
		return 0, false
	case r.perHour == 1:
		return midnight + int64(hour)*secondsPerHour, true
	case minute < 1 || minute > 60:
		r.complain("minute", strconv.Itoa(minute), "1 to 60, the time that ends then")
		return 0, false
	}
	return midnight + int64(hour-1)*secondsPerHour + int64(minute)*60, true
}
