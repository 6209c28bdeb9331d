package weather

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"winterline/pipe/units"
)

// Limits on a weather file; what is over is refused with the limit named.
const (
	MaxRows     = 2_000_000 // 228 years of hours
	maxProblems = 200       // told one by one
)

// Read reads a weather record in the plain form: a header row that names quantity and
// unit, then one row a stamp. name is the file as the user named it. The series is nil
// when there are problems; these come all at once, in the order of their lines.
//
// Empty fields and missing rows of up to 6 h are bridged and listed in Repairs; longer
// ones are problems. Measured soil temperatures keep their gaps as NaN.
func Read(name string, r io.Reader) (*Series, units.Problems) {
	limited := &rowLimit{in: bufio.NewReader(r), left: MaxRows + headRoom}
	table, ps := units.ReadTable(name, limited)
	if limited.passed || len(table.Rows) > MaxRows {
		return nil, ordered(name, append(ps, units.Problem{File: name, Found: "more than 2,000,000 rows",
			Expected: "at most 2,000,000; split the record"}))
	}
	if table.Header == nil {
		return nil, ps
	}
	p := &plainReader{table: table, problems: ps, whole: len(ps) == 0, series: &Series{Source: name}}
	p.header()
	if p.times() {
		p.values()
		p.gaps()
	}
	if len(p.problems) > 0 {
		return nil, ordered(name, p.problems)
	}
	return p.series, nil
}

// headRoom is how many lines besides rows (comments, blanks, header) a file may have.
const headRoom = 100_000

// rowLimit ends a text after a number of lines, before it fills the memory.
type rowLimit struct {
	in     *bufio.Reader
	left   int // lines
	passed bool
}

func (l *rowLimit) Read(p []byte) (int, error) {
	if l.left <= 0 {
		if _, err := l.in.Peek(1); err == nil {
			l.passed = true
		}
		return 0, io.EOF
	}
	n, err := l.in.Read(p)
	for i, b := range p[:n] {
		if b == '\n' {
			if l.left--; l.left == 0 {
				l.passed = i+1 < n
				return i + 1, err
			}
		}
	}
	return n, err
}

// plainReader takes a table to a series.
type plainReader struct {
	table    *units.Table
	series   *Series
	problems units.Problems
	whole    bool      // no row of the file was lost in splitting it into fields
	kept     []int     // rows of the table with a usable time, in order
	latest   time.Time // stamp of the last of them
	fields   []field
	refused  refusals
}

// field is a column of the file that is read.
type field struct {
	*column
	index  int // in the header
	soil   *SoilTrack
	values []float64 // SI, one a kept row; NaN where empty
}

func (p *plainReader) complain(line int, key, found, expected string) {
	p.problems = append(p.problems, units.Problem{File: p.table.Name, Line: line, Key: key, Found: found, Expected: expected})
}

// header resolves the column names.
func (p *plainReader) header() {
	t := p.table
	first := t.Header[0]
	if strings.ContainsAny(first, ";\t") {
		p.problems = nil // every row is split wrongly; one message says why
		p.complain(t.HeaderLine, "", fmt.Sprintf("%q as the first column", shorten(first)),
			"commas between columns, a point in decimals, and time as the first column")
		return
	}
	if first != "time" {
		p.complain(t.HeaderLine, "", fmt.Sprintf("%q as the first column", shorten(first)), "time as the first column")
	}
	for i, name := range t.Header {
		if name == "" || name == "time" || strings.HasPrefix(name, "x_") || slices.Index(t.Header, name) < i {
			continue // an empty or repeated name is already a problem of the table
		}
		p.column(i, name)
	}
	if !slices.ContainsFunc(p.fields, func(f field) bool { return f.quantity == airTemperature }) {
		p.complain(t.HeaderLine, "", "no air temperature column", namesOf(airTemperature))
	}
}

// column takes one name of the header.
func (p *plainReader) column(i int, name string) {
	line := p.table.HeaderLine
	c, depth, ok := findColumn(name)
	if !ok {
		if i == 0 {
			return // already refused for not being time
		}
		p.complain(line, shorten(name), "an unknown column", nameAdvice(name))
		return
	}
	f := field{column: c, index: i}
	if c.quantity == soilTemperature {
		f.soil = &SoilTrack{Depth: depth}
	} else if slices.ContainsFunc(p.fields, func(o field) bool { return o.quantity == c.quantity }) {
		p.complain(line, name, "a second column for "+c.quantity.word, "only one of "+namesOf(c.quantity))
		return
	}
	p.fields = append(p.fields, f)
}

// values reads every field of the kept rows.
func (p *plainReader) values() {
	for i := range p.fields {
		f := &p.fields[i]
		f.values = make([]float64, len(p.kept))
		for k, row := range p.kept {
			f.values[k] = p.value(f, p.table.Rows[row][f.index], p.table.Lines[row])
		}
		if f.soil != nil {
			f.soil.Temp = f.values
			p.series.Soil = append(p.series.Soil, *f.soil)
		} else {
			*f.quantity.slot(p.series) = f.values
		}
	}
	p.problems = append(p.problems, p.refused.problems()...)
}

// value reads one field: SI, or NaN where it is empty. A refused field counts as
// present, so that it is not told again as a gap.
func (p *plainReader) value(f *field, text string, line int) float64 {
	const refused = 0
	if text == "" {
		return math.NaN()
	}
	number, err := units.ParseNumber(text)
	si := f.si(number)
	if err == nil && f.within(si) {
		return si
	}
	fault := units.Problem{File: p.table.Name, Line: line, Key: f.name, Found: shorten(text), Expected: f.limits}
	switch {
	case err != nil:
		fault = units.At(p.table.Name, line, f.name, err)
		fault.Expected += orNothing
	case isMissingCode(number):
		fault.Found += " (often a code for a missing value)"
		fault.Expected += orNothing
	}
	p.refused.add(fault)
	return refused
}

// ordered sorts problems by line and counts those that are too many to tell.
func ordered(name string, ps units.Problems) units.Problems {
	slices.SortStableFunc(ps, func(a, b units.Problem) int { return cmp.Compare(a.Line, b.Line) })
	if more := len(ps) - maxProblems; more > 0 {
		ps = append(ps[:maxProblems:maxProblems], units.Problem{File: name,
			Found: fmt.Sprintf("%d more problems after these", more), Expected: "none"})
	}
	return ps
}

// shorten keeps a long text of the user's from filling the screen.
func shorten(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
