package report

import (
	"os"
	"regexp"
	"testing"
)

// The package's handbook names no file that is gone.
func TestHandbookNamesFiles(t *testing.T) {
	text, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	names := regexp.MustCompile(`\w+\.go\b`).FindAllString(string(text), -1)
	if len(names) < 30 {
		t.Errorf("only %d files are named", len(names))
	}
	for _, name := range names {
		if _, err := os.Stat(name); err != nil {
			t.Errorf("%s is named, but is not there", name)
		}
	}
}
