package main

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"testing"

	"winterline/sim"
)

// scenarioDir holds a folder a scenario: a small layout that says in its first sentence what becomes of it and
// why, and in expected.csv the weather and the chain of events (scenario_read_test.go).
const scenarioDir = "../../testdata/scenario"

// A scenario comes out as it says, through the same reading as `winterline run`. Two that belong together differ by
// what the second one's head says, and by what follows from it.
func TestScenarios(t *testing.T) {
	all := readScenarios(t)
	t.Run("each", func(t *testing.T) {
		for _, s := range all {
			t.Run(s.name, func(t *testing.T) {
				t.Parallel()
				s.result = s.simulate(t)
				s.compare(t)
			})
		}
	})
	for _, p := range pairs {
		t.Run(p.why, func(t *testing.T) { p.compare(t, all) })
	}
}

// simulate reads the scenario's files and runs it.
func (s *scenario) simulate(t *testing.T) *sim.Result {
	t.Helper()
	in, err := load(filepath.Join(scenarioDir, s.name), &inputOptions{weather: filepath.Join(scenarioDir, s.weather)})
	if err != nil {
		t.Fatal(err)
	}
	r, err := (&runOptions{outputOptions: outputOptions{quiet: true}}).simulate(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	return r.shown
}

// compare holds the result against what the scenario expects.
func (s *scenario) compare(t *testing.T) {
	for _, miss := range s.misses(s.result) {
		t.Error(miss)
	}
	if !t.Failed() {
		return
	}
	for _, e := range s.result.Events {
		t.Logf("%7.2f h  %-14s %s", e.Time/3600, e.Kind, e.Where)
	}
}

// misses are the ways in which a result is not what the scenario expects.
func (s *scenario) misses(r *sim.Result) []string {
	var out []string
	if got := r.Verdict.State.String(); got != s.verdict {
		out = append(out, fmt.Sprintf("verdict %s; want %s", got, s.verdict))
	}
	rest := r.Events
	for _, want := range s.chain {
		i := slices.IndexFunc(rest, want.is)
		if i < 0 {
			out = append(out, fmt.Sprintf("no %s (%s) after what comes before it", want.what, want.where))
			continue
		}
		if hour := rest[i].Time / 3600; !want.holds(hour) {
			out = append(out, fmt.Sprintf("%s (%s) at %.2f h; want %g to %g", want.what, want.where, hour, want.low, want.high))
		}
		rest = rest[i+1:]
	}
	for _, ban := range s.never {
		if i := slices.IndexFunc(r.Events, ban.is); i >= 0 {
			out = append(out, fmt.Sprintf("%s (%s) at %.2f h; want none", ban.what, r.Events[i].Where, r.Events[i].Time/3600))
		}
	}
	for _, want := range s.figures {
		if got := figures[want.what](r); !want.holds(got) {
			out = append(out, fmt.Sprintf("%s %.4g; want %g to %g", want.what, got, want.low, want.high))
		}
	}
	return out
}

// figures are the numbers of a result that a scenario may expect.
var figures = map[string]func(*sim.Result) float64{
	"outlet_l":        func(r *sim.Result) float64 { return r.Ledger.Outlet * 1000 },
	"relief_l":        func(r *sim.Result) float64 { return r.Ledger.Relief * 1000 },
	"rim_l":           func(r *sim.Result) float64 { return r.Ledger.Rim * 1000 },
	"floor_l":         func(r *sim.Result) float64 { return r.Ledger.Floor * 1000 },
	"backup_l":        func(r *sim.Result) float64 { return r.Ledger.Backup * 1000 },
	"last_pocket":     func(r *sim.Result) float64 { return r.Hourly.Pocket[len(r.Hourly.Pocket)-1] },
	"reopened_h":      func(r *sim.Result) float64 { return hour(r.Verdict.Reopened) },
	"draught_mean":    func(r *sim.Result) float64 { return r.Draught.Mean }, // [m/s]
	"draught_h":       func(r *sim.Result) float64 { return r.Draught.Hours },
	"run_first_ice_h": func(r *sim.Result) float64 { return hour(yardRun(r).FirstIce) },
	"run_largest_ice": func(r *sim.Result) float64 { return yardRun(r).LargestIce },
	"run_ice10_h":     func(r *sim.Result) float64 { return hour(yardRun(r).Ice10) },
	"after_heave_l":   afterHeave,
	"closed_h":        func(r *sim.Result) float64 { return hour(r.Verdict.Closed) },
	"first_ice_h":     func(r *sim.Result) float64 { return hour(r.Verdict.FirstIce) },
}

// hour is a time in hours; never is infinitely late.
func hour(t *float64) float64 {
	if t == nil {
		return math.Inf(1)
	}
	return *t / 3600
}

// afterHeave is what would stand in the buried segments after the worst of the heave [L].
func afterHeave(r *sim.Result) float64 {
	all := 0.0
	for _, f := range r.Movement.Fall {
		all += f.Water * 1000
	}
	return all
}

// yardRun is the buried segment of that name, which all scenarios have.
func yardRun(r *sim.Result) sim.SegmentResult {
	i := slices.IndexFunc(r.Segments, func(s sim.SegmentResult) bool { return s.Name == "yard run" })
	return r.Segments[i]
}
