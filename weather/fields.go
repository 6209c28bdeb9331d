package weather

import (
	"math"
	"strconv"

	"winterline/pipe/units"
)

// fieldColumn is one column of a format that stands at a fixed place in its rows:
// SI value = number × times / over.
type fieldColumn struct {
	field       int // of the row, counted from 1 as specifications do; 0: worked out by the reader
	name        string
	quantity    *quantity
	times, over float64
	limits      string                  // what is expected, in the column's own unit
	missing     float64                 // the format's code for a missing value
	mean        bool                    // a mean of the hour before the stamp, where it is no amount
	flag        int                     // field of the quality flag, of which 0 is good; 0: none
	adjust      func(v float64) float64 // turns codes into numbers, those without a value into NaN; nil: nothing to turn
	valueless   string                  // what codes without a value tell of
	depth       float64                 // of a soil temperature [m]
}

// Limits in the units that archives share.
const (
	limitsCelsius = "-90 to 60 degC"
	limitsTenths  = "0 to 10 tenths of the sky"
	limitsWind    = "0 to 100 m/s"
	limitsSun     = "0 to 1600 W/m2"
	limitsSky     = "0 to 700 W/m2"
	limitsRain    = "0 to 2000 mm"
	limitsSoil    = "-60 to 80 degC"
)

// fieldReader takes rows of fields to a record.
type fieldReader struct {
	faults
	record  *record
	columns []fieldColumn // parallel to the record's
	emptied []emptied     // parallel to them
}

// newFieldReader returns a reader of the given columns, which the record gets in their order.
func newFieldReader(src *source, format string, columns []fieldColumn) *fieldReader {
	r := &fieldReader{faults: faults{src: src}, record: newRecord(src, format), columns: columns, emptied: make([]emptied, len(columns))}
	for _, c := range columns {
		if c.quantity == soilTemperature {
			r.record.addSoil(c.name, c.depth)
		} else {
			r.record.addColumn(c.quantity, c.name)
		}
	}
	return r
}

// complain refuses something in the latest line.
func (r *fieldReader) complain(key, found, expected string) {
	r.refuse(r.src.problem(key, found, expected))
}

// whole says whether a row has the fields that it should have, and refuses it otherwise: with
// more of them, decimal commas perhaps, all are in the wrong place. One may be empty at the end.
func (r *fieldReader) whole(fields [][]byte, least, most int, expected string) bool {
	n := len(fields)
	if n == most+1 && len(fields[most]) == 0 {
		n--
	}
	if n >= least && n <= most {
		return true
	}
	r.complain("", units.Plural(n, "field"), expected)
	return false
}

// take adds a row. Fields beyond the end of a short row are missing.
func (r *fieldReader) take(stamp int64, fields [][]byte) {
	r.record.addRow(stamp, r.src.line)
	for i := range r.columns {
		if c := &r.columns[i]; c.field > 0 && c.field <= len(fields) {
			r.record.set(i, r.value(c, &r.emptied[i], fields))
		}
	}
}

// value reads one field of the last row: SI, or NaN where it is missing or no number.
// What is beyond belief is missing too: files write more or fewer nines than the
// specification has, and one bad reading of a station must not cost the whole file.
func (r *fieldReader) value(c *fieldColumn, e *emptied, fields [][]byte) float64 {
	text := trimBlanks(fields[c.field-1])
	if len(text) == 0 {
		return math.NaN()
	}
	number, ok := parseDecimal(text)
	if !ok {
		r.complain(c.name, strconv.Quote(units.Shorten(string(text))), "a number, or "+decimal(c.missing)+" for missing")
		return math.NaN()
	}
	si := number
	if c.adjust != nil {
		si = c.adjust(si)
	}
	si = si * c.times / c.over
	row := len(r.record.stamp) - 1
	switch {
	case number == c.missing:
		e.codes.add(row, text)
	case c.flag > 0 && !good(fields, c.flag):
		e.flagged.add(row, text)
	case si >= c.quantity.low && si <= c.quantity.high:
		e.values++
		return si
	case math.IsNaN(si):
		e.valueless.add(row, text)
	case isMissingCode(number):
		e.likely.add(row, text)
	default:
		e.beyond.add(row, text)
	}
	return math.NaN()
}

// good says whether a quality flag is 0 or left out.
func good(fields [][]byte, flag int) bool {
	return flag > len(fields) || string(fields[flag-1]) == "0"
}

// result ends the reading: the record, once settle has put its clock right, or all
// problems. A nil settle leaves the clock as it is.
func (r *fieldReader) result(settle func()) (*record, units.Problems) {
	for i, c := range r.record.columns {
		r.refuseAir(r.record, c, r.emptied[i], r.columns[i].limits)
	}
	if ps := r.problems(); len(ps) > 0 {
		return nil, ordered(r.src.name, ps)
	}
	if settle != nil {
		settle()
	}
	for i, c := range r.record.columns {
		r.record.enter(c.name, r.emptied[i], emptiedWords{limits: r.columns[i].limits, flag: "its quality flag is not 0", valueless: r.columns[i].valueless})
		switch {
		case c.quantity.amount:
			r.record.startAmounts(c)
		case r.columns[i].mean:
			centreMeans(r.record.stamp, c.values)
		}
	}
	r.record.dropEmpty()
	return r.record, nil
}
