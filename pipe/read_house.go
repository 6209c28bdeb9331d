package pipe

import (
	"fmt"
	"math"
	"strings"

	"winterline/pipe/units"
)

// basin binds [basin]; nil where there is none.
func (b *binder) basin(s *scope) *Basin {
	if s == nil {
		return nil
	}
	defer s.finish()
	basin := &Basin{
		FloorBelowGround: s.orDefault("floor_below_ground", units.Length, limit{-5, 20, "from -5 to 20 m (-16 to 66 ft)"}, true),
		BottomBelowFloor: s.orDefaultWithin("bottom_below_floor", limit{0.05, 5, "from 0.05 to 5 m (2 in to 16 ft)"}, s.written("float_on", 0)+tolerance, 5),
		Area:             s.basinArea(),
		FloatOn: s.orDefaultWithin("float_on", limit{0.01, 5, "from 1 cm to 5 m (0.4 in to 16 ft)"},
			s.written("float_off", 0)+tolerance, s.written("bottom_below_floor", 5)-tolerance),
		FloatOff:         s.orDefaultWithin("float_off", limit{0, 5, "from 0 to 5 m (16 ft)"}, 0, max(0, s.written("float_on", 5)-tolerance)),
		WaterTemperature: s.optional("water_temperature", units.Temperature, waterLimit),
	}
	valve, st := s.flag("check_valve")
	if st == missing || st == unknown {
		valve = true
		s.guessWord("check_valve", defaults["basin.check_valve"])
	}
	basin.CheckValve = valve
	s.levels(basin)
	return basin
}

// basinArea binds diameter or area [m²].
func (s *scope) basinArea() float64 {
	area, st := s.quantity("area", units.Area, limit{0.01, 20, "from 0.01 to 20 m2 (0.1 to 215 ft2)"})
	if st == given || st == faulty {
		if n, also := s.get("diameter"); also == given {
			s.problem("diameter", describe(n)+" beside area", "one or the other")
		}
		return area
	}
	d := s.orDefault("diameter", units.Length, limit{0.1, 5, "from 0.1 to 5 m (4 in to 16 ft)"}, true)
	return math.Pi / 4 * d * d
}

// levels refuses floats that cannot work. Only written or default values that were readable count.
func (s *scope) levels(basin *Basin) {
	if basin.FloatOn == 0 || basin.BottomBelowFloor == 0 {
		return // one of them was refused already
	}
	if basin.FloatOff >= basin.FloatOn {
		s.problem("float_off", s.shown("float_off"), "a level below float_on ("+s.shown("float_on")+")")
	}
	if basin.FloatOn >= basin.BottomBelowFloor {
		s.problem("float_on", s.shown("float_on"), "a level below the basement floor, which is bottom_below_floor ("+s.shown("bottom_below_floor")+") above the basin's bottom")
	}
}

// shown is a key's text for a message, or its default's.
func (s *scope) shown(name string) string {
	if n := s.node.children[name]; n != nil && !strings.EqualFold(n.text, "unknown") {
		return describe(n)
	}
	return defaults[s.kind+"."+name].value + ", the default"
}

var roleNames = []string{"main", "backup"}

// pumps binds [[pump]].
func (b *binder) pumps(list []*scope, l *Layout) []Pump {
	if len(list) > 8 {
		list[8].problem("", fmt.Sprintf("%d pumps", len(list)), "at most 8")
		list = list[:8]
	}
	var pumps []Pump
	var main *scope
	for i, s := range list {
		p := Pump{}
		role, _ := s.word("role", roleNames)
		p.Role = PumpRole(role)
		p.Name = roleNames[role]
		if name, st := s.text("name"); st == given && name != "" {
			p.Name = name
		}
		p.Curve = s.curve()
		b.backup(s, &p, l)
		switch {
		case p.Role == MainPump && main != nil:
			s.problem("role", "a second main pump", `role = "backup" for every pump but one`)
		case p.Role == MainPump:
			main = list[i]
		}
		s.finish()
		pumps = append(pumps, p)
	}
	if main == nil && len(list) > 0 {
		list[0].problem("role", "backup pumps only", "one main pump")
	}
	return pumps
}

// backup binds the keys of a backup pump.
func (b *binder) backup(s *scope, p *Pump, l *Layout) {
	line, st := s.word("line", []string{"same", "own"})
	p.OwnLine = st == given && line == 1
	v, startState := s.quantity("start", units.Length, limit{0.01, 5, "from 1 cm to 5 m (0.4 in to 16 ft)"})
	if p.Role == MainPump {
		for _, key := range []string{"line", "start"} {
			if n := s.node.children[key]; n != nil && n.kind != brokenNode {
				s.problem(key, describe(n)+" for the main pump", `role = "backup", or no such key`)
			}
		}
		return
	}
	if l.Basin == nil {
		s.problem("role", `"backup" without a [basin]`, "a [basin], whose level starts the backup")
		return
	}
	if startState == given && v <= l.Basin.FloatOn {
		s.problem("start", describe(s.node.children["start"]), "a level above the main pump's float_on")
	}
	if startState == missing || startState == unknown {
		g := defaults["pump.start"].offsetGuess(s.key("start"), l.Basin.FloatOn)
		b.guesses = append(b.guesses, g)
		v = g.Value
	}
	p.Start = v
}
