package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"winterline/report"
)

// sagCase is the scenario sag as a case of its own, its layout changed by replacing texts that it has exactly once.
func sagCase(t *testing.T, replace ...string) (house string) {
	t.Helper()
	house = filepath.Join(t.TempDir(), "house")
	if err := os.Mkdir(house, 0o755); err != nil {
		t.Fatal(err)
	}
	for to, from := range map[string]string{"layout.toml": "sag/layout.toml", "weather.csv": "weather/hard-week.csv"} {
		text, err := os.ReadFile(filepath.Join("../../testdata/scenario", from))
		if err != nil {
			t.Fatal(err)
		}
		if to == "layout.toml" {
			text = []byte(replaced(t, string(text), replace))
		}
		if err := os.WriteFile(filepath.Join(house, to), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return house
}

func replaced(t *testing.T, text string, replace []string) string {
	t.Helper()
	for i := 0; i < len(replace); i += 2 {
		if n := strings.Count(text, replace[i]); n != 1 {
			t.Fatalf("%q stands in the layout %d times", replace[i], n)
		}
		text = strings.Replace(text, replace[i], replace[i+1], 1)
	}
	return text
}

// printed is the JSON that a command prints.
func printed[S any](t *testing.T, args ...string) (out S) {
	t.Helper()
	code, text, complaints := commandLine(t.Context(), append(args, "--json")...)
	if code != exitDone {
		t.Fatal(complaints)
	}
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// The changes that why ranks highest, written into the layout by hand, make of the winter what it said, to the last digit.
func TestWhyByHand(t *testing.T) {
	why := printed[report.WhySummary](t, "why", sagCase(t))
	for _, c := range []struct {
		key     string
		replace []string
	}{
		{"snow", []string{`snow_on_line = "cleared"`, `snow_on_line = "natural"`}},
		{"sag/yard run", []string{"\nsag = \"7 cm\"", "\nsag = \"0 in\""}},
		{"relief-height/300 mm", []string{`height = "20 cm"`, `height = "30 cm"`}},
	} {
		var said *report.SummaryRemedy
		for i, x := range why.Remedies.Singles {
			if x.Changes[0].Key == c.key {
				said = &why.Remedies.Singles[i]
			}
		}
		if said == nil {
			t.Fatalf("%s is not among the changes", c.key)
		}
		run := printed[report.Summary](t, "run", sagCase(t, c.replace...))
		if run.Verdict.State != said.State || *run.Margin.OpenK != *orElse(said.OpenK, run.Margin.OpenK) || *run.Margin.DryK != *orElse(said.DryK, run.Margin.DryK) ||
			*run.Ledger.Relief != *said.Relief || *run.Ledger.Floor != *said.Floor || (run.Verdict.Closed == nil) != (*said.Shut == 0) {
			t.Errorf("%s: by hand %s, %+v, %+v; said %+v", c.key, run.Verdict.State, run.Margin, run.Ledger, said)
		}
	}
	if why.Remedies.Singles[0].Changes[0].Key != "snow" || why.Remedies.Singles[0].OpenK == nil {
		t.Errorf("the best is %+v", why.Remedies.Singles[0])
	}
}

// orElse is a margin, or where it was not looked for the other one.
func orElse(margin, other *float64) *float64 {
	if margin == nil {
		return other
	}
	return margin
}

// What the owner saw over two days from the simulation is told before all else, with the guess that mends it and what to
// measure; what agrees comes after.
func TestWhySeen(t *testing.T) {
	house := sagCase(t, `soil_moisture = "12 %"`, `soil_moisture = "unknown"`, `cover = "30 cm"`, `cover = "unknown"`,
		"[water]", "[[seen]]\ntime = \"2026-01-12 20:00\"\nwhat = \"shut\"\n\n[[seen]]\ntime = \"2026-01-09 08:00\"\nwhat = \"relief\"\n\n[water]")
	code, text, complaints := commandLine(t.Context(), "why", house)
	if code != exitDone {
		t.Fatal(complaints)
	}
	plain := strings.Join(strings.Fields(text), " ")
	at := 0
	for _, want := range []string{"WHAT YOU SAW AND THE SIMULATION DO NOT AGREE", "You saw the line frozen shut Mon Jan 12 20:00", "With ", "Measure ", "WHY IT FROZE SHUT",
		"Soil on top of the yard run (yard run.cover), taken as 8 in (20 cm), decides the verdict: at 18 in (46 cm)", "Measure soil on top of the pipe: probe", "You saw the relief opening running", "Shut 1", "ONE CHANGE"} {
		next := strings.Index(plain[at:], want)
		if next < 0 {
			t.Fatalf("no %q behind %q in\n%s", want, plain[:at], text)
		}
		at += next
	}
}

// run says which guesses decide, unless it is told not to look.
func TestRunTellsWhatDecides(t *testing.T) {
	house := sagCase(t, `cover = "30 cm"`, `cover = "unknown"`)
	run := printed[report.Summary](t, "run", house)
	if len(run.Guesses) != 1 || run.Guesses[0].Changes == nil || !*run.Guesses[0].Changes || *run.Guesses[0].Low != "shut-relieved" || *run.Guesses[0].High != "iced" {
		t.Errorf("%+v", run.Guesses)
	}
	run = printed[report.Summary](t, "run", house, "--no-margin")
	if run.Guesses[0].Changes != nil || run.Guesses[0].Low != nil {
		t.Errorf("--no-margin: %+v", run.Guesses)
	}
}

// Interrupted in the middle of its work the command ends within a second and leaves nothing.
func TestWhyInterrupted(t *testing.T) {
	house := sagCase(t)
	ctx, cancel := context.WithTimeout(t.Context(), 300*time.Millisecond)
	defer cancel()
	code, out, _ := commandLine(ctx, "why", house)
	late := time.Now()
	if deadline, _ := ctx.Deadline(); late.Sub(deadline) > time.Second {
		t.Errorf("ended %v after it was told to", late.Sub(deadline))
	}
	if code != exitFailed || out != "" {
		t.Errorf("exit code %d, printed %q", code, out)
	}
	if entries, err := os.ReadDir(house); err != nil || len(entries) != 2 {
		t.Errorf("%d files in the case, %v; want its own two", len(entries), err)
	}
}
