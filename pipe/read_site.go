package pipe

import (
	"math"
	"strings"

	"winterline/pipe/units"
)

// need says which parts of the site matter to a layout.
type need struct {
	ground    bool // something is buried
	soil      bool // something is buried, or a pocket drains into it
	inside    bool // a pipe in the basement's air
	sheltered bool
	wind      bool // something outdoors whose film is computed
	spill     bool // water may be let go beside the house and come back
	draught   bool // air may be drawn through the line: it has two open ends
	openCover bool // a buried segment lies as deep as the levels say
}

func (l *Layout) needs() need {
	n := need{soil: l.Pocket != nil, wind: l.Standpipe != nil || l.Outlet.Kind == Lid && len(l.Segments) > 0}
	n.spill = l.Basin != nil && (l.Standpipe != nil || len(l.Reliefs) > 0)
	n.draught = l.Draws()
	n.wind = n.wind || n.draught
	for _, s := range l.Segments {
		switch s.Setting {
		case Indoor, ThroughWall:
			n.inside = true
		case Sheltered:
			n.sheltered, n.inside = true, true
		case OpenAir:
			n.wind = n.wind || s.FilmCoefficient == nil
		case Buried:
			n.ground, n.soil = true, true
			n.openCover = n.openCover || s.Cover == nil
		}
	}
	return n
}

// site binds [site]; a layout without one gets its defaults.
func (b *binder) site(top *scope, l *Layout) {
	s := top.table("site")
	if s == nil {
		s = b.scope(newTable(0), "site", "site")
		if top.node.children["site"] != nil {
			return
		}
	}
	defer s.finish()
	n := l.needs()
	n.ground, n.soil = n.ground || b.ground, n.soil || b.ground
	override := s.table("soil_override")
	site := &l.Site
	surfaceCounts := b.exchange(s, override, site) && n.ground
	hand := b.soil(s, override, n, l)
	site.GroundMean = s.optional("ground_mean", units.Temperature, temperatureLimit)
	site.GroundSwing = s.optional("ground_swing", units.TemperatureDifference, limit{0, 60, "from 0 to 60 K (108 degF)"})
	b.groundLine(s, n, site)
	b.surface(s, surfaceCounts, l)
	b.topsoil(s, hand, n.ground, l)
	site.WindExposure = s.orDefault("wind_exposure", units.Fraction, limit{0, 2, "from 0 to 2"}, n.wind || surfaceCounts)
	site.WindPressureCoefficient = s.orDefault("wind_pressure_coefficient", units.Fraction, limit{0, 1, "from 0 to 1"}, n.draught)
	site.RoomTemperature = s.orDefault("room_temperature", units.Temperature, temperatureLimit, n.inside)
	b.shelter(s, n, site)
	site.WaterTable = s.optional("water_table", units.Length, limit{0, 100, "from 0 to 100 m (328 ft) below ground"})
	site.ReturnShare = s.orDefault("return_share", units.Fraction, shareLimit, n.spill)
	site.ReturnDelay = s.orDefault("return_delay", units.Duration, limit{0, 366 * 86400, "from 0 to 366 days"}, n.spill)
}

// groundLine binds ground_slope or [[site.ground_point]].
func (b *binder) groundLine(s *scope, n need, site *Site) {
	points := s.tables("ground_point")
	slope, st := s.quantity("ground_slope", units.Slope, limit{-1, 1, "from -100 to 100 %"})
	site.GroundWritten = st == given || len(points) > 0
	if st == given && len(points) > 0 {
		s.problem("ground_slope", describe(s.node.children["ground_slope"])+" beside ground_point", "one or the other")
	}
	if !site.GroundWritten && st != faulty {
		slope = s.guess("ground_slope", units.Slope, defaults["site.ground_slope"], n.openCover)
	}
	site.GroundSlope = slope
	for _, p := range points {
		x, ok1 := p.required("distance", units.Length, limit{0, 1e6, "of 0 or more"})
		z, ok2 := p.required("level", units.Length, levelLimit)
		p.finish()
		last := len(site.GroundPoints) - 1
		if ok1 && last >= 0 && x <= site.GroundPoints[last].Distance {
			p.problem("distance", describe(p.node.children["distance"]), "points in order of distance from the wall")
		}
		if ok1 && ok2 && x == 0 && math.Abs(z) > tolerance {
			p.problem("level", describe(p.node.children["level"]), "0 at the wall: levels are counted from the ground there")
		}
		site.GroundPoints = append(site.GroundPoints, GroundPoint{x, z})
	}
}

// shelter binds the temperature of a garage or crawlspace.
func (b *binder) shelter(s *scope, n need, site *Site) {
	raw, st := s.get("sheltered_temperature")
	switch {
	case st == given && strings.EqualFold(strings.TrimSpace(raw.text), "halfway"):
		site.ShelteredHalfway = true
	case st == given:
		if v, ok := s.measure(raw, "sheltered_temperature", units.Temperature, temperatureLimit); ok {
			site.ShelteredTemperature = &v
		}
	case n.sheltered && st != faulty:
		f := defaults["site.sheltered"]
		b.guesses = append(b.guesses, Guess{Key: s.key("sheltered_temperature"), Dimension: units.Temperature, Text: f.value,
			LowText: f.low, HighText: f.high, Low: si(units.Temperature, f.low), High: si(units.Temperature, f.high), Source: f.source})
	}
}
