package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"winterline/sim"
)

// scenario is one folder: its layout and what expected.csv says, a row a thing:
//
//	weather  the weather record, as seen from the scenarios' folder
//	verdict  in one word
//	chain    an event and its place, which come in this order, within the hours after the first weather row given
//	never    an event that does not come; without a place: nowhere
//	figure   a number of the result (figures), within the limits given
type scenario struct {
	name, layout     string
	weather, verdict string
	chain, never     []expectation
	figures          []expectation
	result           *sim.Result // once simulated
}

// expectation is an event or a figure and its limits.
type expectation struct {
	what, where string
	low, high   float64
}

// is says whether the expectation speaks of an event.
func (x expectation) is(e sim.Event) bool {
	return string(e.Kind) == x.what && (x.where == "" || e.Where == x.where)
}

// holds says whether a value lies within the limits.
func (x expectation) holds(v float64) bool { return x.low <= v && v <= x.high }

// readScenarios reads all scenarios in alphabetical order.
func readScenarios(t *testing.T) []*scenario {
	t.Helper()
	folders, err := filepath.Glob(filepath.Join(scenarioDir, "*", "layout.toml"))
	if err != nil || len(folders) == 0 {
		t.Fatalf("no scenarios: %v", err)
	}
	var all []*scenario
	for _, file := range folders {
		layout, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.Dir(file)
		s := &scenario{name: filepath.Base(dir), layout: string(layout)}
		s.readExpected(t, filepath.Join(dir, "expected.csv"))
		all = append(all, s)
	}
	return all
}

// readExpected reads expected.csv.
func (s *scenario) readExpected(t *testing.T, file string) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	if head := strings.Join(rows[0], ","); head != "kind,what,where,low,high" {
		t.Fatalf("%s: header %s", file, head)
	}
	for _, row := range rows[1:] {
		if !s.take(row) {
			t.Fatalf("%s: what is %s?", file, strings.Join(row, ","))
		}
	}
	if s.weather == "" || s.verdict == "" {
		t.Fatalf("%s: weather or verdict missing", file)
	}
}

// take takes in a row; false: it says nothing that is known.
func (s *scenario) take(row []string) bool {
	x := expectation{row[1], row[2], number(row[3]), number(row[4])}
	limits := x.low <= x.high
	switch row[0] {
	case "weather":
		s.weather = x.what
	case "verdict":
		s.verdict = x.what
	case "chain":
		s.chain = append(s.chain, x)
		return limits
	case "never":
		s.never = append(s.never, x)
	case "figure":
		s.figures = append(s.figures, x)
		return limits && figures[x.what] != nil
	default:
		return false
	}
	return true
}

// number reads a limit; what is none lets nothing through.
func number(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
