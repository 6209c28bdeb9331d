package answers_test

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

func long() bool { return os.Getenv("WINTERLINE_LONG") != "" }

// scenarios are small cases with the weather that is theirs.
const scenarios = "../../testdata/scenario"

// source reads a scenario over a weather record of theirs.
func source(t testing.TB, name, record string) answers.Source {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(scenarios, name, "layout.toml"))
	if err != nil {
		t.Fatal(err)
	}
	files, problems := weather.Files([]string{filepath.Join(scenarios, "weather", record+".csv")})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s, problems := weather.ReadFiles(files, weather.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return answers.Source{Name: name, File: "layout.toml", Text: text, Weather: s}
}

func caseOf(t testing.TB, name, record string) *sim.Case {
	t.Helper()
	k, err := source(t, name, record).Case()
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// bruteCases are ten cases whose margins lie on either side of 0, near and far and beyond; the first two are scanned
// always.
var bruteCases = []struct{ name, record string }{
	{"sag-seals", "hard-week"},
	{"drift-over-relief", "two-hard-days"},
	{"backup-own-line", "two-hard-days"},
	{"backup-same-line", "two-hard-days"},
	{"sag", "hard-week"},
	{"downspout-joins", "rain-then-hard-week"},
	{"downspout-apart", "rain-then-hard-week"},
	{"sag-under-lid", "hard-week"},
	{"thaw", "hard-days-then-thaw"},
	{"straight-grade", "hard-week"},
}

// Margins agree with a scan of the shifts of the whole reach, every twentieth of a kelvin: the smallest shift that fails in
// the scan lies within the tenth that begins at the margin. Without the long suites only every twentieth of those is
// scanned, and all of them about the margin.
func TestMarginAgreesWithScan(t *testing.T) {
	cases := bruteCases
	if !long() {
		cases = cases[:2]
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			k := caseOf(t, c.name, c.record)
			m, err := (&answers.Engine{}).Margin(context.Background(), k, nil)
			if err != nil {
				t.Fatal(err)
			}
			shifts := scan(t, k, m)
			for _, g := range []answers.Goal{answers.Open, answers.Dry} {
				agree(t, g, m.Of(g), shifts)
			}
		})
	}
}

// scanStep is how far apart the scanned shifts lie [K].
const scanStep = 0.05

// scanned is one shift of a scan, and which goals fail there.
type scanned struct {
	colder float64 // [K]
	fails  [2]bool // by goal
}

// scan runs a case shifted through the whole reach, from the warm end to the cold one. Every other step is a shift that
// a margin may try.
func scan(t *testing.T, k *sim.Case, m answers.Margin) (all []scanned) {
	t.Helper()
	store := sim.NewGroundStore()
	const half = int(answers.MarginReach / scanStep)
	for i := -half; i <= half; i++ {
		colder := float64(i) / (1 / scanStep)
		near := math.Min(math.Abs(colder-m.Open.K), math.Abs(colder-m.Dry.K)) < 0.5
		if i%20 != 0 && !near && !long() {
			continue
		}
		o, err := sim.RunUntil(context.Background(), k.Warmer(-colder), sim.Settings{Ground: store}, sim.Until{Shut: true, Wet: true})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, scanned{colder, [2]bool{answers.Open: o.Shut != nil, answers.Dry: o.Wet != nil}})
	}
	return all
}

// agree holds a bound against a scan.
func agree(t *testing.T, g answers.Goal, b answers.Bound, shifts []scanned) {
	t.Helper()
	first := -1
	ordered := true
	for i, s := range shifts {
		if s.fails[g] && first < 0 {
			first = i
		}
		ordered = ordered && (first < 0 || s.fails[g])
	}
	switch {
	case first < 0:
		if !b.Beyond || b.K != answers.MarginReach {
			t.Errorf("%v: %+v; never fails in the scan", g, b)
		}
	case first == 0:
		if !b.Beyond || b.K != -answers.MarginReach {
			t.Errorf("%v: %+v; fails at the warm end of the scan", g, b)
		}
	default:
		at := shifts[first].colder
		if b.Beyond || at-b.K > 0.1+1e-9 || at-b.K < 1e-9 {
			t.Errorf("%v: %+v; fails from %.2f K on", g, b, at)
		}
	}
	if ordered && !b.Monotone {
		t.Errorf("%v: %+v; the scan is in order", g, b)
	}
	t.Logf("%v: %+v, in order %t", g, b, ordered)
}

// A margin is the same however many workers find it, and whether the winter as it was is known beforehand.
func TestMarginSameForWorkers(t *testing.T) {
	for _, c := range bruteCases[:4] {
		k := caseOf(t, c.name, c.record)
		r, err := sim.Run(context.Background(), k, sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		var first answers.Margin
		for i, workers := range []int{1, 2, 8} {
			for _, base := range []*sim.Outcome{nil, sim.OutcomeOf(r)} {
				m, err := (&answers.Engine{Workers: workers}).Margin(context.Background(), k, base)
				if err != nil {
					t.Fatal(err)
				}
				if i == 0 && base == nil {
					first = m
				}
				if m != first {
					t.Errorf("%s, %d workers, base known %t: %+v; with one %+v", c.name, workers, base != nil, m, first)
				}
			}
		}
	}
}

// A margin that is cancelled ends soon.
func TestMarginCancelled(t *testing.T) {
	k := caseOf(t, "closes-from-the-bed", "noons-above-freezing")
	for _, workers := range []int{1, 4} {
		ctx, stop := context.WithCancel(context.Background())
		asked := 0
		e := &answers.Engine{Workers: workers, Progress: func(int, int) {
			if asked++; asked == 2 {
				stop()
			}
		}}
		begun := time.Now()
		_, err := e.Margin(ctx, k, nil)
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%d workers: error %v", workers, err)
		}
		if took := time.Since(begun); asked > 3 {
			t.Errorf("%d workers: %d runs after a cancel, %v", workers, asked, took)
		}
		stop()
	}
}

// The margin for a goal is that which it was asked for.
func TestMarginOf(t *testing.T) {
	m := answers.Margin{Open: answers.Bound{K: 1}, Dry: answers.Bound{K: 2}}
	if m.Of(answers.Open).K != 1 || m.Of(answers.Dry).K != 2 || math.Signbit(m.Of(answers.Open).K) {
		t.Errorf("%+v", m)
	}
}
