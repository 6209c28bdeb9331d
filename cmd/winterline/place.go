package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"winterline/cmd/winterline/demo"
)

// place is where the files of a case lie: a folder, or the built-in demonstration.
type place struct {
	files   fs.FS
	dir     string // as the user named it; "" for the current folder
	name    string // of the case, as results carry it
	results string // default folder for results, as the user would type it
	demo    bool
}

// findPlace decides which case is meant: the folder named, else the current folder if it
// holds a layout (or --layout names one), else the demonstration.
func findPlace(dir string, o *inputOptions) (*place, error) {
	if dir != "" {
		return folderPlace(dir)
	}
	if _, err := os.Stat("layout.toml"); err == nil || o.layout != "" {
		return folderPlace("")
	}
	for _, flag := range []struct{ name, value string }{{"weather", o.weather}, {"pump", o.pump}, {"inflow", o.inflow}} {
		if flag.value != "" {
			return nil, usage("--%s: found no layout.toml in this folder; expected a CASE folder, or --layout FILE: the demonstration takes no other house's files", flag.name)
		}
	}
	return demonstration(), nil
}

// demonstration is the place of the built-in house.
func demonstration() *place {
	return &place{files: demo.Files(), name: "the built-in demonstration", results: "./winterline-demo", demo: true}
}

func folderPlace(dir string) (*place, error) {
	at := dir
	if at == "" {
		at = "."
	}
	info, err := os.Stat(at)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, problem(dir, "no such folder", "the folder of a case, with layout.toml in it; winterline new DIR makes one")
	case err != nil:
		return nil, problem(dir, reason(err), "the folder of a case")
	case !info.IsDir():
		return nil, problem(dir, "a file", "the folder of a case; --layout, --weather, --pump and --inflow name single files")
	}
	whole, err := filepath.Abs(at)
	if err != nil {
		return nil, err
	}
	return &place{files: os.DirFS(at), dir: dir, name: filepath.Base(whole), results: typed(filepath.Join(at, "results"))}, nil
}

// typed gives a path as a user would type it: what is below the current folder starts with ./
func typed(path string) string {
	path = filepath.ToSlash(filepath.Clean(path))
	if path == "." || filepath.IsAbs(path) || strings.HasPrefix(path, "..") {
		return path
	}
	return "./" + path
}

// shown is a file of the case as the user would name it.
func (p *place) shown(file string) string { return filepath.ToSlash(filepath.Join(p.dir, file)) }

// has says whether the case holds the file.
func (p *place) has(file string) bool {
	info, err := fs.Stat(p.files, file)
	return err == nil && !info.IsDir()
}

// weatherNames are the names of what the case has that is called weather, such as
// weather.csv, weather.csv.gz or a folder weather, in alphabetical order. weather.csv.bak
// and weather.csv~ are not among them.
func (p *place) weatherNames() []string {
	entries, err := fs.ReadDir(p.files, ".")
	if err != nil {
		return nil // the layout of a folder that cannot be listed is a problem already
	}
	var names []string
	for _, e := range entries {
		name := strings.TrimSuffix(e.Name(), ".gz")
		ending := filepath.Ext(name)
		isFile := strings.TrimSuffix(name, ending) == "weather" && len(ending) > 1 && !strings.HasSuffix(ending, "~")
		if e.IsDir() && e.Name() == "weather" || !e.IsDir() && isFile {
			names = append(names, e.Name())
		}
	}
	return names
}

// spoken is the case as the user named it, for the screen; "" where results say it better.
func (p *place) spoken() string {
	if p.demo {
		return ""
	}
	return typed(p.dir)
}

// next is the command to type after another on the same case, and on a second line what it is good for.
func (p *place) next(command, use string) string {
	if p.demo {
		return "winterline new my-house\n(a case of your own, for your numbers)"
	}
	return strings.TrimSpace("winterline "+command+" "+p.typedDir()) + "\n(" + use + ")"
}

// typedDir is the CASE argument; "" for the current folder.
func (p *place) typedDir() string {
	if p.dir == "" {
		return ""
	}
	return typed(p.dir)
}

// isCase says whether a path is the folder of a case.
func isCase(path string) bool {
	_, err := os.Stat(filepath.Join(path, "layout.toml"))
	return err == nil
}
