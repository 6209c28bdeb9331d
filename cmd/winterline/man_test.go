package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// Every command has its page, with what its help says and its examples; written twice, both are the same.
func TestManual(t *testing.T) {
	first, second := filepath.Join(t.TempDir(), "a", "man1"), t.TempDir()
	for _, dir := range []string{first, second} {
		if code, _, complaints := commandLine(t.Context(), "man", dir); code != exitDone {
			t.Fatal(complaints)
		}
	}
	pages := 0
	var visit func(c *cobra.Command)
	visit = func(c *cobra.Command) {
		if c.Name() == "help" {
			return
		}
		name := strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1"
		page, err := os.ReadFile(filepath.Join(first, name))
		if err != nil {
			t.Error(err)
			return
		}
		pages++
		again, err := os.ReadFile(filepath.Join(second, name))
		if err != nil || !bytes.Equal(page, again) {
			t.Errorf("%s differs from call to call: %v", name, err)
		}
		if text := strings.ReplaceAll(string(page), `\-`, "-"); !strings.Contains(text, c.Short) || c.Example != "" && !strings.Contains(text, ".SH EXAMPLE") {
			t.Errorf("%s does not say what its help does", name)
		}
		for _, below := range c.Commands() {
			visit(below)
		}
	}
	visit(newRootCmd(streams{}))
	if entries, err := os.ReadDir(first); err != nil || pages < 12 || len(entries) < pages {
		t.Errorf("%d pages of %d files, %v", pages, len(entries), err)
	}
}
