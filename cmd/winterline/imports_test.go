package main

import (
	"errors"
	"go/build"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// arrows says which of our packages each one may import. A new package is put here on
// purpose, with as few arrows as it can do with: cmd → report → sim → {weather, pipe},
// and pure relations, units and statistics import nothing of ours.
var arrows = map[string][]string{
	"cmd/winterline":         {"cmd/winterline/demo", "cmd/winterline/starter", "report", "sim", "sim/answers", "sim/verify", "weather", "pipe", "pipe/units"},
	"cmd/winterline/demo":    {},
	"cmd/winterline/starter": {},
	"report":                 {"sim", "sim/answers", "sim/verify", "weather", "weather/chance", "pipe", "pipe/units"},
	"sim":                    {"sim/heat", "sim/flow", "weather", "pipe", "pipe/units"},
	"sim/answers":            {"sim", "weather", "weather/chance", "pipe", "pipe/units"},
	"sim/verify":             {"sim", "sim/heat", "sim/flow", "weather", "pipe", "pipe/units", "weather/chance"},
	"sim/heat":               {},
	"sim/flow":               {},
	"weather":                {"weather/chance", "pipe/units"},
	"pipe":                   {"pipe/units"},
	"pipe/units":             {},
	"weather/chance":         {},
}

func TestImportArrows(t *testing.T) {
	const root = "../.."
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		if name := entry.Name(); name == "testdata" || len(name) > 2 && strings.HasPrefix(name, ".") {
			return filepath.SkipDir
		}
		found, err := build.ImportDir(path, 0)
		var none *build.NoGoError
		if errors.As(err, &none) {
			return nil
		}
		if err != nil {
			return err
		}
		name, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		allowed, known := arrows[name]
		if !known {
			t.Errorf("package %s is not among the arrows", name)
		}
		seen[name] = true
		for _, imported := range found.Imports {
			ours, ok := strings.CutPrefix(imported, "winterline/")
			if ok && !slices.Contains(allowed, ours) {
				t.Errorf("%s imports %s", name, ours)
			}
			if imported == "net" || strings.HasPrefix(imported, "net/") || imported == "os/exec" || imported == "plugin" {
				t.Errorf("%s imports %s: the program uses no network and starts no other", name, imported)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for name := range arrows {
		if !seen[name] {
			t.Errorf("package %s is among the arrows and does not exist", name)
		}
	}
}
