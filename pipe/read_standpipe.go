package pipe

import (
	"fmt"
	"strings"

	"winterline/pipe/units"
)

var aboveGroundLimit = limit{0, 3, "from 0 to 3 m (9.8 ft) above ground"}

// standpipe binds [standpipe].
func (b *binder) standpipe(top *scope, l *Layout) {
	s := top.table("standpipe")
	if s == nil {
		return
	}
	defer s.finish()
	sp := &Standpipe{After: b.joint(s, l), Line: s.node.line}
	sp.Size, _ = s.size(defaults["standpipe.pipe"])
	rim, rimState := s.quantity("rim", units.Length, limit{0.01, 3, "from 1 cm to 3 m (0.4 in to 9.8 ft) above ground"})
	end, endState := s.quantity("house_pipe_end", units.Length, aboveGroundLimit)
	if rimState == missing || rimState == unknown {
		g := defaults["standpipe.rim"].guess(s.key("rim"), units.Length)
		g.keepWithin(max(top.highestRelief()+tolerance, 0), 3)
		g.Value, g.High = max(g.Value, end), max(g.High, end)
		b.guesses = append(b.guesses, g)
		rim = g.Value
	}
	if endState == missing || endState == unknown {
		g := defaults["standpipe.end"].offsetGuess(s.key("house_pipe_end"), rim)
		g.Value, g.Low = max(g.Value, 0), max(g.Low, 0)
		b.guesses = append(b.guesses, g)
		end = g.Value
	}
	sp.Rim, sp.HousePipeEnd = rim, end
	sp.SlipTravel = s.orDefault("slip_travel", units.Length, limit{0, 2, "from 0 to 2 m (6.6 ft)"}, true)
	sp.Painted, _ = s.flag("painted")
	l.Standpipe = sp
}

// highestRelief returns the highest relief opening's bottom that is written [m]; −1 for none.
func (s *scope) highestRelief() float64 {
	highest := -1.0
	if n := s.node.children["relief"]; n != nil && n.kind == arrayNode {
		for _, item := range n.items {
			if item.kind == tableNode {
				highest = max(highest, s.b.scope(item, "", "").written("height", -1))
			}
		}
	}
	return highest
}

// joint finds the segment that ends in the standpipe: the one named, or the last before the ground.
func (b *binder) joint(s *scope, l *Layout) int {
	after := -1
	if _, st := s.get("after"); st == missing || st == unknown {
		for i, seg := range l.Segments {
			if seg.Setting == Buried {
				break
			}
			after = i
		}
		if after < 0 || after == len(l.Segments)-1 {
			s.problem("after", "nothing", "the name of the segment that ends in the standpipe")
			return 0
		}
	} else if i, ok := s.findSegment("after", l); ok {
		after = i
	} else {
		return 0
	}
	if fault := l.jointFault(after); fault != "" {
		s.problem("after", fmt.Sprintf("%q", l.Segments[after].Name), fault)
	}
	return after
}

// reliefs binds [[relief]].
func (b *binder) reliefs(list []*scope, l *Layout) []Relief {
	if len(list) > 20 {
		list[20].problem("", fmt.Sprintf("%d relief openings", len(list)), "at most 20")
		list = list[:20]
	}
	var reliefs []Relief
	for _, s := range list {
		r := Relief{Segment: s.reliefPlace(l)}
		r.Height = s.reliefHeight(r.Segment, l)
		r.Width = s.orDefault("width", units.Length, limit{0.001, 1, "from 1 mm to 1 m (0.04 to 39 in)"}, true)
		r.OpeningHeight = s.orDefault("opening_height", units.Length, limit{0.001, 1, "from 1 mm to 1 m (0.04 to 39 in)"}, true)
		faces, st := s.flag("faces_house")
		if st == missing || st == unknown {
			s.guessWord("faces_house", defaults["relief.faces_house"])
		}
		r.FacesHouse = faces
		r.DistanceToHouse = s.orDefault("distance_to_house", units.Length, limit{0, 1000, "from 0 to 1 km (3281 ft)"}, true)
		r.SnowFactor = s.orDefault("snow_factor", units.Fraction, limit{0, 10, "from 0 to 10"}, true)
		r.SpreadArea = s.orDefault("spread_area", units.Area, spreadLimit, true)
		s.finish()
		reliefs = append(reliefs, r)
	}
	return reliefs
}

// reliefPlace returns the segment that an opening sits on, or -1 for the standpipe.
func (s *scope) reliefPlace(l *Layout) int {
	n, st := s.get("at")
	onStandpipe := st == given && strings.EqualFold(strings.TrimSpace(n.text), "standpipe")
	switch {
	case st == faulty:
		return -1
	case (st != given || onStandpipe) && l.Standpipe != nil:
		return -1
	case onStandpipe:
		s.problem("at", `"standpipe", which this layout does not have`, "a [standpipe], or the name of a segment")
		return -1
	case st != given:
		s.problem("at", "nothing", "the name of a segment, as there is no [standpipe]")
		return -1
	}
	i, ok := s.findSegment("at", l)
	if ok && (l.Segments[i].Setting == Indoor || l.Segments[i].Setting == ThroughWall) {
		s.problem("at", fmt.Sprintf("%q, which is %s", l.Segments[i].Name, l.Segments[i].Setting), "a segment outside the house, where the water may go")
	}
	return i
}

// reliefHeight binds the opening's bottom above ground. By default it sits below the rim.
func (s *scope) reliefHeight(segment int, l *Layout) float64 {
	v, st := s.quantity("height", units.Length, aboveGroundLimit)
	if st == missing || st == unknown {
		g := defaults["relief.segment"].guess(s.key("height"), units.Length)
		if segment < 0 && l.Standpipe != nil {
			g = defaults["relief.height"].offsetGuess(s.key("height"), l.Standpipe.Rim)
			g.Value, g.Low = max(g.Value, 0), max(g.Low, 0)
		}
		s.b.guesses = append(s.b.guesses, g)
		return g.Value
	}
	if st == given && segment < 0 && l.Standpipe != nil && l.Standpipe.Rim > 0 && v >= l.Standpipe.Rim {
		s.problem("height", describe(s.node.children["height"]), "a level below the top of the standpipe, where water leaves first")
	}
	return v
}
