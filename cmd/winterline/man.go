package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// newManCmd makes the command that writes the manual.
func newManCmd(s streams) *cobra.Command {
	return &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual, a page for every command",
		Long: `Man writes a manual page for every command into the folder DIR, which it makes where it is
not there yet; pages of the same names are written anew. On Unix "man DIR/winterline-run.1"
shows one; in a folder man1 below one of those that manpath names, man finds them by name.

` + exitWords,
		Example: `  winterline man manual/man1`,
		Args:    arguments(1, 1, "one, the folder for the pages"),
		RunE:    func(c *cobra.Command, args []string) error { return runMan(c.Root(), s, args[0]) },
	}
}

// runMan writes a page for a command and for all below it. The pages carry version and month of the program, not of the
// day on which they are written: the same program gives the same bytes.
func runMan(root *cobra.Command, s streams, dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return problem(dir, reason(err), "a folder that can be made")
	}
	released := time.Date(releaseYear, releaseMonth, 1, 0, 0, 0, 0, time.UTC)
	root.DisableAutoGenTag = true
	header := &doc.GenManHeader{Section: "1", Date: &released, Source: "winterline " + version, Manual: "Winterline manual"}
	if err := doc.GenManTree(root, header, dir); err != nil {
		return problem(dir, reason(err), "a folder that can be written to")
	}
	pages, err := filepath.Glob(filepath.Join(dir, "winterline*.1"))
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.stdout, "%d pages in %s\n", len(pages), typed(dir))
	return err
}
