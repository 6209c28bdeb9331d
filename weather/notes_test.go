package weather

import "testing"

// What is said of several files is there once; warnings and the rest are apart, in the order in which they were given.
func TestGroupNotes(t *testing.T) {
	clock := Note{File: "a.csv", About: "clock", Text: "times taken as local standard time"}
	doubt := Note{File: "a.csv", Line: 7, About: "wind", Text: "no wind for a week", Warning: true}
	again := clock
	again.File = "b.csv"
	twice := clock // of the same file: another note
	groups := GroupNotes([]Note{clock, doubt, again, twice}, false)
	if len(groups) != 2 || groups[0].Note != clock || groups[0].Files != 2 || groups[1].Files != 1 {
		t.Errorf("notes: %+v", groups)
	}
	if groups := GroupNotes([]Note{clock, doubt, again}, true); len(groups) != 1 || groups[0].Note != doubt {
		t.Errorf("warnings: %+v", groups)
	}
}

// A note on all of the only file does not name it, one on a line does, and one on several says of how many.
func TestNoteWords(t *testing.T) {
	whole := Note{File: "a.csv", About: "clock", Text: "times taken as local standard time", Evidence: "the sun rises at 8"}
	line := whole
	line.Line, line.Evidence = 7, ""
	for _, c := range []struct {
		group        NoteGroup
		source, want string
	}{
		{NoteGroup{whole, 1}, "a.csv", "clock: times taken as local standard time (the sun rises at 8)"},
		{NoteGroup{whole, 1}, "folder", "a.csv: clock: times taken as local standard time (the sun rises at 8)"},
		{NoteGroup{whole, 3}, "a.csv", "a.csv and 2 more: clock: times taken as local standard time (the sun rises at 8)"},
		{NoteGroup{line, 1}, "a.csv", "a.csv:7: clock: times taken as local standard time"},
	} {
		if got := c.group.Words(c.source); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
