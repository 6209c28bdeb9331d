package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime/pprof"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"winterline/cmd/winterline/demo"
	"winterline/pipe/units"
	"winterline/report"
	"winterline/sim"
)

// What FuzzRun looks at, so that a case takes well under a second: more is left to the simulation's own tests.
const (
	fuzzLines  = 200             // of weather that are read
	fuzzSpan   = 15 * 24 * 3600. // of the record [s]
	fuzzMetres = 60.             // of line
	fuzzCycles = 300             // of the pump
	fuzzSteps  = 3_000_000       // of the heat solver in one case: more is a run that creeps
	fuzzHang   = 3 * time.Minute // after which a case counts as hung, on a busy machine too
)

// Whatever the bytes of a case's files, run either tells what is wrong with them, or simulates: without panic or
// hang, with books that close, and with a number in every field of every table that is not empty.
func FuzzRun(f *testing.F) {
	for i, s := range fuzzSeeds(f) {
		f.Add(s.layout, s.weather, s.water, s.inflow, uint64(0))
		f.Add(s.layout, s.weather, s.water, s.inflow, uint64(i+1))
	}
	f.Fuzz(func(t *testing.T, layout, weather, water []byte, inflow bool, wear uint64) {
		runFuzzed(t, fuzzSeed{worn(layout, wear), worn(firstLines(weather, fuzzLines), wear), worn(water, wear), inflow})
	})
}

// Cases that could be read before some of their lines and numbers changed: most of them still can, and are simulated.
func FuzzRunWorn(f *testing.F) {
	var good []fuzzSeed
	for _, s := range fuzzSeeds(f) {
		if _, err := s.load(); err == nil {
			good = append(good, s)
		}
	}
	if len(good) < 10 {
		f.Fatalf("%d cases to start from", len(good))
	}
	for i := range good {
		f.Add(uint16(i), uint16(i+1), uint64(i+1))
	}
	f.Fuzz(func(t *testing.T, layout, rest uint16, wear uint64) {
		s, other := good[int(layout)%len(good)], good[int(rest)%len(good)]
		s.layout, s.weather, s.water, s.inflow = worn(s.layout, wear), worn(other.weather, wear), worn(other.water, wear), other.inflow
		runFuzzed(t, s)
	})
}

// load reads a case as run does.
func (s *fuzzSeed) load() (*inputs, error) {
	files := fstest.MapFS{"layout.toml": {Data: s.layout}, "weather.csv": {Data: s.weather}}
	switch {
	case len(s.water) == 0: // plans of the layout, or supposed ones
	case s.inflow:
		files["inflow.csv"] = &fstest.MapFile{Data: s.water}
	default:
		files["pump.csv"] = &fstest.MapFile{Data: s.water}
	}
	return loadPlace(&place{files: files, dir: "case", name: "fuzzed"}, &inputOptions{}, wholeCase()...)
}

// reportHang ends a process in which a case hangs, and shows where. A test can't fail from outside its own goroutine.
func reportHang() {
	os.Stderr.WriteString("the case hangs\n")
	pprof.Lookup("goroutine").WriteTo(os.Stderr, 2)
	os.Exit(1)
}

// runFuzzed reads a case and simulates it where it can be read and does not take long.
func runFuzzed(t *testing.T, s fuzzSeed) {
	watch := time.AfterFunc(fuzzHang, reportHang)
	defer watch.Stop()
	in, err := s.load()
	if err != nil {
		wantProblems(t, err)
		return
	}
	if runsLong(in) {
		return
	}
	cases, _, err := in.cases()
	if err != nil {
		if !as[*sim.LimitError](err) {
			t.Fatal(err)
		}
		return
	}
	if k := cases[len(cases)/2]; len(k.Cycles) <= fuzzCycles {
		simulateFuzzed(t, in, k)
	}
}

// worn is a text with some of its lines lost, doubled or swapped and some of its numbers changed, mostly so that it can
// still be read; the same wear does the same, none leaves it as it is.
func worn(text []byte, wear uint64) []byte {
	if wear == 0 || len(text) == 0 {
		return text
	}
	draw := rand.New(rand.NewPCG(wear, 0x776f726e))
	lines := strings.Split(string(text), "\n")
	for range draw.IntN(4) {
		i, j := draw.IntN(len(lines)), draw.IntN(len(lines))
		switch draw.IntN(12) {
		case 0:
			lines[i] = ""
		case 1:
			lines[i], lines[j] = lines[j], lines[i]
		case 2:
			lines[i] += "\n" + lines[j]
		case 3:
			key, _, _ := strings.Cut(lines[i], "=")
			_, value, _ := strings.Cut(lines[j], "=")
			lines[i] = key + "=" + value
		default:
			lines[i] = wornNumber.ReplaceAllStringFunc(lines[i], func(number string) string { return otherNumber(draw, number) })
		}
	}
	return []byte(strings.Join(lines, "\n"))
}

// wornNumber finds the numbers of quantities and table fields, not those of times and names.
var wornNumber = regexp.MustCompile(`(?:["=,]\s*)-?[0-9]+(?:\.[0-9]+)?`)

// otherNumber is a number in place of another, after the same mark: little or much different, none, or of the other sign.
func otherNumber(draw *rand.Rand, number string) string {
	at := strings.IndexAny(number, "-0123456789")
	v, err := strconv.ParseFloat(number[at:], 64)
	if err != nil || draw.IntN(2) == 0 {
		return number
	}
	switch draw.IntN(8) {
	case 0:
		v = 0
	case 1:
		v = -v
	case 2:
		v *= math.Pow(10, draw.NormFloat64()*3)
	default:
		v *= math.Exp(draw.NormFloat64())
	}
	return number[:at] + strconv.FormatFloat(v, 'f', -1, 64)
}

// runsLong says whether a case takes longer than fuzzing has time for.
func runsLong(in *inputs) bool {
	metres := 0.0
	for _, s := range in.layout.Segments {
		metres += s.Length
	}
	return metres > fuzzMetres || in.series.End() > fuzzSpan
}

// wantProblems checks that inputs were refused with words for people.
func wantProblems(t *testing.T, err error) {
	var refused *inputError
	if !errors.As(err, &refused) {
		t.Fatalf("refused with %v; want an inputError", err)
	}
	if len(refused.problems) == 0 && refused.advice == "" {
		t.Fatal("refused without a word")
	}
	for _, p := range refused.problems {
		if p.File == "" || p.Found == "" || p.Expected == "" || p.Line < 0 {
			t.Fatalf("problem without file, found or expected: %+v", p)
		}
	}
}

// simulateFuzzed simulates a case and looks at all that is written and told of it.
func simulateFuzzed(t *testing.T, in *inputs, k *sim.Case) {
	r, err := sim.Run(context.Background(), k, sim.Settings{WithoutDendritic: true})
	if err != nil {
		if !isRefusal(err) {
			t.Fatal(err)
		}
		return
	}
	if r.Stats.Steps > fuzzSteps {
		t.Fatalf("%d steps for %d cells and %.0f h", r.Stats.Steps, r.Stats.Cells, k.Weather.End()/3600)
	}
	for _, file := range report.Tables(r) {
		var text bytes.Buffer
		if err := file.Write(&text); err != nil {
			t.Fatal(file.Name, err)
		}
		wantNumbers(t, file.Name, text.Bytes())
	}
	all := &runs{shown: r, all: []*sim.Result{r}}
	o := &runOptions{}
	for _, o.json = range []bool{true, false} {
		var out bytes.Buffer
		o.stdout = &out
		if err := o.print(all, in, "results"); err != nil {
			t.Fatal(err)
		}
		if no := notNumbers.FindString(out.String()); no != "" && !notNumbers.MatchString(k.Layout.Title+in.weatherNote()+segmentNames(k)) {
			t.Fatalf("%s is printed:\n%s", no, out.String())
		}
	}
}

// isRefusal says whether the simulation refuses a case that has nothing wrong in any one file.
func isRefusal(err error) bool {
	return as[*sim.PumpError](err)
}

// notNumbers finds what is printed of a number that is none.
var notNumbers = regexp.MustCompile(`\b(NaN|[Ii]nf)\b`)

func segmentNames(k *sim.Case) string {
	var names []string
	for _, s := range k.Layout.Segments {
		names = append(names, s.Name)
	}
	return strings.Join(names, " ")
}

// weatherNote is what a weather file says of itself.
func (in *inputs) weatherNote() string { return in.series.Source }

// wantNumbers reads a table back: as many fields in a row as in its header, and no field that is NaN or infinite.
func wantNumbers(t *testing.T, name string, text []byte) {
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(name, err)
	}
	for i, row := range rows {
		for j, field := range row {
			v, err := strconv.ParseFloat(field, 64)
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) && rows[0][j] != "segment" && rows[0][j] != "where" {
				t.Fatalf("%s, row %d: %s is %s", name, i, rows[0][j], field)
			}
		}
	}
}

// firstLines cuts a text off after n lines.
func firstLines(text []byte, n int) []byte {
	for i, b := range text {
		if b == '\n' {
			if n--; n == 0 {
				return text[:i+1]
			}
		}
	}
	return text
}

// fuzzSeed is a case to start from.
type fuzzSeed struct {
	layout, weather, water []byte
	inflow                 bool
}

// fuzzSeeds are the demonstration, every scenario and every bad layout and weather file of the repository.
func fuzzSeeds(f *testing.F) []fuzzSeed {
	read := func(path string) []byte {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		return text
	}
	find := func(parts ...string) []string {
		found, err := filepath.Glob(filepath.Join(append([]string{"..", "..", "testdata"}, parts...)...))
		if err != nil || len(found) == 0 {
			f.Fatal(parts, err)
		}
		return found
	}
	own := func(name string) []byte {
		text, err := fs.ReadFile(demo.Files(), name)
		if err != nil {
			f.Fatal(err)
		}
		return text
	}
	var weathers [][]byte
	for _, path := range find("scenario", "weather", "*.csv") {
		weathers = append(weathers, firstLines(read(path), fuzzLines))
	}
	week := weathers[0]
	plain := own("layout.toml")
	seeds := []fuzzSeed{
		{plain, firstLines(own("weather.csv"), fuzzLines), firstLines(own("pump.csv"), fuzzLines), false},
		{plain, week, []byte("time,inflow_l_h\n2026-01-05 00:00,30\n2026-01-06 00:00,4\n"), true},
		{plain, week, nil, false},
	}
	for _, path := range find("scenario", "*", "layout.toml") {
		s := fuzzSeed{layout: read(path), weather: weathers[len(seeds)%len(weathers)]}
		if water, err := os.ReadFile(filepath.Join(filepath.Dir(path), "pump.csv")); err == nil {
			s.water = water
		} else if water, err := os.ReadFile(filepath.Join(filepath.Dir(path), "inflow.csv")); err == nil {
			s.water, s.inflow = water, true
		}
		seeds = append(seeds, s)
	}
	for i := range seeds {
		seeds[i].layout = []byte(strings.Join(bare(string(seeds[i].layout)), "\n"))
	}
	for _, path := range find("bad-layout", "*.toml") {
		if text := read(path); len(text) < units.MaxLine {
			seeds = append(seeds, fuzzSeed{layout: text, weather: week})
		}
	}
	for _, path := range find("bad-weather", "*.csv") {
		seeds = append(seeds, fuzzSeed{layout: plain, weather: firstLines(read(path), fuzzLines)})
	}
	return seeds
}
