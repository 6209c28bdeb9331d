package answers

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// MergeShares joins all shares of an answer, in any order, into the answer that one machine would have given.
func MergeShares(shares []NamedShare) (*WintersAnswer, error) {
	if len(shares) == 0 {
		return nil, &ShareError{"--merge", "no share", "the files of all shares"}
	}
	first := shares[0]
	by := make([]*NamedShare, first.Of)
	for i := range shares {
		s := &shares[i]
		if err := first.fits(s); err != nil {
			return nil, err
		}
		at := &by[s.Part.Part-1]
		if *at != nil {
			return nil, &ShareError{s.File, fmt.Sprintf("share %s, which %s is as well", s.Part, (*at).File), "every share once"}
		}
		*at = s
	}
	var missing []string
	a := &WintersAnswer{About: first.About, Outcomes: []WinterOutcome{}, Drawn: []DrawnOutcome{}}
	for i, s := range by {
		if s == nil {
			missing = append(missing, Part{i + 1, first.Of}.String())
			continue
		}
		a.Outcomes, a.Drawn = append(a.Outcomes, s.Outcomes...), append(a.Drawn, s.Drawn...)
	}
	if len(missing) > 0 {
		return nil, &ShareError{"--merge", "no share " + someOf(missing), fmt.Sprintf("all %d shares", first.Of)}
	}
	return a, nil
}

// fits refuses a share of other work than the first one's.
func (first *NamedShare) fits(s *NamedShare) error {
	if s.Of != first.Of {
		return &ShareError{s.File, fmt.Sprintf("share %s", s.Part), fmt.Sprintf("one of %d shares, as %s is", first.Of, first.File)}
	}
	same := "the same as in " + first.File
	for _, name := range namesOf(first.About.Inputs, s.About.Inputs) {
		if first.About.Inputs[name] != s.About.Inputs[name] {
			return &ShareError{s.File, fmt.Sprintf("another %s behind it (check sum %s)", name, shortSum(s.About.Inputs[name])), same + " (" + shortSum(first.About.Inputs[name]) + ")"}
		}
	}
	if first.About.Version != s.About.Version {
		return &ShareError{s.File, "version " + s.About.Version + " of the program", "that of " + first.File + ", " + first.About.Version}
	}
	// What is left are options that change the work without changing an input.
	a, err1 := json.Marshal(first.About)
	b, err2 := json.Marshal(s.About)
	if err1 != nil || err2 != nil || string(a) != string(b) {
		return &ShareError{s.File, "a share of other work", same}
	}
	return nil
}

// namesOf are the names of two sets of inputs, in alphabetical order.
func namesOf(a, b map[string]string) (names []string) {
	for _, m := range []map[string]string{a, b} {
		for name := range m {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// shortSum is the beginning of a check sum, enough to tell two apart.
func shortSum(sum string) string {
	if sum == "" {
		return "none"
	}
	return sum[:min(len(sum), 12)]
}

// someOf lists words, of many the first.
func someOf(words []string) string {
	const most = 8
	if len(words) > most {
		return strings.Join(words[:most], ", ") + fmt.Sprintf(" and %d more", len(words)-most)
	}
	return strings.Join(words, ", ")
}
