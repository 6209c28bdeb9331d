package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe"
)

// completeInputs gives commands what a shell completes for them: folders of cases where they take a CASE, and files or
// folders where a flag names one. A command that completes its arguments itself is left as it is.
func completeInputs(commands ...*cobra.Command) {
	for _, c := range commands {
		if c.ValidArgsFunction == nil && strings.Contains(c.Use, "CASE") {
			c.ValidArgsFunction = completeCases
		}
		for flag, endings := range map[string][]string{"layout": {"toml"}, "pump": {"csv"}, "inflow": {"csv"}} {
			if c.Flags().Lookup(flag) != nil {
				_ = c.MarkFlagFilename(flag, endings...) // the flag is there
			}
		}
		if c.Flags().Lookup("segment") != nil {
			_ = c.RegisterFlagCompletionFunc("segment", completeSegments) // likewise
		}
	}
}

// completeCases completes folders that hold a case, each with its title. Where none begins so, the shell goes on with
// folders of any kind: a case may lie below.
func completeCases(_ *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	found := casesBeside(begun)
	if len(found) == 0 {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return found, cobra.ShellCompDirectiveNoFileComp
}

// casesBeside are the cases among the folders whose path begins as typed.
func casesBeside(begun string) (found []cobra.Completion) {
	dir, name := filepath.Split(begun)
	entries, err := os.ReadDir(cleanOr(dir, "."))
	if err != nil {
		return nil
	}
	for _, e := range entries {
		path := dir + e.Name()
		if strings.HasPrefix(e.Name(), name) && isCase(path) {
			found = append(found, cobra.CompletionWithDesc(path, caseTitle(os.DirFS(path))))
		}
	}
	return found
}

func cleanOr(dir, empty string) string {
	if dir == "" {
		return empty
	}
	return filepath.Clean(dir)
}

// caseTitle is the title that a case's layout has; "a case" where it has none.
func caseTitle(files fs.FS) string {
	if layout := layoutOf(files); layout != nil && layout.Title != "" {
		return strings.Join(strings.Fields(layout.Title), " ")
	}
	return "a case"
}

// layoutOf reads a case's layout as far as it can be read; nil where it cannot.
func layoutOf(files fs.FS) *pipe.Layout {
	text, err := readBounded("layout.toml", files.Open, pipe.MaxLayout)
	if err != nil {
		return nil
	}
	layout, _ := pipe.ReadLayout("layout.toml", text) // its faults are told when it is run
	return layout
}

// completeSegments completes the names of the segments of the case that the line names so far.
func completeSegments(_ *cobra.Command, args []string, _ string) (found []cobra.Completion, _ cobra.ShellCompDirective) {
	p, err := findPlace(strings.Join(args, ""), &inputOptions{})
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	if layout := layoutOf(p.files); layout != nil {
		for _, s := range layout.Segments {
			found = append(found, cobra.CompletionWithDesc(s.Name, s.Setting.String()))
		}
	}
	return found, cobra.ShellCompDirectiveNoFileComp
}
