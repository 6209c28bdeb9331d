package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeNew writes a file that must not be there yet, whole or not at all: it is built hidden beside its place, flushed
// to disk and moved there. On an error nothing of it is left.
func writeNew(path string, write func(io.Writer) error) (err error) {
	folder, name := filepath.Split(path)
	if _, err := os.Lstat(path); err == nil {
		return problem(path, reason(fs.ErrExist), "a new file in a folder that can be written to")
	}
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
