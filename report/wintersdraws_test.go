package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"winterline/sim/answers"
)

// drawnWinters are the sample winters with four draws: the mild winter shuts the line in one of them and the hard one in all, where
// it wets the floor in two.
func drawnWinters() *answers.WintersAnswer {
	a := sampleWinters()
	a.About.Draws, a.About.Seed = 4, 7
	usual := 0.4
	a.About.Layouts[0].Drawn = []answers.Drawn{
		{Quantity: "wind_exposure", Key: "site.wind_exposure", Low: 0.2, High: 0.7, Usual: &usual, Source: "common practice, no source"},
		{Quantity: "spread_area", Key: "outlet.spread_area", Low: 0.5, High: 10, Log: true},
		{Quantity: "spread_area", Key: "relief[0].spread_area", Low: 0.5, High: 10, Log: true},
	}
	at := 3600.0
	for draw := range 4 {
		for winter, name := range a.About.Winters {
			o := answers.DrawnOutcome{Winter: name, Draw: draw + 1}
			if winter == 1 || winter == 2 && draw == 0 {
				o.Shut = &at
			}
			if winter == 1 && draw < 2 {
				o.Floor = &at
			}
			a.Drawn = append(a.Drawn, o)
		}
	}
	return a
}

// The screen says how likely and of what was drawn, each quantity once; the table has a column with the draws.
func TestDrawsOnScreen(t *testing.T) {
	var out bytes.Buffer
	if err := WintersScreen(&out, drawnWinters(), Options{}); err != nil {
		t.Fatal(err)
	}
	words := strings.Join(strings.Fields(out.String()), " ")
	for _, want := range []string{
		"How likely the line freezes shut in about 42 in 100 winters (", "water beside the house or on the floor in about 17 in 100 winters (",
		"every winter was simulated 4 times more, with other values for wind at the pipe and the ground over which water spreads", "drawn shut", "0 of 4", "4 of 4", "1 of 4",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %s", want, &out)
		}
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len([]rune(line)) > screenWidth {
			t.Errorf("%d columns: %s", len([]rune(line)), line)
		}
	}
	out.Reset()
	if err := WintersScreen(&out, sampleWinters(), Options{}); err != nil || strings.Contains(out.String(), "rawn") {
		t.Errorf("nothing was drawn, and the screen says %s", &out)
	}
}

// Every quantity that may be drawn has its words.
func TestDrawnNames(t *testing.T) {
	for _, quantity := range answers.DrawnQuantities() {
		if drawnNames[quantity] == "" {
			t.Errorf("%s has no words", quantity)
		}
	}
}

// The summary has the draws of a layout and of each winter, the table its counts.
func TestDrawsInFiles(t *testing.T) {
	var text bytes.Buffer
	if err := SummarizeWinters(drawnWinters()).Encode(&text); err != nil {
		t.Fatal(err)
	}
	var back WintersSummary
	if err := json.Unmarshal(text.Bytes(), &back); err != nil {
		t.Fatal(err)
	}
	d := back.Layouts[0].Draws
	if d == nil || d.Draws != 4 || d.Seed != 7 || len(d.Quantities) != 3 || *d.Shut.Chance.Best != 0.416667 || *d.Floor.Chance.Best != 0.166667 || !strings.HasPrefix(d.Wet.Words, "about 17 in 100") {
		t.Errorf("%+v", d)
	}
	if w := back.Layouts[0].Winters[1].Drawn; w == nil || *w != (SummaryDrawnWinter{4, 2, 2}) {
		t.Errorf("%+v", w)
	}
	for _, want := range []string{`"usual": null`, `"by_logarithm": true`, `"key": "relief[0].spread_area"`} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("no %s in %s", want, &text)
		}
	}
	text.Reset()
	if err := WintersTable(drawnWinters()).Write(&text); err != nil {
		t.Fatal(err)
	}
	for i, end := range []string{"drawn_shut,drawn_wet,drawn_floor", ",0,0,0", ",4,2,2", ",1,0,0"} {
		if line := strings.Split(text.String(), "\n")[i]; !strings.HasSuffix(strings.TrimSpace(line), end) {
			t.Errorf("line %d: %s; want it to end in %s", i, line, end)
		}
	}
	text.Reset()
	if err := SummarizeWinters(sampleWinters()).Encode(&text); err != nil || !strings.Contains(text.String(), `"draws": null`) || !strings.Contains(text.String(), `"drawn": null`) {
		t.Errorf("nothing was drawn: %s", &text)
	}
}
