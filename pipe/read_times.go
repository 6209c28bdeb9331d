package pipe

import (
	"slices"
	"time"

	"winterline/pipe/units"
)

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
