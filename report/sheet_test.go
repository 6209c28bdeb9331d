package report

import (
	"bytes"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// everyScreen prints what the commands print, in a window of the given width.
func everyScreen(t *testing.T, window int) map[string]string {
	t.Helper()
	o := screenOptions(US)
	o.Window = window
	weatherOptions := WeatherOptions{Window: window}
	found := &Checked{Files: []string{"layout.toml"}, Guesses: plain(sim.Clear).Layout.Guesses, Findings: kindsOf(pipe.FindingSag, pipe.FindingNoWeep)}
	screens := map[string]func(io.Writer) error{
		"why":       func(w io.Writer) error { return WhyScreen(w, whySample(), o, true) },
		"why brief": func(w io.Writer) error { return WhyBrief(w, whySample(), o) },
		"ground":    func(w io.Writer) error { return GroundScreen(w, oneWinter(), o) },
		"weather":   func(w io.Writer) error { return WeatherScreen(w, weather.DigestOf(snapRecord()), weatherOptions) },
		"check":     func(w io.Writer) error { return CheckScreen(w, found, o) },
		"size": func(w io.Writer) error {
			return SizeScreen(w, sizedFor(10, 10, true, map[float64]float64{0: -4, 10: 2, 20: 6, 30: 25}), o)
		},
		"alternative": func(w io.Writer) error {
			return Alternatives(w, []Alternative{{"seldom", "every 24 h for 45 s", plain(sim.Flooded)}}, o)
		},
	}
	for _, state := range allStates {
		screens["run "+state.String()] = func(w io.Writer) error { return Screen(w, plain(state), o) }
	}
	texts := map[string]string{}
	for name, print := range screens {
		var out bytes.Buffer
		if err := print(&out); err != nil {
			t.Fatal(name, err)
		}
		texts[name] = out.String()
	}
	return texts
}

// No line is wider than its window, every row of a table stays one line even in the narrowest, and nothing is lost.
func TestScreensFitTheirWindow(t *testing.T) {
	usual := everyScreen(t, 0)
	for name, least := range map[string]int{"weather": 12, "ground": 12, "size": 3, "run spilled": 6} {
		if rows := tableRows(usual[name]); len(rows) < least {
			t.Errorf("%s has %d rows of tables; want %d at least: %q", name, len(rows), least, rows)
		}
	}
	for _, window := range []int{60, 72, 80, 100} {
		for name, text := range everyScreen(t, window) {
			for _, line := range strings.Split(text, "\n") {
				if n := utf8.RuneCountInString(line); n > window {
					t.Errorf("%s in %d columns: %d: %s", name, window, n, line)
				}
			}
			if name != "why" && strings.Join(strings.Fields(text), " ") != strings.Join(strings.Fields(usual[name]), " ") {
				t.Errorf("%s in %d columns has other words than usual:\n%s", name, window, text)
			}
			for _, row := range tableRows(usual[name]) {
				if name != "why" && !strings.Contains(text, row) {
					t.Errorf("%s in %d columns: the row %q is broken in\n%s", name, window, row, text)
				}
			}
		}
	}
}

// tableRows are the rows of tables in a text, without what stands before them.
func tableRows(text string) (rows []string) {
	for _, line := range strings.Split(text, "\n") {
		if len(line) <= labelWidth || strings.TrimSpace(line[:labelWidth]) != "" {
			continue
		}
		if row := strings.TrimSpace(line); isRow(row) && !strings.Contains(row, "    Weather") {
			rows = append(rows, row)
		}
	}
	return rows
}

// A window that says nothing gets the usual width, a very narrow or a very wide one no less or more than can be read.
func TestColumns(t *testing.T) {
	for window, want := range map[int]int{0: 92, 1: 60, 60: 60, 77: 77, 100: 100, 250: 100} {
		if got := columns(window); got != want {
			t.Errorf("a window of %d: %d columns; want %d", window, got, want)
		}
	}
}

// A number is never parted from its unit.
func TestNumbersStayWithTheirUnits(t *testing.T) {
	text := "It lost 0.9 BTU/h (0.3 W) at -12 °F (-24 °C), 1,324 gal in 3 days"
	for width := 12; width < 60; width++ {
		for _, line := range wrap(text, width) {
			if words := strings.Fields(line); isNumber(words[len(words)-1]) {
				t.Errorf("%d columns: %q ends in a number", width, line)
			}
		}
	}
	if isNumber("-") || isNumber("12:04") || isNumber("2.") || !isNumber("(-0.5") {
		t.Error("what is a number and what is not")
	}
}
