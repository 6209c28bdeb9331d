package weather

import (
	"cmp"
	"fmt"
	"slices"

	"winterline/pipe/units"
)

// maxFound is how many faults a reader finds in a file before it gives up.
const maxFound = 10_000

// faults are what is wrong with a file as a reader finds it.
type faults struct {
	src     *source
	single  units.Problems
	refused refusals
}

// add takes a fault that stands for itself.
func (f *faults) add(p units.Problem) {
	f.single = append(f.single, p)
	f.enough()
}

// refuse takes the fault of one field; what stands in a column again and again is told once.
func (f *faults) refuse(p units.Problem) {
	f.refused.add(p)
	f.enough()
}

// enough stops reading where so many faults tell nothing new.
func (f *faults) enough() {
	if len(f.single)+len(f.refused.told) >= maxFound {
		f.src.stop(f.src.line, "10,000 problems up to here", "a file in order; what follows was not read")
	}
}

// problems returns all faults, what stopped reading among them.
func (f *faults) problems() units.Problems {
	return append(append(f.single, f.refused.problems()...), f.src.stopped()...)
}

// ordered sorts problems by line, tells those that are alike together and counts those that
// are still too many.
func ordered(name string, ps units.Problems) units.Problems {
	slices.SortStableFunc(ps, func(a, b units.Problem) int { return cmp.Compare(a.Line, b.Line) })
	ps = ps.FewOfAKind()
	if more := len(ps) - maxProblems; more > 0 {
		ps = append(ps[:maxProblems:maxProblems], units.Problem{File: name,
			Found: fmt.Sprintf("%d more problems after these", more), Expected: "none"})
	}
	return ps
}
