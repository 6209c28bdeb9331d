package pipe

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestBadLayouts reads each layout of ../testdata/bad-layout and compares every message with the
// file of the same name that ends in .want. Set WINTERLINE_UPDATE=1 to rewrite them for review.
func TestBadLayouts(t *testing.T) {
	files, err := filepath.Glob("../testdata/bad-layout/*.toml")
	if err != nil || len(files) < 30 {
		t.Fatalf("bad layouts not found: %d, %v", len(files), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".toml")
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			l, ps := ReadLayout("layout.toml", text)
			if len(ps) == 0 {
				_, ps = l.MakeProfile("layout.toml")
			}
			got := ps.Error() + "\n"
			wantFile := strings.TrimSuffix(file, ".toml") + ".want"
			if os.Getenv("WINTERLINE_UPDATE") != "" {
				if err := os.WriteFile(wantFile, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(wantFile)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got\n%swant\n%s", got, want)
			}
		})
	}
}

// A title is shown on screens and pages: letters of any script, but nothing that a terminal obeys.
func TestTitlesPrint(t *testing.T) {
	for title, ok := range map[string]bool{
		strings.Repeat("ü", 200): true, strings.Repeat("ü", 201): false, `Haus\u00a0am Bach`: true,
		`red \u001b[31m`: false, `turned \u202e round`: false, `two\nlines`: false,
	} {
		text := "title = \"" + title + "\"\n[[segment]]\nlength = \"1 m\"\ndrop = \"0 m\"\nsetting = \"indoor\"\n[outlet]\nkind = \"open\"\n"
		if l, ps := ReadLayout("layout.toml", []byte(text)); (l != nil) != ok {
			t.Errorf("%q: %v", title, ps)
		}
	}
}
