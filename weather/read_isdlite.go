package weather

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"winterline/pipe/units"
)

const isdLiteName = "ISD-Lite"

// isdLiteForm is the hourly extract of the Integrated Surface Database: no header, a row
// an hour in UTC, twelve whole numbers between blanks. Fields, scales and codes follow its
// technical document ("ISD-Lite format documentation", National Climatic Data Center,
// 2006; from memory, and compared with published files).
//
// Air, dew point, wind and sky are observed close to the full hour, which is their stamp;
// the precipitation of the hour before is moved to its beginning.
var isdLiteForm = format{name: isdLiteName, recognise: isISDLite, read: readISDLite}

// isdLiteColumns are the fields that are read.
var isdLiteColumns = []fieldColumn{
	{field: 5, name: "air temperature", quantity: airTemperature, times: 1, over: 10, limits: "-900 to 600 tenths of a degC", missing: -9999},
	{field: 6, name: "dew point temperature", quantity: dewPoint, times: 1, over: 10, limits: "-900 to 600 tenths of a degC", missing: -9999},
	{field: 9, name: "wind speed", quantity: windSpeed, times: 1, over: 10, limits: "0 to 1000 tenths of a m/s", missing: -9999},
	{field: 10, name: "sky condition", quantity: cloudCover, times: 1, over: 8, limits: "a code from 0 to 19", missing: -9999, adjust: oktas, valueless: "single layers, not for the whole sky"},
	{field: 11, name: "precipitation in 1 h", quantity: rainfall, times: 1, over: 10_000, limits: "0 to 20000 tenths of a mm, or -1 for a trace", missing: -9999, adjust: traceAsNone},
}

const (
	isdLiteFields    = 12
	isdLiteRain      = 4  // in isdLiteColumns
	isdLiteSixHours  = 12 // field: precipitation of six hours
	isdLiteNotStated = -9999
)

// oktas takes a sky condition to eighths of the sky: 0 to 8 are these; 9 is a sky that
// cannot be seen for fog or snow; 10 to 19 tell of single layers, not of the whole.
func oktas(code float64) float64 {
	switch {
	case code == 9:
		return 8
	case code > 9 && code <= 19:
		return math.NaN()
	}
	return code
}

// traceAsNone takes the code of a trace, less than 0.05 mm, to nothing.
func traceAsNone(amount float64) float64 {
	if amount == -1 {
		return 0
	}
	return amount
}

// isISDLite looks for a row among the first lines, so that one bad row does not hide the
// format.
func isISDLite(head []byte) bool {
	var fields [][]byte
	for _, line := range firstLines(head, 4) {
		fields = blankFields(line, fields)
		if isISDLiteRow(fields) {
			return true
		}
	}
	return false
}

// isISDLiteRow says whether fields are year, month, day, hour and eight whole numbers.
func isISDLiteRow(fields [][]byte) bool {
	if len(fields) != isdLiteFields {
		return false
	}
	for i, field := range fields {
		switch i {
		case 0, 1, 2, 3:
			if width := len(field); i == 0 && width != 4 || i > 0 && width > 2 {
				return false
			}
		default:
			field = bytes.TrimPrefix(field, []byte("-"))
		}
		if _, ok := parseDigits(field); !ok {
			return false
		}
	}
	return true
}

func readISDLite(src *source) (*record, units.Problems) {
	r := newFieldReader(src, isdLiteName, isdLiteColumns)
	var fields [][]byte
	for !src.full(r.record) {
		line, ok := src.next()
		if !ok {
			break
		}
		fields = blankFields(line, fields)
		if len(fields) == 0 || !r.whole(fields, isdLiteFields, isdLiteFields, "12") {
			continue
		}
		stamp, ok := r.isdLiteStamp(fields)
		if !ok {
			continue
		}
		r.take(stamp, fields)
		r.spreadSixHours(fields)
	}
	return r.result(func() { r.record.fromUTC(src.options) })
}

// isdLiteStamp returns year, month, day and hour 0 to 23 as a stamp, still in UTC.
func (r *fieldReader) isdLiteStamp(fields [][]byte) (int64, bool) {
	var parts [4]int
	if !parseAllDigits(fields, parts[:]) {
		r.complain("date", strconv.Quote(units.Shorten(string(bytes.Join(fields[:len(parts)], []byte(" "))))), "year, month, day and hour as whole numbers")
		return 0, false
	}
	stamp, ok := clock(parts[0], parts[1], parts[2], parts[3], 0, 0)
	if !ok || parts[3] == hoursPerDay {
		r.complain("date", fmt.Sprintf("%d-%02d-%02d hour %d", parts[0], parts[1], parts[2], parts[3]), "a date of the calendar from 1700 to 2500 and an hour from 0 to 23")
		return 0, false
	}
	return stamp, true
}

// spreadSixHours takes the precipitation of six hours, which is all that many stations
// report, to these hours, where none of them has its own.
func (r *fieldReader) spreadSixHours(fields [][]byte) {
	total, ok := parseDecimal(fields[isdLiteSixHours-1])
	if total = traceAsNone(total); !ok || total == isdLiteNotStated || total < 0 {
		return
	}
	r.record.spreadTotal(isdLiteRain, 6, total/10_000)
}
