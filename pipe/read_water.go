package pipe

import "winterline/pipe/units"

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

var waterLimit = limit{0, 40, "from 0 to 40 degC (32 to 104 degF)"}

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
