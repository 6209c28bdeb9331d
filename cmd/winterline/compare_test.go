package main

import (
	"reflect"
	"testing"

	"winterline/pipe"
)

// comparing are the arguments that compare two layouts of a case, through one winter or through several.
func comparing(t *testing.T, many bool) []string {
	t.Helper()
	change := []string{"--set", "deeper: yard run.cover=30 in", "--json"}
	if !many {
		return append([]string{"compare", starterCase(t)}, change...)
	}
	_, args := manyWinters(t)
	args[0] = "compare"
	return append(append(args, change...), "--no-margin")
}

// However many processors there are, the same is printed.
func TestCompareSameForProcessors(t *testing.T) {
	for _, many := range []bool{false, true} {
		sameForProcessors(t, comparing(t, many))
	}
}

// Interrupted in the middle of its work the command ends within a second and leaves nothing.
func TestCompareInterrupted(t *testing.T) {
	interruptedInside(t, "compare", "--set", "yard run.cover=30 in")
}

// A change may have a name, and several parts; a part's value may have the signs that part them, in quotes.
func TestParseSet(t *testing.T) {
	for _, test := range []struct {
		text, name string
		edits      []pipe.Edit // nil: refused
	}{
		{"yard run.cover=30 in", "with yard run.cover = 30 in", []pipe.Edit{{Path: "yard run.cover", Value: "30 in"}}},
		{"deeper: yard run.cover = 30 in ; cost.installed=2400", "deeper", []pipe.Edit{{Path: "yard run.cover", Value: "30 in"}, {Path: "cost.installed", Value: "2400"}}},
		{"pocket=; outlet.weep=", "without pocket and outlet.weep", []pipe.Edit{{Path: "pocket"}, {Path: "outlet.weep"}}},
		{`title="a; b: c"; yard run.insulation=[{ thickness = "2 in" }]`, `with title = a; b: c, yard run.insulation = [{ thickness = "2 in" }]`,
			[]pipe.Edit{{Path: "title", Value: `"a; b: c"`}, {Path: "yard run.insulation", Value: `[{ thickness = "2 in" }]`}}},
		{"", "", nil}, {" ; ", "", nil}, {"=3", "", nil}, {"deeper: ", "", nil}, {"yard run.cover", "", nil},
	} {
		name, edits, err := parseSet(test.text)
		if (err != nil) != (test.edits == nil) || name != test.name || !reflect.DeepEqual(edits, test.edits) {
			t.Errorf("%q: name %q, %+v, %v", test.text, name, edits, err)
		}
	}
}
