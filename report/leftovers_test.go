package report

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// earlier makes earlier results at a path, of which old.csv holds a text.
func earlier(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(path, []File{ours(), textFile("old.csv", text)}); err != nil {
		t.Fatal(err)
	}
}

// aged makes a folder seem to have been left a time ago.
func aged(t *testing.T, path string, ago time.Duration) {
	t.Helper()
	then := time.Now().Add(-ago)
	if err := os.Chtimes(path, then, then); err != nil {
		t.Fatal(err)
	}
}

// Results that had stepped aside when the program was killed are back before the next run simulates: if that one is
// given up, they stand as if nothing had happened. Of several the youngest come back.
func TestKilledBetweenMoves(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "results")
	older, younger := filepath.Join(parent, ".results.winterline-old-11"), filepath.Join(parent, ".results.winterline-old-12")
	earlier(t, filepath.Join(older, "results"), "of the year before")
	earlier(t, filepath.Join(younger, "results"), "the last ones")
	aged(t, older, 2*leftFor)
	if err := MayReplace(dir); err != nil {
		t.Fatal(err)
	}
	want := "results\nresults/old.csv=the last ones\nresults/summary.json={\"schema\": \"" + runSchema + "\"}"
	if got := tree(t, parent); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A folder that was half built, and results whose place was taken, are removed once they have lain for an hour; what
// another run may be writing is left alone, and so is what only looks alike.
func TestLeftFoldersAreRemoved(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "results")
	earlier(t, dir, "here")
	kept := tree(t, parent)
	for _, left := range []string{".results.winterline-new-1", ".results.winterline-old-2"} {
		earlier(t, filepath.Join(parent, left, "results"), "left")
		aged(t, filepath.Join(parent, left), leftFor+time.Minute)
	}
	if err := writeFolder(dir, []File{ours(), textFile("old.csv", "here")}); err != nil {
		t.Fatal(err)
	}
	if got := tree(t, parent); got != kept {
		t.Errorf("got\n%s\nwant\n%s", got, kept)
	}
	for name, ago := range map[string]time.Duration{".results.winterline-new-3": leftFor / 2, ".results.winterline-old-4": leftFor / 2, ".results.winterline-old-notes": 2 * leftFor, ".results-2.winterline-old-5": 2 * leftFor, ".results.old-2025": 2 * leftFor} {
		if err := os.Mkdir(filepath.Join(parent, name), 0o755); err != nil {
			t.Fatal(err)
		}
		aged(t, filepath.Join(parent, name), ago)
	}
	kept = tree(t, parent)
	if err := MayReplace(dir); err != nil {
		t.Fatal(err)
	}
	if got := tree(t, parent); got != kept {
		t.Errorf("got\n%s\nwant\n%s", got, kept)
	}
}

// What stepped aside and is not ours is not put in the place of results; nor does it keep new ones from being written.
func TestForeignFolderAsideStays(t *testing.T) {
	parent := t.TempDir()
	photos := filepath.Join(parent, ".results.winterline-old-7", "results")
	if err := errors.Join(os.MkdirAll(photos, 0o755), os.WriteFile(filepath.Join(photos, "photos.txt"), []byte("x"), 0o644)); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(parent, "results")
	if err := writeFolder(dir, []File{ours()}); err != nil {
		t.Fatal(err)
	}
	want := ".results.winterline-old-7\n.results.winterline-old-7/results\n.results.winterline-old-7/results/photos.txt=x\nresults\nresults/summary.json={\"schema\": \"" + runSchema + "\"}"
	if got := tree(t, parent); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
