package report

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func textFile(name, text string) File {
	return File{name, func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}}
}

func ours() File { return textFile(SummaryName, `{"schema": "`+runSchema+`"}`) }

// tree lists a folder with the text of its files, hidden ones too.
func tree(t *testing.T, dir string) string {
	t.Helper()
	var lines []string
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		if !d.IsDir() {
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			name += "=" + string(text)
		}
		lines = append(lines, filepath.ToSlash(name))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(lines)
	return strings.Join(lines[1:], "\n") // without the folder itself
}

// writeFolder writes a folder that nobody interrupts.
func writeFolder(dir string, files []File) error {
	return WriteFolderContext(context.Background(), dir, files)
}

func TestWriteFolder(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "results")
	if err := writeFolder(dir, []File{ours(), textFile("old.csv", "1")}); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(dir, []File{ours(), textFile("new.csv", "2")}); err != nil {
		t.Fatal(err)
	}
	want := "results\nresults/new.csv=2\nresults/summary.json={\"schema\": \"" + runSchema + "\"}"
	if got := tree(t, parent); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Nothing that is not ours is touched, and the error says what is in the way.
func TestForeignFolderIsLeftAlone(t *testing.T) {
	for name, c := range map[string]struct {
		make  func(dir string) error
		found string
	}{
		"other files": {func(dir string) error {
			return errors.Join(os.Mkdir(dir, 0o755), os.WriteFile(filepath.Join(dir, "photos.txt"), []byte("x"), 0o644))
		}, "a folder without a summary.json"},
		"other summary": {func(dir string) error {
			return errors.Join(os.Mkdir(dir, 0o755), os.WriteFile(filepath.Join(dir, SummaryName), []byte(`{"schema": "bank/1"}`), 0o644))
		}, "a folder whose summary.json is not ours"},
		"broken summary": {func(dir string) error {
			return errors.Join(os.Mkdir(dir, 0o755), os.WriteFile(filepath.Join(dir, SummaryName), []byte(`{`), 0o644))
		}, "a folder whose summary.json is not ours"},
		"a file": {func(dir string) error { return os.WriteFile(dir, []byte("x"), 0o644) }, "a file"},
	} {
		parent := t.TempDir()
		dir := filepath.Join(parent, "results")
		if err := c.make(dir); err != nil {
			t.Fatal(err)
		}
		before := tree(t, parent)
		err := writeFolder(dir, []File{ours()})
		var refused *FolderError
		if !errors.As(err, &refused) || refused.Found != c.found || !strings.HasPrefix(err.Error(), dir+": found ") {
			t.Errorf("%s: got %v", name, err)
		}
		if after := tree(t, parent); after != before {
			t.Errorf("%s: was\n%s\nis\n%s", name, before, after)
		}
	}
}

// A write that fails, or stops half way, leaves what was there and nothing else.
func TestFailedWriteLeavesNothing(t *testing.T) {
	full := errors.New("disk full")
	ctx, cancel := context.WithCancel(context.Background())
	for name, files := range map[string][]File{
		"failing file": {ours(), {"b.csv", func(w io.Writer) error { io.WriteString(w, "half"); return full }}},
		"stopped":      {ours(), {"b.csv", func(io.Writer) error { cancel(); return nil }}, textFile("c.csv", "")},
		"same name":    {ours(), ours()},
		"path in name": {ours(), textFile(filepath.Join("..", "escape.csv"), "x")},
		"dot":          {ours(), textFile("..", "x")},
	} {
		for _, existing := range []bool{false, true} {
			parent := t.TempDir()
			dir := filepath.Join(parent, "results")
			if existing {
				if err := writeFolder(dir, []File{ours(), textFile("old.csv", "1")}); err != nil {
					t.Fatal(err)
				}
			}
			before := "nothing"
			if existing {
				before = tree(t, dir)
			}
			err := WriteFolderContext(ctx, dir, files)
			if err == nil {
				t.Errorf("%s: no error", name)
			}
			if name == "failing file" && ctx.Err() == nil && !errors.Is(err, full) {
				t.Errorf("%s: got %v", name, err)
			}
			if existing && tree(t, dir) != before {
				t.Errorf("%s: old results are\n%s", name, tree(t, dir))
			}
			entries, _ := os.ReadDir(parent)
			if want := map[bool]int{false: 0, true: 1}[existing]; len(entries) != want {
				t.Errorf("%s: %v left behind", name, entries)
			}
			if ctx.Err() != nil {
				ctx, cancel = context.WithCancel(context.Background())
			}
		}
	}
	cancel()
}

// If the last move fails, the old results come back.
func TestFailedMoveRestores(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "results")
	if err := writeFolder(dir, []File{ours(), textFile("old.csv", "1")}); err != nil {
		t.Fatal(err)
	}
	before := tree(t, parent)
	held := errors.New("held by another program")
	defer func() { rename = os.Rename }()
	rename = func(from, to string) error {
		if strings.Contains(from, newMark) {
			return held
		}
		return os.Rename(from, to)
	}
	if err := writeFolder(dir, []File{ours()}); !errors.Is(err, held) {
		t.Errorf("got %v", err)
	}
	if after := tree(t, parent); after != before {
		t.Errorf("was\n%s\nis\n%s", before, after)
	}
}

func TestMissingParent(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "no", "results")
	var refused *FolderError
	if err := writeFolder(dir, []File{ours()}); !errors.As(err, &refused) || refused.Found != "no folder to hold it" {
		t.Errorf("got %v", err)
	}
}

// A link to results is followed: the link stays a link.
func TestLinkedFolder(t *testing.T) {
	parent := t.TempDir()
	dir, link := filepath.Join(parent, "kept"), filepath.Join(parent, "results")
	if err := writeFolder(dir, []File{ours()}); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(dir, link); err != nil {
		t.Skip("no symbolic links here:", err)
	}
	if err := writeFolder(link, []File{ours(), textFile("new.csv", "2")}); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v %v", info, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "new.csv")); err != nil {
		t.Error(err)
	}
}
