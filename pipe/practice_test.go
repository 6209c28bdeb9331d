package pipe

import (
	"slices"
	"testing"
)

func kinds(t *testing.T, l *Layout) []string {
	t.Helper()
	var all []string
	for _, f := range Practice(l, makeProfile(t, l)) {
		if f.Sentence == "" || f.Source == "" {
			t.Errorf("%s has no sentence or no source", f.Kind)
		}
		all = append(all, f.Kind)
	}
	return all
}

// TestPractice starts from a house in which little is amiss and breaks one thing at a time.
func TestPractice(t *testing.T) {
	good := []Edit{{"yard run.sag", "0 in"}, {"extra_inflow", ""}, {"pocket", ""}, {"wall stub.slope", "1/8 in/ft"}}
	if got := kinds(t, load(t, "full.toml", good...)); len(got) != 0 {
		t.Errorf("a sound house gets %q", got)
	}
	for _, c := range []struct {
		want  string
		edits []Edit
	}{
		{"no-relief", []Edit{{"relief", ""}}},
		{"backup-same-line", []Edit{{"relief", ""}}},
		{"relief-faces-house", []Edit{{"relief[0].faces_house", "true"}}},
		{"no-air-gap", []Edit{{"standpipe.house_pipe_end", "9 in"}}},
		{"small-air-gap", []Edit{{"standpipe.house_pipe_end", "11 in"}}},
		{"glued-line", []Edit{{"standpipe", ""}, {"relief", ""}}},
		{"no-check-valve", []Edit{{"basin.check_valve", "false"}}},
		{"shared-downspout", []Edit{{"extra_inflow[0]", `{ kind = "roof", area = "40 m2", joins = "yard run" }`}}},
		{"small-line", []Edit{{"yard run.pipe", "3 in D3034"}}},
		{"corrugated", []Edit{{"yard run.pipe", "4 in HDPE corrugated"}}},
		{"sag", []Edit{{"yard run.sag", "1 in"}}},
		{"flat-run", []Edit{{"yard run.slope", "1/16 in/ft"}}},
		{"no-weep", []Edit{{"outlet.weep", ""}}},
		{"narrow-weep", []Edit{{"outlet.weep", "1/8 in x 2 in"}}},
		{"outlet-near", []Edit{{"outlet.distance_to_house", "9 ft"}}},
		{"pocket-in-clay", []Edit{{"pocket.length", "3 ft"}, {"pocket.width", "2 ft"}, {"pocket.depth", "2 ft"}, {"pocket.void", "40 %"}, {"site.soil_override", ""}, {"site.layer", ""}}},
		{"cleared-paving", []Edit{{"site.soil_override", ""}, {"yard run.surface", "paved"}, {"yard run.insulation", ""}}},
		{"unpainted-standpipe", []Edit{{"standpipe.painted", "false"}}},
	} {
		if got := kinds(t, load(t, "full.toml", slices.Concat(good, c.edits)...)); !slices.Contains(got, c.want) {
			t.Errorf("%v gives %q, want %s among them", c.edits, got, c.want)
		}
	}
	if got := kinds(t, load(t, "cell.toml")); len(got) != 0 {
		t.Errorf("a single cell gets %q", got)
	}
}
