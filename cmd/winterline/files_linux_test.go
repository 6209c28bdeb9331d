package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// What the program does with files that fail it, run as people run it: a process of its own, ended by signals and
// bound by permissions and by the room on a disk.

// ran is how the program ended.
type ran struct {
	code   int // exit code; -1: a signal ended it
	signal syscall.Signal
	out    string
	err    string
	memory int64 // the most that it held [bytes]
}

// ranAs waits for a started program.
func ranAs(t *testing.T, c *exec.Cmd) ran {
	t.Helper()
	var exit *exec.ExitError
	if err := c.Wait(); err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	state := c.ProcessState
	r := ran{code: state.ExitCode(), out: c.Stdout.(*bytes.Buffer).String(), err: c.Stderr.(*bytes.Buffer).String()}
	r.signal = state.Sys().(syscall.WaitStatus).Signal()
	r.memory = state.SysUsage().(*syscall.Rusage).Maxrss << 10
	return r
}

// starts makes the program ready in a folder, started.
func starts(t *testing.T, dir string, args ...string) *exec.Cmd {
	t.Helper()
	c := exec.CommandContext(t.Context(), "winterline", args...)
	c.Dir, c.Stdout, c.Stderr = dir, &bytes.Buffer{}, &bytes.Buffer{}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	return c
}

// listing is every file below a folder with its bytes, hidden ones too; folders have none.
func listing(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		if all[name] = ""; d.Type().IsRegular() {
			text, err := os.ReadFile(path)
			all[name] = string(text)
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// names are those of a listing.
func names(all map[string]string) string { return strings.Join(slices.Sorted(maps.Keys(all)), " ") }

// Whenever a signal comes, what stands in the results folder is what stood there, whole, or what was asked for, whole;
// nothing lies beside it, and the exit code says which.
func TestSignalsAtAnyTime(t *testing.T) {
	runs := 20
	if os.Getenv("WINTERLINE_LONG") != "" {
		runs = 200
	}
	house := starterCase(t)
	// Two results that differ, asked for in turn.
	ask := [2][]string{{"run", house, "--no-margin", "--charts", "svg"}, {"run", house, "--no-margin", "--charts", "svg", "--cycles", "every 3 h for 40 s"}}
	var whole [2]map[string]string
	var takes time.Duration
	for i, args := range ask {
		began := time.Now()
		if r := ranAs(t, starts(t, "", args...)); r.code != exitDone {
			t.Fatal(r.err)
		}
		takes = max(takes, time.Since(began))
		whole[i] = listing(t, house)
	}
	if maps.Equal(whole[0], whole[1]) {
		t.Fatal("both runs give the same")
	}
	stands := 1
	draw := rand.New(rand.NewPCG(1, uint64(runs)))
	var done, interrupted, ended int
	for n := range runs {
		asked := 1 - stands
		signal := []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}[n%3]
		c := starts(t, "", ask[asked]...)
		time.Sleep(time.Duration(float64(takes) * 1.1 * draw.Float64()))
		if err := c.Process.Signal(signal); err != nil && !errors.Is(err, os.ErrProcessDone) {
			t.Fatal(err)
		}
		r := ranAs(t, c)
		switch {
		case r.code == exitDone:
			done++
			stands = asked
		case r.code == exitFailed && strings.Contains(r.err, "winterline: interrupted; nothing was written\n"):
			interrupted++
		case r.code == -1 && r.signal == signal: // before the program had begun
			ended++
		default:
			t.Fatalf("run %d, %v: exit code %d, signal %v: %s", n, signal, r.code, r.signal, r.err)
		}
		if now := listing(t, house); !maps.Equal(now, whole[stands]) {
			t.Fatalf("run %d, %v, exit code %d: the case holds\n%s\nwant\n%s", n, signal, r.code, names(now), names(whole[stands]))
		}
	}
	t.Logf("of %d runs %d were done, %d interrupted, %d ended before they had begun", runs, done, interrupted, ended)
	if interrupted == 0 {
		t.Error("no run was interrupted")
	}
}

// A terminal that closes hangs up more than once; that is one interruption. A program that was started to ignore
// hang-ups, as by nohup, goes on to its end.
func TestHangUp(t *testing.T) {
	for _, c := range []struct {
		name  string
		start []string // what starts the program; none: as it is
		code  int
		says  string
	}{
		{"twice", nil, exitFailed, "winterline: interrupted; nothing was written\n"},
		{"ignored", []string{"sh", "-c", `trap "" HUP; exec "$@"`, "sh"}, exitDone, ""},
	} {
		house, begun := starterCase(t), filepath.Join(t.TempDir(), "weather.csv")
		if err := syscall.Mkfifo(begun, 0o644); err != nil {
			t.Fatal(err)
		}
		words := slices.Concat(c.start, []string{"winterline", "run", house, "--no-margin", "--charts", "none", "--weather", begun})
		p := exec.CommandContext(t.Context(), words[0], words[1:]...)
		p.Stdout, p.Stderr = &bytes.Buffer{}, &bytes.Buffer{}
		if err := p.Start(); err != nil {
			t.Fatal(err)
		}
		// It waits for the other end of its weather: by then it heeds signals.
		weather, err := os.OpenFile(begun, os.O_WRONLY, 0)
		if err != nil {
			t.Fatal(err)
		}
		for range 2 {
			if err := p.Process.Signal(syscall.SIGHUP); err != nil {
				t.Fatal(err)
			}
			time.Sleep(50 * time.Millisecond)
		}
		text, err := os.ReadFile(filepath.Join(house, "weather.csv"))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := weather.Write(text); err != nil {
			t.Errorf("%s: the program is gone: %v", c.name, err)
		}
		weather.Close()
		if r := ranAs(t, p); r.code != c.code || r.err != c.says {
			t.Errorf("%s: exit code %d, signal %v: %q; want %d and %q", c.name, r.code, r.signal, r.err, c.code, c.says)
		}
	}
}

// A run writes into its folder alone: not at home, nor among temporary files, nor where it is started.
func TestWritesNowhereElse(t *testing.T) {
	house, home, temporary, here := starterCase(t), t.TempDir(), t.TempDir(), t.TempDir()
	for _, v := range []string{"HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"} {
		t.Setenv(v, home)
	}
	t.Setenv("TMPDIR", temporary)
	before := listing(t, house)
	for _, args := range [][]string{{"run", house, "--no-margin"}, {"ground", house}, {"why", house}, {"weather", house}, {"size", house, "--vary", "cover"}, {"check", house}, {"run", house, "--json", "--no-margin"}} {
		out := filepath.Join(t.TempDir(), "out")
		if args[0] != "check" && args[len(args)-2] != "--json" {
			args = append(args, "--out", out)
		}
		r := ranAs(t, starts(t, here, args...))
		if r.code != exitDone {
			t.Fatalf("%v: exit code %d: %s", args, r.code, r.err)
		}
		for what, dir := range map[string]string{"at home": home, "among temporary files": temporary, "where it is started": here} {
			if left := listing(t, dir); len(left) > 0 {
				t.Errorf("%v leaves %s %s", args, names(left), what)
			}
		}
		if now := listing(t, house); !maps.Equal(now, before) {
			t.Errorf("%v: the case holds %s", args, names(now))
		}
		if beside := listing(t, filepath.Dir(out)); args[len(args)-1] == out && beside["out/summary.json"] == "" {
			t.Errorf("%v: %s in place of results", args, names(beside))
		}
	}
}

// nobody is a user without rights, where the tests run as root.
const nobody = 65534

// startsPlain is starts as a user whom permissions bind; the program is copied to where it may be run.
func startsPlain(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	if os.Getuid() != 0 {
		return starts(t, "", args...)
	}
	path, err := exec.LookPath("winterline")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(openFolder(t), "winterline")
	if err := os.WriteFile(program, text, 0o755); err != nil {
		t.Fatal(err)
	}
	c := exec.CommandContext(t.Context(), program, args...)
	c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	c.Dir, c.Stdout, c.Stderr = "/", &bytes.Buffer{}, &bytes.Buffer{}
	if err := c.Start(); errors.Is(err, fs.ErrPermission) {
		t.Skip("no program can be started as another user here:", err)
	} else if err != nil {
		t.Fatal(err)
	}
	return c
}

// openFolder is a folder that every user may enter.
func openFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, d := range []string{filepath.Dir(dir), dir} {
		if err := os.Chmod(d, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// caseFor makes a case with earlier results that every user may read, and its owner alone may write.
func caseFor(t *testing.T) string {
	t.Helper()
	house := filepath.Join(openFolder(t), "house")
	for _, args := range [][]string{{"new", house}, {"run", house, "--no-margin", "--charts", "none"}} {
		if code, _, complaints := commandLine(t.Context(), args...); code != exitDone {
			t.Fatal(complaints)
		}
	}
	return house
}

// A folder that may not be written to is told before anything is simulated, a file that may not be read by its name;
// what stood there stays.
func TestWithoutPermission(t *testing.T) {
	for name, c := range map[string]struct {
		closed string // path in the case whose permissions are taken
		mode   fs.FileMode
		want   string
	}{
		"case not writable":   {"", 0o555, "house/results: found no way to write beside it (permission denied); expected a folder above it that can be written to"},
		"layout not readable": {"layout.toml", 0, "house/layout.toml: found permission denied; expected the layout of the line"},
		"weather":             {"weather.csv", 0, "house/weather.csv: found a file that cannot be read; expected a weather record"},
		"pump":                {"pump.csv", 0, "house/pump.csv: found permission denied; expected pump cycles"},
		"old results":         {"results/summary.json", 0, "house/results: found a folder whose summary.json cannot be read; expected a new folder"},
		"case not readable":   {"", 0, "permission denied"},
	} {
		house := caseFor(t)
		before := listing(t, house)
		closed := filepath.Join(house, c.closed)
		was, err := os.Stat(closed)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(closed, c.mode); err != nil {
			t.Fatal(err)
		}
		r := ranAs(t, startsPlain(t, "run", house, "--timings", "--no-margin", "--charts", "none"))
		if err := os.Chmod(closed, was.Mode()); err != nil {
			t.Fatal(err)
		}
		if r.code != exitUsage || !strings.Contains(r.err, c.want) || strings.Contains(r.err, "simulate ") {
			t.Errorf("%s: exit code %d: %s; want 2 and %q", name, r.code, r.err, c.want)
		}
		if now := listing(t, house); !maps.Equal(now, before) {
			t.Errorf("%s: the case holds %s", name, names(now))
		}
	}
}

// A disk that is full, or that may only be read, leaves what stood there, and nothing else.
func TestFullDisk(t *testing.T) {
	house, disk := starterCase(t), t.TempDir()
	mount := func(flags uintptr) {
		if err := syscall.Mount("tmpfs", disk, "tmpfs", flags, "size=160k"); err != nil {
			t.Skip("no small disk can be mounted here:", err)
		}
	}
	mount(0)
	t.Cleanup(func() {
		if err := syscall.Unmount(disk, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	out := filepath.Join(disk, "out")
	// The tables of twelve days fit once; twice they do not.
	args := []string{"ground", house, "--out", out, "--charts", "none"}
	if r := ranAs(t, starts(t, "", args...)); r.code != exitDone {
		t.Fatal(r.err)
	}
	before := listing(t, disk)
	if r := ranAs(t, starts(t, "", "run", house, "--out", out, "--no-margin")); r.code != exitFailed || !strings.Contains(r.err, "no space left on device; the results folder is left as it was") {
		t.Errorf("full: exit code %d: %s", r.code, r.err)
	}
	if now := listing(t, disk); !maps.Equal(now, before) {
		t.Errorf("full: the disk holds %s, want %s", names(now), names(before))
	}
	mount(syscall.MS_REMOUNT | syscall.MS_RDONLY)
	if r := ranAs(t, starts(t, "", args...)); r.code != exitUsage || !strings.Contains(r.err, "found no way to write beside it (read-only file system)") {
		t.Errorf("read only: exit code %d: %s", r.code, r.err)
	}
	if now := listing(t, disk); !maps.Equal(now, before) {
		t.Errorf("read only: the disk holds %s, want %s", names(now), names(before))
	}
}

// mostMemory is what a refusal of a file without end may take [bytes]: two million rows of one column and the program.
const mostMemory = 500 << 20

// Files of any size are refused with the limit named, in bounded memory.
func TestHostileSizes(t *testing.T) {
	sparse := func(head string) func(path string) error {
		return func(path string) error {
			return errors.Join(os.WriteFile(path, []byte(head), 0o644), os.Truncate(path, 2<<30))
		}
	}
	text := func(text string) func(path string) error {
		return func(path string) error { return os.WriteFile(path, []byte(text), 0o644) }
	}
	segments := func(n int) string {
		var all strings.Builder
		for i := range n {
			fmt.Fprintf(&all, "[[segment]]\nname = \"s%d\"\npipe = \"1-1/2 in sch 40 PVC\"\nlength = \"1 km\"\ndrop = \"1 m\"\nsetting = \"open-air\"\n", i)
		}
		return all.String() + "[outlet]\nkind = \"open\"\n"
	}
	for _, c := range []struct {
		name, file string
		write      func(path string) error
		want       string
	}{
		{"layout of 2 GB", "layout.toml", sparse("title = \"x\"\n"), "layout.toml: found a file of more than 4 MiB;"},
		{"weather line of 10^9 digits", "weather.csv", endless("time,air_temp_c\n2026-01-01 00:00,", ones), "found a line of more than 64 KiB;"},
		{"weather of 2 GB", "weather.csv", sparse("time,air_temp_c\n2026-01-01 00:00,1\n"), "found a file that is not text;"},
		{"pump cycles of 2 GB", "pump.csv", sparse("start,run_s\n"), "pump.csv: found a file of more than 64 MiB;"},
		{"weather of 10^9 rows", "weather.csv", endless("time,air_temp_c\n", minutes), "found more than 2,000,000 rows; expected at most 2,000,000;"},
		{"pump cycles of 10^9 rows", "pump.csv", endless("start,run_s\n", minutes), "pump.csv: found a file of more than 64 MiB;"},
		{"pump cycles full of faults", "pump.csv", text("start,run_s\n" + strings.Repeat("x\n", 1<<20)), "and 197 more like it up to line 201"},
		{"layout of 10^6 cells", "layout.toml", text(segments(500)), "found 500 segments; expected at most 200"},
		{"layout of 400,000 cells", "layout.toml", text(segments(200)), "found 400000 cells of 0.5 m; expected at most 20000;"},
	} {
		t.Run(c.name, func(t *testing.T) {
			house := starterCase(t)
			path := filepath.Join(house, c.file)
			if err := errors.Join(os.Remove(path), c.write(path)); err != nil {
				t.Fatal(err)
			}
			began := time.Now()
			r := ranAs(t, starts(t, "", "run", house))
			t.Logf("%.1f s, %d MB", time.Since(began).Seconds(), r.memory>>20)
			if r.code != exitUsage || !strings.Contains(r.err, c.want) {
				t.Errorf("exit code %d: %.500s; want 2 and %q", r.code, r.err, c.want)
			}
			if r.memory > mostMemory {
				t.Errorf("%d MB held", r.memory>>20)
			}
		})
	}
}

// endless makes a pipe through which a head comes and then blocks of 10,000 rows, or of as many pieces of one row: 10^9
// in all if anybody reads so far.
func endless(head string, block func(n int) string) func(path string) error {
	return func(path string) error {
		if err := syscall.Mkfifo(path, 0o644); err != nil {
			return err
		}
		go func() {
			pipe, err := os.OpenFile(path, os.O_WRONLY, 0)
			if err != nil {
				return // nobody has opened it: the test says so
			}
			defer pipe.Close()
			_, err = pipe.WriteString(head)
			for n := 0; n < 1_000_000_000 && err == nil; n += endlessBlock {
				_, err = pipe.WriteString(block(n))
			}
		}()
		return nil
	}
}

const endlessBlock = 10_000

// minutes is a block of rows, one a minute.
func minutes(n int) string {
	var all []byte
	at := time.Date(1950, 1, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(n) * time.Minute)
	for range endlessBlock {
		all = append(at.AppendFormat(all, "2006-01-02 15:04"), ",1\n"...)
		at = at.Add(time.Minute)
	}
	return string(all)
}

// ones is a block of a line that does not end.
func ones(int) string { return strings.Repeat("1", endlessBlock) }
