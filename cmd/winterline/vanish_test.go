package main

import (
	"errors"
	"io"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"winterline/cmd/winterline/starter"
)

// failing is a folder in which one file fails: it is gone when it is opened, or its disk is before it is read to the end.
type failing struct {
	fs.FS
	name string
	gone bool
}

// errDisk is a disk that is no longer there.
var errDisk = errors.New("input/output error")

func (f failing) Open(name string) (fs.File, error) {
	file, err := f.FS.Open(name)
	if err != nil || name != f.name {
		return file, err
	}
	if f.gone {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return half{file, io.LimitReader(file, 200)}, nil
}

// Stat still sees every file.
func (f failing) Stat(name string) (fs.FileInfo, error) { return fs.Stat(f.FS, name) }

// half is a file of which no more can be read.
type half struct {
	fs.File
	some io.Reader
}

func (h half) Read(p []byte) (int, error) {
	n, err := h.some.Read(p)
	if err == io.EOF {
		err = errDisk
	}
	return n, err
}

// A file that vanishes between being seen and being opened, or while it is read, is told as its own fault; half of it is
// not taken for the whole.
func TestVanishingFile(t *testing.T) {
	whole := fstest.MapFS{}
	for _, name := range []string{"layout.toml", "weather.csv", "pump.csv"} {
		text, err := fs.ReadFile(starter.Files(), name)
		if err != nil {
			t.Fatal(err)
		}
		whole[name] = &fstest.MapFile{Data: text}
	}
	for _, c := range []struct {
		name       string
		gone       bool
		file, want string
	}{
		{"layout.toml", true, "case/layout.toml", "no such file"},
		{"layout.toml", false, "case/layout.toml", "input/output error"},
		{"pump.csv", true, "case/pump.csv", "no such file"},
		{"pump.csv", false, "case/pump.csv", "input/output error"},
		{"weather.csv", true, "case/weather.csv", "a file that cannot be read"},
		{"weather.csv", false, "case/weather.csv", "input/output error"},
	} {
		_, err := loadPlace(&place{files: failing{whole, c.name, c.gone}, dir: "case", name: "case"}, &inputOptions{}, wholeCase()...)
		var refused *inputError
		if !errors.As(err, &refused) || exitCode(err) != exitUsage {
			t.Errorf("%s: got %v", c.name, err)
			continue
		}
		if p := refused.problems[len(refused.problems)-1]; p.File != c.file || !strings.Contains(p.Found, c.want) {
			t.Errorf("%s, gone %v: got %v; want %s: found %s", c.name, c.gone, err, c.file, c.want)
		}
	}
}
