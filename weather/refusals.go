package weather

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"winterline/pipe/units"
)

// refusals are the fields of a file that cannot be taken. What stands in a column again
// and again is told once, at its first row, with the number of rows.
type refusals struct {
	told  []refusal
	index map[units.Problem]int // in told, by the fault without its line
}

// refusal is one fault of a column.
type refusal struct {
	first units.Problem
	rows  int // that have it
}

// add takes the fault of one field.
func (r *refusals) add(fault units.Problem) {
	kind := fault
	kind.Line = 0
	i, known := r.index[kind]
	if !known {
		if r.index == nil {
			r.index = map[units.Problem]int{}
		}
		i = len(r.told)
		r.index[kind] = i
		r.told = append(r.told, refusal{first: fault})
	}
	r.told[i].rows++
}

// problems returns the faults as the user is told them.
func (r *refusals) problems() units.Problems {
	var ps units.Problems
	for _, t := range r.told {
		switch more := t.rows - 1; {
		case more == 1:
			t.first.Found += ", here and in 1 more row"
		case more > 1:
			t.first.Found += fmt.Sprintf(", here and in %d more rows", more)
		}
		ps = append(ps, t.first)
	}
	return ps
}

// orNothing ends the expectation of a field that may be empty.
const orNothing = ", or nothing between the commas where none was recorded"

// isMissingCode says whether a number beyond a column's limits is one that files write
// for a value that is missing: a row of nines (-9999, 999.9), the codes of data loggers
// (-6999, -7999), the ends of 16-bit numbers and the huge fill values of binary formats
// (common practice, no source).
func isMissingCode(number float64) bool {
	size := math.Abs(number)
	switch {
	case size == 6999, size == 7999, size == 32767, size == 32768, size >= 1e19:
		return true
	}
	digits := strings.Replace(strconv.FormatFloat(size, 'f', -1, 64), ".", "", 1)
	return len(digits) > 1 && strings.Trim(digits, "9") == ""
}

// isMissingWord says whether a text is one that files write for a value that is missing
// (common practice, no source).
func isMissingWord(text []byte) bool {
	switch strings.ToLower(string(text)) {
	case "m", "na", "n/a", "nan", "nil", "none", "null", "missing", "-", "--", "*", "?", ".":
		return true
	}
	return false
}
