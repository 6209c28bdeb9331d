package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// whySample is an answer on a line that shut, with something seen that lies far apart, a guess that decides, and remedies of
// every effect; figures invented.
func whySample() *WhyAnswer {
	r := plain(sim.ShutRelieved)
	shut := *r.Verdict.Closed
	seen := shut + 3*86400
	r.Layout.Seen = []pipe.Seen{{Time: r.Start.Add(time.Duration(seen) * time.Second), What: "shut"}}
	match := answers.SeenMatch{What: "shut", Seen: seen, Simulated: ptr(shut), Difference: shut - seen, Held: true}
	nearer := match
	nearer.Simulated, nearer.Difference, nearer.Held = ptr(seen+3600), 3600, false
	g := r.Layout.Guesses
	margin := func(open float64) *answers.Margin {
		return &answers.Margin{Open: answers.Bound{K: open, Monotone: true}, Dry: answers.Bound{K: 12, Monotone: true}}
	}
	toll := func(state sim.State, days, relief float64) answers.Toll {
		t := answers.Toll{State: state, ShutFor: days * 86400, Relief: relief}
		if days > 0 {
			t.Closed = ptr(shut)
		}
		return t
	}
	change := func(kind answers.Kind, amount float64, takes answers.Takes) []answers.Change {
		return []answers.Change{{Key: kind.String(), Kind: kind, Segment: 2, Amount: amount, Takes: takes, Edits: []pipe.Edit{{Path: "yard run.cover", Value: `["0.6 m", "0.6 m"]`}}}}
	}
	short := change(answers.ShortCycles, 2, 0)
	short[0].Split, short[0].Segment = 2, -1
	reverse := answers.Remedy{Changes: change(answers.NoRelief, 0, 0), Toll: toll(sim.Spilled, 18, 0), Effect: answers.Harms}
	reverse.Toll.Beside = 3.3
	return &WhyAnswer{&answers.Why{
		Result: r,
		Seen:   []answers.SeenSet{{SeenMatch: match, Nearer: []answers.Nearer{{Guess: g[0], Match: nearer}, {Guess: g[2], High: true, Match: match}}}},
		Sure: []answers.GuessTried{
			{Guess: g[0], Low: &answers.GuessEnd{State: sim.Iced, Other: true}, High: &answers.GuessEnd{High: true, State: sim.ShutRelieved, Shut: ptr(shut)}, Changes: true},
			{Guess: g[1], Low: &answers.GuessEnd{State: sim.ShutRelieved, Shut: ptr(shut)}, High: &answers.GuessEnd{High: true, State: sim.Flooded, Shut: ptr(shut), Other: true}, Changes: true},
			{Guess: g[2], Low: &answers.GuessEnd{State: sim.ShutRelieved, Shut: ptr(shut)}, High: &answers.GuessEnd{High: true, State: sim.ShutRelieved, Shut: ptr(shut)}},
			{Guess: g[3]},
		},
		Remedies: &answers.Remedies{
			Froze: true,
			Base:  answers.Remedy{Toll: toll(sim.ShutRelieved, 18, 3.3), Margin: margin(-4), Effect: answers.Nothing},
			Singles: []answers.Remedy{
				{Changes: change(answers.DeepenCover, 0.6, answers.TakesDig), Toll: toll(sim.Iced, 0, 0), Margin: margin(3), Effect: answers.Prevents},
				{Changes: short, Toll: toll(sim.ShutRelieved, 9, 1), Margin: margin(-2.5), Effect: answers.Helps, MoreOf: answers.RiskStarts},
				{Changes: change(answers.BackupSameLine, 0, answers.TakesLicensed), Toll: toll(sim.ShutRelieved, 18, 3.3), Effect: answers.Nothing},
				{Changes: change(answers.RemoveSag, 0.03, answers.TakesDig), Toll: toll(sim.ShutRelieved, 20, 3.5), Effect: answers.Harms},
			},
			Barred:  []answers.Change{{Key: "open-outlet", Kind: answers.OpenOutlet, Segment: -1, Barred: answers.BarOutletLow}},
			Reverse: &reverse,
		},
	}}
}

func whyText(t *testing.T, a *WhyAnswer, s System, all bool) string {
	t.Helper()
	var out bytes.Buffer
	if err := WhyScreen(&out, a, screenOptions(s), all); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestWhyScreen(t *testing.T) {
	for name, s := range map[string]System{"us": US, "si": SI} {
		golden(t, "why-"+name+".txt", []byte(whyText(t, whySample(), s, false)))
	}
	text := whyText(t, whySample(), US, true)
	for _, line := range strings.Split(text, "\n") {
		if n := utf8.RuneCountInString(line); n > screenWidth {
			t.Errorf("line of %d columns: %s", n, line)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(text), " "), caution) {
		t.Error("the caution is not whole")
	}
	if !strings.HasPrefix(text, whyFar[:60]) {
		t.Error("what lies far apart is not told first")
	}
	invented := whySample()
	invented.Result.Invented = true
	if text := whyText(t, invented, US, false); !strings.HasPrefix(text, "An invented house: WHAT YOU SAW") || strings.Count(text, "invented") != 1 {
		t.Errorf("an invented house is not told on the first line alone:\n%s", text)
	}
}

// whyTurn is a change to the sample answer, with what its words then hold and what they do not.
type whyTurn struct {
	name   string
	change func(*WhyAnswer)
	want   []string
	never  []string
}

// Turns that the expected screens do not meet.
func TestWhyWording(t *testing.T) {
	for _, c := range []whyTurn{
		{"nothing froze", func(a *WhyAnswer) {
			a.Result = plain(sim.Clear)
			a.Remedies, a.Seen = &answers.Remedies{}, nil
		}, []string{"NOTHING FROZE.", "power cut:", "stuck float:", "worn pump:", "failed check valve:", "roots or mud in the line:", "more water than the pump lifts:"},
			[]string{"ONE CHANGE", "Shut 1", "Reverse", "do not spend"}},
		{"ice alone", func(a *WhyAnswer) {
			a.Result, a.Seen = plain(sim.Iced), nil
			a.Remedies.Base.Toll = answers.Toll{State: sim.Iced}
			a.Remedies.Singles[0].Effect = answers.Helps
		}, []string{"ICE FORMED, BUT THE LINE NEVER FROZE SHUT.", "Nothing had to be prevented", "leaves more room; what it takes: dig"}, []string{"Shut 1", "power cut", "not enough", "No single"}},
		{"wet though open", func(a *WhyAnswer) {
			a.Result, a.Seen = plain(sim.Flooded), nil
			a.Result.Verdict.Closed, a.Result.Closures = nil, nil
		}, []string{"ICE FORMED", "power cut"}, nil},
		{"no guess mends it", func(a *WhyAnswer) { a.Seen[0].Nearer = nil }, []string{"No guess at either end of its usual range brings them nearer."}, []string{"for what soil"}},
		{"no guess at all", func(a *WhyAnswer) { a.Seen[0].Nearer, a.Result.Layout.Guesses, a.Sure = nil, nil, nil }, []string{"Nothing in the layout is a guess"}, nil},
		{"no single one does", func(a *WhyAnswer) {
			m := a.Remedies
			m.Singles[0].Effect = answers.Helps
			m.Pairs = []answers.Remedy{{Changes: []answers.Change{m.Singles[0].Changes[0], m.Singles[1].Changes[0]}, Toll: answers.Toll{State: sim.Iced}, Effect: answers.Prevents}}
		}, []string{"two together are.", "TWO CHANGES", "float set for 2 short runs", "becomes 2 shorter ones"}, nil},
		{"no two do", func(a *WhyAnswer) {
			a.Remedies.Singles[0].Effect = answers.Helps
			a.Remedies.Pairs = []answers.Remedy{{Changes: a.Remedies.Singles[0].Changes, Effect: answers.Nothing}}
		}, []string{"no two of the best together are"}, []string{"TWO CHANGES", "Write it"}},
		{"no relief", func(a *WhyAnswer) { a.Remedies.Reverse = nil }, nil, []string{"WITHOUT the relief"}},
		{"relief for nothing", func(a *WhyAnswer) {
			a.Remedies.Reverse.Toll, a.Remedies.Reverse.Effect = a.Remedies.Base.Toll, answers.Nothing
		},
			[]string{"would have gone no worse"}, []string{"kept the house dry"}},
	} {
		a := whySample()
		c.change(a)
		text := strings.Join(strings.Fields(whyText(t, a, US, false)), " ")
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", c.name, want, text)
			}
		}
		for _, never := range c.never {
			if strings.Contains(text, never) {
				t.Errorf("%s: %q in\n%s", c.name, never, text)
			}
		}
	}
}

// What is long is cut short, and shown whole where asked.
func TestWhyInFull(t *testing.T) {
	a := whySample()
	for range 11 {
		a.Result.Closures = append(a.Result.Closures, a.Result.Closures[0])
		a.Remedies.Singles = append(a.Remedies.Singles[:1:1], a.Remedies.Singles...)
	}
	brief, whole := whyText(t, a, US, false), whyText(t, a, US, true)
	if !strings.Contains(brief, "It froze shut 9 times more: --all") || strings.Contains(brief, "Shut 4") || !strings.Contains(whole, "Shut 12") {
		t.Error("closures are not cut short to three, or not whole")
	}
	if !strings.Contains(brief, "and 5 more changes: --all, or remedies.csv") || strings.Contains(whole, "--all") {
		t.Errorf("changes are not cut short to eight of thirteen, or not whole:\n%s", brief)
	}
}

func TestWhyBrief(t *testing.T) {
	var out bytes.Buffer
	if err := WhyBrief(&out, whySample(), Options{Results: "./r"}); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(out.String()), " ")
	for _, want := range []string{"WHAT YOU SAW", "WHY IT FROZE SHUT: 14 gal", "Would do line laid deeper", "Results ./r", caution} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}

// How sure an answer is, in the words that run and why share.
func TestSureWords(t *testing.T) {
	a := whySample()
	g := a.Result.Layout.Guesses
	text := func(guesses []pipe.Guess, tried []answers.GuessTried, most int) string {
		return strings.Join(sureWords(guesses, tried, US, most)[1:], "\n")
	}
	got := text(g, a.Sure, 5)
	for _, want := range []string{
		"How wet the soil is (site.soil_moisture), taken as 24 %, decides the verdict: at 15 % ice forms, but the line never freezes shut. Measure water in the soil:",
		"How much of the wind reaches the pipe (site.wind_exposure), taken as 40 %, decides the verdict: at 60 % the basement gets wet, the line frozen shut. Measure wind at the pipe:",
		"what soil it is (site.soil) could not be tried",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
	if strings.Contains(got, "basin.water_temperature") {
		t.Errorf("a guess that changes nothing: %q", got)
	}
	if got := text(g, a.Sure, 1); !strings.Contains(got, "and 1 more guess that could change the verdict: winterline why") {
		t.Errorf("%q", got)
	}
	if got := text(g[2:3], a.Sure[2:3], 5); got != sureNoneOne {
		t.Errorf("%q", got)
	}
	if got := text(g[2:4], []answers.GuessTried{a.Sure[2], a.Sure[2]}, 5); got != sureNone {
		t.Errorf("%q", got)
	}
	if got := text(g, nil, 5); got != "" {
		t.Errorf("nothing tried: %q", got)
	}
	o := screenOptions(US)
	o.SureLeft = true
	if got := screen(t, plain(sim.Clear), o); !strings.Contains(got, sureUntried) {
		t.Errorf("left out without a word:\n%s", got)
	}
}

// summary.json of why has all its keys, and none that is no number.
func TestWhySummary(t *testing.T) {
	for _, a := range []*WhyAnswer{whySample(), {&answers.Why{Result: plain(sim.Clear), Remedies: &answers.Remedies{}}}} {
		var out bytes.Buffer
		if err := WhySummaryFile(a, Provenance{Version: "1.2"}).Write(&out); err != nil {
			t.Fatal(err)
		}
		var m map[string]any
		if err := json.Unmarshal(out.Bytes(), &m); err != nil {
			t.Fatal(err)
		}
		if got, want := keys(t, m), "cannot_see case caution closures findings guesses inputs remedies reverse schema seen verdict version warnings why"; got != want {
			t.Errorf("keys %s; want %s", got, want)
		}
		for _, name := range []string{"cannot_see", "closures", "findings", "guesses", "seen", "warnings"} {
			if _, is := m[name].([]any); !is {
				t.Errorf("%s is no list", name)
			}
		}
		if !ownSchema(whySchema) {
			t.Error("a folder of it would not be replaced")
		}
	}
	s := SummarizeWhy(whySample(), Provenance{})
	if c := s.Closures[0]; c.Where != "yard run" || *c.Stood != 3 || len(c.Words) < 8 || *c.PocketFull != 1 || len(c.Layers) != 2 || c.Layers[0].Thickness != nil {
		t.Errorf("closure %+v", c)
	}
	if g := s.Guesses; !*g[0].Changes || *g[0].Low != "iced" || *g[2].Changes || g[3].Changes != nil || g[3].Low != nil {
		t.Errorf("guesses %+v", g)
	}
	if x := s.Seen[0]; !x.Far || *x.Difference != -72 || len(x.Nearer) != 2 || !x.Nearer[0].Agrees || x.Nearer[0].End != "low" || x.Nearer[1].Agrees {
		t.Errorf("seen %+v", x)
	}
}

// remedies.csv: the columns as they are declared, a row for each thing tried, and for what is not possible.
func TestRemediesTable(t *testing.T) {
	var out bytes.Buffer
	if err := RemediesTable(whySample()).Write(&out); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i, c := range describe(remedyColumns) {
		at[c.Name] = i
		if rows[0][i] != c.Name || c.Meaning == "" {
			t.Errorf("column %d is %q; want %q, with a meaning", i, rows[0][i], c.Name)
		}
	}
	for i, want := range []map[string]string{
		{"tried": "as-it-was", "rank": "", "shut_h": "432.00", "relief_l": "3300.000", "margin_open_k": "-4.0"},
		{"tried": "single", "rank": "1", "effect": "prevents", "state": "iced", "shut_h": "0.00", "takes": "dig", "edits": `yard run.cover = ["0.6 m", "0.6 m"]`},
		{"tried": "single", "rank": "2", "effect": "helps", "brings": "The pump starts up to 0 times in an hour."},
		{"tried": "single", "rank": "3", "effect": "nothing", "margin_open_k": ""},
		{"tried": "single", "rank": "4", "effect": "harms"},
		{"tried": "without-relief", "rim_l": "3300.000", "state": "spilled"},
		{"tried": "not-possible", "effect": "", "shut_h": "", "not_possible": "the line's end would lie under the ground there"},
	} {
		if i+1 >= len(rows) {
			t.Fatalf("%d rows", len(rows))
		}
		for name, value := range want {
			if got := rows[i+1][at[name]]; got != value {
				t.Errorf("row %d, %s: %q; want %q", i, name, got, value)
			}
		}
	}
}
