package pipe

import (
	"fmt"
	"math"
	"strings"

	"winterline/pipe/units"
)

// Limits of a layout: beyond them a typing error is likelier than a discharge line, and a
// simulation would not end.
const (
	maxSegments = 200
	maxCells    = 20_000
	cellLength  = 0.5 // [m], as the simulation cuts them at most
	maxLayers   = 10
)

var (
	segmentLimit     = limit{0.01, 1000, "from 0.01 m to 1 km (0.4 in to 3281 ft)"}
	levelLimit       = limit{-100, 100, "from -100 to 100 m (-328 to 328 ft)"}
	depthLimit       = limit{0, 20, "from 0 to 20 m (66 ft)"}
	temperatureLimit = limit{-90, 60, "from -90 to 60 degC (-130 to 140 degF)"}
	shareLimit       = limit{0, 1, "from 0 to 100 %"}
)

// segments binds [[segment]].
func (b *binder) segments(s *scope, l *Layout) {
	list := s.tables("segment")
	if n := s.node.children["segment"]; n == nil || n.kind == arrayNode && len(n.items) == 0 {
		s.problem("segment", "nothing", "at least one [[segment]], in flow order from pump to outlet")
		return
	}
	if len(list) > maxSegments {
		s.problem("segment", fmt.Sprintf("%d segments", len(list)), fmt.Sprintf("at most %d", maxSegments))
		list = list[:maxSegments]
	}
	cells, silent := 0.0, true
	lines := map[string]int{}
	afterJoint := s.node.children["standpipe"] != nil
	for i, t := range list {
		b.name(t, i, lines)
		seg, says := b.segment(t, afterJoint)
		seg.Name = segmentName(t, i)
		silent = silent && !says
		cells += math.Ceil(seg.Length / cellLength)
		l.Segments = append(l.Segments, seg)
	}
	if cells > maxCells {
		s.problem("segment", fmt.Sprintf("%.0f cells of %g m", cells, cellLength), fmt.Sprintf("at most %d; shorten or drop segments", maxCells))
	}
	// Where no segment says a word of fittings and a pump is there, the line's usual sum is put on
	// the first segment as a guess.
	if silent && len(list) > 0 && s.node.children["pump"] != nil {
		l.Segments[0].Loss = list[0].guess("fittings", units.Fraction, defaults["segment.fittings"], true)
	}
}

// name checks a segment's name and makes it the path of its messages.
func (b *binder) name(t *scope, i int, lines map[string]int) {
	name, st := t.text("name")
	if st == given && strings.ContainsAny(name, ".[]=,\"") {
		t.problem("name", fmt.Sprintf("%q", name), `a name without any of . [ ] = , "`)
		return
	}
	if st == given && name == "" {
		t.problem("name", "an empty name", "a name of its own, such as yard run")
		return
	}
	if st == faulty {
		return
	}
	name = segmentName(t, i)
	// Tables name segments in lower case with _ for blanks, so names must differ in more than that.
	folded := strings.ReplaceAll(strings.ToLower(name), " ", "_")
	if line, twice := lines[folded]; twice {
		t.problem("name", fmt.Sprintf("%q again", name), fmt.Sprintf("a name of its own; line %d has it", line))
		return
	}
	lines[folded] = t.node.line
	if st == given && !topKey(name) {
		t.path = name
	}
}

// segmentName returns the name as written, or one by number.
func segmentName(t *scope, i int) string {
	if n := t.node.children["name"]; n != nil && n.kind == stringNode && !strings.EqualFold(strings.TrimSpace(n.text), "unknown") {
		return strings.TrimSpace(n.text)
	}
	return fmt.Sprintf("segment %d", i+1)
}

// segment binds one segment and tells whether it says anything of its fittings.
func (b *binder) segment(t *scope, jointed bool) (Segment, bool) {
	defer t.finish()
	seg := Segment{Line: t.node.line}
	setting, ok := t.requiredWord("setting", settingNames)
	seg.Setting = Setting(setting)
	line := t.node.line
	if ok {
		line = t.node.children["setting"].line
	} else {
		seg.Setting = noSetting
	}
	b.settingLines = append(b.settingLines, line)
	buried := ok && seg.Setting == Buried
	seg.Size, _ = t.size(pipeDefault(buried && jointed))
	seg.Length = t.length(buried)
	seg.Drop = t.fall(seg.Length, buried)
	seg.Sag, _ = t.sag(buried, seg.Length)
	seg.Cover, seg.CoverPair = t.cover(buried, ok)
	t.segmentSurface(&seg, buried, ok)
	seg.Insulation = t.insulation()
	seg.Painted, _ = t.flag("painted")
	loss, st := t.fittings()
	seg.Loss = loss
	t.overrides(&seg)
	return seg, st == given || st == faulty
}

func pipeDefault(gravity bool) fallback {
	if gravity {
		return defaults["segment.buried"]
	}
	return defaults["segment.pipe"]
}

// length is required; "unknown" has a default for a buried run alone.
func (t *scope) length(buried bool) float64 {
	if _, st := t.get("length"); st == unknown && buried {
		return t.guess("length", units.Length, defaults["segment.length"], true)
	}
	v, _ := t.required("length", units.Length, segmentLimit)
	return v
}

// fall binds exactly one of rise, drop and slope and returns the drop along the flow [m].
func (t *scope) fall(length float64, buried bool) float64 {
	keys := []string{"rise", "drop", "slope"}
	var written []string
	for _, key := range keys {
		if _, st := t.get(key); st != missing {
			written = append(written, key)
		}
	}
	if len(written) != 1 {
		found := "none of them"
		if len(written) > 1 {
			found = strings.Join(written, " and ")
			t.problem(written[1], found, "exactly one of rise, drop, slope")
			return 0
		}
		t.problem("", found, "exactly one of rise, drop, slope")
		return 0
	}
	drop, st := 0.0, missing
	switch written[0] {
	case "rise":
		drop, st = t.quantity("rise", units.Length, limit{-1000, 1000, "from -1 to 1 km (-3281 to 3281 ft)"})
		drop = -drop
	case "drop":
		drop, st = t.quantity("drop", units.Length, limit{-1000, 1000, "from -1 to 1 km (-3281 to 3281 ft)"})
	case "slope":
		drop, st = t.quantity("slope", units.Slope, limit{-1, 1, "from -100 to 100 %"})
		drop *= length
	}
	if st == unknown {
		if buried {
			return length * t.guess("slope", units.Slope, defaults["segment.slope"], true)
		}
		t.problem(written[0], `"unknown"`, "a value; only a buried run's slope has a default")
	}
	// A riser measured with the same tape as its length may pass it by a rounding.
	if length > 0 && math.Abs(drop) > length*(1+1e-9) {
		t.problem(written[0], describe(t.node.children[written[0]]), "no more than the length of the segment, "+describe(t.node.children["length"]))
	}
	return drop
}

// sag binds the belly below the straight grade; a buried run whose straightness nobody checked is a guess.
func (t *scope) sag(buried bool, length float64) (float64, state) {
	v, st := t.quantity("sag", units.Length, limit{0, 2, "from 0 to 2 m (6.6 ft)"})
	switch {
	case st == missing || st == unknown:
		if buried || st == unknown {
			v = t.guess("sag", units.Length, defaults["segment.sag"], true)
		}
	case length > 0 && v > length/4:
		t.problem("sag", describe(t.node.children["sag"]), "less than a quarter of the length, "+describe(t.node.children["length"]))
	}
	return v, st
}

// cover binds one depth of soil, or [start, end].
func (t *scope) cover(buried, settingKnown bool) (*[2]float64, bool) {
	n, st := t.get("cover")
	switch {
	case st == unknown && buried:
		v := t.guess("cover", units.Length, defaults["segment.cover"], true)
		return &[2]float64{v, v}, false
	case st != given:
		return nil, false
	case !buried:
		if settingKnown {
			t.problem("cover", describe(n)+" over a segment that is not buried", `no cover, or setting = "buried"`)
		}
		return nil, false
	case n.kind != arrayNode:
		v, ok := t.measure(n, "cover", units.Length, depthLimit)
		if !ok {
			return nil, false
		}
		return &[2]float64{v, v}, false
	case len(n.items) != 2:
		t.problem("cover", fmt.Sprintf("a list of %d", len(n.items)), `one depth such as "14 in", or two: ["14 in", "18 in"] at start and end`)
		return nil, false
	}
	start, ok1 := t.measure(n.items[0], "cover", units.Length, depthLimit)
	end, ok2 := t.measure(n.items[1], "cover", units.Length, depthLimit)
	if !ok1 || !ok2 {
		return nil, false
	}
	return &[2]float64{start, end}, true
}

// insulation binds the layers, inside out.
func (t *scope) insulation() []Insulation {
	list := t.tables("insulation")
	if len(list) > maxLayers {
		t.problem("insulation", fmt.Sprintf("%d layers", len(list)), fmt.Sprintf("at most %d", maxLayers))
		list = list[:maxLayers]
	}
	var layers []Insulation
	for _, s := range list {
		thickness := s.orDefault("thickness", units.Length, limit{0, 1, "from 0 to 1 m (39 in)"}, true)
		m, _ := s.material("material", "closed-cell foam")
		s.finish()
		if thickness > 0 { // "0 in" is how a re-run takes a layer off
			layers = append(layers, Insulation{thickness, m})
		}
	}
	return layers
}

// overrides binds the keys that verification uses.
func (t *scope) overrides(seg *Segment) {
	seg.FilmCoefficient = t.optional("film_coefficient", units.FilmCoefficient, limit{0.01, 1e5, "from 0.01 to 100000 W/m2/K"})
	seg.StartTemperature = t.optional("start_temperature", units.Temperature, temperatureLimit)
	seg.Nucleation = t.optional("nucleation", units.Temperature, limit{-40, 0, "from -40 to 0 degC (-40 to 32 degF)"})
	if i, st := t.word("liquid", []string{"mixed", "still"}); st == given {
		seg.Liquid = Liquid(i)
	}
	n, st := t.get("standing")
	switch {
	case st != given:
	case n.kind == stringNode && strings.EqualFold(strings.TrimSpace(n.text), "full"):
		full := 1.0
		seg.Standing = &full
	default:
		if v, ok := t.measure(n, "standing", units.Fraction, shareLimit); ok {
			seg.Standing = &v
		}
	}
}

// coverGuess gives the first buried segment the usual cover where nothing tells how deep the line
// lies: no cover, no level of an open end, no basin below a glued line.
func (b *binder) coverGuess(l *Layout) {
	first := -1
	for i, seg := range l.Segments {
		if seg.Cover != nil {
			return
		}
		if seg.Setting == Buried && first < 0 {
			first = i
		}
	}
	hasLevel := l.Outlet.Kind == Open && l.Outlet.Level != nil || l.Standpipe == nil && l.Basin != nil
	if first < 0 || hasLevel {
		return
	}
	seg := &l.Segments[first]
	t := b.scope(newTable(seg.Line), segmentPath(seg.Name, first), "segment")
	v := t.guess("cover", units.Length, defaults["segment.cover"], true)
	seg.Cover = &[2]float64{v, v}
}

// segmentPath returns the path by which messages, guesses and edits name segment i.
func segmentPath(name string, i int) string {
	if topKey(name) || strings.HasPrefix(name, "segment ") {
		return fmt.Sprintf("segment[%d]", i)
	}
	return name
}

// SegmentPath returns the path by which an Edit names segment i.
func (l *Layout) SegmentPath(i int) string { return segmentPath(l.Segments[i].Name, i) }
