package weather

import (
	"fmt"
	"slices"
	"strings"
)

// NoteGroup is a note that holds for one or several files of a record.
type NoteGroup struct {
	Note      // of the first file
	Files int // how many files it holds for
}

// GroupNotes returns the notes that are warnings, or those that are not, in order; what is
// said of several files is there once.
func GroupNotes(notes []Note, warnings bool) (groups []NoteGroup) {
	for _, n := range notes {
		if n.Warning != warnings {
			continue
		}
		same := func(g NoteGroup) bool { return g.About == n.About && g.Text == n.Text && g.File != n.File }
		if i := slices.IndexFunc(groups, same); i >= 0 {
			groups[i].Files++
		} else {
			groups = append(groups, NoteGroup{n, 1})
		}
	}
	return groups
}

// Words gives the note as the user reads it. source is the record's own: a note on all of
// the only file does not name it.
func (g NoteGroup) Words(source string) string {
	n := g.Note
	switch {
	case g.Files > 1:
		n.File += fmt.Sprintf(" and %d more", g.Files-1)
	case n.File == source && n.Line == 0:
		n.File = ""
	}
	return strings.TrimPrefix(n.String(), ": ")
}

// Note is something that a reader assumed or noticed: a clock, a unit, a version of a
// format. It changes no value by itself.
type Note struct {
	File     string // as the user named it
	Line     int    // 1-based; 0: the file as a whole
	About    string // "clock", "unit", "format" or a quantity's word
	Text     string // a sentence without its full stop: "times taken as local standard time"
	Evidence string // what in the file speaks for it; "": nothing does
	Warning  bool   // the answer would change if it were wrong
}

// String gives a note as the user reads it.
func (n Note) String() string {
	where := n.File
	if n.Line > 0 {
		where = fmt.Sprintf("%s:%d", n.File, n.Line)
	}
	text := fmt.Sprintf("%s: %s: %s", where, n.About, n.Text)
	if n.Evidence != "" {
		text += " (" + n.Evidence + ")"
	}
	return text
}
