package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// What a shell is handed: folders that hold a case with their titles, segments of the case named, words with what they mean.
func TestCompletion(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{"my-house", filepath.Join("street", "number-3")} {
		if code, _, complaints := commandLine(t.Context(), "new", dir); code != exitDone {
			t.Fatal(complaints)
		}
	}
	for _, dir := range []string{"music", "street/number-4"} {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		line  []string
		want  []string
		never []string
	}{
		{[]string{"run", "m"}, []string{"my-house\tMy house\n", ":4\n"}, []string{"music"}},
		{[]string{"compare", "my-house", "m"}, []string{"my-house\tMy house\n"}, nil},
		{[]string{"winters", "street/"}, []string{"street/number-3\tMy house\n"}, []string{"number-4"}},
		{[]string{"why", "str"}, []string{":16\n"}, []string{"street\t"}}, // folders: the shell goes on
		{[]string{"run", "--units", ""}, []string{"us\tinches, gallons, °F\n", "si\tmetres, litres, °C\n"}, nil},
		{[]string{"run", "--charts", ""}, []string{"png\t", "svg\t", "none\t"}, nil},
		{[]string{"run", "--fail-on", ""}, []string{"shut\t", "spill\t", "flood\t"}, nil},
		{[]string{"size", "my-house", "--vary", ""}, []string{"insulation\t", "pocket\t"}, nil},
		{[]string{"size", "my-house", "--segment", ""}, []string{"yard run\tburied\n", "wall stub\tthrough-wall\n"}, nil},
		{[]string{"size", "nowhere", "--segment", ""}, []string{":4\n"}, []string{"yard"}},
		{[]string{"run", "--layout", ""}, []string{"toml\n", ":8\n"}, nil},
	} {
		_, out, _ := commandLine(t.Context(), append([]string{cobra.ShellCompRequestCmd}, c.line...)...)
		for _, want := range c.want {
			if !strings.Contains(out, want) {
				t.Errorf("%q: no %q in %q", c.line, want, out)
			}
		}
		for _, never := range c.never {
			if strings.Contains(out, never) {
				t.Errorf("%q: %q in %q", c.line, never, out)
			}
		}
	}
}

// Each shell gets a script that completes.
func TestCompletionScripts(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		if code, out, complaints := commandLine(t.Context(), "completion", shell); code != exitDone || !strings.Contains(out, cobra.ShellCompRequestCmd) {
			t.Errorf("%s: exit code %d, %s", shell, code, complaints)
		}
	}
}
