package report

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// A program that is killed outright leaves hidden folders beside the results: one that was being built, or earlier
// results that had stepped aside for new ones. The next run puts earlier results back where nothing took their place,
// and removes the rest.

// What stands in the names of hidden folders between the name of the results and a number. They name the program, so
// that no folder of anybody else's is taken for one of them.
const (
	newMark = ".winterline-new-"
	oldMark = ".winterline-old-" // the results stand in it under their own name
)

// hiddenName is how the names of a target's hidden folders of one kind begin.
func hiddenName(target, mark string) string { return "." + filepath.Base(target) + mark }

// leftFor is how much older than a folder made just now a hidden folder has to be to count as left behind. A younger one
// may be another run's, which is still writing: that takes seconds.
const leftFor = time.Hour

// putBack moves earlier results that had stepped aside back to target, if there is nothing in their place. Should another
// run be about to put its own there, that one fails and says so; no results are lost. What cannot be put back stays
// where it is.
func putBack(target string) {
	if _, err := os.Lstat(target); !errors.Is(err, fs.ErrNotExist) {
		return
	}
	name := filepath.Base(target)
	for _, aside := range hiddenBeside(target, oldMark) {
		old := filepath.Join(aside.path, name)
		if mayReplace(old, old) != nil {
			continue // not ours
		}
		if rename(old, target) == nil {
			_ = os.Remove(aside.path) // an empty folder that stays is removed another day
			return
		}
	}
}

// removeLeft removes the hidden folders beside target that a killed program left behind, as measured by the clock of the
// disk: from the time at which the folder building was made. What cannot be removed stays.
func removeLeft(building, target string) {
	now, err := os.Stat(building)
	if err != nil {
		return
	}
	for _, left := range slices.Concat(hiddenBeside(target, newMark), hiddenBeside(target, oldMark)) {
		if now.ModTime().Sub(left.changed) > leftFor {
			_ = os.RemoveAll(left.path)
		}
	}
}

// hidden is a hidden folder of ours.
type hidden struct {
	path    string
	changed time.Time
}

// hiddenBeside are the hidden folders that makeBeside and moveIntoPlace make for a target, the youngest first.
func hiddenBeside(target, mark string) (found []hidden) {
	parent := filepath.Dir(target)
	entries, err := os.ReadDir(parent)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		number, ours := strings.CutPrefix(e.Name(), hiddenName(target, mark))
		info, err := e.Info()
		if ours && err == nil && e.IsDir() && number != "" && strings.Trim(number, "0123456789") == "" {
			found = append(found, hidden{filepath.Join(parent, e.Name()), info.ModTime()})
		}
	}
	slices.SortFunc(found, func(a, b hidden) int { return b.changed.Compare(a.changed) })
	return found
}
