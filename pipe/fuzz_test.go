package pipe

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// FuzzReadLayout holds that no text makes the reader panic, and that a text is either a layout
// whose profile can be asked anywhere, or has located problems.
func FuzzReadLayout(f *testing.F) {
	for _, pattern := range []string{"testdata/*.toml", "../testdata/bad-layout/*.toml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text, "segment[0].length", "2 ft")
		}
	}
	f.Add([]byte("[[segment]]\nname = \"a\"\n"), "a.insulation[0].thickness", "2 in")
	f.Add([]byte("a = 1\na.b = 2\n[a]\n[[a]]\n"), "site[0][1].x", "{a = [1")
	f.Fuzz(func(t *testing.T, text []byte, path, value string) {
		l, ps := ReadLayoutWith("fuzz.toml", text, []Edit{{path, value}})
		if (l == nil) != (len(ps) > 0) {
			t.Fatalf("layout %v beside problems %v", l, ps)
		}
		for _, p := range ps {
			if p.File == "" || p.Found == "" || p.Expected == "" || p.Line > bytes.Count(text, []byte("\n"))+1 {
				t.Fatalf("problem not located: %+v", p)
			}
		}
		if l == nil {
			return
		}
		profile, ps := l.MakeProfile("fuzz.toml")
		if profile == nil {
			if len(ps) == 0 {
				t.Fatal("no profile and no problem")
			}
			return
		}
		for i := range l.Segments {
			for _, s := range []float64{0, 0.5, 1} {
				if c := profile.CoverAt(i, s); c != c {
					t.Fatalf("cover of segment %d at %g is no number", i, s)
				}
			}
		}
		Practice(l, profile)
	})
}
