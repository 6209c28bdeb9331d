package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"winterline/pipe"
)

// talk holds the interview with the answers given, then Enter to the end.
func talk(t *testing.T, answers ...string) (layout string, left int, said string) {
	t.Helper()
	files, err := starterFiles()
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	s := streams{stdin: strings.NewReader(strings.Join(answers, "\n") + "\n"), stdout: &out, asks: true}
	files, left, err = interview(t.Context(), s, files)
	if err != nil {
		t.Fatalf("%v after\n%s", err, out.String())
	}
	return string(files[0].text), left, out.String()
}

// answered holds one answer to each question.
func answered() []string {
	return []string{
		`Our "house"`, "1", "8", "18 in", "12", "5", "y", "1/3", "240", "12",
		"1-1/2 in sch 40 PVC", "10-1/2", "1", "14", "12", "y", "8", "14 in", "n",
		"4 in corrugated", "30", "14", "16", "1", "2", "32", "y", "y", "1", "4", "y", "3",
	}
}

// Answers stand in the layout with their units, and what is answered is no guess.
func TestInterviewAnswers(t *testing.T) {
	text, left, _ := talk(t, answered()...)
	if left != 0 {
		t.Errorf("%d left unknown, want none", left)
	}
	for _, want := range []string{
		`title = "Our \"house\""`, `floor_below_ground = "8 ft"`, `diameter = "18 in"`, `float_on = "12 in"`, `float_off = "5 in"`,
		`check_valve = true`, `curve = "1/3 hp"`, `cycles = "every 240 min for 12 s"`, `rise = "10-1/2 ft"`, `rim = "14 in"`,
		`height = "8 in"`, `faces_house = false`, `pipe = "4 in corrugated"`, `length = "30 ft"`, `cover = ["14 in", "16 in"]`,
		`sag = "1 in"`, `kind = "lid"`, `weep = "unknown"`, `[pocket]`, `soil = "silty clay"`, `surface = "paved"`,
		`snow_on_line = "cleared"`, `wind_exposure = 0.7`,
	} {
		if !strings.Contains(text, "\n"+want+"\n") {
			t.Errorf("the layout lacks %s", want)
		}
	}
	layout, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	for _, g := range layout.Guesses {
		for _, known := range []string{"basin.diameter", "yard run.cover", "relief[0].height", "site.soil"} {
			if g.Key == known {
				t.Errorf("%s was answered and is a guess all the same", g.Key)
			}
		}
	}
}

// Enter leaves all unknown: no invented number stays without being listed or remarked on.
func TestInterviewEnter(t *testing.T) {
	text, left, _ := talk(t)
	if left < 25 {
		t.Errorf("%d left unknown, want all", left)
	}
	layout, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if len(layout.Guesses) < 20 {
		t.Errorf("%d guesses, want every number that nobody gave", len(layout.Guesses))
	}
	if n := strings.Count(text, ours); n != 3 {
		t.Errorf("%d remarks on values that the layout has to have, want 3", n)
	}
	if layout.Water.Every != 0 {
		t.Error("pump cycles were made up")
	}
}

// Metric people are asked in centimetres.
func TestInterviewMetric(t *testing.T) {
	text, _, said := talk(t, "", "2", "2.4", "45")
	for _, want := range []string{`floor_below_ground = "2.4 m"`, `diameter = "45 cm"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the layout lacks %s", want)
		}
	}
	if !strings.Contains(said, "[cm]") || strings.Contains(said, "[in]") {
		t.Error("the questions do not name centimetres alone")
	}
}

// An answer that does not fit is told, and asked for once more.
func TestInterviewWrongAnswers(t *testing.T) {
	text, _, said := talk(t, "", "3", "1", "8 degF", "8", "18")
	for _, want := range []string{`found "3"; expected a number from 1 to 2`, `basin.floor_below_ground: found "8 degF"`} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %s:\n%s", want, said)
		}
	}
	if !strings.Contains(text, `floor_below_ground = "8 ft"`) {
		t.Error("the second answer is not in the layout")
	}
}

// A glued line has no standpipe, and a line without relief no opening.
func TestInterviewGlued(t *testing.T) {
	answers := append(answered()[:12:12], "2", "n")
	text, _, _ := talk(t, answers...)
	layout, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if layout.Standpipe != nil || len(layout.Reliefs) != 0 {
		t.Errorf("standpipe %v and %d relief openings, want none", layout.Standpipe, len(layout.Reliefs))
	}
}

// What the interview makes runs at once, with answers and without.
func TestInterviewRuns(t *testing.T) {
	for name, answers := range map[string][]string{"answered": answered(), "unknown": nil, "glued": {11: "", 12: "2"}} {
		house := filepath.Join(t.TempDir(), "house")
		var out strings.Builder
		s := streams{stdin: strings.NewReader(strings.Join(answers, "\n") + "\n"), stdout: &out, stderr: &out, asks: true}
		if code := execute(t.Context(), s, []string{"new", house}); code != exitDone {
			t.Fatalf("%s: %s", name, out.String())
		}
		if name == "unknown" && !strings.Contains(out.String(), "as unknown; measuring pump timing, soil on top and low spots first usually helps most.") {
			t.Errorf("the closing line is missing:\n%s", out.String())
		}
		if _, err := os.Stat(filepath.Join(house, "pump.csv")); err == nil {
			t.Errorf("%s: another house's pump.csv is in the case", name)
		}
		if code, _, complaints := commandLine(t.Context(), "run", house, "--json"); code != exitDone {
			t.Errorf("%s: %s", name, complaints)
		}
	}
}

// An interrupt ends the questions although nobody presses Enter, and nothing is made.
func TestInterviewInterrupted(t *testing.T) {
	house := filepath.Join(t.TempDir(), "house")
	ctx, cancel := context.WithCancel(t.Context())
	silent, keep := io.Pipe()
	defer keep.Close()
	var out strings.Builder
	cancel()
	code := execute(ctx, streams{stdin: silent, stdout: &out, stderr: &out, asks: true}, []string{"new", house})
	if _, err := os.Stat(house); code != exitFailed || !errors.Is(err, os.ErrNotExist) {
		t.Errorf("exit code %d, folder: %v", code, err)
	}
}

// Every key that the interview forgets stands in the starter as it is.
func TestInventedKeysStand(t *testing.T) {
	files, err := starterFiles()
	if err != nil {
		t.Fatal(err)
	}
	d := newDraft(files[0].text)
	before := len(d.lines)
	for _, s := range invented() {
		for _, k := range s.keys {
			d.set(s.section, k, `"unknown"`)
			if len(d.lines) != before {
				t.Fatalf("%s.%s is not in the starter", s.section, k)
			}
		}
	}
	if d.err != nil {
		t.Error(d.err)
	}
}

func TestDraftSection(t *testing.T) {
	d := newDraft([]byte("a = 1\n\n[t]\n# c\nb = 2\n\n[[segment]]\nname = \"run\"\nb = 3\n"))
	d.set("t", "b", "4")
	d.set("run", "b", "5")
	d.set("t", "new", "6")
	d.leaveOut("t")
	want := "a = 1\n\n# [t]\n# c\n# b = 4\n# new = 6\n\n[[segment]]\nname = \"run\"\nb = 5\n"
	if got := string(d.text()); got != want || d.err != nil {
		t.Errorf("got\n%s\nwant\n%s (%v)", got, want, d.err)
	}
	if d.set("nowhere", "b", "7"); d.err == nil {
		t.Error("a section that is not there was changed without complaint")
	}
}
