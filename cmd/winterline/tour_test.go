package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// A command of the tour with what the README shows of its output.
type tourStop struct {
	line  string   // the command line
	shown []string // lines of output, and "..." for what is left out
}

// tourStops reads the README's tour: in its blocks, "$ " begins a command.
func tourStops(t *testing.T) (stops []tourStop) {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, begins := strings.Cut(string(text), "\n## A tour: ")
	tour, _, ends := strings.Cut(rest, "\n## ")
	if !begins || !ends {
		t.Fatal("the README has lost its tour")
	}
	for _, block := range regexp.MustCompile("(?s)```\n(.*?)\n```").FindAllStringSubmatch(tour, -1) {
		for _, line := range strings.Split(block[1], "\n") {
			if command, is := strings.CutPrefix(line, "$ "); is {
				stops = append(stops, tourStop{line: command})
			} else if n := len(stops); n > 0 {
				stops[n-1].shown = append(stops[n-1].shown, line)
			}
		}
	}
	return stops
}

// What the README's tour shows is what its commands print today: the same lines in the same order, and nothing between two of
// them that stand side by side. The one command that takes long runs among the long tests.
func TestTourIsCurrent(t *testing.T) {
	stops := tourStops(t)
	t.Chdir(t.TempDir())
	if len(stops) < 5 {
		t.Fatalf("%d commands in the tour", len(stops))
	}
	for _, stop := range stops {
		if stop.line == "winterline why" && os.Getenv("WINTERLINE_LONG") == "" {
			continue
		}
		code, out, complaints := commandLine(t.Context(), words(stop.line)[1:]...)
		if code != exitDone {
			t.Errorf("%s: exit code %d: %s", stop.line, code, complaints)
			continue
		}
		if missing := firstMissing(strings.Split(out, "\n"), stop.shown); missing != "" {
			t.Errorf("%s does not print, where the README has it, %q; it prints\n%s", stop.line, missing, out)
		}
	}
}

// firstMissing is the first line of shown that does not follow in printed; "" if all do.
func firstMissing(printed, shown []string) string {
	at, skips := 0, false
	for _, want := range shown {
		if want == "..." {
			skips = true
			continue
		}
		for skips && at < len(printed) && printed[at] != want {
			at++
		}
		if at >= len(printed) || printed[at] != want {
			return want
		}
		at, skips = at+1, false
	}
	return ""
}

func TestFirstMissing(t *testing.T) {
	printed := []string{"a", "b", "c", "d"}
	for want, shown := range map[string][]string{
		"":  {"a", "...", "c", "d"},
		"c": {"a", "c"},
		"d": {"...", "d", "d"},
		"b": {"b"},
		"a": {"...", "b", "...", "a"},
	} {
		if got := firstMissing(printed, shown); got != want {
			t.Errorf("%q: %q; want %q", shown, got, want)
		}
	}
}
