package main

import (
	"cmp"
	"errors"
	"io/fs"
	"strings"

	"winterline/pipe/units"
)

// inputError is all that is wrong with the inputs of a case.
type inputError struct {
	problems units.Problems
	advice   string // what to do about an input that is not there; "": nothing to say
}

// Error gives one fault a line, then the advice.
func (e *inputError) Error() string {
	var parts []string
	if len(e.problems) > 0 {
		parts = append(parts, e.problems.Error())
	}
	if e.advice != "" {
		parts = append(parts, e.advice)
	}
	return strings.Join(parts, "\n")
}

// inOrder sorts faults by file and line; those of no line come last in their file.
func inOrder(a, b units.Problem) int {
	last := func(p units.Problem) int {
		if p.Line == 0 {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(last(a), last(b)), cmp.Compare(a.Line, b.Line))
}

func problem(file, found, expected string) error {
	return &inputError{problems: units.Problems{{File: file, Found: found, Expected: expected}}}
}

// reason gives the cause of a file error without its path.
func reason(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}
