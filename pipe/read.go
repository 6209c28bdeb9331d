package pipe

import (
	"fmt"
	"slices"
	"strings"
	"time"

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

// water binds [water]: what arrives where no pump or inflow file says so.
func (b *binder) water(s *scope) WaterPlan {
	var w WaterPlan
	if s == nil {
		return w
	}
	defer s.finish()
	n, st := s.get("cycles")
	if st == given {
		every, run, err := ParseCycles(n.text)
		if err != nil || n.kind != stringNode {
			s.problem("cycles", describe(n), cyclesForm)
		}
		w.Every, w.For = every, run
	}
	if n, arrives := s.get("arrives"); arrives == given {
		w.Arrives = s.arrival(n)
		if st == given {
			s.problem("arrives", describe(n)+" beside cycles", "one or the other")
		}
	}
	w.Temperature = s.optional("water_temperature", units.Temperature, waterLimit)
	return w
}

// arrival binds the plan of water that arrives; one that is no text is refused as a flow is.
func (s *scope) arrival(n *node) Arrival {
	if n.kind != stringNode {
		s.measure(n, "arrives", units.Flow, arrivalLimit)
		return Arrival{}
	}
	a, err := ParseArrival(n.text)
	if err != nil {
		s.b.problems = append(s.b.problems, units.At(s.b.file, n.line, s.key("arrives"), err))
	}
	return a
}

var waterLimit = limit{0, 40, "from 0 to 40 degC"}

// waterTemperature lists the temperature of the water as a guess where none was written and water
// is to come.
func (b *binder) waterTemperature(s *scope, l *Layout) {
	f := defaults["water_temperature"]
	key, written := "water.water_temperature", l.Water.Temperature
	if l.Basin != nil {
		key, written = "basin.water_temperature", l.Basin.WaterTemperature
		if written == nil {
			l.Basin.WaterTemperature, written = l.Water.Temperature, l.Water.Temperature
		}
	}
	comes := l.Basin != nil || len(l.Pumps) > 0 || l.Water != WaterPlan{}
	if written != nil || !comes {
		return
	}
	b.guesses = append(b.guesses, Guess{Key: key, Dimension: units.Temperature, Text: f.value, LowText: f.low, HighText: f.high,
		Low: si(units.Temperature, f.low), High: si(units.Temperature, f.high), Source: f.source})
}

// stamp binds a time, written with or without quotes.
func (s *scope) stamp(name string) (time.Time, bool) {
	n, st := s.get(name)
	switch {
	case st == faulty:
		return time.Time{}, false
	case st != given:
		s.problem(name, "nothing", "a time such as 2026-01-17 05:00")
		return time.Time{}, false
	case n.kind != stringNode && n.kind != timeNode:
		s.problem(name, describe(n), `a time such as "2026-01-17 05:00"`)
		return time.Time{}, false
	}
	t, err := units.ParseTime(n.text)
	if err != nil {
		s.b.problems = append(s.b.problems, units.At(s.b.file, n.line, s.key(name), err))
	}
	return t, err == nil
}

func (b *binder) outages(list []*scope) []Span {
	var spans []Span
	for _, s := range list {
		start, ok1 := s.stamp("start")
		end, ok2 := s.stamp("end")
		if ok1 && ok2 && !end.After(start) {
			s.problem("end", describe(s.node.children["end"]), "a time after start, "+describe(s.node.children["start"]))
		}
		s.finish()
		spans = append(spans, Span{start, end})
	}
	slices.SortFunc(spans, func(a, b Span) int { return a.Start.Compare(b.Start) })
	return spans
}

var seenWords = []string{"shut", "relief", "wet-floor", "open"}

func (b *binder) seen(list []*scope) []Seen {
	var all []Seen
	for _, s := range list {
		t, _ := s.stamp("time")
		i, _ := s.requiredWord("what", seenWords)
		s.finish()
		all = append(all, Seen{t, seenWords[i]})
	}
	slices.SortStableFunc(all, func(a, b Seen) int { return a.Time.Compare(b.Time) })
	return all
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
