package report

import (
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// The house pipe ends at 0.36 m, the opening's lip lies at 0.254 m, and water stood up to 0.41 m, 50 mm
// (2 in) over the end, on the second day at noon.
func lostGap() *sim.Result {
	r := hardWinter()
	r.AirGap = &sim.AirGap{End: 0.36, Water: 0.41, At: 36 * 3600, Lip: 0.254}
	return r
}

func TestAirGapWords(t *testing.T) {
	r := lostGap()
	want := "lost: water in the standpipe stood up to 50 mm over the end of the house pipe; the lowest way out lay 106 mm under it, highest Sun Jan 11 12:00"
	if got := gapWords(r, SI); !slices.Equal(got, []string{want}) {
		t.Errorf("got %q", got)
	}
	r.AirGap.Water, r.AirGap.Lip = 0.36, 0.36
	if got := gapWords(r, SI); len(got) != 1 || !strings.HasPrefix(got[0], "lost: water in the standpipe reached the end of the house pipe; the lowest way out lay level with it") {
		t.Errorf("got %q", got)
	}
	r.AirGap.Lip = 0.41
	if got := gapWords(r, US); len(got) != 1 || !strings.Contains(got[0], "the lowest way out that snow left free lay 2 in over it") {
		t.Errorf("got %q", got)
	}
	for name, g := range map[string]*sim.AirGap{"kept": {End: 0.36, Water: 0.33, Lip: 0.254}, "none": nil} {
		if r.AirGap = g; gapWords(r, SI) != nil || airGapLost(r) != nil {
			t.Errorf("%s: told as lost", name)
		}
	}
}

// Its loss is a finding with the same figures in both units, its source and in how many runs it was.
func TestAirGapFinding(t *testing.T) {
	r := lostGap()
	found := airGapLost(r)
	want := "The air gap was lost: water in the standpipe stood up to 2 in (50 mm) over the end of the house pipe; the lowest way out lay 4.2 in (106 mm) under it. Ice there shuts the house pipe too."
	if len(found) != 1 || found[0].Sentence != want || found[0].Source == "" || found[0].Kind != pipe.FindingAirGapLost {
		t.Fatalf("%+v", found)
	}
	if got, want := findingEffect(found[0], r, SI), "water in the standpipe reached the end of the house pipe in 3 pump runs"; got != want {
		t.Errorf("effect %q", got)
	}
	for i := range r.Cycles {
		r.Cycles[i].Level = 0.1
	}
	if got, want := findingEffect(found[0], r, SI), "water that stood or ran in beside the pump's reached the end of the house pipe"; got != want {
		t.Errorf("without a run of the pump: %q", got)
	}
}

func TestAirGapSummary(t *testing.T) {
	gap := encoded(t, lostGap(), Provenance{})["air_gap"].(map[string]any)
	if gap["lost"] != true || gap["least_over_water_m"] != -0.05 || gap["least_over_lip_m"] != 0.106 || gap["at"].(map[string]any)["hour"] != 36.0 {
		t.Errorf("%v", gap)
	}
}
