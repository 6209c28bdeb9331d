package weather

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// plainForm is the form of winterline's own: a header row that names quantity and unit,
// then one row a stamp. It is strict: what looks wrong is refused with its line, unless
// the user has asked for it to be mended.
var plainForm = format{name: plainName, recognise: recognisePlain, read: readPlain}

// recognisePlain looks for a header row that begins with time and has a known column.
func recognisePlain(head []byte) bool {
	rows := rowReader{source: newSource("", bytes.NewReader(head), Options{})}
	if fault, ok := rows.row(); fault != nil || !ok || string(rows.fields[0]) != "time" {
		return false
	}
	return slices.ContainsFunc(rows.fields, func(name []byte) bool {
		_, _, known := findColumn(string(name))
		return known
	})
}

// plainName is the plain form as users are told of it.
const plainName = "plain form"

// plainReader takes the plain form to a record.
type plainReader struct {
	rowReader
	faults
	record *record
	hot    hotAir
	header int     // its line; 0: none was found
	width  int     // columns of the header
	taken  []field // those that are read
	stamps stampReader
}

// field is a column of the file that is read.
type field struct {
	*column
	index int // in the header
}

// readPlain reads the plain form. The record comes with the problems, so that what is
// wrong between its rows is told with them.
func readPlain(src *source) (*record, units.Problems) {
	p := &plainReader{rowReader: rowReader{source: src}, record: newRecord(src, plainName)}
	p.faults.src = src
	p.remark = func(line []byte) {
		p.record.typical = p.record.typical || bytes.HasPrefix(line, []byte(typicalRemark))
		p.record.addDesign(line)
	}
	p.stamps = stampReader{plainReader: p, dates: timeColumn{record: p.record}}
	usable := true
	for usable {
		fault, ok := p.row()
		if !ok {
			break
		}
		switch {
		case fault != nil:
			p.lose(*fault)
		case p.header == 0:
			usable = p.readHeader()
		case len(p.fields) != p.width:
			p.lose(units.Problem{File: src.name, Line: p.start, Found: units.Plural(len(p.fields), "field"), Expected: p.widthAdvice()})
		default:
			p.readRow()
		}
	}
	p.hot.tell(p)
	p.record.headerLine = p.header
	usable = p.stamps.settleDates() && usable
	p.stamps.oneClock()
	problems := p.problems()
	if p.header == 0 && src.ended == nil {
		problems = append(problems, units.Problem{File: src.name, Line: 1, Found: "no header row", Expected: "a first row that names the columns"})
	}
	if p.header == 0 || !usable || src.ended != nil {
		return nil, ordered(src.name, problems)
	}
	return p.record, problems
}

// widthAdvice says how many fields the latest row should have.
func (p *plainReader) widthAdvice() string {
	advice := fmt.Sprintf("%d, as in the header row", p.width)
	if len(p.fields) > p.width {
		advice += ", with a point before decimals"
	}
	return advice
}

// complain takes a fault of the current row.
func (p *plainReader) complain(key, found, expected string) {
	p.add(units.Problem{File: p.name, Line: p.start, Key: key, Found: found, Expected: expected})
}

// lose takes the fault of a row that is left out.
func (p *plainReader) lose(fault units.Problem) {
	p.record.lossy = true
	p.add(fault)
}

// readHeader resolves the column names; false where there is no use in reading on.
func (p *plainReader) readHeader() bool {
	var names []string
	for _, f := range p.fields {
		names = append(names, string(f))
	}
	p.header, p.width = p.start, len(names)
	first := names[0]
	if strings.ContainsAny(first, ";\t") {
		p.complain("", fmt.Sprintf("%q as the first column", units.Shorten(first)),
			"commas between columns, a point in decimals, and time as the first column")
		return false // every row would be split wrongly
	}
	fresh := p.checkNames(names)
	if first != "time" {
		p.complain("", fmt.Sprintf("%q as the first column", units.Shorten(first)), "time as the first column")
	}
	p.stamps.index = slices.Index(names, "time")
	for i, name := range names {
		if fresh[i] && name != "time" && !strings.HasPrefix(name, "x_") {
			p.addField(i, name)
		}
	}
	if !slices.ContainsFunc(p.taken, func(f field) bool { return f.quantity == airTemperature }) {
		p.complain("", "no air temperature column", namesOf(airTemperature))
	}
	return p.stamps.index >= 0
}

// checkNames refuses columns that are named twice or not at all, and says which are not.
func (p *plainReader) checkNames(names []string) (fresh []bool) {
	seen := map[string]bool{}
	fresh = make([]bool, len(names))
	for i, name := range names {
		key := fmt.Sprintf("column %d", i+1)
		switch {
		case name == "":
			p.complain(key, "no name", "a column name")
		case seen[name]:
			p.complain(key, fmt.Sprintf("%q again", name), "each column once")
		default:
			fresh[i] = true
		}
		seen[name] = true
	}
	return fresh
}

// addField takes one name of the header.
func (p *plainReader) addField(i int, name string) {
	c, depth, ok := findColumn(name)
	if !ok {
		if i > 0 { // the first is already refused for not being time
			p.complain(units.Shorten(name), "an unknown column", nameAdvice(name))
		}
		return
	}
	if c.quantity == soilTemperature {
		if slices.ContainsFunc(p.record.columns, func(o recordColumn) bool { return o.quantity == soilTemperature && o.depth == depth }) {
			p.complain(name, "a second soil temperature at that depth", "only one")
			return
		}
		p.record.addSoil(name, depth)
	} else if slices.ContainsFunc(p.taken, func(o field) bool { return o.quantity == c.quantity }) {
		p.complain(name, "a second column for "+c.quantity.word, "only one of "+namesOf(c.quantity))
		return
	} else {
		p.record.addColumn(c.quantity, name)
	}
	p.taken = append(p.taken, field{column: c, index: i})
}

// readRow reads the fields of a row. Of one whose time is refused the other fields are looked
// at all the same, for their faults.
func (p *plainReader) readRow() {
	if p.options.Mend && p.headerAgain() {
		return
	}
	at := p.fields[p.stamps.index]
	stamp, ok := p.stamps.read(at)
	switch {
	case ok && p.full(p.record):
		return
	case ok:
		p.record.addRow(stamp, p.start)
	default:
		p.record.lossy = true
		if !bytes.ContainsAny(at, "0123456789") {
			return // a row of names or units: one message does
		}
	}
	for i := range p.taken {
		text := p.fields[p.taken[i].index]
		if len(text) == 0 || !ok && p.options.Mend { // mending counts what it empties by rows that are there
			continue
		}
		if v := p.value(&p.taken[i], text); ok {
			p.record.set(i, v)
		}
	}
}

// headerAgain says whether the row is a header row between others, where files were put
// one after the other, and enters it in the ledger.
func (p *plainReader) headerAgain() bool {
	n := len(p.record.stamp)
	if n == 0 || string(p.rowReader.fields[p.stamps.index]) != "time" {
		return false
	}
	p.record.ledger = append(p.record.ledger, Repair{Kind: Dropped, Column: "time", File: p.name, Line: p.start,
		Time: wall(p.record.stamp[n-1]), Count: 1, Evidence: "the header row again"})
	return true
}

// value reads one field that is not empty. A refused field counts as present, so that it
// is not told again as a gap.
func (p *plainReader) value(f *field, text []byte) float64 {
	const refused = 0
	number, isNumber := parseDecimal(text)
	if isNumber {
		if si := f.si(number); f.within(si) {
			return si
		}
	}
	if p.options.Mend && (isNumber && isMissingCode(number) || !isNumber && isMissingWord(text)) {
		p.record.code(f.name, string(text), p.start)
		return math.NaN()
	}
	if isNumber && f.name == "air_temp_c" && p.hot.add(number, p.start) {
		return refused
	}
	fault := units.Problem{File: p.name, Line: p.start, Key: f.name, Found: units.Shorten(string(text)), Expected: f.limits}
	switch {
	case !isNumber:
		_, err := units.ParseNumber(string(text))
		fault = units.At(p.name, p.start, f.name, err)
		fault.Expected += orNothing
	case isMissingCode(number):
		fault.Found += " (often a code for a missing value)"
		fault.Expected += orNothing
	}
	p.refuse(fault)
	return refused
}
