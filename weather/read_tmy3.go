package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"winterline/pipe/units"
)

const tmy3Name = "TMY3"

// tmy3Form is the third set of typical meteorological years: a line with the station, a
// line that names the columns, then a row an hour. Names, units and codes follow the
// "Users Manual for TMY3 Data Sets" (Wilcox and Marion, 2008, NREL/TP-581-43156; from
// memory).
//
// Hour 1 ends at 01:00. Air, dew point, wind and clouds are what was observed at the end
// of the hour, so its end is their stamp; precipitation is moved to the hour's beginning,
// and sun, a mean of the hour, is centred (see hourending.go). There is no snow depth.
var tmy3Form = format{name: tmy3Name, recognise: isTMY3, read: readTMY3}

const (
	tmy3Date      = "Date (MM/DD/YYYY)"
	tmy3Time      = "Time (HH:MM)"
	tmy3Air       = "Dry-bulb (C)"
	tmy3Opaque    = "OpqCld (tenths)"
	tmy3Rain      = "Lprecip depth (mm)"
	tmy3RainHours = "Lprecip quantity (hr)"
	tmy3Missing   = -9900
)

// tmy3Columns are the columns that are read; their fields are found by name.
var tmy3Columns = []fieldColumn{
	{name: tmy3Air, quantity: airTemperature, times: 1, over: 1, limits: limitsCelsius, missing: tmy3Missing},
	{name: "Dew-point (C)", quantity: dewPoint, times: 1, over: 1, limits: limitsCelsius, missing: tmy3Missing},
	{name: "GHI (W/m^2)", quantity: sunshine, times: 1, over: 1, limits: limitsSun, missing: tmy3Missing, mean: true},
	{name: "Wspd (m/s)", quantity: windSpeed, times: 1, over: 1, limits: limitsWind, missing: tmy3Missing},
	{name: "TotCld (tenths)", quantity: cloudCover, times: 1, over: 10, limits: limitsTenths, missing: tmy3Missing},
	{name: tmy3Opaque, quantity: cloudCover, times: 1, over: 10, limits: limitsTenths, missing: tmy3Missing},
	{name: tmy3Rain, quantity: rainfall, times: 1, over: 1000, limits: limitsRain, missing: tmy3Missing},
}

func isTMY3(head []byte) bool {
	lines := firstLines(head, 2)
	return len(lines) == 2 && isTMY3Header(lines[1]) || len(lines) > 0 && isTMY3Header(lines[0])
}

func isTMY3Header(line []byte) bool {
	line = bytes.TrimLeft(line, "\" ")
	return len(line) >= len(tmy3Date) && strings.EqualFold(string(line[:len(tmy3Date)]), tmy3Date)
}

// tmy3Reader reads one file.
type tmy3Reader struct {
	*fieldReader
	date, time, rainHours int // fields, from 0; -1: the file does not have it
	rain                  int // in the record's columns
	width                 int // fields of a row
}

func readTMY3(src *source) (*record, units.Problems) {
	r := &tmy3Reader{fieldReader: newFieldReader(src, tmy3Name, slices.Clone(tmy3Columns))}
	if r.header() {
		r.rows()
	}
	rec, ps := r.result(func() { r.record.joinMonths(true) })
	if rec != nil {
		rec.keepOpaque(tmy3Opaque)
		rec.dropNils(rainfall)
	}
	return rec, ps
}

// header reads the line of the station, which may be missing, and the names of the columns.
func (r *tmy3Reader) header() bool {
	var names [][]byte
	for range 2 {
		line, ok := r.src.next()
		if !ok {
			return false
		}
		names = splitCommas(line, names)
		if isTMY3Header(line) {
			return r.names(names)
		}
		r.station(names)
	}
	return false
}

// station takes the clock from number, name, state, zone, latitude, longitude, elevation.
func (r *tmy3Reader) station(fields [][]byte) {
	zone := len(fields) - 4 // a comma may stand in the name
	if zone < 0 {
		return
	}
	if hours, ok := parseDecimal(fields[zone]); ok && math.Abs(hours) <= farthestZone {
		r.record.note("clock", "times are local standard time", "the station's line has "+utcOffset(hours))
	}
}

// names finds the columns.
func (r *tmy3Reader) names(header [][]byte) bool {
	find := func(name string) int {
		return slices.IndexFunc(header, func(field []byte) bool {
			return strings.EqualFold(string(bytes.Trim(field, `"`)), name)
		})
	}
	r.date, r.time, r.rainHours = find(tmy3Date), find(tmy3Time), find(tmy3RainHours)
	for i := range r.columns {
		c := &r.columns[i]
		c.field = find(c.name) + 1
		if c.name == tmy3Rain {
			r.rain = i
		}
	}
	for _, name := range []string{tmy3Date, tmy3Time, tmy3Air} {
		if find(name) < 0 {
			r.complain("", "no column "+name, "the columns of TMY3")
			return false
		}
	}
	r.width = len(header)
	return true
}

func (r *tmy3Reader) rows() {
	var fields [][]byte
	expected := fmt.Sprintf("%d, as in the line of names", r.width)
	for !r.src.full(r.record) {
		line, ok := r.src.next()
		if !ok {
			return
		}
		fields = splitCommas(line, fields)
		if len(fields) == 1 && len(fields[0]) == 0 || !r.whole(fields, r.width, r.width, expected) {
			continue
		}
		if stamp, ok := r.stamp(fields); ok {
			r.take(stamp, fields)
			if r.rainHours >= 0 {
				r.spreadRain(r.rain, fields[r.rainHours])
			}
		}
	}
}

// stamp returns the end of the row's hour: a date as MM/DD/YYYY and a time from 01:00 to
// 24:00.
func (r *tmy3Reader) stamp(fields [][]byte) (int64, bool) {
	date, time := fields[r.date], fields[r.time]
	if len(date) == len("01/17/2026") && date[2] == '/' && date[5] == '/' && len(time) == len("05:00") && time[2] == ':' {
		month, a := parseDigits(date[:2])
		day, b := parseDigits(date[3:5])
		year, c := parseDigits(date[6:])
		hour, d := parseDigits(time[:2])
		minute, e := parseDigits(time[3:])
		if stamp, ok := clock(year, month, day, hour, minute, 0); ok && a && b && c && d && e && hour > 0 {
			return stamp, true
		}
	}
	r.complain(tmy3Date, strconv.Quote(units.Shorten(fmt.Sprintf("%s %s", date, time))), "a date and a time such as 01/17/2026 05:00, the hour that ends then")
	return 0, false
}
