package pipe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"winterline/pipe/units"
)

// word reads one of a closed list and returns its index.
func (s *scope) word(name string, known []string) (int, state) {
	n, st := s.get(name)
	if st != given {
		return 0, st
	}
	if n.kind == stringNode {
		if i := slices.Index(known, strings.ToLower(strings.TrimSpace(n.text))); i >= 0 {
			return i, given
		}
	}
	s.problem(name, describe(n), "one of "+quoteAll(known)+suggest(describe(n), known))
	return 0, faulty
}

// requiredWord is word without a default.
func (s *scope) requiredWord(name string, known []string) (int, bool) {
	i, st := s.word(name, known)
	switch st {
	case missing:
		s.problem(name, "nothing", "one of "+quoteAll(known))
	case unknown:
		s.problem(name, `"unknown"`, "one of "+quoteAll(known)+"; this one has no default")
	}
	return i, st == given
}

// suggest names the known word closest to the one written, as an appendix to a message; "" where none is close.
func suggest(word string, known []string) string {
	if best := units.Nearest(strings.Trim(word, `"`), known); best != "" {
		return fmt.Sprintf(" (did you mean %q?)", best)
	}
	return ""
}

func quoteAll(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return strings.Join(quoted, ", ")
}

// flag reads true or false.
func (s *scope) flag(name string) (bool, state) {
	n, st := s.get(name)
	if st != given {
		return false, st
	}
	if n.kind == boolNode || n.kind == stringNode && (n.text == "true" || n.text == "false") {
		return n.text == "true", given
	}
	s.problem(name, describe(n), "true or false, without quotes")
	return false, faulty
}

// mostText is how long a free text may be [characters].
const mostText = 200

// text reads a free text in one line. What does not print is refused: it would reach a terminal.
func (s *scope) text(name string) (string, state) {
	n, st := s.get(name)
	if st != given {
		return "", st
	}
	hidden := func(r rune) bool { return !unicode.IsPrint(r) && !unicode.Is(unicode.Zs, r) }
	if n.kind != stringNode || utf8.RuneCountInString(n.text) > mostText || strings.ContainsFunc(n.text, hidden) {
		s.problem(name, describe(n), fmt.Sprintf("a text in quotes, one line of at most %d printable characters", mostText))
		return "", faulty
	}
	return strings.TrimSpace(n.text), given
}

// number reads a bare number, for money.
func (s *scope) number(name string) float64 {
	n, st := s.get(name)
	if st != given {
		return 0
	}
	v, err := units.ParseNumber(strings.ReplaceAll(n.text, "_", ""))
	if n.kind != numberNode || err != nil || v < 0 || v > 1e12 {
		s.problem(name, describe(n), "a bare number from 0 to 1e12, such as 1450")
		return 0
	}
	return v
}
