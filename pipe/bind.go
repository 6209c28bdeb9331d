package pipe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"winterline/pipe/units"
)

// binder turns raw values into a Layout and collects every fault and every guess on the way.
type binder struct {
	file         string
	ground       bool // the ground counts, even where nothing is buried
	problems     units.Problems
	guesses      []Guess
	settingLines []int // of each segment's setting, for faults in their order
}

// scope is one table of the layout while it is bound. Keys that nothing asked for are unknown.
type scope struct {
	b     *binder
	node  *node
	path  string // as shown and as an Edit takes it, such as `yard run`
	kind  string // as in the table of defaults, such as `segment`
	asked []string
}

// state says how a key stands in the layout.
type state int

const (
	missing state = iota // left out
	unknown              // written as "unknown"
	faulty               // written, refused and reported
	given
)

func (b *binder) scope(n *node, path, kind string) *scope {
	return &scope{b: b, node: n, path: path, kind: kind}
}

// key returns the path of a key in this table.
func (s *scope) key(name string) string {
	if s.path == "" {
		return name
	}
	return s.path + "." + name
}

// problem reports a fault at a key, or at the table where the key is missing.
func (s *scope) problem(name, found, expected string) {
	line := s.node.line
	if n := s.node.children[name]; n != nil {
		line = n.line
	}
	s.problemAt(line, name, found, expected)
}

func (s *scope) problemAt(line int, name, found, expected string) {
	key := s.path
	if name != "" {
		key = s.key(name)
	}
	s.b.problems = append(s.b.problems, units.Problem{File: s.b.file, Line: line, Key: key, Found: found, Expected: expected})
}

// get returns the raw value of a key and how it stands.
func (s *scope) get(name string) (*node, state) {
	if !slices.Contains(s.asked, name) {
		s.asked = append(s.asked, name)
	}
	n := s.node.children[name]
	switch {
	case n == nil:
		return nil, missing
	case n.kind == brokenNode:
		return nil, faulty
	case n.kind == stringNode && strings.EqualFold(strings.TrimSpace(n.text), "unknown"):
		return n, unknown
	}
	return n, given
}

// maxUnknown bounds the unknown keys told apart: a file with more is none of ours.
const maxUnknown = 1000

// finish reports the keys that nothing asked for.
func (s *scope) finish() {
	for _, key := range s.node.keys {
		if len(s.b.problems) > maxUnknown {
			return
		}
		if slices.Contains(s.asked, key) {
			continue
		}
		s.problem(key, "an unknown key", "one of this table's keys"+nearestHint(key, s.asked))
	}
}

// nearestHint names the closest known word, or lists all of a short choice.
func nearestHint(word string, known []string) string {
	if hint := suggest(word, known); hint != "" {
		return hint
	}
	if len(known) == 0 {
		return ""
	}
	return ": " + strings.Join(known, ", ")
}

// describe shows a raw value in a message.
func describe(n *node) string {
	switch n.kind {
	case stringNode:
		return strconv.Quote(units.Shorten(n.text))
	case tableNode:
		return "a table"
	case arrayNode:
		return "a list"
	}
	return units.Shorten(n.text)
}

// limit bounds a quantity [SI], with the words for a message.
type limit struct {
	low, high float64
	words     string
}

func (l limit) holds(v float64) bool { return v >= l.low && v <= l.high }

// quantity reads a value with a unit. The state is given only where it stands within the limit.
func (s *scope) quantity(name string, d units.Dimension, l limit) (float64, state) {
	n, st := s.get(name)
	if st != given {
		return 0, st
	}
	v, ok := s.measure(n, name, d, l)
	if !ok {
		return 0, faulty
	}
	return v, given
}

// measure reads one raw value as a quantity and reports it where it is none.
func (s *scope) measure(n *node, name string, d units.Dimension, l limit) (float64, bool) {
	v, err := 0.0, error(nil)
	switch {
	case n.kind == brokenNode:
		return 0, false
	case n.kind == stringNode:
		v, err = units.Parse(d, n.text)
	case n.kind == numberNode && d == units.Fraction:
		if v, err = units.ParseNumber(strings.ReplaceAll(n.text, "_", "")); err != nil {
			err = &units.Error{Found: describe(n), Expected: d.Expected()}
		}
	case n.kind == numberNode:
		err = &units.Error{Found: describe(n) + " (a bare number)", Expected: d.Expected()}
	default:
		err = &units.Error{Found: describe(n), Expected: d.Expected()}
	}
	if err == nil && !l.holds(v) {
		err = &units.Error{Found: describe(n), Expected: d.String() + " " + l.words}
	}
	if err != nil {
		p := units.At(s.b.file, n.line, s.key(name), err)
		s.b.problems = append(s.b.problems, p)
		return 0, false
	}
	return v, true
}

// required reads a quantity that has no default.
func (s *scope) required(name string, d units.Dimension, l limit) (float64, bool) {
	v, st := s.quantity(name, d, l)
	switch st {
	case missing:
		s.problem(name, "nothing", d.Expected())
	case unknown:
		s.problem(name, `"unknown"`, d.Expected()+"; this one has no default")
	}
	return v, st == given
}

// optional reads a quantity that may be absent: nil where it is left out or unknown.
func (s *scope) optional(name string, d units.Dimension, l limit) *float64 {
	if v, st := s.quantity(name, d, l); st == given {
		return &v
	}
	return nil
}

// orDefault reads a quantity and takes the default of the table of defaults where it is left
// out or unknown; that is a guess where the quantity matters to this layout.
func (s *scope) orDefault(name string, d units.Dimension, l limit, matters bool) float64 {
	v, st := s.quantity(name, d, l)
	if st == given || st == faulty {
		return v
	}
	f := defaults[s.kind+"."+name]
	return s.guess(name, d, f, matters)
}

// orDefaultWithin is orDefault for a quantity that others of the table bound: the default and its
// range are moved to keep between low and high.
func (s *scope) orDefaultWithin(name string, l limit, low, high float64) float64 {
	v, st := s.quantity(name, units.Length, l)
	if st == given || st == faulty {
		return v
	}
	g := defaults[s.kind+"."+name].guess(s.key(name), units.Length)
	g.keepWithin(low, high)
	s.b.guesses = append(s.b.guesses, g)
	return g.Value
}

// written returns a length as it stands, without complaint where it is not there or faulty.
func (s *scope) written(name string, otherwise float64) float64 {
	if n := s.node.children[name]; n != nil && n.kind == stringNode {
		if v, err := units.Parse(units.Length, n.text); err == nil {
			return v
		}
	}
	return otherwise
}

// guess takes a default and lists it where it matters.
func (s *scope) guess(name string, d units.Dimension, f fallback, matters bool) float64 {
	g := f.guess(s.key(name), d)
	if matters {
		s.b.guesses = append(s.b.guesses, g)
	}
	return g.Value
}

// guessWord lists a default that is a word.
func (s *scope) guessWord(name string, f fallback) {
	s.b.guesses = append(s.b.guesses, Guess{Key: s.key(name), Text: f.value, LowText: f.low, HighText: f.high, Source: f.source})
}

// table opens a [table]; nil where it is left out.
func (s *scope) table(name string) *scope {
	n, st := s.get(name)
	if st == missing || st == faulty {
		return nil
	}
	if n.kind == arrayNode && !n.inline {
		s.problem(name, "[["+s.key(name)+"]]", "a single table ["+s.key(name)+"]")
		return nil
	}
	if n.kind != tableNode {
		s.problem(name, describe(n), "a table ["+s.key(name)+"]")
		return nil
	}
	return s.b.scope(n, s.key(name), strings.TrimPrefix(s.kind+"."+name, "."))
}

// tables opens each [[table]] of a list, or each table of a list in brackets.
func (s *scope) tables(name string) []*scope {
	n, st := s.get(name)
	if st == missing || st == faulty {
		return nil
	}
	if n.kind == tableNode && !n.inline {
		s.problem(name, "["+s.key(name)+"]", "double brackets, [["+s.key(name)+"]]: there may be several")
		return nil
	}
	if n.kind != arrayNode {
		s.problem(name, describe(n), "tables [["+s.key(name)+"]] or a list of tables in brackets")
		return nil
	}
	var list []*scope
	for i, item := range n.items {
		path := fmt.Sprintf("%s[%d]", s.key(name), i)
		if item.kind == brokenNode {
			continue
		}
		if item.kind != tableNode {
			s.problemAt(item.line, fmt.Sprintf("%s[%d]", name, i), describe(item), "a table in braces")
			continue
		}
		list = append(list, s.b.scope(item, path, strings.TrimPrefix(s.kind+"."+name, ".")))
	}
	return list
}
