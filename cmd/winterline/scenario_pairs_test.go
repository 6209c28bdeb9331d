package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// pair is two scenarios of which the first has less of a figure (or the sooner an event), by as much at least.
type pair struct {
	why, less, more string
	figure          string
	by              float64
}

var pairs = []pair{
	{"a relief opening keeps the floor dry that a glued line floods", "relief-takes-over", "glued-line", "floor_l", 100},
	{"snow over the relief sends its water over the rim", "relief-takes-over", "drift-over-relief", "rim_l", 100},
	{"a backup pump helps on a line of its own alone", "backup-own-line", "backup-same-line", "floor_l", 100},
	{"a pocket freezes the elbow in clay, not in sand", "pocket-in-clay", "pocket-in-sand", "closed_h", 48},
	{"a shared downspout freezes a line that survives without", "downspout-joins", "downspout-apart", "closed_h", 48},
	{"a sag freezes where the straight grade survives", "sag", "straight-grade", "first_ice_h", 48},
	{"a sagging line freezes earlier with an open outlet than under a lid", "sag-open-outlet", "sag-under-lid", "run_first_ice_h", 24},
	{"and a tenth of its water too", "sag-open-outlet", "sag-under-lid", "run_ice10_h", 48},
	{"a sag full of water stops the draught", "sag-seals", "sag-open-outlet", "draught_h", 100},
	{"a pool without draught freezes later", "sag-open-outlet", "sag-seals", "run_first_ice_h", 96},
	{"relief water mounds up and ices the relief", "relief-water-runs-off", "relief-water-mounds", "rim_l", 100},
	{"1/8 in/ft in silt holds water after heave, 1/4 in/ft does not", "heave-quarter-inch", "heave-eighth-inch", "after_heave_l", 0.5},
}

// compare holds the two beside each other, and each against what the other expects, which must not fit.
func (p pair) compare(t *testing.T, all []*scenario) {
	less, more := find(t, all, p.less), find(t, all, p.more)
	if less.result == nil || more.result == nil {
		t.Fatal("a scenario of the pair did not run")
	}
	a, b := figures[p.figure](less.result), figures[p.figure](more.result)
	if !(a+p.by <= b) {
		t.Errorf("%s: %s %.4g, %s %.4g; want more by %g", p.figure, p.less, a, p.more, b, p.by)
	}
	if len(less.misses(more.result)) == 0 || len(more.misses(less.result)) == 0 {
		t.Errorf("%s and %s expect what the other does", p.less, p.more)
	}
}

// find is the scenario of a name.
func find(t *testing.T, all []*scenario, name string) *scenario {
	t.Helper()
	i := slices.IndexFunc(all, func(s *scenario) bool { return s.name == name })
	if i < 0 {
		t.Fatalf("no scenario %s", name)
	}
	return all[i]
}

// A layout whose head says "Like X, but:" differs from X by the lines that it lists there, and by no other.
func TestScenarioDifferences(t *testing.T) {
	told := 0
	for _, s := range readScenarios(t) {
		like, stated := statedDifference(s.layout)
		if like == "" {
			continue
		}
		told++
		other, err := os.ReadFile(filepath.Join(scenarioDir, like, "layout.toml"))
		if err != nil {
			t.Error(err)
			continue
		}
		if found := difference(bare(string(other)), bare(s.layout)); !slices.Equal(found, stated) {
			t.Errorf("%s differs from %s by\n%s\nits head says\n%s", s.name, like, strings.Join(found, "\n"), strings.Join(stated, "\n"))
		}
	}
	if told == 0 {
		t.Error("no layout says how it differs from another")
	}
}

// statedDifference reads the head of a layout: the scenario that it is like, and the lines taken out and put in, sorted.
func statedDifference(layout string) (like string, lines []string) {
	for line := range strings.Lines(layout) {
		text, comment := strings.CutPrefix(strings.TrimSpace(line), "#")
		if !comment {
			break
		}
		text = strings.TrimSpace(text)
		if name, ok := strings.CutPrefix(text, "Like "); ok {
			like = strings.TrimSuffix(name, ", but:")
			continue
		}
		if like != "" && text != "" {
			lines = append(lines, text)
		}
	}
	slices.Sort(lines)
	return like, lines
}

// bare are the lines of a layout without comments and blanks.
func bare(layout string) []string {
	var out []string
	for line := range strings.Lines(layout) {
		text, _, _ := strings.Cut(line, "#")
		if text = strings.TrimSpace(text); text != "" {
			out = append(out, text)
		}
	}
	return out
}

// difference are the lines that b lacks of a, with "- " before them, and those that it has more, with "+ ", sorted.
func difference(a, b []string) []string {
	count := map[string]int{}
	for _, line := range a {
		count[line]--
	}
	for _, line := range b {
		count[line]++
	}
	var out []string
	for line, n := range count {
		for ; n < 0; n++ {
			out = append(out, "- "+line)
		}
		for ; n > 0; n-- {
			out = append(out, "+ "+line)
		}
	}
	slices.Sort(out)
	return out
}
