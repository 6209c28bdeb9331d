package weather

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the .want files anew")

// Each file of testdata/bad-weather is refused with exactly the messages in the .want
// file beside it, all at once.
func TestBadFiles(t *testing.T) {
	files, err := filepath.Glob("../testdata/bad-weather/*")
	if err != nil {
		t.Fatal(err)
	}
	files = slices.DeleteFunc(files, func(path string) bool { return filepath.Ext(path) == ".want" })
	if len(files) < 40 {
		t.Errorf("%d bad files; at least 40 are promised", len(files))
	}
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) {
			f, err := os.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			series, problems := Read(filepath.Base(path), f)
			if series != nil || problems.Err() == nil {
				t.Fatal("the file was taken")
			}
			wantFile := strings.TrimSuffix(path, filepath.Ext(path)) + ".want"
			got := problems.Error() + "\n"
			if *update {
				if err := os.WriteFile(wantFile, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(wantFile)
			if err != nil {
				t.Fatal(err)
			}
			if text := strings.ReplaceAll(string(want), "\r\n", "\n"); got != text {
				t.Errorf("messages:\n%swant:\n%s", got, text)
			}
		})
	}
}
