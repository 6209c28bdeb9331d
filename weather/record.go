package weather

import (
	"math"
	"slices"
	"time"

	"winterline/pipe/units"
)

// record is a weather file as its reader took it, before cleaning: rows in the order of
// the file, double and out of order as they may be. What is wrong with single fields is
// the reader's to say; what is wrong between rows is found by cleaning.
//
// States are instants at their stamp. The stamp of an amount is the start of the time in
// which it fell; formats that stamp its end are shifted by their readers.
type record struct {
	source  string         // file as the user named it
	format  string         // as told to the user, such as "ISD-Lite"
	stamp   []int64        // wall clock in local standard time [s since 1970 as if it were UTC]
	line    []int32        // of the row in the file, 1-based
	columns []recordColumn // one a quantity (or soil depth)
	notes   []Note         // what the reader assumed or noticed
	typical bool           // a typical year: months of different years
	design  []string       // how a design cold snap was made; nil: a record

	early      []earlyAmount // fallen before the first row
	headerLine int           // of the file; 0 where there is none
	lossy      bool          // rows were refused: what is missing between rows says nothing
	ledger     []Repair      // what was mended so far
	files      []string      // of a record joined from several; nil: all rows are of source
	file       []uint16      // of each row, in files
}

// recordColumn is what a record has of one quantity.
type recordColumn struct {
	quantity *quantity
	name     string    // as the file names it
	depth    float64   // of a soil temperature [m]
	values   []float64 // SI, one a row; NaN: missing
}

// newRecord returns an empty record of the source.
func newRecord(src *source, format string) *record {
	return &record{source: src.name, format: format}
}

// addColumn adds a column and returns its index. Rows that are there already have no
// value in it.
func (r *record) addColumn(q *quantity, name string) int {
	r.columns = append(r.columns, recordColumn{quantity: q, name: name, values: noValues(len(r.stamp))})
	return len(r.columns) - 1
}

// noValues returns n missing values.
func noValues(n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = math.NaN()
	}
	return values
}

// addSoil adds a column of measured soil temperature at a depth [m].
func (r *record) addSoil(name string, depth float64) int {
	i := r.addColumn(soilTemperature, name)
	r.columns[i].depth = depth
	return i
}

// addRow adds a row without values.
func (r *record) addRow(stamp int64, line int) {
	r.stamp = append(r.stamp, stamp)
	r.line = append(r.line, int32(line)) // lines are limited far below
	for i := range r.columns {
		c := &r.columns[i]
		c.values = append(c.values, math.NaN())
	}
}

// set gives the last row's value in a column [SI].
func (r *record) set(column int, v float64) {
	values := r.columns[column].values
	values[len(values)-1] = v
}

// column returns the record's column of a quantity, nil where it has none.
func (r *record) column(q *quantity) *recordColumn {
	for i := range r.columns {
		if r.columns[i].quantity == q {
			return &r.columns[i]
		}
	}
	return nil
}

// blank says whether a row has no value at all.
func (r *record) blank(row int) bool {
	return !slices.ContainsFunc(r.columns, func(c recordColumn) bool { return !math.IsNaN(c.values[row]) })
}

// cut keeps the rows from..to-1.
func (r *record) cut(from, to int) {
	r.stamp, r.line = r.stamp[from:to:to], r.line[from:to:to]
	if r.file != nil {
		r.file = r.file[from:to:to]
	}
	for i := range r.columns {
		r.columns[i].values = r.columns[i].values[from:to:to]
	}
}

// note adds a note about the file as a whole.
func (r *record) note(about, text, evidence string) {
	r.notes = append(r.notes, Note{File: r.source, About: about, Text: text, Evidence: evidence})
}

// warn adds a note that the answer depends on.
func (r *record) warn(about, text, evidence string) {
	r.notes = append(r.notes, Note{File: r.source, About: about, Text: text, Evidence: evidence, Warning: true})
}

// fileOf returns the file that a row stands in.
func (r *record) fileOf(row int) string {
	if r.file == nil {
		return r.source
	}
	return r.files[r.file[row]]
}

// problem is a fault of the record at a row's line.
func (r *record) problem(row int, key, found, expected string) units.Problem {
	return units.Problem{File: r.fileOf(row), Line: int(r.line[row]), Key: key, Found: found, Expected: expected}
}

// repaired adds to the ledger what begins at a row.
func (r *record) repaired(row int, entry Repair) {
	entry.File, entry.Line, entry.Time = r.fileOf(row), int(r.line[row]), wall(r.stamp[row])
	r.ledger = append(r.ledger, entry)
}

// code counts in the ledger a code that stood in place of a missing value in the latest
// row of a column.
func (r *record) code(column, text string, line int) {
	for i := range r.ledger {
		if e := &r.ledger[i]; e.Kind == Emptied && e.Column == column {
			e.Count++
			return
		}
	}
	r.ledger = append(r.ledger, Repair{Kind: Emptied, Column: column, File: r.source, Line: line,
		Time: wall(r.stamp[len(r.stamp)-1]), Count: 1, Evidence: units.Shorten(text)})
}

// wall gives a stamp as a time.
func wall(stamp int64) time.Time { return time.Unix(stamp, 0).UTC() }
