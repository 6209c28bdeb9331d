package pipe

import (
	"errors"
	"fmt"
	"strings"

	"winterline/pipe/units"
)

var outletNames = []string{"lid", "open"}

var spreadLimit = limit{0.05, 1000, "from 0.05 to 1000 m2 (0.5 to 10764 ft2)"}

// outlet binds [outlet].
func (b *binder) outlet(top *scope, l *Layout) {
	s := top.table("outlet")
	if s == nil {
		if top.node.children["outlet"] == nil {
			top.problem("outlet.kind", "nothing", `[outlet] with kind = "lid" or kind = "open"`)
		}
		return
	}
	defer s.finish()
	kind, known := s.requiredWord("kind", outletNames)
	o := Outlet{Kind: OutletKind(kind), Line: s.node.line}
	level, st := s.quantity("level", units.Length, levelLimit)
	lid := known && o.Kind == Lid
	if st == given {
		o.Level = &level
	} else if lid && st != faulty {
		level = s.guess("level", units.Length, defaults["outlet.level"], true)
		o.Level = &level
	}
	if v, st := s.quantity("distance_to_house", units.Length, limit{0, 200_000, "from 0 to 200 km (124 mi)"}); st == given {
		o.DistanceToHouse = v
	} else {
		o.DistanceToHouse = l.outdoorLength()
	}
	o.LidOpeningHead = s.orDefault("lid_opening_head", units.Length, limit{0, 2, "from 0 to 2 m (6.6 ft)"}, lid)
	o.SpreadArea = s.orDefault("spread_area", units.Area, spreadLimit, l.pumped())
	o.Weep = s.weep()
	if known && o.Kind == Open {
		for _, key := range []string{"weep", "lid_opening_head"} {
			if n := s.node.children[key]; n != nil && n.kind != brokenNode {
				s.problem(key, describe(n)+" for an open end", `kind = "lid", or no such key`)
			}
		}
		o.LidOpeningHead = 0
	}
	l.Outlet = o
}

// outdoorLength is how far the line reaches from the wall [m], on the flat.
func (l *Layout) outdoorLength() float64 {
	x := 0.0
	for i := range l.Segments {
		x += l.reach(i)
	}
	return x
}

// weep binds the slot under the lid: height x width.
func (s *scope) weep() *Slot {
	n, st := s.get("weep")
	const expected = `a slot's height and width such as "3/8 in x 2 in"`
	switch {
	case st == unknown:
		s.guessWord("weep", defaults["outlet.weep"])
		slot, _ := parseSlot(defaults["outlet.weep"].value)
		return slot
	case st != given:
		return nil
	case n.kind == stringNode:
		if strings.EqualFold(strings.TrimSpace(n.text), "none") {
			return nil
		}
		slot, err := parseSlot(n.text)
		if err == nil {
			return slot
		}
		var e *units.Error
		if errors.As(err, &e) {
			s.problem("weep", e.Found, expected+": "+e.Expected)
			return nil
		}
	}
	s.problem("weep", describe(n), expected)
	return nil
}

// parseSlot reads "3/8 in x 2 in".
func parseSlot(text string) (*Slot, error) {
	high, wide, two := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if !two {
		return nil, &units.Error{Found: fmt.Sprintf("%q", units.Shorten(text)), Expected: "two lengths with an x between"}
	}
	h, err1 := units.Parse(units.Length, high)
	w, err2 := units.Parse(units.Length, wide)
	switch {
	case err1 != nil:
		return nil, err1
	case err2 != nil:
		return nil, err2
	case !(h >= 0.0002 && h <= 0.2 && w >= 0.0002 && w <= 1):
		return nil, &units.Error{Found: fmt.Sprintf("%q", units.Shorten(text)), Expected: "a height from 0.2 mm to 0.2 m (0.008 to 7.9 in), a width from 0.2 mm to 1 m (0.008 to 39 in)"}
	}
	return &Slot{Height: h, Width: w}, nil
}

// pocket binds [pocket].
func (b *binder) pocket(s *scope) *Pocket {
	if s == nil {
		return nil
	}
	defer s.finish()
	l := limit{0.05, 20, "from 5 cm to 20 m (2 in to 66 ft)"}
	return &Pocket{
		Length: s.orDefault("length", units.Length, l, true),
		Width:  s.orDefault("width", units.Length, l, true),
		Depth:  s.orDefault("depth", units.Length, limit{0.05, 5, "from 5 cm to 5 m (2 in to 16 ft)"}, true),
		Void:   s.orDefault("void", units.Fraction, limit{0.05, 0.95, "from 5 to 95 %"}, true),
	}
}

// extraInflows binds [[extra_inflow]].
func (b *binder) extraInflows(list []*scope, l *Layout) []ExtraInflow {
	var all []ExtraInflow
	for _, s := range list {
		kinds := []string{"roof"}
		i, _ := s.word("kind", kinds)
		e := ExtraInflow{Kind: kinds[i]}
		e.Area = s.orDefault("area", units.Area, limit{0.1, 1e5, "from 0.1 to 100000 m2 (1 to 1076000 ft2)"}, true)
		if _, st := s.get("joins"); st == missing || st == unknown {
			s.problem("joins", "nothing", "the name of the segment where the water joins")
		} else {
			e.Segment, _ = s.findSegment("joins", l)
		}
		s.finish()
		all = append(all, e)
	}
	return all
}
