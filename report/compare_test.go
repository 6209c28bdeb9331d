package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// comparedResults is one invented winter with layouts that end so: the first a case of its own, the others made of it.
func comparedResults(states ...sim.State) *Comparison {
	c := &answers.Comparison{}
	c.About = answers.WintersAbout{Version: "1", Winters: []string{"2025-26"}, Margins: true}
	for i, state := range states {
		r := plain(state)
		c.Single = append(c.Single, r)
		about := answers.LayoutAbout{Name: "house", Title: "Fennel Row", Guesses: []pipe.Guess{{Key: "site.soil"}}, Cost: &pipe.Cost{Installed: 1000, ServiceCall: 400, FloodedBasement: 12000}}
		c.Changes = append(c.Changes, nil)
		if i > 0 {
			about.Name, about.Title = fmt.Sprintf("change %d", i), ""
			c.Changes[i] = []pipe.Edit{{Path: "yard run.cover", Value: "30 in"}, {Path: "pocket"}}
		}
		c.About.Layouts = append(c.About.Layouts, about)
		v := r.Verdict
		c.Outcomes = append(c.Outcomes, answers.WinterOutcome{
			Winter: "2025-26", Layout: i, Start: r.Start, End: r.Start, LowestAt: r.Start, State: state.String(), FirstIce: v.FirstIce, Shut: v.Closed, Spill: v.Spill, Floor: v.Floor,
			ShutFor: v.ShutFor, ReliefRuns: v.ReliefRuns, Pumped: r.Ledger.Pumped, Outlet: r.Ledger.Outlet, Relief: r.Ledger.Relief, Rim: r.Ledger.Rim,
			Margin: &answers.Margin{Open: answers.Bound{K: 4 - 3*float64(i), Monotone: true}, Dry: answers.Bound{K: 25, Beyond: true, Monotone: true}},
		})
	}
	return &Comparison{Comparison: c}
}

// comparedWinters is an invented house as it is, and a second layout that keeps open in all of its three winters.
func comparedWinters() *Comparison {
	c := &answers.Comparison{WintersAnswer: *sampleWinters(), Changes: [][]pipe.Edit{nil, {{Path: "yard run.cover", Value: "30 in"}, {Path: "cost.installed", Value: "1320"}}}}
	c.About.Layouts = append(c.About.Layouts, answers.LayoutAbout{Name: "deeper", Cost: &pipe.Cost{Installed: 1320, ServiceCall: 400, FloodedBasement: 12000}})
	c.About.Layouts[0].Cost.Installed = 1000
	var all []answers.WinterOutcome
	for _, o := range c.Outcomes {
		kept := o
		kept.Layout, kept.State, kept.Shut, kept.Spill, kept.Relief, kept.ReliefRuns, kept.Rim, kept.ShutFor = 1, "clear", nil, nil, 0, 0, 0, 0
		kept.Outlet, kept.FirstIce = kept.Pumped, nil
		kept.Margin = &answers.Margin{Open: answers.Bound{K: o.Margin.Open.K + 10, Monotone: true}, Dry: answers.Bound{K: 25, Beyond: true, Monotone: true}}
		all = append(all, o, kept)
	}
	c.Outcomes = all
	return &Comparison{Comparison: c}
}

// screenOf is what a comparison prints; no line is wider than the screen.
func screenOf(t *testing.T, c *Comparison, o Options) string {
	t.Helper()
	var out bytes.Buffer
	if err := CompareScreen(&out, c, o); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len([]rune(line)) > screenWidth {
			t.Errorf("%d columns: %s", len([]rune(line)), line)
		}
	}
	return out.String()
}

// The headline says what became of the basement first, and then with which layouts the line froze shut.
func TestCompareHeadline(t *testing.T) {
	for _, test := range []struct {
		states []sim.State
		want   string
	}{
		{[]sim.State{sim.ShutRelieved, sim.Iced}, "THE BASEMENT STAYED DRY WITH BOTH LAYOUTS. The line froze shut with A; it stayed open with B."},
		{[]sim.State{sim.Clear, sim.Iced, sim.Clear}, "THE BASEMENT STAYED DRY WITH ALL 3 LAYOUTS. The line stayed open with all 3 layouts."},
		{[]sim.State{sim.Flooded, sim.ShutRelieved, sim.Clear}, "THE BASEMENT GOT WET WITH A. The line froze shut with A and B; it stayed open with C; water came out beside the house with A."},
		{[]sim.State{sim.Spilled, sim.Spilled}, "THE BASEMENT STAYED DRY WITH BOTH LAYOUTS. The line froze shut with both layouts; water came out beside the house with both layouts."},
	} {
		if got := compareHeadline(comparedResults(test.states...)); got != test.want {
			t.Errorf("%v: %q, want %q", test.states, got, test.want)
		}
	}
	c := comparedWinters()
	c.About.Layouts[0].Invented = true
	if got, want := compareHeadline(c), "An invented house: THE BASEMENT STAYED DRY IN 3 OF 3 WINTERS WITH BOTH LAYOUTS. The line froze shut in 1 of 3 winters with A, in 0 of 3 with B; "+
		"water came out beside the house in 1 of 3 winters with A, in 0 of 3 with B."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// One winter: who is who, what became of each, when, where the water went and what it cost; what is not known is told.
func TestCompareScreenOneWinter(t *testing.T) {
	got := screenOf(t, comparedResults(sim.Flooded, sim.Iced), Options{Weather: "years/station.csv", Results: "./out"})
	for _, want := range []string{
		"Layouts      A: house, Fennel Row\n             B: change 1: A with yard run.cover = 30 in, without pocket\n",
		"Weather      Dec 1, 2025 to Jan 30, 2026    years/station.csv", "How sure     1 input is a guess: what soil it is (site.soil)\n",
		"   installed  failures, this winter\nA  1,000      12,400\nB  -          0\n", "What it costs to install B is not known",
		"years to pay back take a long", "\nfloor wet ", "open to  dry to\n", "+7 °F    >45 °F", "close", caution[:40],
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not on the screen:\n%s", want, got)
		}
	}
	screenOf(t, comparedResults(sim.Flooded, sim.Iced, sim.Clear, sim.Spilled, sim.ShutRelieved, sim.Iced, sim.Clear, sim.Flooded), Options{})
}

// Many winters: counts, shares with their intervals, costs against the first layout and a line for every winter.
func TestCompareScreenWinters(t *testing.T) {
	got := screenOf(t, comparedWinters(), Options{Weather: "station.csv"})
	for _, want := range []string{
		"In how many of 3 winters\n   ice  froze shut  relief ran  by house  floor wet  open to  dry to\n" +
			"A  2    1           1           1         0          -14 °F   -5 °F\n" +
			"B  0    0           0           0         0          +4 °F    >45 °F\n",
		"A  33 in 100 (2 to 86)    33 in 100 (2 to 86)\n",
		"A  1,000      133 (7 to 7,925)              -\nB  1,320      0 (0 to 7,832)                pays for itself in 2 years (",
		"2002-03  -22 °F   spilled -14 °F  no ice +4 °F\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not on the screen:\n%s", want, got)
		}
	}
}

// The paragraph for a quote names weather, winters, layouts, counts and guesses, and no place on the disk.
func TestQuoteWords(t *testing.T) {
	one := quoteWords(comparedResults(sim.ShutRelieved, sim.Iced), Options{Weather: "/home/me/station.csv"})
	for _, want := range []string{
		"The discharge line was simulated in 2 layouts over the same weather (station.csv: Dec 1, 2025 to Jan 30, 2026; winterline 1). A: house, Fennel Row. B: change 1. With A the line froze shut on ",
		"With B the line stayed open (it stayed open, but too close to call); the basement stayed dry.", "it does not say how often such a winter comes",
		"Guessed, because nobody measured them: what soil it is.", "not an inspection or a promise", "Local codes and licensed practice come first.",
	} {
		if !strings.Contains(one, want) {
			t.Errorf("%q is not in %q", want, one)
		}
	}
	if strings.Contains(one, "/home") {
		t.Errorf("a place on the disk in %q", one)
	}
	many := quoteWords(comparedWinters(), Options{Weather: "station.csv"})
	for _, want := range []string{"(station.csv: 3 winters, 2001-02 to 2003-04; winterline 1)", "The line froze shut in 1 of 3 winters with A, in 0 of 3 with B.",
		"The basement floor got wet in 0 of 3 winters with both layouts.", "Against A, B pays for itself in 2 years (", "No input was left to a guess."} {
		if !strings.Contains(many, want) {
			t.Errorf("%q is not in %q", want, many)
		}
	}
}

// compare.csv has a row a layout with every column explained.
func TestCompareTable(t *testing.T) {
	var text bytes.Buffer
	if err := CompareTable(comparedWinters()).Write(&text); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&text).ReadAll()
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for column, want := range map[string][]string{
		"layout": {"A", "B"}, "case": {"house", "deeper"}, "change": {"", "with yard run.cover = 30 in"}, "winters": {"3", "3"}, "worst": {"spilled", "clear"},
		"shut": {"1", "0"}, "pumped_l": {"10000.000", "10000.000"}, "outlet_l": {"8333.333", "10000.000"}, "margin_open_k": {"-7.5", "2.5"}, "margin_dry_k": {"-3.0", "25.0"},
		"installed": {"1000.00", "1320.00"}, "failures": {"133.33", "0.00"}, "worth": {"", "pays-back"}, "payback_years": {"", "2.4"},
	} {
		at := slices.Index(rows[0], column)
		if at < 0 || rows[1][at] != want[0] || rows[2][at] != want[1] {
			t.Errorf("%s: %q and %q, want %q", column, rows[1][at], rows[2][at], want)
		}
	}
	for i, c := range compareColumns {
		if c.Meaning == "" || rows[0][i] != c.Name {
			t.Errorf("column %d: %q, meaning %q", i, rows[0][i], c.Meaning)
		}
	}
}

// Both kinds of summary have the same keys, all of them, with null for what is not known.
func TestCompareSummaryKeys(t *testing.T) {
	keys := func(c *Comparison) (top, layout []string) {
		var text bytes.Buffer
		if err := SummarizeCompare(c, Options{}).Encode(&text); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(text.String(), "NaN") {
			t.Error("NaN in the summary")
		}
		var back map[string]any
		if err := json.Unmarshal(text.Bytes(), &back); err != nil {
			t.Fatal(err)
		}
		for key := range back {
			top = append(top, key)
		}
		for key := range back["layouts"].([]any)[1].(map[string]any) {
			layout = append(layout, key)
		}
		slices.Sort(top)
		slices.Sort(layout)
		return top, layout
	}
	top1, layout1 := keys(comparedResults(sim.Flooded, sim.Clear))
	top2, layout2 := keys(comparedWinters())
	if !slices.Equal(top1, top2) || !slices.Equal(layout1, layout2) || len(top1) != 12 || len(layout1) != 15 {
		t.Errorf("keys %v and %v, of layouts %v and %v", top1, top2, layout1, layout2)
	}
}

// Ice in the line is that of all segments, and when it was shut that of any.
func TestCompareChartData(t *testing.T) {
	r := &sim.Result{
		Segments: []sim.SegmentResult{{Name: "a", Standing: 2e-3}, {Name: "b", Standing: 4e-3}},
		Hourly: sim.Hourly{Time: []float64{0, 3600, 7200}, Segments: []sim.SegmentHourly{
			{Ice: []float64{0, 0.5, 1}, Fill: []float64{1, 1, 0.5}}, {Ice: []float64{0, 0.25, math.NaN()}, Fill: []float64{0.2, 0.2, 0}},
		}},
		Events: []sim.Event{{Time: 1000, Kind: sim.EventClosed, Where: "a"}, {Time: 2000, Kind: sim.EventClosed, Where: "b"}, {Time: 3000, Kind: sim.EventReopened, Where: "a"},
			{Time: 4000, Kind: sim.EventReopened, Where: "b"}, {Time: 6000, Kind: sim.EventClosed, Where: "a"}},
	}
	for i, want := range []float64{0, 2e-3, 1e-3} {
		if got := iceVolumes(r)[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("row %d: %g m³ of ice, want %g", i, got, want)
		}
	}
	if got, want := shutSpans(r), []span{{1000, 4000}, {6000, 7200}}; !slices.Equal(got, want) {
		t.Errorf("shut %v, want %v", got, want)
	}
}

// The picture comes out the same twice, and its words are whole and clear of each other, for two layouts and for eight, for one winter and for many, with margins and
// without.
func TestCompareCharts(t *testing.T) {
	without := comparedWinters()
	without.About.Margins = false
	many := comparedWinters()
	many.About.Winters = nil
	first := many.Outcomes
	many.Outcomes = nil
	for y := range 30 {
		many.About.Winters = append(many.About.Winters, fmt.Sprintf("%d-%02d", 1990+y, (91+y)%100))
		many.Outcomes = append(many.Outcomes, first[2*(y%3):2*(y%3)+2]...)
	}
	wordy := comparedResults(sim.Flooded, sim.Iced, sim.Clear)
	wordy.About.Layouts[0].Title, wordy.About.Layouts[1].Name, wordy.About.Layouts[2].Name = strings.Repeat("long ", 60), strings.Repeat("x", 300), ""
	for name, c := range map[string]*Comparison{
		"wordy": wordy, "two": comparedResults(sim.Flooded, sim.Clear), "no ice": comparedResults(sim.Clear, sim.Clear), "winters": comparedWinters(), "no margins": without, "thirty": many,
		"eight": comparedResults(sim.Flooded, sim.Iced, sim.Clear, sim.Spilled, sim.ShutRelieved, sim.Iced, sim.Clear, sim.Flooded),
	} {
		files := CompareCharts(c, ChartOptions{Width: 600})
		if len(files) != 1 || !bytes.Equal(rendered(t, files[0]), rendered(t, files[0])) {
			t.Errorf("%s: %d pictures, or not the same twice", name, len(files))
		}
		for _, fault := range drawnChart(compareChart(c)).faults() {
			t.Errorf("%s: %s", name, fault)
		}
	}
}
