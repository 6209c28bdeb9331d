package units

import (
	"fmt"
	"strings"
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

// Error gives "file:line: key: found …; expected …", leaving out what is not known.
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
	return b.String()
}

// Problems are all faults of one or more files. As an error it prints one a line.
type Problems []Problem

// maxShown is how many problems are printed; a file with more is of another kind altogether.
const maxShown = 100

// Error joins the problems, one a line, and counts those beyond the first hundred.
func (ps Problems) Error() string {
	var lines []string
	for i, p := range ps {
		if i == maxShown {
			lines = append(lines, fmt.Sprintf("and %d more of the kind", len(ps)-maxShown))
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
