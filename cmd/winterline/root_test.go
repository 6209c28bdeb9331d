package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
)

func TestExitCode(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		want int
	}{
		{"done", nil, 0},
		{"the run failed", errors.New("heat book does not close"), 1},
		{"interrupted", context.Canceled, 1},
		{"command line", usage("found two"), 2},
		{"input", problem("weather.csv", "nothing", "a row"), 2},
		{"input told already", &toldError{problem("weather.csv", "nothing", "a row")}, 2},
		{"foreign folder", fmt.Errorf("results: %w", &report.FolderError{Dir: "photos"}), 2},
		{"--fail-on", &happenedError{"shut", sim.Flooded}, 3},
	} {
		if got := exitCode(c.err); got != c.want {
			t.Errorf("%s: exit code %d, want %d", c.name, got, c.want)
		}
	}
}

// --fail-on counts what it names and everything worse, in the worst of several results.
func TestFailOn(t *testing.T) {
	result := func(s sim.State) *sim.Result { return &sim.Result{Verdict: sim.Verdict{State: s}} }
	for _, c := range []struct {
		word   string
		states []sim.State
		want   bool
	}{
		{"", []sim.State{sim.Flooded}, false},
		{"shut", []sim.State{sim.Iced}, false},
		{"shut", []sim.State{sim.ShutRelieved}, true},
		{"shut", []sim.State{sim.Spilled}, true},
		{"spill", []sim.State{sim.ShutRelieved}, false},
		{"spill", []sim.State{sim.Clear, sim.Spilled, sim.Iced}, true},
		{"flood", []sim.State{sim.Spilled}, false},
		{"flood", []sim.State{sim.Flooded, sim.Clear}, true},
	} {
		o := &outputOptions{failOn: choice{word: c.word}}
		var results []*sim.Result
		for _, s := range c.states {
			results = append(results, result(s))
		}
		if got := o.failed(results...) != nil; got != c.want {
			t.Errorf("--fail-on %q of %v: %v, want %v", c.word, c.states, got, c.want)
		}
	}
}

// commandLine carries out a command line as a user would, without a terminal.
func commandLine(ctx context.Context, args ...string) (code int, out, complaints string) {
	var stdout, stderr bytes.Buffer
	code = execute(ctx, streams{stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr}, args)
	return code, stdout.String(), stderr.String()
}

// starterCase makes a case that runs at once.
func starterCase(t *testing.T) (house string) {
	t.Helper()
	house = filepath.Join(t.TempDir(), "house")
	if code, _, complaints := commandLine(t.Context(), "new", house); code != exitDone {
		t.Fatal(complaints)
	}
	return house
}

// An interrupted command says so, exits with 1 and leaves nothing.
func TestInterrupted(t *testing.T) {
	house := starterCase(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, command := range []string{"run", "ground", "weather"} {
		code, out, complaints := commandLine(ctx, command, house)
		if code != exitFailed || out != "" || complaints != "winterline: interrupted; nothing was written\n" {
			t.Errorf("%s: exit code %d, printed %q and %q", command, code, out, complaints)
		}
		entries, err := os.ReadDir(house)
		if err != nil || len(entries) != 3 {
			t.Errorf("%s: %d files in the case, %v; want its own three", command, len(entries), err)
		}
	}
}

// A terminal on standard error gets a progress bar, unless --quiet or --json.
func TestProgress(t *testing.T) {
	house := starterCase(t)
	for command, words := range map[string]string{"run": "simulating the winter", "ground": "simulating the ground"} {
		for _, c := range []struct {
			flag string
			want bool
		}{{"--charts=none", true}, {"--quiet", false}, {"--json", false}} {
			var out, bar bytes.Buffer
			s := streams{stdout: &out, stderr: &bar, errTerminal: true}
			if code := execute(t.Context(), s, []string{command, house, c.flag}); code != exitDone {
				t.Fatal(bar.String())
			}
			if got := strings.Contains(bar.String(), words); got != c.want {
				t.Errorf("%s %s: progress %v, want %v", command, c.flag, got, c.want)
			}
		}
	}
}

// The examples in the help texts work as they stand, one after the other in one folder.
func TestHelpExamples(t *testing.T) {
	t.Chdir(t.TempDir())
	writeManyYears(t)
	examples := []string{"winterline new my-house"}
	var collect func(c *cobra.Command)
	collect = func(c *cobra.Command) {
		for _, line := range strings.Split(c.Example, "\n") {
			line = strings.TrimSpace(line)
			// Two examples take long and run elsewhere: the demonstration and verify.
			if line != "" && line != "winterline run" && !strings.HasPrefix(line, "winterline verify") && line != examples[0] {
				examples = append(examples, line)
			}
		}
		for _, child := range c.Commands() {
			collect(child)
		}
	}
	collect(newRootCmd(streams{}))
	if len(examples) < 6 {
		t.Fatalf("only %d examples: %q", len(examples), examples)
	}
	for _, line := range examples {
		if code, _, complaints := commandLine(t.Context(), words(line)[1:]...); code != exitDone {
			t.Errorf("%s: exit code %d: %s", line, code, complaints)
		}
	}
}

// words splits a command line at blanks, as a shell does, with "…" kept together.
func words(line string) []string {
	var out []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, part)
		} else {
			out = append(out, strings.Fields(part)...)
		}
	}
	return out
}

// Every command says in its help what its exit codes are, or can only do or fail.
func TestEveryCommandHasHelp(t *testing.T) {
	for _, c := range newRootCmd(streams{}).Commands() {
		if c.Name() == "help" || c.Name() == "completion" {
			continue
		}
		if c.Short == "" || c.Long == "" || c.Example == "" {
			t.Errorf("%s: short, long text or example is missing", c.Name())
		}
	}
}
