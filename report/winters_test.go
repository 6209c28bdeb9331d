package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim/answers"
)

// sampleWinters are three invented winters: one without ice, one shut and spilled that a little warmth would have saved
// and one too close to call.
func sampleWinters() *answers.WintersAnswer {
	start := time.Date(2001, 9, 20, 0, 0, 0, 0, time.UTC)
	hour := func(h float64) *float64 { s := h * 3600; return &s }
	margin := func(open, dry float64, beyond bool) *answers.Margin {
		return &answers.Margin{Open: answers.Bound{K: open, Monotone: true}, Dry: answers.Bound{K: dry, Beyond: beyond, Monotone: true}}
	}
	return &answers.WintersAnswer{
		About: answers.WintersAbout{Version: "1", Margins: true, Winters: []string{"2001-02", "2002-03", "2003-04"}, Layouts: []answers.LayoutAbout{{Name: "house", Title: "Fennel Row", Cost: &pipe.Cost{ServiceCall: 400, FloodedBasement: 12000}}},
			LeftOut: []answers.LeftOut{{Winter: "2000-01", Days: 30.5, Why: answers.WhyWeather}, {Winter: "2004-05", Days: 300, Why: answers.WhyWater}}, Spans: 2},
		Outcomes: []answers.WinterOutcome{
			{Winter: "2001-02", Start: start, State: "clear", Lowest: -12, LowestAt: start, DegreeDays: 300, Frost: 0.4, Pumped: 10, Outlet: 10, Snow: "measured", Margin: margin(8, 25, true)},
			{Winter: "2002-03", Start: start.AddDate(1, 0, 0), State: "spilled", FirstIce: hour(2000), Shut: hour(2400.5), Spill: hour(2403), Lowest: -30, LowestAt: start.AddDate(1, 4, 0),
				DegreeDays: 1500, Frost: 1.2, IceFor: 3600 * 900, ShutFor: 86400 * 18, StillShut: true, ReliefRuns: 12, ReliefFor: 540,
				Pumped: 10, Outlet: 5, Relief: 4, Rim: 1, Snow: "measured", Margin: margin(-7.5, -3, false)},
			{Winter: "2003-04", Start: start.AddDate(2, 0, 0), State: "iced", FirstIce: hour(1900), Lowest: -20, LowestAt: start, DegreeDays: 800, Frost: 0.9,
				IceFor: 3600, Pumped: 10, Outlet: 10, Snow: "none", Margin: margin(1.9, 6, false)},
		},
	}
}

// The table has a row a winter, with every column explained and its figures in SI.
func TestWintersTable(t *testing.T) {
	var text bytes.Buffer
	if err := WintersTable(sampleWinters()).Write(&text); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&text).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	hard := map[string]string{}
	for i, c := range winterColumns {
		if c.Meaning == "" || rows[0][i] != c.Name {
			t.Errorf("column %d: %q, meaning %q", i, rows[0][i], c.Meaning)
		}
		hard[c.Name] = rows[2][i]
	}
	for name, want := range map[string]string{
		"case": "house", "winter": "2002-03", "state": "spilled", "coldest_c": "-30.0", "frost_m": "1.200", "first_ice": "2002-12-12 08:00", "shut": "2002-12-29 00:30",
		"floor": "", "ice_h": "900.00", "shut_h": "432.00", "still_shut": "1", "relief_runs": "12", "relief_h": "0.15", "relief_l": "4000.000", "rim_l": "1000.000",
		"margin_open_k": "-7.5", "margin_dry_k": "-3.0",
	} {
		if hard[name] != want {
			t.Errorf("%s: %q, want %q", name, hard[name], want)
		}
	}
}

// The screen counts, names what was left out, and has a line for every winter; no line is wider than the screen.
func TestWintersScreen(t *testing.T) {
	var text bytes.Buffer
	if err := WintersScreen(&text, sampleWinters(), Options{Weather: "many.csv", Results: "./out"}); err != nil {
		t.Fatal(err)
	}
	got := text.String()
	for _, want := range []string{
		"THE BASEMENT STAYED DRY IN 3 OF 3 WINTERS. The line froze shut in 1 of 3 winters; a relief\nopening ran in 1; water came out beside the house in 1.\n",
		"How often    the line freezes shut: 1 of 3 winters, so 33 in 100 (2 to 86)\n             water beside the house or on the floor: 1 of 3 winters, so 33 in 100 (2 to 86)\n" +
			"             expected cost a year, service calls and flooded basements: 133 (7 to 7,925), in\n             the layout's currency\n",
		"Weather      3 winters, 2001-02 to 2003-04    many.csv    2 spans between long gaps\n",
		"Left out     2000-01: the record lacks some of November to March\n             2004-05: the log of pump or inflow lacks some of December to February\n",
		"         coldest  frost  outcome  shut for  relief     by house  open to  dry to\n" +
			"2001-02  10 °F    16 in  no ice   -         -          -         +14 °F   >45 °F\n" +
			"2002-03  -22 °F   47 in  spilled  18 days   1,057 gal  264 gal   -14 °F   -5 °F\n" +
			"2003-04  -4 °F    35 in  ice      -         -          -         close    +11 °F\n",
		"No snow depth in the weather", "Results      ./out\n", caution[:40],
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not on the screen:\n%s", want, got)
		}
	}
	for _, line := range strings.Split(got, "\n") {
		if len([]rune(line)) > screenWidth {
			t.Errorf("%d columns: %s", len([]rune(line)), line)
		}
	}
}

// What an answer without margins, ice and left-out winters has to say is there as null or empty, never missing.
func TestWintersSummaryKeys(t *testing.T) {
	a := sampleWinters()
	a.About.Margins = false
	for i := range a.Outcomes {
		a.Outcomes[i].Margin = nil
	}
	a.About.LeftOut = nil
	var text bytes.Buffer
	if err := SummarizeWinters(a).Encode(&text); err != nil {
		t.Fatal(err)
	}
	var back map[string]any
	if err := json.Unmarshal(text.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"left_out": []`, `"margin": null`, `"closed": null`, `"shut": 1`, `"closed_h": 432`, `"rim": 1000`, `"guesses": []`, `"time": "2002-12-29 00:30"`,
		`"basis": "no-margins"`, `"period_winters": null`, `"yearly_loss": {`} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("%s is not in %s", want, &text)
		}
	}
}
