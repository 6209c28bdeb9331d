package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"winterline/report"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"winterline": plainSpoken})
}

// plainSpoken is the command as people run it, except that it fails where it prints a word that promises.
func plainSpoken() {
	s := standardStreams()
	out, complaints := &wordWatch{to: s.stdout}, &wordWatch{to: s.stderr}
	s.stdout, s.stderr = out, complaints
	code := carryOut(s, os.Args[1:])
	if found := append(out.found(), complaints.found()...); len(found) > 0 {
		os.Stderr.WriteString("the output promises: " + strings.Join(found, ", ") + "\n")
		code = exitPromised
	}
	os.Exit(code)
}

// exitPromised is no exit code of the command.
const exitPromised = 99

// wordWatch passes on what is printed and remembers it.
type wordWatch struct {
	to   io.Writer
	text bytes.Buffer
}

func (w *wordWatch) Write(p []byte) (int, error) {
	w.text.Write(p)
	return w.to.Write(p)
}

// found are the promises among what was printed.
func (w *wordWatch) found() []string { return report.Promises(w.text.String()) }

// TestScripts runs the scripts of testdata: each holds one promise made to the user.
// Scripts find in $DEMO the results of the demonstration, run once for all of them, and
// in $DEMO_SCREEN what it printed.
func TestScripts(t *testing.T) {
	runDemo := sync.OnceValues(func() (string, error) { return demonstrate(t.TempDir()) })
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			dir, err := runDemo()
			scenario, wrong := filepath.Abs(filepath.Join("..", "..", "testdata", "scenario"))
			e.Setenv("SCENARIO", scenario)
			e.Setenv("DEMO", filepath.Join(dir, "results"))
			e.Setenv("DEMO_SCREEN", filepath.Join(dir, "screen"))
			return errors.Join(err, wrong)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "onlyjson": onlyJSON, "samefolder": sameFolder, "winterrecord": winterRecord},
	})
}

// demonstrate runs the demonstration: dir/results is its folder, dir/screen what it printed.
func demonstrate(dir string) (string, error) {
	var screen, complaints bytes.Buffer
	s := streams{stdout: &screen, stderr: &complaints}
	if code := execute(context.Background(), s, []string{"run", "--out", filepath.Join(dir, "results")}); code != exitDone {
		return dir, errors.New(complaints.String())
	}
	return dir, os.WriteFile(filepath.Join(dir, "screen"), screen.Bytes(), 0o644)
}

// exits: `exits CODE COMMAND…` runs a command and compares its exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// onlyjson: `onlyjson FILE` wants one JSON object in the file and nothing after it.
func onlyJSON(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: onlyjson FILE")
	}
	decoder := json.NewDecoder(bytes.NewReader([]byte(ts.ReadFile(args[0]))))
	var object map[string]any
	ts.Check(decoder.Decode(&object))
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		ts.Fatalf("more than one JSON object: %v", err)
	}
}

// samefolder: `samefolder A B` wants the same files with the same bytes in both.
func sameFolder(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: samefolder A B")
	}
	a, b := contents(ts, args[0]), contents(ts, args[1])
	if len(a) != len(b) || len(a) == 0 {
		ts.Fatalf("%d files in %s, %d in %s", len(a), args[0], len(b), args[1])
	}
	for name := range a {
		if a[name] != b[name] {
			ts.Fatalf("%s differs", name)
		}
	}
}

func contents(ts *testscript.TestScript, dir string) map[string]string {
	entries, err := os.ReadDir(ts.MkAbs(dir))
	ts.Check(err)
	files := map[string]string{}
	for _, e := range entries {
		files[e.Name()] = ts.ReadFile(filepath.Join(dir, e.Name()))
	}
	return files
}
