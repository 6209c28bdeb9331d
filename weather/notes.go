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
