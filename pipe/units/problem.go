package units

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Problem is one fault of an input file, located: the only form in which winterline
// reports bad input.
type Problem struct {
	File     string // as the user named it
	Line     int    // 1-based; 0 when the fault belongs to no line
	Key      string // key path or column, "" when the fault belongs to none
	Found    string // what stands there
	Expected string // what would do
}

// Error gives "file:line: key: found …; expected …", leaving out what is not known. Characters
// that a terminal would obey rather than show are escaped.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d", p.Line)
	}
	b.WriteString(": ")
	if p.Key != "" {
		b.WriteString(p.Key + ": ")
	}
	fmt.Fprintf(&b, "found %s; expected %s", p.Found, p.Expected)
	return escaped(b.String())
}

// escaped spells out the characters that do not print: names of columns and keys may hold any.
func escaped(text string) string {
	if !strings.ContainsFunc(text, hidden) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if hidden(r) {
			b.WriteString(strings.Trim(strconv.QuoteRune(r), "'"))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

func hidden(r rune) bool { return !unicode.IsPrint(r) && r != '\u00a0' }

// Problems are all faults of one or more files. As an error it prints one a line.
type Problems []Problem

// maxShown is how many problems are printed; a file with more is of another kind altogether.
const maxShown = 100

// Error joins the problems, one a line, and counts those beyond the first hundred.
func (ps Problems) Error() string {
	var lines []string
	for i, p := range ps {
		if i == maxShown {
			lines = append(lines, fmt.Sprintf("and %d more like these", len(ps)-maxShown))
			break
		}
		lines = append(lines, p.Error())
	}
	return strings.Join(lines, "\n")
}

// Err returns the problems as an error, or nil when there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

// Error says what stands in a text and what would do instead; a reader adds file, line and
// key to make it a Problem.
type Error struct{ Found, Expected string }

// Error gives "found …; expected …".
func (e *Error) Error() string { return fmt.Sprintf("found %s; expected %s", e.Found, e.Expected) }

// At makes an error of this package a Problem at a place.
func At(file string, line int, key string, err error) Problem {
	p := Problem{File: file, Line: line, Key: key, Found: err.Error(), Expected: "something readable"}
	var e *Error
	if errors.As(err, &e) {
		p.Found, p.Expected = e.Found, e.Expected
	}
	return p
}
