package main

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"winterline/report"
)

const readme = "../../README.md"

// The README lists the columns of every table as the tables declare them. Set
// WINTERLINE_UPDATE=1 to write them anew.
func TestReadmeColumns(t *testing.T) {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok1 := strings.Cut(string(text), "WINTERLINE_UPDATE=1 -->\n")
	columns, after, ok2 := strings.Cut(rest, "<!-- end of columns -->")
	if !ok1 || !ok2 {
		t.Fatal("the README has lost the marks round its columns")
	}
	want := columnTables()
	if columns == want {
		return
	}
	if os.Getenv("WINTERLINE_UPDATE") == "" {
		t.Fatal("the README's columns are not those of the tables; set WINTERLINE_UPDATE=1 to write them anew")
	}
	text = []byte(before + "WINTERLINE_UPDATE=1 -->\n" + want + "<!-- end of columns -->" + after)
	if err := os.WriteFile(readme, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

func columnTables() string {
	var out strings.Builder
	for _, table := range report.TableList() {
		fmt.Fprintf(&out, "\n**%s**\n\n| column | unit | meaning |\n|---|---|---|\n", table.File)
		for _, c := range table.Columns {
			fmt.Fprintf(&out, "| `%s` | %s | %s |\n", c.Name, c.Unit, c.Meaning)
		}
	}
	return out.String() + "\n"
}

// The README names every command, every flag, and every file that commands write.
func TestReadmeIsComplete(t *testing.T) {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	page := string(text)
	want := func(words string) {
		if !strings.Contains(page, words) {
			t.Errorf("the README does not name %s", words)
		}
	}
	for _, c := range newRootCmd(streams{}).Commands() {
		if c.Name() == "help" || c.Name() == "completion" {
			continue
		}
		want("`winterline " + strings.ReplaceAll(c.Use, "|", `\|`)) // a table's cells end at a plain one
		flags(c, func(f *pflag.Flag) { want("--" + f.Name) })
	}
	house := starterCase(t)
	for _, c := range []struct{ command, results, options string }{{"run", "results", "--quiet"}, {"ground", "results-ground", "--quiet"},
		{"weather", "results-weather", "--quiet"}, {"size", "results-size", "--vary=cover"},
		{"why", "results-why", "--quiet"}, {"compare", "results-compare", "--set=yard run.cover=30 in"}} {
		if code, _, complaints := commandLine(t.Context(), c.command, c.options, house); code != exitDone {
			t.Fatal(complaints)
		}
		entries, err := os.ReadDir(filepath.Join(house, c.results))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			want("`" + e.Name() + "`")
		}
	}
}

// developers is the page for those who carry the program on.
const developers = "../../DEVELOPERS.md"

// Every file that the page for developers and this package's handbook name is there. A name without a folder may stand
// in any; NAME stands for any word.
func TestNamedFilesExist(t *testing.T) {
	var all []string
	err := filepath.WalkDir("../..", func(at string, d fs.DirEntry, err error) error {
		all = append(all, strings.TrimPrefix(filepath.ToSlash(at), "../../"))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for page, name := range map[string]string{developers: "`([\\w./*-]+\\.(?:go|tmpl|css|js|csv|toml|want|txtar))`", "doc.go": `([\w.]+\.go)\b`} {
		text, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(name).FindAllStringSubmatch(string(text), -1)
		if len(found) < 20 {
			t.Errorf("%s names only %d files", page, len(found))
		}
		for _, f := range found {
			pattern := strings.ReplaceAll(f[1], "NAME", "*")
			if !slices.ContainsFunc(all, func(file string) bool { return named(pattern, file) }) {
				t.Errorf("%s names %s, which is not there", page, f[1])
			}
		}
	}
}

// named says whether a file, or what ends its path, is what a pattern names.
func named(pattern, file string) bool {
	for {
		if ok, err := path.Match(pattern, file); ok || err != nil {
			return ok
		}
		_, rest, deeper := strings.Cut(file, "/")
		if !deeper {
			return false
		}
		file = rest
	}
}

func flags(c *cobra.Command, visit func(*pflag.Flag)) {
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if f.Name != "help" {
			visit(f)
		}
	})
}
