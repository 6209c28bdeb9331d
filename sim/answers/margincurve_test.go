package answers_test

import (
	"math"
	"slices"
	"testing"

	"winterline/sim/answers"
)

// The shifts that a margin tried bear it out, are in order, and are the same whatever the number of workers.
func TestMarginCurve(t *testing.T) {
	for _, c := range bruteCases[:3] {
		k := caseOf(t, c.name, c.record)
		m, shifts, err := (&answers.Engine{Workers: 1}).MarginCurve(t.Context(), k, nil)
		if err != nil {
			t.Fatal(err)
		}
		_, again, err := (&answers.Engine{Workers: 3}).MarginCurve(t.Context(), k, nil)
		if err != nil || len(again) != len(shifts) {
			t.Fatalf("%s: %d shifts with one worker, %d with three, %v", c.name, len(shifts), len(again), err)
		}
		if !slices.IsSortedFunc(shifts, func(a, b answers.Shift) int { return int(math.Copysign(1, a.Colder-b.Colder)) }) {
			t.Errorf("%s: out of order", c.name)
		}
		largest := math.Inf(-1) // shift at which the line held, below all at which it did not
		for i, s := range shifts {
			other := again[i]
			if s.Colder != other.Colder || s.Shut != other.Shut || s.Wet != other.Wet || math.Float64bits(s.Narrowest) != math.Float64bits(other.Narrowest) {
				t.Errorf("%s: %+v with one worker, %+v with three", c.name, s, other)
			}
			if s.Shut == answers.Failed && !math.IsNaN(s.Narrowest) || s.Narrowest > 1 {
				t.Errorf("%s: shut, and narrowed to %v", c.name, s.Narrowest)
			}
			if s.Shut == answers.Failed && s.Colder <= m.Open.K {
				t.Errorf("%s: shut at %v K colder, within the margin of %v", c.name, s.Colder, m.Open.K)
			}
			if s.Shut == answers.Held && s.Colder <= m.Open.K {
				largest = s.Colder
			}
		}
		if !m.Open.Beyond && largest != m.Open.K {
			t.Errorf("%s: the line held to %v, but its margin is %v", c.name, largest, m.Open.K)
		}
	}
}
