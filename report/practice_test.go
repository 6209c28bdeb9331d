package report

import (
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
)

// hardWinter is a winter with a little of everything, by hand: 12 rows of an hour, one pump run an
// hour, and what became of each.
func hardWinter() *sim.Result {
	layout, profile := sampleLayout(sampleSpec{sim.Spilled, 5, 1})
	r := &sim.Result{Layout: layout, Profile: profile, Start: time.Date(2026, time.January, 10, 0, 0, 0, 0, time.UTC)}
	for i, air := range []float64{5, 1, 0, -1, -10, -18, -20, -24, -20, -10, -1, 2} {
		r.Hourly.Time, r.Hourly.Air = append(r.Hourly.Time, float64(i)*3600), append(r.Hourly.Air, air)
		r.Hourly.Pocket = append(r.Hourly.Pocket, []float64{0.2, 0.9, 0.96, 1, 1, 1, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5}[i])
		c := sim.CycleRecord{Time: float64(i)*3600 + 600, Volume: 0.040, Run: 30, Level: 0.1}
		switch {
		case i < 5: // open
			c.Outlet = 0.040
		case i < 8: // out of the relief, some over the rim
			c.Relief, c.Rim, c.Level = 0.030, 0.010, 0.41
		case i < 10: // nothing goes
			c.Refused, c.Run = 0.040, 0
		default:
			c.Relief, c.Level = 0.040, 0.30
		}
		r.Cycles = append(r.Cycles, c)
	}
	layout.Outages = []pipe.Span{{Start: r.Start.Add(9 * time.Hour), End: r.Start.Add(10 * time.Hour)}} // the run of 09:10
	r.Ledger = sim.Ledger{Outlet: 0.200, Relief: 0.170, Rim: 0.030, Floor: 0.020, Returned: 0.085, Extra: 0.720, PocketToSoil: 0.012}
	closed, margin, deep := 5*3600.0, -0.05, 0.304
	r.Verdict = sim.Verdict{State: sim.Flooded, Closed: &closed, ShutFor: 31 * 3600, ReliefRuns: 5, SpillRuns: 3, ReliefMargin: &margin, HighestSnow: &deep}
	r.Segments = []sim.SegmentResult{{Name: "riser"}, {Name: "wall stub", HoursWithIce: 5}, {Name: "yard run", HoursWithIce: 70, HoursClosed: 31},
		{Name: "standpipe"}, {Name: "outlet riser", HoursWithIce: 90, HoursClosed: 40}}
	for _, kind := range []sim.EventKind{sim.EventRoofOver, sim.EventRoofOver, sim.EventPocketFrozen, sim.EventReliefBuried} {
		r.Events = append(r.Events, sim.Event{Kind: kind})
	}
	return r
}

// easyWinter is one without frost in which every pump run went out at the far end.
func easyWinter() *sim.Result {
	r := hardWinter()
	for i := range r.Hourly.Time {
		r.Hourly.Air[i], r.Hourly.Pocket[i] = 4, 0.3
		c := &r.Cycles[i]
		*c = sim.CycleRecord{Time: c.Time, Volume: 0.040, Outlet: 0.040, Run: 30, Level: 0.1}
	}
	margin, deep := 0.254, 0.0
	r.Ledger, r.Events = sim.Ledger{Outlet: 0.480, PocketToSoil: 0.1}, nil
	r.Verdict = sim.Verdict{ReliefMargin: &margin, HighestSnow: &deep}
	for i := range r.Segments {
		r.Segments[i].HoursWithIce, r.Segments[i].HoursClosed = 0, 0
	}
	return r
}

// TestEffect: what each finding did in the hard winter, added up by hand from its cycles, and that
// it did nothing in the mild one.
func TestEffect(t *testing.T) {
	hard, mild := hardWinter(), easyWinter()
	for _, c := range []struct{ kind, where, hard string }{
		{pipe.FindingNoRelief, "", "the line was shut for 31 hours; 40 L (11 gal) could not leave, and 20 L (5.3 gal) reached the floor; 30 L (7.9 gal) came out of the top of the standpipe"},
		{pipe.FindingReliefFacesHouse, pipe.AtRelief, "let 170 L (45 gal) go towards the wall; 85 L (22 gal) of what ran out beside the house came back to the basin"},
		{pipe.FindingSmallRelief, pipe.AtRelief, "30 L (7.9 gal) came out of the top of the standpipe in 3 pump runs"},
		{pipe.FindingNoAirGap, "", "water in the standpipe reached the end of the house pipe in 3 pump runs"}, // it ends at 0.3556 m
		{pipe.FindingSmallAirGap, "", "water in the standpipe reached the end of the house pipe in 3 pump runs"},
		{pipe.FindingGluedLine, "", "ice shut the line for 31 hours; in 1 pump run 40 L (11 gal) could not leave, and 20 L (5.3 gal) reached the floor"},
		{pipe.FindingBackupSameLine, "", "with the line shut for both pumps 40 L (11 gal) could not leave, and 20 L (5.3 gal) reached the floor"},
		{pipe.FindingNoBackup, "", "40 L (11 gal) came while the power was out and 40 L (11 gal) came while the pump moved nothing; 20 L (5.3 gal) reached the floor"},
		{pipe.FindingSharedDownspout, "", "720 L (190 gal) of roof water joined the line; roof water found the line shut and ran over beside the downspout twice"},
		{pipe.FindingSmallLine, "yard run", "ice stood in it for 3 days in all and shut it for 31 hours"},
		{pipe.FindingCorrugated, "yard run", "ice stood in it for 3 days in all and shut it for 31 hours"},
		{pipe.FindingSag, "yard run", "ice stood in it for 3 days in all and shut it for 31 hours"},
		{pipe.FindingClearedPaving, "yard run", "ice stood in it for 3 days in all and shut it for 31 hours"},
		{pipe.FindingFlatRun, "wall stub", "ice stood in it for 5 hours in all but never shut it"},
		{pipe.FindingNoWeep, pipe.AtOutlet, "ice stood in the riser under the lid for 4 days in all and shut it for 40 hours"},
		{pipe.FindingNarrowWeep, pipe.AtOutlet, "ice stood in the riser under the lid for 4 days in all and shut it for 40 hours"},
		{pipe.FindingIcingWalk, pipe.AtOutlet, "80 L (21 gal) ran out there in frost, in 2 pump runs"},
		{pipe.FindingIcingWalk, pipe.AtRelief, "130 L (34 gal) ran out there in frost, in 4 pump runs"},
		{pipe.FindingPocketInClay, "", "it was full for 4 hours; the soil took 12 L (3.2 gal) of its water; it froze once"},
		{pipe.FindingReliefUnderSnow, pipe.AtRelief, "snow shut every opening once; 30 L (7.9 gal) came out of the top of the standpipe"},
		{pipe.FindingReliefFrosts, pipe.AtRelief, "it ran in that cold 3 times and let 90 L (24 gal) go"},
	} {
		f := pipe.Finding{Kind: c.kind, Where: c.where}
		if got := findingEffect(f, hard, SI); got != c.hard {
			t.Errorf("%s: got %q, want %q", c.kind, got, c.hard)
		}
		if got := findingEffect(f, mild, SI); got != noEffect {
			t.Errorf("%s in a mild winter: %q", c.kind, got)
		}
	}
}

// Water that leaves at a bad place is an effect in any winter, unless none leaves.
func TestEffectInAnyWinter(t *testing.T) {
	mild, dry := easyWinter(), easyWinter()
	dry.Ledger, dry.Cycles = sim.Ledger{}, nil
	for kind, want := range map[string]string{
		pipe.FindingOutletNear:    "480 L (127 gal) ran out there",
		pipe.FindingErodingOutlet: "480 L (127 gal) ran out there",
		pipe.FindingNoCheckValve:  "the house pipe ran empty after each of 12 pump runs; pumping that water again is not simulated",
	} {
		if got := findingEffect(pipe.Finding{Kind: kind}, mild, SI); got != want {
			t.Errorf("%s: got %q, want %q", kind, got, want)
		}
		if got := findingEffect(pipe.Finding{Kind: kind}, dry, SI); got != noEffect {
			t.Errorf("%s without water: %q", kind, got)
		}
	}
	if got := findingEffect(pipe.Finding{Kind: pipe.FindingUnpaintedPVC}, mild, SI); got != notSimulated {
		t.Errorf("sunlight: %q", got)
	}
	mild.Warnings = []sim.Warning{{Kind: "no-rain-record"}}
	if got, want := findingEffect(pipe.Finding{Kind: pipe.FindingSharedDownspout}, mild, SI), "not simulated: the weather has no rain"; got != want {
		t.Errorf("roof without rain: got %q, want %q", got, want)
	}
	if got, want := findingEffect(pipe.Finding{Kind: pipe.FindingOutletNear}, mild, US), "127 gal (480 L) ran out there"; got != want { // 480/3.785
		t.Errorf("got %q, want %q", got, want)
	}
}

// What the basin can hold stays in it.
func TestEffectWithADryFloor(t *testing.T) {
	r := hardWinter()
	r.Ledger.Floor, r.Ledger.Rim = 0, 0
	for kind, want := range map[string]string{
		pipe.FindingNoRelief: "the line was shut for 31 hours; 40 L (11 gal) stayed in the basin",
		pipe.FindingNoBackup: "40 L (11 gal) came while the power was out and 40 L (11 gal) came while the pump moved nothing; the basin held it",
	} {
		if got := findingEffect(pipe.Finding{Kind: kind}, r, SI); got != want {
			t.Errorf("%s: got %q, want %q", kind, got, want)
		}
	}
}

// Snow over part of an opening only, and water that it let through.
func TestEffectOfSomeSnow(t *testing.T) {
	r := easyWinter()
	r.Ledger.Relief = 0.170
	want := "snow covered part of the relief opening, never all; no water came out of the top"
	if got := findingEffect(pipe.Finding{Kind: pipe.FindingReliefUnderSnow}, r, SI); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What only a winter shows: each finding is there where it holds and not at its limit's other side.
func TestFoundInWinter(t *testing.T) {
	kinds := func(r *sim.Result) (all []string) {
		for _, f := range foundInWinter(r) {
			all = append(all, f.Kind)
			if f.Source == "" || f.Sentence == "" {
				t.Errorf("%s has no source or no sentence", f.Kind)
			}
		}
		return all
	}
	if got, want := kinds(hardWinter()), []string{pipe.FindingReliefUnderSnow, pipe.FindingReliefFrosts}; !slices.Equal(got, want) { // 7.6 cm · 5.1 cm = 38.8 cm²
		t.Errorf("hard winter: %q, want %q", got, want)
	}
	if got := kinds(easyWinter()); len(got) != 0 {
		t.Errorf("mild winter: %q", got)
	}
	wide := hardWinter()
	wide.Layout.Reliefs[0].OpeningHeight, *wide.Verdict.ReliefMargin = 0.060, 0 // 45.6 cm²
	if got := kinds(wide); len(got) != 0 {
		t.Errorf("a wider opening, snow up to it: %q", got)
	}
}

// TestManyStarts puts 20, then 21 starts into one hour, and runs of 10 s, then of 9 s.
func TestManyStarts(t *testing.T) {
	for _, c := range []struct {
		starts int
		run    float64
		want   []string // kind: effect
	}{
		{20, 10, nil},
		{21, 10, []string{"many-starts: over 20 starts in 1 hour of this winter"}},
		{20, 9, []string{"short-runs: 20 of 32 runs were that short"}},
	} {
		r := easyWinter()
		for i := range c.starts {
			r.Cycles = append(r.Cycles, sim.CycleRecord{Time: 20*3600 + float64(i)*170, Volume: 0.01, Outlet: 0.01, Run: c.run})
		}
		var got []string
		for _, f := range foundInWinter(r) {
			got = append(got, f.Kind+": "+findingEffect(f, r, SI))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%d starts of %g s: got %q, want %q", c.starts, c.run, got, c.want)
		}
	}
}

// Every kind in pipe's list says what it did; what sunlight does is not simulated.
func TestEveryFindingHasAnEffect(t *testing.T) {
	text, err := os.ReadFile("../pipe/practice.go")
	if err != nil {
		t.Fatal(err)
	}
	kinds := regexp.MustCompile(`\tFinding\w+ += "([a-z-]+)"`).FindAllStringSubmatch(string(text), -1)
	if len(kinds) != len(effects)+1 {
		t.Errorf("%d kinds, %d effects; want one kind more", len(kinds), len(effects))
	}
	for _, k := range kinds {
		if _, known := effects[k[1]]; !known && k[1] != pipe.FindingUnpaintedPVC {
			t.Errorf("%s says nothing of its effect", k[1])
		}
	}
}

// TestFindingsGolden is what a summary and what `check` say of the same house.
func TestFindingsGolden(t *testing.T) {
	r := hardWinter()
	r.Layout.Reliefs[0].FacesHouse = true
	r.Layout.Basin.CheckValve = false
	findings := pipe.Practice(r.Layout, r.Profile)
	var out strings.Builder
	if err := CheckScreen(&out, &Checked{Findings: findings}, Options{}); err != nil {
		t.Fatal(err)
	}
	out.WriteString("\nIN RESULTS:\n")
	for _, f := range Summarize(r, Provenance{Findings: findings}).Findings {
		fmt.Fprintf(&out, "  %s\n      %s\n      source: %s\n      effect: %s\n", f.Kind, f.Sentence, f.Source, f.Effect)
	}
	golden(t, "practice.txt", []byte(out.String()))
}

// In JSON a finding has its source and its effect; without a winter of the line the effect is "".
func TestFindingJSON(t *testing.T) {
	r := hardWinter()
	f := pipe.Finding{Kind: pipe.FindingSag, Sentence: "It sags.", Source: "none", Where: "yard run"}
	for _, c := range []struct {
		got  []SummaryFinding
		want string
	}{
		{winterFindings(r, []pipe.Finding{f})[:1], `[{"kind":"sag","sentence":"It sags.","source":"none","effect":"ice stood in it for 3 days in all and shut it for 31 hours"}]`},
		{layoutFindings([]pipe.Finding{f}), `[{"kind":"sag","sentence":"It sags.","source":"none","effect":""}]`},
		{layoutFindings(nil), `[]`},
	} {
		text, err := json.Marshal(c.got)
		if err != nil || string(text) != c.want {
			t.Errorf("got %s (%v), want %s", text, err, c.want)
		}
	}
}
