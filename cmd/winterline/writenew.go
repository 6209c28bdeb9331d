package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"winterline/pipe/units"
)

// writeNew writes a file that must not be there yet, whole or not at all: it is built hidden beside its place, flushed
// to disk and moved there. On an error nothing of it is left.
func writeNew(path string, write func(io.Writer) error) (err error) {
	if problems := refuseNew(path); len(problems) > 0 {
		return &inputError{problems: problems}
	}
	folder, name := filepath.Split(path)
	f, err := os.CreateTemp(filepath.Join(folder, "."), "."+name+".new-*")
	if err != nil {
		return problem(path, reason(err), "a new file in a folder that can be written to")
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name()) // the error that matters is told
		}
	}()
	if err := errors.Join(write(f), f.Chmod(0o644), f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// refuseNew says why no new file can be made at a path, before there is anything to write: something is there already,
// or no folder is there to hold it. nil: nothing speaks against it yet.
func refuseNew(path string) units.Problems {
	if _, err := os.Lstat(path); err == nil {
		return units.Problems{{File: path, Found: "a file that is there already", Expected: "a new name: nothing is written over"}}
	}
	if _, err := os.Stat(filepath.Dir(path)); errors.Is(err, fs.ErrNotExist) {
		return units.Problems{{File: path, Found: "no folder to hold it", Expected: "an existing folder above it"}}
	}
	return nil
}
