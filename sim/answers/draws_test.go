package answers

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather/chance"
)

// pitLine ends in a lid over a rock pit, and leaves all that is drawn to the program.
var pitLine = strings.Replace(strings.Replace(shallowLine, "kind = \"open\"", "kind = \"lid\"\nweep = \"6 mm x 50 mm\"\n[pocket]\nlength = \"0.6 m\"\nwidth = \"0.6 m\"\ndepth = \"0.45 m\"\nvoid = \"40 %\"", 1),
	"water_temperature = \"8 degC\"\n", "", 1)

func caseOf(t *testing.T, text string) *sim.Case {
	t.Helper()
	k, err := Source{Name: "line", File: "layout.toml", Text: []byte(text), Weather: winterRecord(8, 9)}.Case()
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// What nobody knows well is drawn, and what the layout writes is not.
func TestWhatIsDrawn(t *testing.T) {
	words := func(text string) string {
		var all []string
		for _, d := range drawnOf(caseOf(t, text)) {
			all = append(all, d.Key)
		}
		return strings.Join(all, " ")
	}
	const all = "site.soil_moisture site.wind_exposure water.water_temperature nucleation slush_limit site.soil_override.saturated_conductivity"
	if got := words(pitLine); got != all {
		t.Errorf("drawn: %s; want %s", got, all)
	}
	for _, c := range []struct{ written, gone string }{
		{"soil_moisture = \"20 %\"", "site.soil_moisture "},
		{"wind_exposure = 0.5", "site.wind_exposure "},
		{"[site.soil_override]\nsaturated_conductivity = \"13 mm/h\"", " site.soil_override.saturated_conductivity"},
	} {
		text := strings.Replace(pitLine, "surface = \"bare\"", "surface = \"bare\"\n"+c.written, 1)
		if got, want := words(text), strings.Replace(all, c.gone, "", 1); got != want {
			t.Errorf("%s: drawn %s; want %s", c.written, got, want)
		}
	}
	if got := words(strings.ReplaceAll(shallowLine, "length =", "nucleation = \"-2 degC\"\nlength =")); got != "site.soil_moisture site.wind_exposure slush_limit" {
		t.Errorf("drawn of a line that writes its nucleation: %s", got)
	}
	// Water let go by a pump freezes over a spread area, which is drawn at every opening.
	if got := words(floatLine); !strings.HasSuffix(got, "outlet.spread_area") {
		t.Errorf("drawn of a line with a pump: %s", got)
	}
}

// floatLine is the shallow line behind a pump and a basin.
var floatLine = shallowLine + "[basin]\nfloor_below_ground = \"2 m\"\nbottom_below_floor = \"60 cm\"\ndiameter = \"50 cm\"\nfloat_on = \"30 cm\"\nfloat_off = \"10 cm\"\n[[pump]]\nname = \"main\"\ncurve = \"1/3 hp\"\n"

// A draw's values lie in their ranges, reach the layout to the bit, and make a Latin hypercube: of ten draws one lies in each
// tenth. The water's conductivity is drawn by its logarithm, so that half of the draws lie above the usual value.
func TestDrawnValues(t *testing.T) {
	const n = 10
	k := caseOf(t, pitLine)
	all := drawnOf(k)
	draws := drawsOf(n, 3)
	for _, d := range all {
		var seen [n]bool
		above := 0
		for _, one := range draws {
			v := d.at(one[d.quantity])
			if v < d.Low || v > d.High {
				t.Errorf("%s: %g outside %g to %g", d.Key, v, d.Low, d.High)
			}
			if d.Usual != nil && v > *d.Usual {
				above++
			}
			seen[int(one[d.quantity]*n)] = true
		}
		if seen != [n]bool{true, true, true, true, true, true, true, true, true, true} {
			t.Errorf("%s: tenths %v", d.Key, seen)
		}
		if d.quantity == drawDrainage && above != n/2 {
			t.Errorf("%s: %d of %d above the usual %g", d.Key, above, n, *d.Usual)
		}
	}
	l, problems := pipe.ReadLayoutWith("layout.toml", []byte(pitLine), draws[0].edits(all))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, c := range []struct {
		quantity int
		got      float64
	}{
		{drawMoisture, l.Site.Soil.Moisture}, {drawWind, l.Site.WindExposure}, {drawWater, *l.Water.Temperature}, {drawDrainage, l.Site.SoilAt(0.4).SaturatedConductivity},
	} {
		for _, d := range all {
			if want := d.at(draws[0][c.quantity]); d.quantity == c.quantity && c.got != want {
				t.Errorf("%s: %g; want %g", d.Key, c.got, want)
			}
		}
	}
	s := draws[0].settings(sim.Settings{})
	if s.Nucleation < -7 || s.Nucleation > -1 || s.SlushLimit < 0.02 || s.SlushLimit > 0.08 {
		t.Errorf("settings %+v", s)
	}
}

// drawnQuestion asks about two winters with three draws.
func drawnQuestion(texts ...string) *WintersQuestion {
	q := question(winterRecord(8, 24), texts...)
	q.Draws, q.Seed = 3, 5
	return q
}

// Draws leave the winters without them as they were; each is what a run of its own edited layout finds; and another seed
// makes others.
func TestDrawsAreRuns(t *testing.T) {
	q := drawnQuestion(shallowLine)
	a := answerOf(t, q)
	plain := answerOf(t, question(winterRecord(8, 24), shallowLine))
	if !reflect.DeepEqual(a.Outcomes, plain.Outcomes) {
		t.Errorf("with draws the winters themselves are others: %+v and %+v", a.Outcomes, plain.Outcomes)
	}
	if len(a.Drawn) != 6 || a.About.Units != 8 || a.Drawn[3].Draw != 2 || a.Drawn[3].Winter != "2002-03" {
		t.Fatalf("%d draws of %d units, the fourth %+v", len(a.Drawn), a.About.Units, a.Drawn[3])
	}
	usual, err := q.Layouts[0].Under(q.Spans[0]).Case()
	if err != nil {
		t.Fatal(err)
	}
	d := drawsOf(3, 5)[1]
	r := runOfSecond(t, q, d.settings(sim.Settings{}), d.edits(drawnOf(usual))...)
	if o := a.Drawn[3]; r.Verdict.Closed == nil || o.Shut == nil || *o.Shut != *r.Verdict.Closed || o.State != r.Verdict.State.String() {
		t.Errorf("%+v of verdict %+v", o, r.Verdict)
	}
	q.Seed = 6
	if other := answerOf(t, q); reflect.DeepEqual(other.Drawn, a.Drawn) || !reflect.DeepEqual(other.Outcomes, a.Outcomes) {
		t.Error("another seed makes the same draws, or other winters")
	}
}

// However many workers and shares, draws are the same to the bit.
func TestDrawsSameInShares(t *testing.T) {
	q := drawnQuestion(shallowLine, deepLine)
	want := written(t, answerOf(t, q))
	for _, c := range []struct{ workers, parts int }{{1, 1}, {8, 5}} {
		if written(t, inShares(t, q, c.workers, c.parts)) != want {
			t.Errorf("%d workers, %d shares: another answer", c.workers, c.parts)
		}
	}
}

// Of four winters of which one fails in all of ten draws and one in half of them, 1.5 of 4 fail, and the interval is that of
// four winters.
func TestLikelihood(t *testing.T) {
	a := &WintersAnswer{About: WintersAbout{Draws: 10, Winters: []string{"a", "b", "c", "d"}, Layouts: []LayoutAbout{{}, {}}}}
	at := 1.0
	for draw := range 10 {
		for winter, name := range a.About.Winters {
			for layout := range 2 {
				o := DrawnOutcome{Winter: name, Layout: layout, Draw: draw + 1}
				if layout == 1 && (winter == 1 || winter == 2 && draw%2 == 0) {
					o.Shut, o.Refused = &at, 1
				}
				a.Drawn = append(a.Drawn, o)
			}
		}
	}
	if got, want := a.DrawnOf(1), []DrawnCount{{}, {10, 10, 0}, {5, 5, 0}, {}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%+v; want %+v", got, want)
	}
	l := a.likelihood(1)
	if want := chance.Counted(1.5, 4); l.Shut != want || l.Wet != want || math.Abs(l.Shut.Best-0.375) > 1e-12 || l.Floor.Best != 0 {
		t.Errorf("%+v", l)
	}
	if l := a.likelihood(0); l.Shut.Best != 0 || l.Shut.High < 0.3 {
		t.Errorf("never failed: %+v", l)
	}
	if text, err := json.Marshal(drawnOf(caseOf(t, pitLine))[2].Drawn); err != nil || !strings.Contains(string(text), `"usual":null`) {
		t.Errorf("%s, %v", text, err)
	}
}
