package pipe

import (
	"fmt"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// topKeys are the keys and tables of a layout.
var topKeys = []string{"title", "site", "basin", "pump", "segment", "standpipe", "relief", "outlet", "pocket",
	"extra_inflow", "water", "outage", "seen", "cost"}

func topKey(name string) bool { return slices.Contains(topKeys, name) }

// ReadLayout reads a layout.toml. name is the file as the user named it, for messages. All faults
// of the file are returned at once; the Layout is nil where there are any.
func ReadLayout(name string, text []byte) (*Layout, units.Problems) {
	return ReadLayoutWith(name, text, nil)
}

// ReadLayoutWith reads a layout.toml with edits made on its values. A layout edited so is
// identical to one read from a file with the same changes, except for Segment.Line.
func ReadLayoutWith(name string, text []byte, edits []Edit) (*Layout, units.Problems) {
	return readLayout(&binder{file: name}, text, edits)
}

// ReadGround reads a layout.toml for the sake of its ground: soil, cover and snow count even where
// nothing is buried.
func ReadGround(name string, text []byte) (*Layout, units.Problems) {
	return readLayout(&binder{file: name, ground: true}, text, nil)
}

// readLayout binds a file with a fresh binder.
func readLayout(b *binder, text []byte, edits []Edit) (*Layout, units.Problems) {
	name := b.file
	if len(text) > MaxLayout {
		return nil, units.Problems{{File: name, Found: "a file of over 4 MiB", Expected: "a layout.toml"}}
	}
	root, whole, problems := readTOML(name, text)
	if !whole {
		return nil, problems
	}
	problems = append(problems, applyEdits(name, root, edits)...)
	l := b.layout(b.scope(root, "", ""))
	problems = append(problems, b.problems...)
	if len(problems) > 0 {
		sortProblems(problems)
		return nil, problems
	}
	l.Guesses = b.guesses
	return l, nil
}

// sortProblems puts faults in the order of the file, those of no line last.
func sortProblems(ps units.Problems) {
	slices.SortStableFunc(ps, func(a, b units.Problem) int {
		switch {
		case a.Line == b.Line:
			return 0
		case a.Line == 0:
			return 1
		case b.Line == 0:
			return -1
		}
		return a.Line - b.Line
	})
}

// layout binds the whole file. Segments go first: what else matters depends on them.
func (b *binder) layout(s *scope) *Layout {
	l := &Layout{}
	l.Title, _ = s.text("title")
	b.segments(s, l)
	b.order(l)
	l.Basin = b.basin(s.table("basin"))
	l.Water = b.water(s.table("water"))
	l.Pumps = b.pumps(s.tables("pump"), l)
	b.standpipe(s, l)
	l.Reliefs = b.reliefs(s.tables("relief"), l)
	b.outlet(s, l)
	b.coverGuess(l)
	l.Pocket = b.pocket(s.table("pocket"))
	l.ExtraInflows = b.extraInflows(s.tables("extra_inflow"), l)
	b.site(s, l)
	b.waterTemperature(s, l)
	l.Outages = b.outages(s.tables("outage"))
	l.Seen = b.seen(s.tables("seen"))
	l.Cost = b.cost(s.table("cost"))
	s.finish()
	return l
}

func (b *binder) cost(s *scope) *Cost {
	if s == nil {
		return nil
	}
	c := &Cost{Installed: s.number("installed"), ServiceCall: s.number("service_call"), FloodedBasement: s.number("flooded_basement")}
	s.finish()
	return c
}

// findSegment looks up the segment that a key names.
func (s *scope) findSegment(name string, l *Layout) (int, bool) {
	n, st := s.get(name)
	if st != given {
		return 0, false
	}
	names := make([]string, len(l.Segments))
	for i := range l.Segments {
		names[i] = l.Segments[i].Name
	}
	if n.kind == stringNode {
		if i := slices.Index(names, strings.TrimSpace(n.text)); i >= 0 {
			return i, true
		}
	}
	s.problem(name, describe(n)+", no segment's name", fmt.Sprintf("the name of a segment%s", nearestHint(n.text, names)))
	return 0, false
}
