// Package verify holds the published and the independently computed values that
// winterline is checked against, and the code that computes each of them afresh.
// `winterline verify` and `go test` run the same tables.
//
// Every table is a CSV file of its own, embedded. Trust says where the expected
// figure comes from: "read" stands in a source that was opened, "computed" was
// evaluated outside this program from an exact solution, a published formula or an
// independent solver, "from memory" is to be confirmed before it is quoted.
// measured.csv alone is no table of checks: it carries what tests of sim computed beside
// thermometers in the ground (measured.go).
package verify

import (
	"bytes"
	"embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"

	"github.com/gocarina/gocsv"
)

//go:embed *.csv
var tables embed.FS

// record is one row of an embedded table, by column name.
type record struct {
	table  string
	line   int      // in the table's file
	names  []string // of the columns, in the table's order
	fields map[string]string
	beside string // what an evaluator wants read beside its figure
	err    error  // first column that was missing or no number
}

// text returns the field in the named column.
func (r *record) text(column string) string {
	s, ok := r.fields[column]
	if !ok {
		r.fail("%s: no such column", column)
	}
	return s
}

// number returns the value in the named column; NaN if the field is empty.
func (r *record) number(column string) float64 {
	s := r.text(column)
	if s == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		r.fail("%s: found %q; expected a number", column, s)
	}
	return v
}

// fail keeps the first complaint about the row.
func (r *record) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("%s:%d: %s", r.table, r.line, fmt.Sprintf(format, args...))
	}
}

// readTable returns the rows of an embedded table in file order. Lines that start with #
// say at the head of the file what the table is.
func readTable(name string) ([]*record, error) {
	text, err := tables.ReadFile(name)
	if err != nil {
		return nil, err
	}
	first := 2 // line of the first row, under the header
	for bytes.HasPrefix(text, []byte("#")) {
		_, text, _ = bytes.Cut(text, []byte("\n"))
		first++
	}
	rows, err := gocsv.CSVToMaps(bytes.NewReader(text))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	names, err := csv.NewReader(bytes.NewReader(text)).Read()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	records := make([]*record, len(rows))
	for i, fields := range rows {
		records[i] = &record{table: name, line: first + i, names: names, fields: fields}
	}
	return records, nil
}

// mustRead is readTable for the tables that loaders hand out as typed values. It
// panics on a malformed table: these are embedded, no user can touch them.
func mustRead(name string) []*record {
	records, err := readTable(name)
	if err != nil {
		panic(err)
	}
	return records
}

// mustHold panics if reading any of the records' columns failed.
func mustHold(records []*record) {
	for _, r := range records {
		if r.err != nil {
			panic(r.err)
		}
	}
}
