package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// manyWinters is a case with a record of several winters, and the arguments that ask about them.
func manyWinters(t *testing.T) (house string, args []string) {
	t.Helper()
	house = starterCase(t)
	record := filepath.Join(t.TempDir(), "many-years.csv")
	text, err := inventedRecord(10, 20, 12)
	if err := errors.Join(err, os.WriteFile(record, text, 0o644)); err != nil {
		t.Fatal(err)
	}
	return house, []string{"winters", house, "--weather", record, "--cycles", "every 6 h for 45 s"}
}

// Interrupted in the middle of its work the command ends within a second and leaves nothing.
func TestWintersInterrupted(t *testing.T) { interruptedInside(t, "winters") }

// interruptedInside interrupts a command on a long record in the middle of its work.
func interruptedInside(t *testing.T, command string, more ...string) {
	t.Helper()
	house, args := manyWinters(t)
	args = append(append([]string{command}, args[1:]...), more...)
	ctx, cancel := context.WithTimeout(t.Context(), 700*time.Millisecond)
	defer cancel()
	code, out, _ := commandLine(ctx, args...)
	late := time.Now()
	if deadline, _ := ctx.Deadline(); late.Sub(deadline) > time.Second {
		t.Errorf("ended %v after it was told to", late.Sub(deadline))
	}
	if code != exitFailed || out != "" {
		t.Errorf("exit code %d, printed %q", code, out)
	}
	if entries, err := os.ReadDir(house); err != nil || len(entries) != 3 {
		t.Errorf("%d files in the case, %v; want its own three", len(entries), err)
	}
}

// However many processors there are, the same is printed.
func TestWintersSameForProcessors(t *testing.T) {
	_, args := manyWinters(t)
	sameForProcessors(t, append(args, "--json", "--no-margin", "--draws", "2"))
}

// sameForProcessors wants the same printed however many processors there are.
func sameForProcessors(t *testing.T, args []string) {
	t.Helper()
	before := ""
	for _, n := range []int{1, 2, 8} {
		usual := runtime.GOMAXPROCS(n)
		code, out, complaints := commandLine(t.Context(), args...)
		runtime.GOMAXPROCS(usual)
		if code != exitDone {
			t.Fatal(complaints)
		}
		if before != "" && out != before {
			t.Errorf("%d processors: another answer", n)
		}
		before = out
	}
}
