package answers

import (
	"bytes"
	"context"
	"encoding/gob"
	"reflect"
	"testing"

	"winterline/sim"
)

// guessedSag is the scenario sag with some of it unknown, and an owner who saw it shut more than two days after it did in
// the simulation.
func guessedSag(t testing.TB) Source {
	t.Helper()
	return byHand(t, scenarioSource(t, "sag", hardWeek), `soil_moisture = "12 %"`, `soil_moisture = "unknown"`, `water_temperature = "8 degC"`, `water_temperature = "unknown"`,
		`cover = "30 cm"`, `cover = "unknown"`, "[water]", "[[seen]]\ntime = \"2026-01-12 08:00\"\nwhat = \"shut\"\n\n[water]")
}

// alike compares values as they would be written, so that what is no number is like itself.
func alike(t testing.TB, a, b any) bool {
	t.Helper()
	written := func(v any) []byte {
		var out bytes.Buffer
		if err := gob.NewEncoder(&out).Encode(v); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	return bytes.Equal(written(a), written(b))
}

func baseOf(t testing.TB, s Source) *sim.Result {
	t.Helper()
	k, err := s.Case()
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(context.Background(), k, sim.Settings{WithoutDendritic: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func sureOf(t testing.TB, s Source, r *sim.Result, workers int) []GuessTried {
	t.Helper()
	tried, err := (&Engine{Workers: workers}).Sure(context.Background(), s, r)
	if err != nil {
		t.Fatal(err)
	}
	return tried
}

// A guess at an end is the case with that value written into its layout: deep cover keeps the line open, so that the guess
// decides; the water's temperature does not.
func TestSure(t *testing.T) {
	s := guessedSag(t)
	r := baseOf(t, s)
	tried := sureOf(t, s, r, 0)
	if len(tried) != len(r.Layout.Guesses) {
		t.Fatalf("%d tried of %d", len(tried), len(r.Layout.Guesses))
	}
	changes := map[string]bool{}
	for _, g := range tried {
		changes[g.Guess.Key] = g.Changes
	}
	if want := map[string]bool{"yard run.cover": true, "site.soil_moisture": false, "basin.water_temperature": false}; !reflect.DeepEqual(changes, want) {
		t.Errorf("%v; want %v", changes, want)
	}
	for _, g := range tried {
		if g.Guess.Key != "yard run.cover" {
			continue
		}
		deep := baseOf(t, byHand(t, s, `cover = "unknown"`, `cover = "18 in"`)) // the high end of the default
		if g.High == nil || !alike(t, g.High, endOf(deep, r, true)) || g.High.Shut != nil || g.Low.Shut == nil {
			t.Errorf("low %+v, high %+v; by hand %+v", g.Low, g.High, endOf(deep, r, true))
		}
	}
	if alone := sureOf(t, s, r, 1); !alike(t, alone, tried) {
		t.Error("one worker finds something else")
	}
}

// An end that the rest of the layout does not allow is left out, and an end that is in use is the winter as it was.
func TestSureAtTheEdges(t *testing.T) {
	s := byHand(t, scenarioSource(t, "sag", hardWeek), `surface = "bare"`, `surface = "unknown"`, `check_valve = true`, `check_valve = "unknown"`)
	r := baseOf(t, s)
	for _, g := range sureOf(t, s, r, 0) {
		end := g.High // grass, true: those in use
		if end == nil || !alike(t, end, endOf(r, r, true)) {
			t.Errorf("%s: %+v; want the winter as it was", g.Guess.Key, end)
		}
	}
	// A relief opening in the house pipe's way: no such layout.
	glued := byHand(t, scenarioSource(t, "sag", hardWeek), `height = "20 cm"`, `height = "unknown"`)
	r = baseOf(t, glued)
	g := r.Layout.Guesses[0]
	g.High = 9 // above the rim
	end, err := (&Engine{}).guessEnd(context.Background(), glued, r, g, true)
	if end != nil || err != nil {
		t.Errorf("%+v, %v; want neither", end, err)
	}
}

// Guesses that bring what was seen nearer, the nearest first, each at its better end. Times by hand, in hours.
func TestReconcile(t *testing.T) {
	at := func(h float64) *float64 { s := h * 3600; return &s }
	seen := func(h float64) []SeenMatch {
		return []SeenMatch{{What: "shut", Simulated: at(100 + h), Difference: h * 3600}}
	}
	never := []SeenMatch{{What: "shut"}}
	tried := []GuessTried{
		{Low: &GuessEnd{Seen: seen(-40)}, High: &GuessEnd{High: true, Seen: seen(-90)}},
		{Low: &GuessEnd{Seen: seen(-69)}},
		{High: &GuessEnd{High: true, Seen: seen(12)}},
		{Low: &GuessEnd{Seen: never}, High: nil},
	}
	for i := range tried {
		tried[i].Guess.Key = string(rune('a' + i))
	}
	got := reconcile(tried, 0, seen(-70)[0])
	if len(got) != 2 || got[0].Guess.Key != "c" || !got[0].High || got[1].Guess.Key != "a" || got[1].High {
		t.Errorf("%+v; want c high, a low", got)
	}
	if got := reconcile(tried, 0, never[0]); len(got) != 3 || got[0].Guess.Key != "c" || got[2].Guess.Key != "b" {
		t.Errorf("what never happened: %+v; want c, a, b", got)
	}
}

// The whole answer: one winter, guesses, changes; whatever the number of workers.
func TestWhy(t *testing.T) {
	s := guessedSag(t)
	var told []int
	why := func(workers int, progress func(done, of int)) *Why {
		w, err := (&Engine{Workers: workers, Progress: progress}).Why(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		w.Case = nil // holds what was read
		w.Result.Layout = nil
		return w
	}
	w := why(1, func(done, of int) { told = append(told, done*1000/of) })
	if len(w.Seen) != 1 || !w.Seen[0].Far() || len(w.Seen[0].Nearer) == 0 || w.Seen[0].Nearer[0].Match.off() >= w.Seen[0].off() {
		t.Errorf("seen: %+v", w.Seen)
	}
	if len(w.Result.Closures) == 0 || !w.Remedies.Froze || len(w.Remedies.Singles) < 12 || w.Remedies.Singles[0].Effect != Prevents {
		t.Errorf("%d closures, %d changes", len(w.Result.Closures), len(w.Remedies.Singles))
	}
	for i := 1; i < len(told); i++ {
		if told[i] < told[i-1] {
			t.Fatalf("progress goes back: %v", told)
		}
	}
	if again := why(8, nil); !alike(t, again, w) {
		t.Error("eight workers find something else than one")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := (&Engine{}).Why(ctx, s); err == nil {
		t.Error("goes on though it was told to stop")
	}
}

func TestSureCheap(t *testing.T) {
	r := baseOf(t, guessedSag(t))
	if !SureCheap(r) {
		t.Error("three guesses of nine days are little work")
	}
	if r.Stats.Newton *= 1000; SureCheap(r) {
		t.Error("a thousand times as much is not")
	}
}
