package answers

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// shallowLine is a line whose yard run lies shallow, with a sag in which water stands.
const shallowLine = `title = "shallow"
[site]
soil = "silt loam"
surface = "bare"
[water]
cycles = "every 12 h for 30 s"
water_temperature = "8 degC"
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2 m"
rise = "2 m"
setting = "indoor"
[[segment]]
name = "yard"
pipe = "3 in sch 40 PVC"
length = "4 m"
drop = "4 cm"
sag = "10 cm"
setting = "buried"
cover = "20 cm"
[outlet]
kind = "open"
`

// deepLine is the same a metre down.
var deepLine = strings.NewReplacer("shallow", "deep", `cover = "20 cm"`, `cover = "1 m"`).Replace(shallowLine)

// firstJuly is where invented records begin.
var firstJuly = time.Date(2001, 7, 1, 0, 0, 0, 0, time.UTC)

// rowsADay is how many rows a day the invented records have.
const rowsADay = 8

// winterRecord is an invented record every three hours, from 1 July: 8 °C ± so many kelvin over the year, one number a
// winter, with a wave of five days of 6 K. Measured nowhere.
func winterRecord(swings ...float64) *weather.Series {
	s := &weather.Series{Source: "invented.csv", Format: "plain form", Start: firstJuly}
	for i := range (len(swings)*365 + 2) * rowsADay {
		t := 86400 / rowsADay * float64(i)
		day := t/86400 - 203 // from 20 January
		swing := swings[min(i/(365*rowsADay), len(swings)-1)]
		s.Time, s.Air = append(s.Time, t), append(s.Air, 8-swing*math.Cos(2*math.Pi*day/365)+6*math.Sin(2*math.Pi*day/5))
	}
	return s
}

func long() bool { return os.Getenv("WINTERLINE_LONG") != "" }

// question is about layouts under one record.
func question(s *weather.Series, texts ...string) *WintersQuestion {
	q := &WintersQuestion{Spans: []*weather.Series{s}, Version: "1", Inputs: map[string]string{"weather.csv": "ab"}}
	for i, text := range texts {
		q.Layouts = append(q.Layouts, Source{Name: fmt.Sprintf("layout %d", i), File: "layout.toml", Text: []byte(text)})
	}
	return q
}

func answerOf(t *testing.T, q *WintersQuestion) *WintersAnswer {
	t.Helper()
	a, err := (&Engine{}).Winters(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// written is an answer to the last bit.
func written(t *testing.T, a *WintersAnswer) string {
	t.Helper()
	var text bytes.Buffer
	s := WintersShare{sharesSchema, Part{1, 1}, a.About, a.Outcomes, a.Drawn}
	if err := s.Write(&text); err != nil {
		t.Fatal(err)
	}
	return text.String()
}

// A mild and a hard winter: the shallow line freezes shut in the hard one alone, the deep one never. The frost goes
// deeper, and more degree-days add up, in the hard one.
func TestWintersTellHardFromMild(t *testing.T) {
	q := question(winterRecord(8, 24), shallowLine, deepLine)
	q.Margins = true
	a := answerOf(t, q)
	if got := strings.Join(a.About.Winters, " "); got != "2001-02 2002-03" || len(a.Outcomes) != 4 {
		t.Fatalf("winters %s, %d outcomes", got, len(a.Outcomes))
	}
	shallow, deep := a.Of(0), a.Of(1)
	for i, o := range shallow {
		if shut := o.Shut != nil; shut != (i == 1) || shut != (o.ShutFor > 0) {
			t.Errorf("%s: state %s, shut for %g h", o.Winter, o.State, o.ShutFor/3600)
		}
		if o.DegreeDays != deep[i].DegreeDays || o.Frost != deep[i].Frost || deep[i].Shut != nil {
			t.Errorf("%s: %+v beside %+v", o.Winter, o, deep[i])
		}
	}
	if shallow[1].Frost < shallow[0].Frost+0.2 || shallow[1].DegreeDays < 500 || shallow[1].Lowest > -15 {
		t.Errorf("hard winter %+v, mild one %+v", shallow[1], shallow[0])
	}
	for i, o := range a.Outcomes {
		// What shut the line has used its margin up; what did not has some left.
		if m := o.Margin.Open; (m.K < 0) != (o.Shut != nil) || m.Beyond {
			t.Errorf("%s, layout %d: shut %v, margin %+v", o.Winter, o.Layout, o.Shut != nil, o.Margin)
		}
		if i%2 == 1 && o.Margin.Open.K < a.Outcomes[i-1].Margin.Open.K+3 {
			t.Errorf("%s: margin of the deep line %+v, of the shallow one %+v", o.Winter, o.Margin.Open, a.Outcomes[i-1].Margin.Open)
		}
	}
	// Both margins tell as many failures as the winters themselves.
	if s := a.Summarize(0); s.Shut.Failed != s.Count.Shut || s.Wet.Failed != s.Count.Wet || s.Shut.Winters != 2 || s.Loss != nil {
		t.Errorf("shallow: %+v", s)
	}
	if c := a.CountOf(0); c.Winters != 2 || c.Shut != 1 || c.Flooded != 0 || c.Refused != 1 {
		t.Errorf("shallow: %+v", c)
	}
	if c := a.CountOf(1); c.Winters != 2 || c.Shut != 0 {
		t.Errorf("deep: %+v", c)
	}
}

// An outcome is what a run of the winter's own case finds.
func TestWinterOutcomeIsThatOfItsRun(t *testing.T) {
	q := question(winterRecord(8, 24), shallowLine)
	a := answerOf(t, q)
	r := runOfSecond(t, q, sim.Settings{})
	o := a.Outcomes[1]
	if r.Verdict.Closed == nil || o.Shut == nil || *o.Shut != *r.Verdict.Closed || o.ShutFor != r.Verdict.ShutFor || o.Outlet != r.Ledger.Outlet || !o.Start.Equal(r.Start) {
		t.Errorf("%+v of verdict %+v, ledger %+v", o, r.Verdict, r.Ledger)
	}
}

// runOfSecond runs the second winter of the first layout by itself, with edits.
func runOfSecond(t *testing.T, q *WintersQuestion, settings sim.Settings, edits ...pipe.Edit) *sim.Result {
	t.Helper()
	k, err := q.Layouts[0].Under(q.Spans[0]).Case(edits...)
	if err != nil {
		t.Fatal(err)
	}
	winters, _ := k.Weather.WholeWinters()
	cases, err := sim.EachWinter(context.Background(), []*sim.Case{k}, winters[1:], sim.Settings{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(context.Background(), cases[0][0], settings)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// However many workers, and in however many shares of the work, read back from their files in any order, the answer is
// the same to the bit.
func TestWintersSameInShares(t *testing.T) {
	q := question(winterRecord(8, 24, 10), shallowLine, deepLine)
	q.Margins = long()
	want := written(t, answerOf(t, q))
	for _, c := range []struct{ workers, parts int }{{1, 1}, {2, 4}, {8, 7}} {
		if got := written(t, inShares(t, q, c.workers, c.parts)); got != want {
			t.Errorf("%d workers, %d shares: another answer", c.workers, c.parts)
		}
	}
}

// inShares answers a question in shares, each written to its file, read back and joined with the others in turned order.
func inShares(t *testing.T, q *WintersQuestion, workers, parts int) *WintersAnswer {
	t.Helper()
	var shares []NamedShare
	for part := parts; part >= 1; part-- {
		s, err := (&Engine{Workers: workers}).WintersShare(context.Background(), q, Part{part, parts})
		if err != nil {
			t.Fatal(err)
		}
		var text bytes.Buffer
		if err := s.Write(&text); err != nil {
			t.Fatal(err)
		}
		back, err := ReadShare(fmt.Sprintf("%d.json", part), text.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back.Outcomes, s.Outcomes) || !reflect.DeepEqual(back.Drawn, s.Drawn) {
			t.Errorf("share %s reads back as something else", s.Part)
		}
		shares = append(shares, back)
	}
	a, err := MergeShares(shares)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Of thirty winters whose margins are those of a Gumbel law with one failure in ten, the summary says about that; what
// it costs is a service call each time, and no flooded basement more than none in thirty leaves open.
func TestSummarizeManyWinters(t *testing.T) {
	a := &WintersAnswer{About: WintersAbout{Margins: true, Seed: 1, Layouts: []LayoutAbout{{Cost: &pipe.Cost{ServiceCall: 400, FloodedBasement: 12000}}}}}
	const scale = 2.0
	location := scale * math.Log(-math.Log(0.9)) // of the turned margins: exceeds 0 in one of ten
	for i := range 30 {
		p := (float64(i) + 0.5) / 30
		k := -(location - scale*math.Log(-math.Log(p)))
		o := WinterOutcome{State: "clear", Margin: &Margin{Open: Bound{K: k}, Dry: Bound{K: k + 5}}}
		if k < 0 {
			o.State, o.Shut = "shut-relieved", &k
		}
		a.Outcomes = append(a.Outcomes, o)
	}
	s := a.Summarize(0)
	p, fitted := s.Shut.Period()
	if !fitted || p.Best < 8 || p.Best > 12 || p.Low > 10 || p.High < 10 || s.Shut.Failed != 3 || s.Count.Shut != 3 {
		t.Errorf("shut: %v, period %+v", s.Shut, p)
	}
	if s.Count.Wet != 0 || s.Floor.Best != 0 || s.Loss == nil || math.Abs(s.Loss.Best-400*s.Shut.Chance.Best) > 1e-9 || s.Loss.High < 400*s.Shut.Chance.High {
		t.Errorf("%+v, loss %+v", s, s.Loss)
	}
}

// Two spans with a long gap between them give the winters that each has whole; what both have a part of is left out.
func TestWintersInSpans(t *testing.T) {
	s := winterRecord(8, 9, 10, 11)
	gap := (365 + 200) * rowsADay // in January of the second winter
	parts := s.Parts([]weather.Range{{From: 0, To: gap}, {From: gap + rowsADay, To: len(s.Time)}})
	q := question(nil, shallowLine)
	q.Spans = parts
	a := answerOf(t, q)
	if got := strings.Join(a.About.Winters, " "); got != "2001-02 2003-04 2004-05" || a.About.Spans != 2 {
		t.Errorf("winters %s of %d spans", got, a.About.Spans)
	}
	if l := a.About.LeftOut; len(l) == 0 || l[0].Winter != "2002-03" || l[0].Why != WhyWeather || math.Abs(l[0].Days-364) > 1.1 {
		t.Errorf("left out %+v", l)
	}
}

// What tells nothing of many winters is refused, and says what would do.
func TestWintersRefuse(t *testing.T) {
	typical, snap := winterRecord(8, 9), winterRecord(8, 9)
	typical.Typical, snap.Design = true, []string{"by rule"}
	falling := strings.Replace(shallowLine, `cycles = "every 12 h for 30 s"`, `arrives = "8 gal/h falling by half every 2 days"`, 1)
	falling += "[basin]\nfloor_below_ground = \"2 m\"\nbottom_below_floor = \"60 cm\"\ndiameter = \"50 cm\"\nfloat_on = \"30 cm\"\nfloat_off = \"10 cm\"\n[[pump]]\nname = \"main\"\ncurve = \"1/3 hp\"\n"
	logged := question(winterRecord(8, 9, 8), shallowLine)
	for d := range 200 { // October to April of the second winter
		logged.Layouts[0].Supply.Cycles = append(logged.Layouts[0].Supply.Cycles, pipe.Cycle{Start: firstJuly.AddDate(1, 3, d), Run: 45})
	}
	for _, c := range []struct {
		name  string
		q     *WintersQuestion
		about string
		found string
	}{
		{"typical year", question(typical, shallowLine), AboutWeather, "typical year"},
		{"design snap", question(snap, shallowLine), AboutWeather, "design cold snap"},
		{"one winter", question(winterRecord(8), shallowLine), AboutWeather, "one whole winter"},
		{"falling inflow", question(winterRecord(8, 9), falling), AboutWater, "falls off"},
		{"log of a winter", logged, AboutWater, "one whole winter in the log of pump or inflow, of 3"},
	} {
		_, err := (&Engine{}).Winters(context.Background(), c.q)
		var refused *RecordError
		if !errors.As(err, &refused) || refused.About != c.about || !strings.Contains(refused.Found, c.found) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Shares that do not fit together are refused by name: missing ones, doubles, those of other inputs or another division.
func TestMergeRefuses(t *testing.T) {
	share := func(part, of int, change func(*WintersShare)) NamedShare {
		s := WintersShare{sharesSchema, Part{part, of}, WintersAbout{Inputs: map[string]string{"weather.csv": "abc"}, Version: "1"}, []WinterOutcome{}, []DrawnOutcome{}}
		if change != nil {
			change(&s)
		}
		return NamedShare{fmt.Sprintf("%d.json", part), s}
	}
	one, two := share(1, 3, nil), share(2, 3, nil)
	for _, c := range []struct {
		want   string
		shares []NamedShare
	}{
		{"found no share", nil},
		{"no share 3/3", []NamedShare{one, two}},
		{"no share 2/3, 3/3", []NamedShare{one}},
		{"2.json: found share 2/3, which 2.json is as well", []NamedShare{one, two, two}},
		{"2.json: found share 2/4", []NamedShare{one, share(2, 4, nil)}},
		{"another weather.csv behind it (check sum abd)", []NamedShare{one, share(2, 3, func(s *WintersShare) { s.About.Inputs = map[string]string{"weather.csv": "abd"} })}},
		{"another --cycles behind it", []NamedShare{one, share(2, 3, func(s *WintersShare) { s.About.Inputs = map[string]string{"weather.csv": "abc", "--cycles": "e"} })}},
		{"version 2", []NamedShare{one, share(2, 3, func(s *WintersShare) { s.About.Version = "2" })}},
		{"a share of other work", []NamedShare{one, share(2, 3, func(s *WintersShare) { s.About.Spans = 2 })}},
	} {
		_, err := MergeShares(c.shares)
		var refused *ShareError
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v; want %q", err, c.want)
		}
	}
	for _, text := range []string{"", `{"schema": "winterline.winters-share/1", "part": 1`, `{"schema": "other/1"}`,
		`{"schema": "winterline.winters-share/1", "part": 4, "of": 3}`,
		`{"schema": "winterline.winters-share/1", "part": 1, "of": 1, "about": {"winters": ["2001-02"], "layouts": [{}], "units": 1}}`} {
		if _, err := ReadShare("x.json", []byte(text)); err == nil {
			t.Errorf("%s is read", text)
		}
	}
}

// A share that was altered by hand, so that an outcome stands in another's place or lacks what was asked for, is refused;
// as it was written it is read.
func TestReadShareRefusesOutOfPlace(t *testing.T) {
	about := WintersAbout{Winters: []string{"2001-02", "2002-03"}, Layouts: make([]LayoutAbout, 2), Draws: 1, Margins: true, Units: 8}
	whole := func() *WintersShare {
		s := &WintersShare{Schema: sharesSchema, Part: Part{1, 1}, About: about}
		for i := range 8 {
			winter, layout := about.Winters[i/2%2], i%2
			if i < 4 {
				s.Outcomes = append(s.Outcomes, WinterOutcome{Winter: winter, Layout: layout, Margin: &Margin{}})
			} else {
				s.Drawn = append(s.Drawn, DrawnOutcome{Winter: winter, Layout: layout, Draw: 1})
			}
		}
		return s
	}
	for _, c := range []struct {
		found  string // "": it is read
		change func(*WintersShare)
	}{
		{"", func(*WintersShare) {}},
		{"without its margin", func(s *WintersShare) { s.Outcomes[2].Margin = nil }},
		{"out of its place", func(s *WintersShare) { s.Outcomes[1].Layout = 7 }},
		{"out of its place", func(s *WintersShare) { s.Outcomes[0], s.Outcomes[2] = s.Outcomes[2], s.Outcomes[0] }},
		{"out of its place", func(s *WintersShare) { s.Drawn[3].Winter = "1900-01" }},
		{"3 outcomes without draws", func(s *WintersShare) { s.Outcomes, s.Drawn = s.Outcomes[:3], append(s.Drawn, DrawnOutcome{}) }},
	} {
		s := whole()
		c.change(s)
		var text bytes.Buffer
		if err := s.Write(&text); err != nil {
			t.Fatal(err)
		}
		_, err := ReadShare("x.json", text.Bytes())
		if (err == nil) != (c.found == "") || err != nil && !strings.Contains(err.Error(), c.found) {
			t.Errorf("%v; want %q", err, c.found)
		}
	}
}

// Parts of work are named as 3/20, and cover it without holes.
func TestParts(t *testing.T) {
	for _, text := range []string{"", "3", "0/3", "4/3", "-1/3", "a/b", "1/2/3", "1/1000000"} {
		if p, err := ParsePart(text); err == nil {
			t.Errorf("%q is read as %s", text, p)
		}
	}
	for _, w := range []work{{0, 1, 0}, {1, 1, 0}, {7, 10, 0}, {30, 10, 1}, {7, 10, 40}, {5, 1, 5}} {
		at := 0
		for part := range 9 {
			from, to := Part{part + 1, 9}.units(w)
			if from != at || to < from {
				t.Errorf("%v: share %d from %d to %d", w, part+1, from, to)
			}
			at = to
		}
		if at != w.units() {
			t.Errorf("%v: shares end at %d", w, at)
		}
	}
	// Of work that takes ten times as long at first, the first half is the shorter one.
	if from, to := (Part{1, 2}).units(work{10, 10, 100}); from != 0 || to != 10 {
		t.Errorf("first half from %d to %d", from, to)
	}
}
