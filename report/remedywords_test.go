package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
	"winterline/sim/answers"
)

var changedLayout = &pipe.Layout{
	Segments: []pipe.Segment{{Name: "riser"}, {Name: "yard run"}},
	Pocket:   &pipe.Pocket{Length: 1, Width: 0.6, Depth: 0.6},
}

func TestChangeWords(t *testing.T) {
	for _, test := range []struct {
		change answers.Change
		us, si string
	}{
		{answers.Change{Kind: answers.Insulate, Segment: 1, Amount: 0.025}, "1 in (25 mm) of foam round the yard run", "25 mm (1 in) of foam round the yard run"},
		{answers.Change{Kind: answers.DeepenCover, Segment: 1, Amount: 0.6}, "line laid deeper: 24 in (0.60 m) of soil on top of the yard run", "line laid deeper: 0.60 m (24 in) of soil on top of the yard run"},
		{answers.Change{Kind: answers.Steepen, Segment: 1, Amount: 1.0 / 48}, "the yard run laid to fall 1/4 in/ft (2.08 %)", "the yard run laid to fall 2.08 % (1/4 in/ft)"},
		{answers.Change{Kind: answers.Steepen, Segment: 1, Amount: 0.03}, "the yard run laid to fall 0.36 in/ft (3 %)", "the yard run laid to fall 3 % (0.36 in/ft)"},
		{answers.Change{Kind: answers.EnlargePocket, Segment: -1, Amount: 0.72}, "rock pit of 25 ft³ (0.72 m³), twice as large", "rock pit of 0.72 m³ (25 ft³), twice as large"},
		{answers.Change{Kind: answers.OpenOutlet, Segment: -1, Amount: 4}, "outlet open to daylight, no lid; line 13 ft (4 m) longer", "outlet open to daylight, no lid; line 4 m (13 ft) longer"},
		{answers.Change{Kind: answers.ShortCycles, Segment: -1, Amount: 2}, "float set for 2 short runs instead of one long one", "float set for 2 short runs instead of one long one"},
	} {
		if got := changeWords(test.change, changedLayout, US); got != test.us {
			t.Errorf("%q; want %q", got, test.us)
		}
		if got := changeWords(test.change, changedLayout, SI); got != test.si {
			t.Errorf("%q; want %q", got, test.si)
		}
	}
}

// Every kind of change, and every bar, has words of its own.
func TestEveryChangeHasWords(t *testing.T) {
	seen := map[string]answers.Kind{}
	for k := answers.Insulate; k <= answers.NoRelief; k++ {
		words := changeWords(answers.Change{Kind: k, Segment: 1, Amount: 0.3}, changedLayout, US)
		if other, twice := seen[words]; twice || words == "" {
			t.Errorf("%s and %s are both %q", k, other, words)
		}
		seen[words] = k
	}
	bars := map[string]bool{}
	for b := answers.BarRefused; b <= answers.BarNoBasin; b++ {
		words := barWords(answers.Change{Barred: b})
		if bars[words] || words == "" {
			t.Errorf("bar %d: %q again", b, words)
		}
		bars[words] = true
	}
	refused := answers.Change{Barred: answers.BarRefused, Problems: units.Problems{{Key: "yard run.cover", Found: "12 in", Expected: "14 in"}}}
	if got, want := barWords(refused), "levels do not fit: yard run.cover: found 12 in; expected 14 in"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
}

func TestRemedyRow(t *testing.T) {
	shut := 3600.0
	r := answers.Remedy{
		Changes: []answers.Change{{Kind: answers.AddStandpipe, Takes: answers.TakesLicensed | answers.TakesDig, Risks: answers.RiskWallWater | answers.RiskErosion}},
		Toll:    answers.Toll{State: sim.ShutRelieved, Closed: &shut, ShutFor: 18 * 86400, Relief: 0.2, WallIce: 0.05, Starts: 3},
		Margin:  &answers.Margin{Open: answers.Bound{K: -4}, Dry: answers.Bound{K: 25, Beyond: true}},
		Effect:  answers.KeepsDry, MoreOf: answers.RiskWallWater | answers.RiskStarts,
	}
	want := changeRow{"loose joint: a standpipe with a relief opening before the buried line", "shut 18 days", "53 gal relief", "about 7 °F (4 °C) short",
		"dig; licensed work", "keeps the house dry; the line still freezes shut"}
	if got := changeRowOf(r, changedLayout, US); got != want {
		t.Errorf("%+v; want %+v", got, want)
	}
	risks := strings.Join(riskWords(r, US), " ")
	for _, part := range []string{"3 times in an hour", "53 gal (200 L) of water runs out near the wall", "2 in (5 cm) thick", "washes soil away"} {
		if !strings.Contains(risks, part) {
			t.Errorf("no %q in %q", part, risks)
		}
	}
}

func TestMarginLeft(t *testing.T) {
	for _, test := range []struct {
		bound answers.Bound
		want  string
	}{
		{answers.Bound{K: 25, Beyond: true}, "over 45 °F (25 °C) left"}, {answers.Bound{K: -25, Beyond: true}, "over 45 °F (25 °C) short"},
		{answers.Bound{K: 1.9}, "too close to call"}, {answers.Bound{K: -1.9}, "too close to call"}, {answers.Bound{K: 4}, "about 7 °F (4 °C) left"},
	} {
		if got := marginLeftWords(test.bound, US); got != test.want {
			t.Errorf("%+v: %q; want %q", test.bound, got, test.want)
		}
	}
}

// The JSON has no null where a list is empty.
func TestRemediesJSON(t *testing.T) {
	var out bytes.Buffer
	if err := encode(&out, summaryRemedies(&answers.Remedies{Barred: []answers.Change{{Key: "x", Segment: 1, Barred: answers.BarNoFall}}}, changedLayout)); err != nil {
		t.Fatal(err)
	}
	var read map[string]any
	if err := json.Unmarshal(out.Bytes(), &read); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"single_changes", "two_changes", "not_possible"} {
		if _, list := read[key].([]any); !list {
			t.Errorf("%s is %v", key, read[key])
		}
	}
	if barred := read["not_possible"].([]any)[0].(map[string]any); barred["segment"] != "yard run" || barred["barred"] == nil {
		t.Errorf("got %v", barred)
	}
}
