package report

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"winterline/sim"
	"winterline/weather"
)

var update = flag.Bool("update", false, "write the golden files instead of comparing")

// golden compares got with testdata/name.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// A checkout on Windows may have turned the line ends.
	if want = bytes.ReplaceAll(want, []byte("\r\n"), []byte("\n")); !bytes.Equal(got, want) {
		t.Errorf("%s differs:\n--- got\n%s--- want\n%s", name, got, want)
	}
}

var allStates = []sim.State{sim.Clear, sim.Iced, sim.ShutRelieved, sim.Spilled, sim.Flooded}

func screenOptions(s System) Options {
	return Options{System: s, Case: "./my-house", Weather: "station.csv", Results: "./my-house/results",
		Next: "winterline check ./my-house"}
}

func screen(t *testing.T, r *sim.Result, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Screen(&b, r, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestScreenGolden(t *testing.T) {
	for _, state := range allStates {
		r := plain(state)
		r.Invented = state == sim.ShutRelieved
		golden(t, "screen-"+state.String()+"-us.txt", []byte(screen(t, r, screenOptions(US))))
	}
	golden(t, "screen-shut-relieved-si.txt", []byte(screen(t, plain(sim.ShutRelieved), screenOptions(SI))))
	golden(t, "screen-glued-flooded-us.txt", []byte(screen(t, sample(sampleSpec{sim.Flooded, 3, 60}), screenOptions(US))))
}

func TestScreenWidthAndCaution(t *testing.T) {
	for _, state := range allStates {
		text := screen(t, plain(state), screenOptions(US))
		for _, line := range strings.Split(text, "\n") {
			if n := utf8.RuneCountInString(line); n > 100 {
				t.Errorf("%v: line of %d columns: %s", state, n, line)
			}
		}
		if joined := strings.Join(strings.Fields(text), " "); !strings.Contains(joined, caution) {
			t.Errorf("%v: the caution is not whole", state)
		}
	}
}

// Turns of phrase that the golden texts do not meet.
func TestScreenWording(t *testing.T) {
	for _, c := range []struct {
		name   string
		state  sim.State
		change func(*sim.Result)
		want   []string
		never  []string
	}{
		{"still shut", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.Reopened = nil },
			[]string{"and was still shut when the record ended", "still shut at the end of the record"}, []string{"opened for good"}},
		{"shut twice", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.Reopened, r.Verdict.ShutFor = nil, 2*86400 },
			[]string{"froze shut for 2 days in all and was still shut"}, nil},
		{"one run", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.ReliefRuns, r.Verdict.ShutFor = 1, 86400 },
			[]string{"Relief ran   1 time, first", "froze shut for 24 hours"}, []string{"1 times"}},
		{"two days", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.ShutFor = 2 * 86400 }, []string{"for 2 days"}, nil},
		{"snow over the relief", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.ReliefMargin = ptr(-0.0508) },
			[]string{"under snow by 2 in"}, []string{"to spare"}},
		{"no snow record", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.ReliefMargin, r.Verdict.HighestSnow = nil, nil },
			[]string{"no snow record: taken as free of snow, which is the unsafe side"}, []string{"to spare"}},
		{"slush comes no sooner", sim.ShutRelieved, func(r *sim.Result) { r.Verdict.ClosedDendritic = r.Verdict.Closed },
			nil, []string{"Could shut"}},
		{"relief beside the house", sim.Spilled, func(r *sim.Result) { r.Ledger.Relief, r.Ledger.Rim = r.Ledger.Relief+r.Ledger.Rim, 0 },
			[]string{"the relief opening let 1,125 gal (4,258 L) go beside the house"}, []string{"went over"}},
		{"flooded though open", sim.Flooded, func(r *sim.Result) { r.Verdict.Closed = nil },
			[]string{"THE BASEMENT GOT WET.", "the line never froze shut", "The cause lies elsewhere"}, []string{"froze shut for"}},
		{"no basin", sim.ShutRelieved, func(r *sim.Result) { r.Layout.Basin, r.Cycles[9].Refused = nil, 0.1 },
			[]string{"THE LINE DID NOT TAKE ALL THE WATER. 26 gal stayed in the basement.", "4,309 gal pumped"}, []string{"STAYED DRY", "on the basement floor"}},
		{"many guesses", sim.Clear, func(r *sim.Result) { r.Layout.Guesses = append(r.Layout.Guesses, r.Layout.Guesses...) },
			[]string{"8 inputs are guesses", "and 4 more"}, nil},
		{"one guess", sim.Clear, func(r *sim.Result) { r.Layout.Guesses = r.Layout.Guesses[:1] }, []string{"1 input is a guess: how wet the soil is (site.soil_moisture)"}, nil},
		{"warning", sim.Clear, func(r *sim.Result) { r.Warnings = []sim.Warning{{Kind: "x", Sentence: "A typical year."}} },
			[]string{"Mind         A typical year."}, nil},
	} {
		r := plain(c.state)
		c.change(r)
		text := screen(t, r, screenOptions(US))
		joined := strings.Join(strings.Fields(text), " ")
		for _, want := range c.want {
			if !strings.Contains(joined, strings.Join(strings.Fields(want), " ")) {
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

// No verdict on a line that shut says that it worked.
func TestShutLineNeverWorked(t *testing.T) {
	for _, state := range []sim.State{sim.ShutRelieved, sim.Spilled, sim.Flooded} {
		for _, segments := range []int{3, 5} {
			if state == sim.ShutRelieved && segments == 3 {
				continue // a glued line has nothing to relieve it
			}
			text := headline(sample(sampleSpec{state, segments, 60}), US)
			if !strings.Contains(text, "froze shut") {
				t.Errorf("%v: %s", state, text)
			}
			for _, word := range []string{"work", "never froze", "stayed open"} {
				if strings.Contains(text, word) {
					t.Errorf("%v: %q in %s", state, word, text)
				}
			}
		}
	}
}

// What was bridged is told column by column: an hour without wind is not an hour without
// weather.
func TestBridgedWords(t *testing.T) {
	type columns = []weather.BridgedColumn
	for want, b := range map[string]weather.Bridged{
		"no hours missing":       {Others: true},
		"1 missing hour bridged": {Rows: 1, Columns: columns{{Name: "air temperature", Hours: 1}}, Others: true},
		"bridged: air temperature 5 h, wind 7 h, the rest 4 h":         {Rows: 4, Columns: columns{{Name: "air temperature", Hours: 5}, {Name: "wind", Hours: 6.5}}, Others: true},
		"bridged: air temperature 2 h":                                 {Columns: columns{{Name: "air temperature", Hours: 2}}, Others: true},
		"no air temperature missing; bridged: wind 3 h, rain 13,735 h": {Columns: columns{{Name: "wind", Hours: 3}, {Name: "rain", Hours: 13735}}},
		"bridged: air temperature 4 h, wind 7 h":                       {Rows: 4, Columns: columns{{Name: "air temperature", Hours: 4}, {Name: "wind", Hours: 7}}},
	} {
		o := screenOptions(US)
		o.Bridged = b
		text := strings.Join(strings.Fields(screen(t, plain(sim.Clear), o)), " ")
		if !strings.Contains(text, "Weather: station.csv ("+want+")") {
			t.Errorf("want %q, got\n%s", want, text)
		}
	}
}

func TestCautionIsWhole(t *testing.T) {
	for _, element := range []string{
		"simulation", "not an inspection or a promise", "stay out of it", "pump, cord and panel", "power is off",
		"flame", "makes ice where people walk, drive or climb steps", "run back to the house", "sanitary sewer",
		"under pressure", "cut or unscrew", "listed for the pipe", "GFCI", "Local codes and licensed practice come first",
		"utilities marked before digging",
	} {
		if !strings.Contains(caution, element) {
			t.Errorf("the caution does not speak of %q", element)
		}
	}
}
