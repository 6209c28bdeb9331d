package weather

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"winterline/pipe/units"
)

// maxFiles is how many files one record may be joined from: fifty years of months.
const maxFiles = 1000

// File is a weather file to be read.
type File struct {
	Name string // as the user would name it
	Open func() (io.ReadCloser, error)
}

// Files finds the files that paths name: files as they are, and of folders every file in
// them, in alphabetical order. Names that begin with a point are left out.
func Files(paths []string) (files []File, problems units.Problems) {
	for _, path := range paths {
		info, err := os.Stat(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			problems = append(problems, units.Problem{File: path, Found: "no such file", Expected: "a weather record"})
		case err != nil:
			problems = append(problems, units.Problem{File: path, Found: "a place that cannot be read", Expected: "a weather record"})
		case info.IsDir():
			inside, empty := FilesIn(os.DirFS(path), filepath.ToSlash(path))
			files, problems = append(files, inside...), append(problems, empty...)
		default:
			files = append(files, File{Name: path, Open: func() (io.ReadCloser, error) { return os.Open(path) }})
		}
	}
	return files, problems
}

// FilesIn finds the files in a folder, which the user would name as shown.
func FilesIn(folder fs.FS, shown string) (files []File, problems units.Problems) {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return nil, units.Problems{{File: shown, Found: "a folder that cannot be read", Expected: "a folder of weather files"}}
	}
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		files = append(files, File{Name: strings.TrimSuffix(shown, "/") + "/" + e.Name(), Open: func() (io.ReadCloser, error) { return folder.Open(e.Name()) }})
	}
	if len(files) == 0 {
		return nil, units.Problems{{File: shown, Found: "an empty folder", Expected: "weather files in it"}}
	}
	return files, nil
}
