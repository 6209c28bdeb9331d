package report

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// inputRow is an input of the simulation: as written, or a default because nobody measured it.
type inputRow struct {
	Name, Value   string
	Default       bool
	Decides       bool   // at an end of its range the verdict is another
	Range, Source string // of a default: where the true value usually lies, and where that comes from
}

// inputRows lists what the simulation was built on: defaults first, for they are what to measure, then what was written.
func inputRows(r *sim.Result, tried []answers.GuessTried, s System) []inputRow {
	var rows []inputRow
	guessed := map[string]bool{}
	for _, g := range guessesOf(r.Layout) {
		guessed[g.Key] = true
		value, low, high := guessRange(g, s)
		rows = append(rows, inputRow{Name: keyWords(g.Key), Value: value, Default: true, Decides: decides(g.Key, tried), Range: low + " to " + high, Source: g.Source})
	}
	if r.Layout == nil {
		return rows
	}
	for _, w := range writtenInputs(r, s) {
		if !guessed[w.key] && w.value != "" {
			rows = append(rows, inputRow{Name: w.name, Value: w.value})
		}
	}
	return rows
}

// inputs parts the rows into what was taken and what was written.
func (p *page) inputs(rows []inputRow) {
	for _, row := range rows {
		row.Value, row.Range = unbroken(row.Value), unbroken(row.Range)
		if row.Default {
			p.Defaults = append(p.Defaults, row)
		} else {
			p.Written = append(p.Written, row)
		}
	}
}

// decides says whether a guess was tried and changes the verdict.
func decides(key string, tried []answers.GuessTried) bool {
	return slices.ContainsFunc(tried, func(g answers.GuessTried) bool { return g.Guess.Key == key && g.Changes })
}

// written is an input with its key in the layout.
type written struct{ key, name, value string }

func writtenInputs(r *sim.Result, s System) []written {
	l := r.Layout
	rows := []written{{"site.soil", "Soil", soilWords(r)}, {"site.surface", "What covers the ground", surfaceWord(r)},
		{"site.snow_on_line", "Snow that lies on the line", percent(l.Site.SnowOnLine) + " of the recorded depth"}}
	for i, seg := range l.Segments {
		rows = append(rows, written{seg.Name + ".", capital(seg.Name), segmentSpec(r, i, s)})
	}
	if p := l.Standpipe; p != nil {
		rows = append(rows, written{"standpipe.", "Standpipe", listOf(p.Size.Name, "house pipe ends "+s.bothLengths(p.HousePipeEnd)+" above the ground",
			"its top at "+s.bothLengths(p.Rim), "slip joint takes "+s.bothLengths(p.SlipTravel))})
	}
	for i, o := range l.Reliefs {
		name := "Relief opening"
		if len(l.Reliefs) > 1 {
			name += " " + number(float64(i+1), 0)
		}
		rows = append(rows, written{"relief.", name, s.bothLengths(o.Height) + " above the ground, " + s.bothLengths(o.Width) + " wide, " +
			s.bothLengths(o.OpeningHeight) + " high, " + s.bothLengths(o.DistanceToHouse) + " from the wall"})
	}
	rows = append(rows, written{"outlet.", "Far end", outletSpec(l, s)})
	if p := l.Pocket; p != nil {
		rows = append(rows, written{"pocket.", "Rock pit", s.bothLengths(p.Length) + " by " + s.bothLengths(p.Width) + ", " + s.bothLengths(p.Depth) + " deep"})
	}
	if b := l.Basin; b != nil {
		rows = append(rows, written{"basin.", "Basin", listOf("floor "+s.bothLengths(b.FloorBelowGround)+" below the ground",
			s.bothVolumes(b.Area*math.Abs(b.FloatOn-b.FloatOff))+" between the float's on and off", valveWords(b))})
	}
	for _, p := range l.Pumps {
		rows = append(rows, written{"pump.", "Pump " + p.Name, pumpSpec(p, s)})
	}
	rows = append(rows, written{"water.", "Pump runs", pumpRunWords(r, s)})
	return rows
}

func listOf(parts ...string) string {
	var some []string
	for _, p := range parts {
		if p != "" {
			some = append(some, p)
		}
	}
	return strings.Join(some, ", ")
}

func soilWords(r *sim.Result) string { return r.Layout.Site.Soil.Texture }

func surfaceWord(r *sim.Result) string { return r.Layout.Site.Surface.String() }

func valveWords(b *pipe.Basin) string {
	if b.CheckValve {
		return "with a check valve"
	}
	return "no check valve"
}

// segmentSpec says what a segment is.
func segmentSpec(r *sim.Result, i int, s System) string {
	seg := r.Layout.Segments[i]
	fall := ""
	switch {
	case seg.Drop > 0:
		fall = "falls " + s.bothLengths(seg.Drop)
	case seg.Drop < 0:
		fall = "rises " + s.bothLengths(-seg.Drop)
	}
	cover := ""
	if seg.Setting == pipe.Buried && r.Profile != nil && i < len(r.Profile.Segments) {
		a, b := r.Profile.CoverAt(i, 0), r.Profile.CoverAt(i, 1)
		cover = "soil on top " + s.bothDepths(math.Max(0, a))
		if s.bothDepths(a) != s.bothDepths(b) {
			cover += " at its start, " + s.bothDepths(math.Max(0, b)) + " at its end"
		}
	}
	sag := ""
	if seg.Sag > 0 {
		sag = "sags " + s.bothLengths(seg.Sag)
	}
	foam := ""
	for _, layer := range seg.Insulation {
		foam = listOf(foam, s.bothThin(layer.Thickness)+" of "+cmp.Or(layer.Material.Name, "insulation"))
	}
	return listOf(settingWords[seg.Setting], seg.Size.Name, s.bothLengths(seg.Length)+" long", fall, cover, sag, foam)
}

// settingWords say where a segment lies.
var settingWords = map[pipe.Setting]string{
	pipe.Indoor: "in the house", pipe.ThroughWall: "through the wall", pipe.Sheltered: "in a garage or crawlspace",
	pipe.OpenAir: "in the open air", pipe.Buried: "in the ground",
}

func outletSpec(l *pipe.Layout, s System) string {
	kind := "open to daylight"
	if l.Outlet.Kind == pipe.Lid {
		kind = "pop-up lid"
		if l.Outlet.Weep != nil {
			kind += " over a drain slot"
		} else {
			kind += ", no drain slot"
		}
	}
	far := ""
	if l.Outlet.DistanceToHouse > 0 {
		far = s.bothLengths(l.Outlet.DistanceToHouse) + " from the wall"
	}
	return listOf(kind, far)
}

// pumpSpec gives the ends of a pump's curve.
func pumpSpec(p pipe.Pump, s System) string {
	if len(p.Curve) == 0 {
		return ""
	}
	first, last := p.Curve[0], p.Curve[len(p.Curve)-1]
	words := s.bothFlows(first.Flow) + " at " + s.bothLengths(first.Head) + " of head, none at " + s.bothLengths(last.Head)
	if p.Role == pipe.BackupPump {
		words += "; the backup"
	}
	return words
}

func pumpRunWords(r *sim.Result, s System) string {
	if len(r.Cycles) == 0 {
		return "none"
	}
	return plural(float64(len(r.Cycles)), "run") + ", " + s.bothVolumes(r.Ledger.Arrived) + " in all"
}

// keyWords turns the key of an input into words: "site.soil_moisture" is "Soil moisture", "yard run.cover" is
// "Yard run: cover" and "relief[0].height" is "Relief 1: height".
func keyWords(key string) string {
	place, name, ok := cutLast(key, ".")
	if !ok {
		place, name = "", key
	}
	place = keyIndex.ReplaceAllStringFunc(strings.TrimPrefix(place, "site"), func(index string) string {
		n, _ := strconv.Atoi(strings.Trim(index, "[]")) // digits only: it cannot fail below what fits
		return " " + strconv.Itoa(n+1)
	})
	name = strings.ReplaceAll(name, "_", " ")
	if place == "" {
		return capital(name)
	}
	return capital(strings.ReplaceAll(strings.TrimPrefix(place, "."), "_", " ")) + ": " + name
}
