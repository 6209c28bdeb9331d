package answers

import (
	"errors"
	"slices"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// maker makes the changes that apply to a layout, in an order that never depends on anything but the inputs.
type maker struct {
	source  Source
	base    *sim.Case
	layout  *pipe.Layout
	profile *pipe.Profile
	result  *sim.Result // of the base case
	list    []Change
}

// newMaker needs the base case of a source and its result.
func newMaker(s Source, base *sim.Case, r *sim.Result) *maker {
	return &maker{source: s, base: base, layout: base.Layout, profile: base.Profile, result: r}
}

// Changes lists the single changes that apply to a case, in order of the line. Those that levels, ground, float or
// weather record forbid are in it, Barred. r is the result of the unchanged case.
func Changes(s Source, base *sim.Case, r *sim.Result) []Change {
	m := newMaker(s, base, r)
	for _, part := range []func(){
		m.insulation, m.deeper, m.steeper, m.straighter, m.wider, m.underground, m.snowChanges,
		m.pockets, m.weeps, m.daylight, m.reliefs, m.standpipes, m.waterChanges,
	} {
		part()
	}
	return m.list
}

// reverseTest is the case without its relief openings; ok is false where it has none.
func reverseTest(base *sim.Case) (c Change, ok bool) {
	return Change{Key: key(NoRelief), Kind: NoRelief, Segment: -1, Edits: []pipe.Edit{{Path: "relief"}}}, len(base.Layout.Reliefs) > 0
}

// add puts a change on the list, tried out: one whose layout is refused is barred. A change that is there already is
// left out.
func (m *maker) add(c Change) {
	if c.Key == "" {
		c.Key = key(c.Kind)
	}
	if slices.ContainsFunc(m.list, func(d Change) bool { return d.Key == c.Key }) {
		return
	}
	if c.Barred == BarNone {
		_, err := m.source.With(c)
		if err != nil {
			c.Barred = BarRefused
			errors.As(err, &c.Problems)
		}
	}
	m.list = append(m.list, c)
}

// outdoors says whether a segment lies outside the house.
func outdoors(s pipe.Segment) bool { return s.Setting == pipe.OpenAir || s.Setting == pipe.Buried }

// targets are the segments outdoors to which changes are made: those that shut; else the one with most ice; else the
// longest. Where only the standpipe or the riser under the lid shut, it is the last outdoors.
func (m *maker) targets() []int {
	var shut []int
	most, last := -1, -1
	for i, s := range m.layout.Segments {
		if !outdoors(s) {
			continue
		}
		last = i
		if m.result.Segments[i].Closed != nil {
			shut = append(shut, i)
		}
		if most < 0 || m.more(i, most) {
			most = i
		}
	}
	switch {
	case len(shut) > 0:
		return shut
	case last < 0:
		return nil
	case m.result.Verdict.Closed != nil:
		return []int{last}
	}
	return []int{most}
}

// more says whether segment i had a larger share of ice than j, or as much and is longer.
func (m *maker) more(i, j int) bool {
	a, b := m.result.Segments[i].LargestIce, m.result.Segments[j].LargestIce
	return a > b || a == b && m.layout.Segments[i].Length > m.layout.Segments[j].Length
}

// edit changes one key of segment i.
func (m *maker) edit(i int, name, value string) pipe.Edit {
	return pipe.Edit{Path: m.layout.SegmentPath(i) + "." + name, Value: value}
}

// quantity writes a value of another dimension than length.
func quantity(d units.Dimension, v float64) string { return units.Write(d, v) }
