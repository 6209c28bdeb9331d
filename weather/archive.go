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

const limitsFahrenheit = "-130 to 140 degF"

// archive takes the comma-separated file of an archive, whose header names its columns,
// to a record. Columns that are not asked for are passed over: archives have many.
//
// Values are kept as the file has them until result converts them, because some files
// show their units only when all of it is read.
type archive struct {
	rowReader
	faults
	record   *record
	number   func(text []byte) (float64, bool) // reads a field that is not empty: NaN for missing, false for what is no number
	wanted   string                            // what such a field should be
	times    timeColumn
	timeName string   // of the time column
	header   []string // names of the columns, without what is not ASCII
	titles   []string // the same as the file has them
	ends     string   // what the first field of a row says where another table begins; "" for nothing
	another  bool     // such a row was met
	columns  []archiveColumn
	station  []byte // as the first row names it
}

// archiveColumn is a column of the file that is read.
type archiveColumn struct {
	column
	index   int // of its field in a row
	into    int // of the record's column
	emptied emptied
}

func newArchive(src *source, format string) *archive {
	a := &archive{rowReader: rowReader{source: src}, faults: faults{src: src}, record: newRecord(src, format), number: parseArchiveNumber,
		wanted: "a number, or nothing where none was recorded"}
	a.times.record = a.record
	return a
}

// parseArchiveNumber reads a number, or a word that archives write for a missing one.
func parseArchiveNumber(text []byte) (float64, bool) {
	switch string(text) {
	case "M", "null", "NA", "NaN", "nan":
		return math.NaN(), true
	}
	return parseDecimal(text)
}

// takeHeader takes the latest row as the header.
func (a *archive) takeHeader() {
	a.record.headerLine = a.start
	a.header, a.titles = a.header[:0], a.titles[:0]
	for _, field := range a.fields {
		a.header = append(a.header, asciiOnly(field))
		a.titles = append(a.titles, strings.ToValidUTF8(string(field), ""))
	}
}

// asciiOnly drops what is not ASCII, such as a degree sign in whatever encoding.
func asciiOnly(text []byte) string {
	return string(bytes.Map(func(r rune) rune {
		if r >= 0x80 {
			return -1
		}
		return r
	}, text))
}

// headerNames are the names in the first row of a file, by which an archive's is known.
func headerNames(head []byte) []string {
	rows := newArchive(newSource("", bytes.NewReader(head), Options{}), "")
	if fault, ok := rows.row(); fault == nil && ok {
		rows.takeHeader()
	}
	return rows.header
}

// field returns the index of a named column, or -1.
func (a *archive) field(name string) int { return slices.Index(a.header, name) }

// bind adds the columns of a list that the header has. Of two that hold the same
// quantity the one that stands first in the list is taken.
func (a *archive) bind(known []column) {
	for _, c := range known {
		taken := slices.ContainsFunc(a.columns, func(o archiveColumn) bool { return o.quantity == c.quantity })
		if index := a.field(c.name); index >= 0 && !taken {
			a.bindTo(c, index)
		}
	}
}

// bindTo adds a column that stands in a field of the rows.
func (a *archive) bindTo(c column, index int) {
	c.name = a.titles[index]
	a.columns = append(a.columns, archiveColumn{column: c, index: index, into: a.record.addColumn(c.quantity, c.name)})
}

// noHeader is what is wrong with a file without the header by which it was recognised.
func (a *archive) noHeader(fault *units.Problem) units.Problems {
	if fault != nil {
		return units.Problems{*fault}
	}
	if ps := a.stopped(); len(ps) > 0 {
		return ps
	}
	return units.Problems{{File: a.name, Line: 1, Found: "no header row", Expected: "a first row that names the columns"}}
}

// complain refuses something in the latest row.
func (a *archive) complain(key, found, expected string) {
	a.refuse(units.Problem{File: a.name, Line: a.start, Key: key, Found: found, Expected: expected})
}

// nextRow reads the next row that is whole; ok is false at the end of the table.
func (a *archive) nextRow() (ok bool) {
	for !a.full(a.record) {
		fault, ok := a.row()
		switch {
		case !ok:
			return false
		case fault != nil:
			a.add(*fault)
		case a.ends != "" && string(a.fields[0]) == a.ends:
			a.another = true
			return false
		case len(a.fields) != len(a.header):
			a.complain("", units.Plural(len(a.fields), "field"), fmt.Sprintf("%d, as in the header row", len(a.header)))
		default:
			return true
		}
	}
	return false
}

// ofOneStation refuses a row of another station than the first; index is the field that
// names it, negative where none does.
func (a *archive) ofOneStation(index int) bool {
	if index < 0 {
		return true
	}
	name := a.fields[index]
	if a.station == nil {
		a.station = append([]byte{}, name...)
	}
	if bytes.Equal(a.station, name) {
		return true
	}
	a.complain(a.header[index], fmt.Sprintf("a second station, %q", units.Shorten(string(name))),
		fmt.Sprintf("one station a file, here %s", units.Shorten(string(a.station))))
	return false
}

// addTimed adds a row at the time in a field; ok is false where it cannot be read.
func (a *archive) addTimed(index int) (ok bool) {
	a.timeName = a.header[index]
	stamp, err := a.times.parse(a.fields[index])
	if err != nil {
		a.add(units.At(a.name, a.start, a.timeName, err))
		return false
	}
	a.record.addRow(stamp, a.start)
	return true
}

// takeValues reads the columns of the latest row.
func (a *archive) takeValues() {
	for i := range a.columns {
		c := &a.columns[i]
		text := a.fields[c.index]
		if len(text) == 0 {
			continue
		}
		v, ok := a.number(text)
		if !ok {
			a.complain(c.name, strconv.Quote(units.Shorten(string(text))), a.wanted)
			continue
		}
		if a.record.set(c.into, v); math.IsNaN(v) {
			c.emptied.codes.add(len(a.record.stamp)-1, text)
		}
	}
}

// result ends the reading: the record in SI, or all problems.
func (a *archive) result() (*record, units.Problems) {
	if p := a.times.settle(a.timeName); p != nil {
		a.add(*p)
	}
	for i := range a.columns {
		a.convert(&a.columns[i])
	}
	if ps := a.problems(); len(ps) > 0 {
		return nil, ordered(a.name, ps)
	}
	for _, c := range a.columns {
		a.record.enter(c.name, c.emptied, emptiedWords{limits: c.limits, flag: "flagged as missing"})
	}
	a.dropEnds()
	a.record.dropColumns(func(c recordColumn) bool { return c.quantity != airTemperature && !c.any(isValue) })
	return a.record, nil
}

// convert takes a column to SI and empties what is beyond belief: one bad reading of a
// station must not cost the whole file.
func (a *archive) convert(c *archiveColumn) {
	values, e := a.record.columns[c.into].values, &c.emptied
	for i, v := range values {
		si := c.si(v)
		switch {
		case math.IsNaN(v):
		case c.within(si):
			e.values++
		case isMissingCode(v):
			e.likely.add(i, []byte(decimal(v)))
			si = math.NaN()
		default:
			e.beyond.add(i, []byte(decimal(v)))
			si = math.NaN()
		}
		values[i] = si
	}
	a.refuseAir(a.record, a.record.columns[c.into], *e, c.limits)
}

// dropEnds cuts rows without any value from both ends: hours that had not come yet when
// the file was made, or months before a station began.
func (a *archive) dropEnds() {
	r := a.record
	from, to := 0, len(r.stamp)
	for from < to && r.blank(from) {
		from++
	}
	for to > from && r.blank(to-1) {
		to--
	}
	if cut := from + len(r.stamp) - to; cut > 0 && from < to {
		r.note("rows", units.Plural(cut, "row")+" without a value left out at the ends", "")
		r.cut(from, to)
	}
}
