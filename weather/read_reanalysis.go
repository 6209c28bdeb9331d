package weather

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// reanalysisForm is the comma-separated form in which open services give hourly
// reanalysis and forecasts for a pair of coordinates: a block of two lines on the place
// and its clock, which may be missing, then a table whose header carries the units.
// Written after public headers and, for what the quantities mean, from memory: amounts
// and radiation are those of the hour before the stamp; 7 cm of snowfall are 10 mm of
// water; temperatures of soil are means of layers.
var reanalysisForm = format{name: reanalysisName, recognise: isReanalysis, read: readReanalysis}

const reanalysisName = "reanalysis CSV"

// isReanalysis recognises the block on the place, or the header of the table.
func isReanalysis(head []byte) bool {
	names := headerNames(head)
	return slices.Contains(names, "utc_offset_seconds") ||
		slices.Contains(names, "time") && slices.ContainsFunc(names, func(name string) bool {
			return name == reanalysisAir || strings.HasPrefix(name, reanalysisAir+" (")
		})
}

func readReanalysis(src *source) (*record, units.Problems) {
	a := newArchive(src, reanalysisName)
	a.ends = "time"
	where, problems := a.readPlace()
	if problems != nil {
		return nil, problems
	}
	for {
		a.bindReanalysis()
		for a.nextRow() {
			if a.addTimed(0) {
				a.takeValues()
			}
		}
		// A table of one row, the weather of the moment, may stand before the hours; a
		// table of days after them.
		if !a.another || len(a.record.stamp) > 1 {
			break
		}
		a.startAgain()
	}
	r, ps := a.result()
	if r == nil {
		return nil, ps
	}
	r.joinPrecipitation()
	r.humidityToDewPoint()
	for _, c := range r.columns {
		switch {
		case c.quantity.amount:
			r.startAmounts(c)
		case c.quantity == sunshine:
			centreMeans(r.stamp, c.values)
		}
	}
	r.setClock(where, src.options)
	return r, nil
}

// readPlace reads the block on the place, where there is one, and the header of the table.
func (a *archive) readPlace() (place, units.Problems) {
	where := place{longitude: math.NaN()}
	for {
		fault, ok := a.row()
		if !ok || fault != nil {
			return where, a.noHeader(fault)
		}
		first := string(a.fields[0])
		switch {
		case first == a.ends:
			a.takeHeader()
			return where, nil
		case a.header == nil && a.isPlaceHeader():
			a.takeHeader()
		case a.header == nil || where.stated || len(a.fields) != len(a.header):
			a.complain("", fmt.Sprintf("%q as the first field", units.Shorten(first)), "one place a file, and a table that begins with time")
			return where, a.problems()
		default:
			where.stated = true
			where.read(a)
		}
	}
}

// isPlaceHeader says whether the latest row is the first line of the block on the place.
func (a *archive) isPlaceHeader() bool {
	return slices.ContainsFunc(a.fields, func(f []byte) bool { return string(f) == "utc_offset_seconds" })
}

// startAgain takes the latest row as the header of the table that counts.
func (a *archive) startAgain() {
	a.record = newRecord(a.source, a.record.format)
	a.columns, a.times, a.another = nil, timeColumn{record: a.record}, false
	a.takeHeader()
}
