package answers

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"sync"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
)

// remediesOf ranks the changes to a source.
func remediesOf(t testing.TB, s Source, workers int) *Remedies {
	t.Helper()
	r, err := (&Engine{Workers: workers}).Remedies(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// ranked keeps what changes to scenarios do, for the tests that look at it.
var ranked sync.Map

// scenarioRemedies ranks the changes to a scenario, once.
func scenarioRemedies(t testing.TB, name, record string) *Remedies {
	t.Helper()
	once, _ := ranked.LoadOrStore(name, sync.OnceValue(func() *Remedies { return remediesOf(t, scenarioSource(t, name, record), 0) }))
	return once.(func() *Remedies)()
}

// What changes do in small winters is what their physics says.
func TestEffects(t *testing.T) {
	for _, test := range []struct {
		scenario, record string
		want             map[string]Effect
	}{
		// A belly holds a full bore of water in a shallow line: without water, or with warmth kept, nothing shuts.
		{"sag", hardWeek, map[string]Effect{"sag/yard run": Prevents, "insulation/yard run/50 mm": Prevents, "cover/yard run/600 mm": Prevents, "snow": Prevents,
			"backup-same-line": Nothing, "relief-clear": Nothing, "slope/yard run/1.0 %": Helps}},
		// The lid keeps the riser full: what empties it prevents; a way out for the water keeps the floor dry.
		{"glued-line", twoHardDays, map[string]Effect{"open-outlet": Prevents, "new-pocket": Prevents, "backup-own-line": KeepsDry, "relief": KeepsDry,
			"standpipe": KeepsDry, "standpipe-top": Helps, "backup-same-line": Nothing}},
		// One shower fills the pocket: twice the pocket, or no shower.
		{"downspout-joins", rainFirst, map[string]Effect{"roof-water": Prevents, "pocket/0.72 m3": Prevents, "backup-same-line": Nothing, "weep": Nothing}},
	} {
		t.Run(test.scenario, func(t *testing.T) {
			t.Parallel()
			r := scenarioRemedies(t, test.scenario, test.record)
			got := map[string]Effect{}
			for _, x := range r.Singles {
				got[x.Changes[0].Key] = x.Effect
			}
			for key, want := range test.want {
				if effect, there := got[key]; !there || effect != want {
					t.Errorf("%s: %s (there: %v); want %s", key, effect, there, want)
				}
			}
			for i := 1; i < len(r.Singles); i++ {
				a, b := r.Singles[i-1], r.Singles[i]
				if max(a.Effect, Helps) > max(b.Effect, Helps) || max(a.Effect, Helps) == max(b.Effect, Helps) && a.Toll.compare(b.Toll) > 0 {
					t.Errorf("%s stands before %s, which does more", a.Changes[0].Key, b.Changes[0].Key)
				}
			}
			if len(r.Pairs) > 0 {
				t.Errorf("%d pairs though one change is enough", len(r.Pairs))
			}
		})
	}
}

// Without its relief opening the line of a winter that it saved lets the water out beside the house.
func TestReverse(t *testing.T) {
	r := scenarioRemedies(t, "relief-takes-over", twoHardDays)
	if r.Reverse == nil || r.Reverse.Toll.State != sim.Spilled || r.Reverse.Toll.Relief != 0 || r.Reverse.Effect != Harms {
		t.Errorf("without the relief: %+v; want water over the rim", r.Reverse)
	}
	if glued := scenarioRemedies(t, "glued-line", twoHardDays); glued.Reverse != nil {
		t.Error("a line without a relief has no reverse test")
	}
}

// The best change, written into the layout's file by hand, has to the bit the winter that was promised.
func TestBestByHand(t *testing.T) {
	for _, test := range []struct {
		scenario, record string
		key              string
		lines            []string
	}{
		{"downspout-joins", rainFirst, "open-outlet", []string{`kind = "lid"`, `kind = "open"`, "level = \"3 cm\"\n", "", "lid_opening_head = \"25 mm\"\n", "", "weep = \"10 mm x 50 mm\"\n", "",
			"[pocket]\nlength = \"1 m\"\nwidth = \"60 cm\"\ndepth = \"60 cm\"\nvoid = \"40 %\"\n", ""}},
		{"sag", hardWeek, "snow", []string{`snow_on_line = "cleared"`, `snow_on_line = "natural"`}},
	} {
		s := scenarioSource(t, test.scenario, test.record)
		best := scenarioRemedies(t, test.scenario, test.record).Singles[0]
		if best.Changes[0].Key != test.key {
			t.Errorf("%s: the best change is %s; want %s", test.scenario, best.Changes[0].Key, test.key)
			continue
		}
		k, err := byHand(t, s, test.lines...).Case()
		if err != nil {
			t.Fatal(err)
		}
		r, err := sim.Run(context.Background(), k, sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if got := tollOf(r); !reflect.DeepEqual(got, best.Toll) {
			t.Errorf("%s: by hand %+v; promised %+v", test.scenario, got, best.Toll)
		}
		margin, err := (&Engine{}).Margin(context.Background(), k, nil)
		if err != nil || margin != *best.Margin {
			t.Errorf("%s: by hand %+v %v; promised %+v", test.scenario, margin, err, *best.Margin)
		}
	}
}

// hopeless is a riser under a lid that a pocket in clay keeps full, on ground that lets no end come out of it, in a
// winter of which nothing is known of snow.
func hopeless(t testing.TB) Source {
	s := byHand(t, scenarioSource(t, "pocket-in-clay", hardWeek), `surface = "bare"`, "surface = \"bare\"\nground_slope = \"0.5 %\"",
		"slope = \"1 %\"\nsetting = \"buried\"\ncover = \"30 cm\"", "slope = \"1 %\"\nsetting = \"buried\"\ncover = [\"30 cm\", \"33 cm\"]")
	bare := *s.Weather
	bare.SnowDepth = nil
	s.Weather = &bare
	return s
}

// Where no single change is enough, the best of different kinds are tried two at a time, where they do not touch the
// same values; what is promised for two is what a case with both does.
func TestPairs(t *testing.T) {
	s := hopeless(t)
	r := remediesOf(t, s, 0)
	if best := r.Singles[0]; best.Effect != Helps {
		t.Fatalf("%s: %s; want no single change to be enough", best.Changes[0].Key, best.Effect)
	}
	if len(r.Pairs) < 3 {
		t.Fatalf("%d pairs; want 3 and more", len(r.Pairs))
	}
	for i, p := range r.Pairs {
		a, b := p.Changes[0], p.Changes[1]
		if len(p.Changes) != 2 || a.Kind == b.Kind || overlap(a, b) {
			t.Errorf("%s and %s do not go together", a.Key, b.Key)
		}
		if i > 0 && r.Pairs[i-1].Effect == p.Effect && r.Pairs[i-1].Toll.compare(p.Toll) > 0 {
			t.Errorf("%s with %s stands behind a worse pair", a.Key, b.Key)
		}
	}
	k, err := s.Case(append(append([]pipe.Edit(nil), r.Pairs[0].Changes[0].Edits...), r.Pairs[0].Changes[1].Edits...)...)
	if err != nil {
		t.Fatal(err)
	}
	both, err := sim.Run(context.Background(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if got := tollOf(both); !reflect.DeepEqual(got, r.Pairs[0].Toll) {
		t.Errorf("both: %+v; promised %+v", got, r.Pairs[0].Toll)
	}
	bars := map[string]Bar{}
	for _, c := range r.Barred {
		bars[c.Key] = c.Barred
	}
	if bars["snow"] != BarNoSnow || bars["open-outlet"] != BarOutletLow {
		t.Errorf("barred: %v; want snow and an open outlet among them", bars)
	}
}

// A change that takes a table away does not go with one to a value in it, in whichever order the two stand.
func TestPairsThatTouchOneTable(t *testing.T) {
	by := map[Kind]Change{}
	for _, c := range changesOf(t, scenarioSource(t, "downspout-joins", rainFirst)) {
		by[c.Kind] = c
	}
	end, pocket, cover := by[OpenOutlet], by[EnlargePocket], by[DeepenCover]
	if len(end.Edits) == 0 || len(pocket.Edits) == 0 || len(cover.Edits) == 0 {
		t.Fatalf("changes %+v", by)
	}
	if !overlap(end, pocket) || !overlap(pocket, end) {
		t.Error("an open end, which has no rock pocket, goes with a larger pocket")
	}
	if overlap(pocket, cover) || overlap(Change{Edits: []pipe.Edit{{Path: "relief[1].width"}}}, Change{Edits: []pipe.Edit{{Path: "relief[10]"}}}) {
		t.Error("changes to different values overlap")
	}
}

// Two changes that contradict each other, though each alone is possible, are left out and end nothing.
func TestPairsThatContradict(t *testing.T) {
	s := scenarioSource(t, "relief-takes-over", twoHardDays)
	lowRim := Change{Edits: []pipe.Edit{{Path: "standpipe.house_pipe_end", Value: "26 cm"}, {Path: "standpipe.rim", Value: "27 cm"}}}
	highRelief := Change{Edits: []pipe.Edit{{Path: "relief[0].height", Value: "30 cm"}}}
	clear := Change{Edits: []pipe.Edit{{Path: "relief[0].snow_factor", Value: "0"}}}
	for _, c := range []Change{lowRim, highRelief, clear} {
		if _, err := s.With(c); err != nil {
			t.Fatalf("%v alone: %v", c.Edits, err)
		}
	}
	got := possible(s, [][]Change{{lowRim, highRelief}, {lowRim, clear}, {highRelief, clear}})
	if want := [][]Change{{lowRim, clear}, {highRelief, clear}}; !reflect.DeepEqual(got, want) {
		t.Errorf("kept %v; want %v", got, want)
	}
}

// Of pairs that do the same, the one that an owner can do goes first: what both of its changes take counts.
func TestRankByWhatAllTakes(t *testing.T) {
	base := Remedy{Toll: Toll{State: sim.ShutRelieved, ShutFor: 1e6, Closed: new(float64)}}
	pair := func(key string, second Takes) Remedy {
		return Remedy{Changes: []Change{{Key: key, Takes: TakesOwner}, {Takes: second}}}
	}
	got := rank([]Remedy{pair("licensed", TakesLicensed), pair("dig", TakesDig), pair("owner", TakesOwner)}, base)
	for i, want := range []string{"owner", "dig", "licensed"} {
		if key := got[i].Changes[0].Key; key != want {
			t.Errorf("place %d: %s; want %s", i+1, key, want)
		}
	}
}

// How many work at it changes nothing.
func TestRemediesByAnyWorkers(t *testing.T) {
	s := scenarioSource(t, "glued-line", twoHardDays)
	want := scenarioRemedies(t, "glued-line", twoHardDays)
	for _, workers := range []int{1, 8} {
		got := remediesOf(t, s, workers)
		if a, b := fmt.Sprint(got.Shifts), fmt.Sprint(want.Shifts); a != b || len(got.Shifts) < 2 { // NaN equals NaN in print alone
			t.Errorf("%d workers tried %s; as many as there are tried %s", workers, a, b)
		}
		rest := *want
		rest.Shifts, got.Shifts = nil, nil
		if !reflect.DeepEqual(got, &rest) {
			t.Errorf("%d workers find something else than as many as there are", workers)
		}
	}
}

// Where nothing froze nothing is tried.
func TestNothingToMend(t *testing.T) {
	r := scenarioRemedies(t, "straight-grade", hardWeek)
	if r.Froze || len(r.Singles) > 0 || len(r.Barred) > 0 {
		t.Errorf("froze %v, %d changes tried; want none", r.Froze, len(r.Singles))
	}
}

// Shorter runs bring the same water, evenly through the pause before each.
func TestSplit(t *testing.T) {
	start := demoSource(t).Weather.Start
	w := sim.Supply{Given: true, Cycles: []pipe.Cycle{{Start: start.Add(4 * time.Hour), Run: 40, Flow: 0.001}, {Start: start.Add(12 * time.Hour), Run: 60}}}
	got := split(w, 2)
	want := []pipe.Cycle{{Start: start, Run: 20, Flow: 0.001}, {Start: start.Add(4 * time.Hour), Run: 20, Flow: 0.001}, {Start: start.Add(8 * time.Hour), Run: 30}, {Start: start.Add(12 * time.Hour), Run: 30}}
	if !reflect.DeepEqual(got.Cycles, want) {
		t.Errorf("got %v; want %v", got.Cycles, want)
	}
	if !reflect.DeepEqual(split(w, 1), w) {
		t.Error("one part is not the same runs")
	}
	sum := 0.0
	for _, c := range split(w, 4).Cycles {
		sum += c.Run
	}
	if math.Abs(sum-100) > 1e-9 {
		t.Errorf("four parts run for %g s; want 100", sum)
	}
}
