package answers

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"

	"pgregory.net/rapid"

	"winterline/sim"
)

// rule is an invented winter: at which shifts [0.1 K colder] it shuts, and at which it gets wet.
type rule struct{ shut, wet func(colder int) bool }

// from fails at a shift and all colder ones.
func from(first int) func(int) bool { return func(colder int) bool { return colder >= first } }

// run is such a winter as a run of it tells: one that fails is left at once, and tells of nothing that comes later. Ice
// narrows the line the more the nearer it comes to shutting.
func (r rule) run(asked *atomic.Int64) shiftedRun {
	return func(ctx context.Context, g Goal, colder int) (*sim.Outcome, error) {
		asked.Add(1)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		o := &sim.Outcome{}
		early, late := 1.0, 2.0
		if r.shut(colder) {
			o.Shut = &early
		}
		if r.wet(colder) && (g == Dry || o.Shut == nil) {
			o.Wet = &late
		}
		o.Whole = g == Open && o.Shut == nil || g == Dry && o.Wet == nil
		for near := range 40 {
			if o.Shut == nil && r.shut(colder+near) {
				o.Narrowest = 1 - float64(near)/40
				break
			}
		}
		return o, nil
	}
}

func margin(t interface{ Fatal(...any) }, workers int, r rule) (Margin, int) {
	var asked atomic.Int64
	m, err := (&Engine{Workers: workers}).marginOf(context.Background(), r.run(&asked), nil)
	if err != nil {
		t.Fatal(err)
	}
	return m, int(asked.Load())
}

// Where colder is worse throughout, each goal's margin is the tenth before the first that fails, whatever the other's.
func TestSearchFindsFirstFailing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shut, wet := rapid.IntRange(-300, 300).Draw(t, "shut"), rapid.IntRange(-300, 300).Draw(t, "wet")
		if rapid.Bool().Draw(t, "wet where shut") {
			wet = shut
		}
		m, asked := margin(t, 1, rule{from(shut), from(wet)})
		for _, c := range []struct {
			first int
			got   Bound
		}{{shut, m.Open}, {wet, m.Dry}} {
			want := Bound{float64(c.first-1) / tenths, false, true}
			switch {
			case c.first > reachSteps:
				want.K, want.Beyond = MarginReach, true
			case c.first <= -reachSteps:
				want.K, want.Beyond = -MarginReach, true
			}
			if c.got != want {
				t.Errorf("first fails at %d: %+v; want %+v", c.first, c.got, want)
			}
		}
		if asked > 30 {
			t.Errorf("%d runs", asked)
		}
	})
}

// A line that gets wet where it shuts, as most do that have no relief, takes few runs.
func TestSearchIsShort(t *testing.T) {
	total, n := 0, 0
	for first := -200; first <= 200; first += 7 {
		_, asked := margin(t, 1, rule{from(first), from(first)})
		total, n = total+asked, n+1
	}
	if mean := float64(total) / float64(n); mean > 14 {
		t.Errorf("%.1f runs a margin", mean)
	} else {
		t.Logf("%.1f runs a margin", mean)
	}
}

// Where colder is not always worse it is told, and the margin is that of the first failing shift found.
func TestSearchTellsDisorder(t *testing.T) {
	island := func(a, b, rest int) func(int) bool {
		return func(c int) bool { return c >= a && c < b || c >= rest }
	}
	for _, c := range []struct {
		what string
		shut func(int) bool
		k    float64
	}{
		{"shut in a band that the check meets, with nothing beyond", island(80, 160, 1000), 7.9},
		{"shut in a band, and again far beyond", island(80, 150, 210), 7.9},
		{"open in a band beyond", func(c int) bool { return c >= 30 && (c < 100 || c > 140) }, 2.9},
	} {
		m, _ := margin(t, 1, rule{c.shut, from(1000)})
		if m.Open.K != c.k || m.Open.Monotone || m.Open.Beyond {
			t.Errorf("%s: %+v; want %g K, out of order", c.what, m.Open, c.k)
		}
	}
}

// Shifts at which the line shut though the house stayed dry are no reason to look less closely for water between them.
func TestSearchLooksCloselyWhereTheLineShut(t *testing.T) {
	band := func(c int) bool { return c >= 60 && c < 100 } // narrower than a third of the reach
	m, _ := margin(t, 1, rule{from(-1000), band})
	if m.Dry.K != 5.9 || m.Dry.Monotone {
		t.Errorf("got %+v; want 5.9 K, out of order", m.Dry)
	}
}

// An exponential through two points below 1, the second the higher, comes to 1 before the straight line through them does.
func TestExponentialComesFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.Float64Range(0.001, 0.98).Draw(t, "before")
		last := before + rapid.Float64Range(0.001, 1).Draw(t, "share")*(1-before)
		s := &shifts{tried: []triedShift{{colder: 10, narrowest: before}, {colder: 20, narrowest: last}}}
		straight := 20 + 10*(1-last)/(last-before)
		if at := s.shuts(20); !(at >= 20-1e-9 && at <= straight+1e-9*(1+straight)) {
			t.Errorf("%g then %g: shuts at %g; the straight line at %g", before, last, at, straight)
		}
	})
}

// The answer is the same for all numbers of workers, in order or not.
func TestSearchSameForWorkers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.IntRange(-300, 300).Draw(t, "a"), rapid.IntRange(-300, 300).Draw(t, "b")
		every := rapid.IntRange(2, 100).Draw(t, "every")
		r := rule{func(c int) bool { return c >= a && (c+1000)%every != 0 }, func(c int) bool { return c >= b && (c+1000)/every%2 == 0 }}
		one, _ := margin(t, 1, r)
		for _, workers := range []int{2, 8} {
			if m, _ := margin(t, workers, r); m != one {
				t.Errorf("%d workers: %+v; one: %+v", workers, m, one)
			}
		}
	})
}

// A run that fails ends a search with its error, and the engine's work with the error of the lowest piece.
func TestEngineErrors(t *testing.T) {
	bad := errors.New("bad")
	_, err := (&Engine{Workers: 4}).marginOf(context.Background(), func(context.Context, Goal, int) (*sim.Outcome, error) { return nil, bad }, nil)
	if !errors.Is(err, bad) {
		t.Errorf("error %v", err)
	}
	done := 0
	e := &Engine{Workers: 3, Progress: func(n, of int) {
		if done++; n != done || of != 20 {
			t.Errorf("progress %d of %d after %d", n, of, done)
		}
	}}
	squares := make([]int, 20)
	err = e.each(context.Background(), len(squares), func(_ context.Context, i int) error {
		squares[i] = i * i
		return nil
	})
	if err != nil || squares[19] != 361 || done != 20 {
		t.Errorf("%v, %v, %d done", err, squares, done)
	}
	if err := e.alone().each(context.Background(), 5, func(_ context.Context, i int) error {
		if i >= 2 {
			return bad
		}
		return nil
	}); !errors.Is(err, bad) {
		t.Errorf("error %v", err)
	}
}
