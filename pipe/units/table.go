package units

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// MaxLine is the longest line that ReadTable takes [bytes]; anything longer is not a
// table that a person or a weather service wrote.
const MaxLine = 64 << 10

// Limits of a table; what is over is refused with the limit named.
const (
	MaxRows     = 2_000_000 // 228 years of hours
	MaxProblems = 200       // told one by one
)

// TooManyProblems says that reading a table was given up at a line.
func TooManyProblems(name string, line int) Problem {
	return Problem{File: name, Line: line, Found: fmt.Sprintf("more faults after the %d above", MaxProblems), Expected: "a table without any; what follows was not read"}
}

// Table is a CSV file: one header row, then rows of text of the same length.
type Table struct {
	Name   string     // file as the user named it
	Header []string   // trimmed
	Rows   [][]string // trimmed fields
	Lines  []int      // 1-based line on which each row starts
	// HeaderLine is the 1-based line of the header; 0 for an empty file.
	HeaderLine int
}

// Column returns the index of the named column, or -1.
func (t *Table) Column(name string) int {
	for i, h := range t.Header {
		if h == name {
			return i
		}
	}
	return -1
}

// ReadTable reads a comma-separated table: a byte-order mark, CRLF ends, quotes, blank
// lines and lines that start with # are handled. A row that cannot be split or has a
// wrong number of fields becomes a Problem and is left out; reading goes on. A file
// without a header row gives an empty table and a Problem.
func ReadTable(name string, r io.Reader) (*Table, Problems) {
	t := &Table{Name: name}
	lines := newLineFilter(r)
	c := csv.NewReader(lines)
	c.Comment = '#'
	c.TrimLeadingSpace = true
	c.FieldsPerRecord = -1
	var ps Problems
	for {
		row, err := c.Read()
		if err == io.EOF {
			break
		}
		if over, full := t.full(lines.line, len(ps)); full {
			return t, append(ps, over)
		}
		if err != nil {
			problem, goOn := csvProblem(name, err)
			ps = append(ps, problem)
			if goOn {
				continue
			}
			return t, ps
		}
		line, _ := c.FieldPos(0)
		ps = append(ps, t.add(row, line)...)
	}
	if t.Header == nil {
		ps = append(ps, Problem{File: name, Line: 1, Found: "no header row",
			Expected: "a first row that names the columns"})
	}
	return t, ps
}

// full says whether no more is read of a table of so many rows or faults, and why.
func (t *Table) full(line, faults int) (Problem, bool) {
	switch {
	case faults >= MaxProblems:
		return TooManyProblems(t.Name, line), true
	case len(t.Rows) >= MaxRows:
		return Problem{File: t.Name, Found: "more than 2,000,000 rows", Expected: "at most 2,000,000; split the record"}, true
	}
	return Problem{}, false
}

// add takes a row as header or data.
func (t *Table) add(row []string, line int) Problems {
	for i := range row {
		row[i] = strings.TrimSpace(row[i])
	}
	if len(row) == 1 && row[0] == "" {
		return nil // a line of blanks
	}
	if t.Header == nil {
		t.Header, t.HeaderLine = row, line
		return t.headerProblems()
	}
	if len(row) != len(t.Header) {
		return Problems{{File: t.Name, Line: line, Found: Plural(len(row), "field"),
			Expected: fmt.Sprintf("%d, as in the header row", len(t.Header))}}
	}
	t.Rows = append(t.Rows, row)
	t.Lines = append(t.Lines, line)
	return nil
}

// headerProblems refuses a column that is named twice or not at all.
func (t *Table) headerProblems() Problems {
	var ps Problems
	seen := map[string]bool{}
	for i, h := range t.Header {
		key := fmt.Sprintf("column %d", i+1)
		switch {
		case h == "":
			ps = append(ps, Problem{File: t.Name, Line: t.HeaderLine, Key: key,
				Found: "no name", Expected: "a column name"})
		case seen[h]:
			ps = append(ps, Problem{File: t.Name, Line: t.HeaderLine, Key: key,
				Found: fmt.Sprintf("%q again", h), Expected: "each column once"})
		}
		seen[h] = true
	}
	return ps
}

// csvProblem words an error of the CSV reader and says whether reading can go on.
func csvProblem(name string, err error) (Problem, bool) {
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		found, expected := "a stray quote", `fields such as 1.5 or "text", quotes inside doubled`
		if errors.Is(parse.Err, csv.ErrQuote) && parse.Line != parse.StartLine {
			found = fmt.Sprintf("a quote that opens on line %d and never closes", parse.StartLine)
		}
		return Problem{File: name, Line: parse.StartLine, Found: found, Expected: expected}, true
	}
	var long *longLineError
	if errors.As(err, &long) {
		return Problem{File: name, Line: long.line, Found: "a line of more than 64 KiB",
			Expected: "a text table with shorter lines"}, false
	}
	return Problem{File: name, Found: err.Error(), Expected: "a readable file"}, false
}

// longLineError says that a line passes MaxLine.
type longLineError struct{ line int }

func (e *longLineError) Error() string { return fmt.Sprintf("line %d is too long", e.line) }

// lineFilter hands on a text line by line, without a byte-order mark, with comment lines
// that are indented or quoted made plain, and stops at a line beyond MaxLine.
type lineFilter struct {
	in   *bufio.Reader
	rest []byte
	line int
	err  error
}

func newLineFilter(r io.Reader) *lineFilter {
	in := bufio.NewReaderSize(r, MaxLine)
	if mark, err := in.Peek(3); err == nil && bytes.Equal(mark, []byte("\xef\xbb\xbf")) {
		_, _ = in.Discard(3) // three bytes are there: they were just seen
	}
	return &lineFilter{in: in}
}

// Read hands on at most one line a call.
func (f *lineFilter) Read(p []byte) (int, error) {
	if len(f.rest) == 0 {
		if f.err != nil {
			return 0, f.err
		}
		f.next()
		if len(f.rest) == 0 {
			return 0, f.err
		}
	}
	n := copy(p, f.rest)
	f.rest = f.rest[n:]
	return n, nil
}

func (f *lineFilter) next() {
	f.line++
	text, err := f.in.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		f.rest, f.err = nil, &longLineError{f.line}
		return
	}
	f.rest, f.err = text, err
	if trimmed := bytes.TrimLeft(text, " \t\""); len(trimmed) > 0 && trimmed[0] == '#' {
		f.rest = []byte("#\n") // the CSV reader knows a comment only at the very start of a line
	}
}
