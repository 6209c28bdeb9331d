package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"winterline/cmd/winterline/starter"
)

// newOptions are the choices of `winterline new`.
type newOptions struct {
	streams
	dir string
}

func newNewCmd(s streams) *cobra.Command {
	o := &newOptions{streams: s}
	return &cobra.Command{
		Use:   "new DIR",
		Short: "Make a commented case that runs at once, to put your own numbers in",
		Long: `New makes the folder DIR with a commented layout.toml, twelve invented winter days of
weather and invented pump cycles. It runs as it is. On a terminal it asks a few questions
first and puts the answers in; Enter leaves one unknown. A folder with anything in it is
left alone.`,
		Example: `  winterline new my-house`,
		Args:    arguments(1, 1, "one, the folder to make"),
		RunE: func(c *cobra.Command, args []string) error {
			o.dir = args[0]
			return runNew(c.Context(), o)
		},
	}
}

func runNew(ctx context.Context, o *newOptions) error {
	if err := emptyOrNew(o.dir); err != nil {
		return err
	}
	files, err := starterFiles()
	if err != nil {
		return err
	}
	left := -1 // questions left unknown; -1: none were asked
	if o.asks {
		if files, left, err = interview(ctx, o.streams, files); err != nil {
			return err
		}
	}
	if err := writeCase(o.dir, files); err != nil {
		return err
	}
	tellNew(o, files, left)
	return nil
}

// caseFile is one file of a case.
type caseFile struct {
	name string
	text []byte
}

// starterFiles are the starter's files, layout first.
func starterFiles() ([]caseFile, error) {
	var files []caseFile
	for _, name := range []string{"layout.toml", "weather.csv", "pump.csv"} {
		text, err := fs.ReadFile(starter.Files(), name)
		if err != nil {
			return nil, err
		}
		files = append(files, caseFile{name, text})
	}
	return files, nil
}

// emptyOrNew refuses a folder that holds anything.
func emptyOrNew(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return problem(dir, reason(err), "a new or an empty folder")
	case len(entries) > 0:
		return problem(dir, "a folder with "+entries[0].Name()+" in it", "a new or an empty folder")
	}
	return nil
}

// writeCase writes the files; if one cannot be written, none stays.
func writeCase(dir string, files []caseFile) (err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return problem(dir, reason(err), "a folder that can be made")
	}
	var written []string
	defer func() {
		if err == nil {
			return
		}
		for _, path := range written {
			err = errors.Join(err, os.Remove(path))
		}
	}()
	for _, f := range files {
		path := filepath.Join(dir, f.name)
		if err := writeNew(path, func(w io.Writer) error { _, err := w.Write(f.text); return err }); err != nil {
			return err
		}
		written = append(written, path)
	}
	return nil
}

// tellNew says what was made and what to do with it.
func tellNew(o *newOptions, files []caseFile, left int) {
	dir := typed(o.dir)
	fmt.Fprintf(o.stdout, "Made %s:\n", dir)
	what := map[string]string{
		"layout.toml": "the line; put your own numbers in, each with its unit, or \"unknown\"",
		"weather.csv": "twelve INVENTED days; put a record of your own place in its stead",
		"pump.csv":    "INVENTED pump cycles; put your own in, or delete it and use [water] cycles",
	}
	for _, f := range files {
		fmt.Fprintf(o.stdout, "  %-12s %s\n", f.name, what[f.name])
	}
	if left > 0 {
		fmt.Fprintf(o.stdout, "You left %d as unknown; measuring pump timing, soil on top and low spots first usually helps most.\n", left)
	}
	fmt.Fprintf(o.stdout, "Next: winterline run %s\n", dir)
}
