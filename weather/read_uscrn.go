package weather

import (
	"fmt"
	"strconv"

	"winterline/pipe/units"
)

const uscrnName = "USCRN hourly"

// uscrnForm is the hourly product of the Climate Reference Network ("hourly02"): no
// header, a row an hour, 38 fields between blanks. Fields, units and codes follow its
// readme (from memory).
//
// A row is stamped with the end of its hour, in UTC and in local standard time; the
// latter is taken. Air is the mean of the hour's last five minutes and so stands at the
// stamp; precipitation is moved to the hour's beginning; sun and humidity, means of the
// hour, are centred (see hourending.go). There is no wind, no cloud and no snow depth.
var uscrnForm = format{name: uscrnName, recognise: isUSCRN, read: readUSCRN}

const (
	limitsPercent = "0 to 110 %"
	uscrnFields   = 38
	uscrnDewPoint = 1 // in uscrnColumns
)

// uscrnColumns are the quantities that are read.
var uscrnColumns = []fieldColumn{
	{field: 9, name: "T_CALC", quantity: airTemperature, times: 1, over: 1, limits: limitsCelsius, missing: -9999},
	uscrnDewPoint: {name: "RH_HR_AVG", quantity: dewPoint, mean: true, limits: limitsPercent},
	{field: 13, name: "P_CALC", quantity: rainfall, times: 1, over: 1000, limits: limitsRain, missing: -9999},
	{field: 14, name: "SOLARAD", quantity: sunshine, times: 1, over: 1, limits: limitsSun, missing: -9999, mean: true, flag: 15},
	{field: 34, name: "SOIL_TEMP_5", quantity: soilTemperature, depth: 0.05, times: 1, over: 1, limits: limitsSoil, missing: -9999},
	{field: 35, name: "SOIL_TEMP_10", quantity: soilTemperature, depth: 0.1, times: 1, over: 1, limits: limitsSoil, missing: -9999},
	{field: 36, name: "SOIL_TEMP_20", quantity: soilTemperature, depth: 0.2, times: 1, over: 1, limits: limitsSoil, missing: -9999},
	{field: 37, name: "SOIL_TEMP_50", quantity: soilTemperature, depth: 0.5, times: 1, over: 1, limits: limitsSoil, missing: -9999},
	{field: 38, name: "SOIL_TEMP_100", quantity: soilTemperature, depth: 1, times: 1, over: 1, limits: limitsSoil, missing: -9999},
}

// The dew point is that of the hour's mean temperature and humidity.
var (
	uscrnMeanAir  = fieldColumn{field: 10, name: "T_HR_AVG", quantity: airTemperature, times: 1, over: 1, limits: limitsCelsius, missing: -9999}
	uscrnHumidity = fieldColumn{field: 27, name: "RH_HR_AVG", quantity: relativeHumidity, times: 1, over: 100, limits: limitsPercent, missing: -9999, flag: 28}
)

// isUSCRN looks for a row among the first lines, so that one bad row does not hide the
// format.
func isUSCRN(head []byte) bool {
	var fields [][]byte
	for _, line := range firstLines(head, 4) {
		if fields = blankFields(line, fields); len(fields) == uscrnFields && hasWidths(fields, 5, 8, 4, 8, 4) {
			return true
		}
	}
	return false
}

// uscrnReader reads one file.
type uscrnReader struct {
	*fieldReader
	zone  int64 // local standard time less UTC [s]
	zoned bool  // zone is known from an earlier row
	humid bool  // a dew point was worked out
}

func readUSCRN(src *source) (*record, units.Problems) {
	r := &uscrnReader{fieldReader: newFieldReader(src, uscrnName, uscrnColumns)}
	var fields [][]byte
	for !src.full(r.record) {
		line, ok := src.next()
		if !ok {
			break
		}
		fields = blankFields(line, fields)
		if len(fields) == 0 || !r.whole(fields, uscrnFields, uscrnFields, "38") {
			continue
		}
		if stamp, ok := r.stamp(fields); ok {
			r.take(stamp, fields)
			r.record.set(uscrnDewPoint, r.dewPoint(fields))
		}
	}
	if r.zoned {
		r.record.note("clock", "times are the file's local standard time", "LST_TIME is UTC_TIME by "+utcOffset(float64(r.zone)/secondsPerHour))
	}
	if r.humid {
		r.record.note(dewPoint.word, "worked out of the hour's mean temperature and humidity", "")
	}
	return r.result(nil)
}

// dewPoint works out the mean dew point of the last row's hour.
func (r *uscrnReader) dewPoint(fields [][]byte) float64 {
	var ofAir emptied // of which nothing is told: the air temperature itself is another field
	dew := dewPointOf(r.value(&uscrnMeanAir, &ofAir, fields), r.value(&uscrnHumidity, &r.emptied[uscrnDewPoint], fields))
	r.humid = r.humid || isValue(dew)
	return dew
}

// stamp returns the local standard time of a row. It has to keep its distance from UTC.
func (r *uscrnReader) stamp(fields [][]byte) (int64, bool) {
	utc, a := r.dateTime(fields, 1, "UTC_DATE UTC_TIME")
	local, b := r.dateTime(fields, 3, "LST_DATE LST_TIME")
	if !a || !b {
		return 0, false
	}
	zone := local - utc
	switch {
	case zone < -farthestZone*secondsPerHour || zone > farthestZone*secondsPerHour:
		r.complain("LST_TIME", utcOffset(float64(zone)/secondsPerHour), "UTC-14 to UTC+14")
		return 0, false
	case r.zoned && zone != r.zone:
		r.complain("LST_TIME", utcOffset(float64(zone)/secondsPerHour)+" after "+utcOffset(float64(r.zone)/secondsPerHour)+" on earlier rows",
			"one clock throughout: local standard time")
		return 0, false
	}
	r.zone, r.zoned = zone, true
	return local, true
}

// dateTime reads a date as YYYYMMDD and, in the field after it, a time as HHMM.
func (r *uscrnReader) dateTime(fields [][]byte, at int, key string) (int64, bool) {
	if hasWidths(fields[at:], 8, 4) {
		date, _ := parseDigits(fields[at])
		time, _ := parseDigits(fields[at+1])
		if stamp, ok := clock(date/10_000, date/100%100, date%100, time/100, time%100, 0); ok {
			return stamp, true
		}
	}
	r.complain(key, strconv.Quote(units.Shorten(fmt.Sprintf("%s %s", fields[at], fields[at+1]))), "a date and a time such as 20260117 0500")
	return 0, false
}
