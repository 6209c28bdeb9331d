package report

import (
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// kindsOf are findings of layout and line by kind.
func kindsOf(kinds ...string) (all []pipe.Finding) {
	for _, k := range kinds {
		f := pipe.Finding{Kind: k}
		switch k {
		case pipe.FindingSag:
			f.Where = "yard run"
		case pipe.FindingFlatRun:
			f.Where = "wall stub"
		case pipe.FindingIcingWalk:
			f.Where = pipe.AtOutlet
		}
		all = append(all, f)
	}
	return all
}

// In the hard winter 20 L reached the floor, 30 L went over the rim and 170 L out of the relief; the riser
// under the lid was shut for 40 h and the yard run for 31; the wall stub had ice alone. That is the
// order; what did nothing is not there, and no more than five are.
func TestWorstFindings(t *testing.T) {
	r := hardWinter()
	all := kindsOf(pipe.FindingUnpaintedPVC, pipe.FindingOutletNear, pipe.FindingFlatRun, pipe.FindingIcingWalk, pipe.FindingSag, pipe.FindingNoWeep,
		pipe.FindingReliefFacesHouse, pipe.FindingNoBackup, pipe.FindingCorrugated)
	var got []string
	for _, f := range worstFindings(r, all) {
		got = append(got, f.Kind)
	}
	if want := []string{pipe.FindingNoBackup, pipe.FindingReliefFacesHouse, pipe.FindingNoWeep, pipe.FindingSag, pipe.FindingIcingWalk}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	got = nil
	for _, f := range worstFindings(r, all[:4]) {
		got = append(got, f.Kind)
	}
	if want := []string{pipe.FindingIcingWalk, pipe.FindingFlatRun, pipe.FindingOutletNear}; !slices.Equal(got, want) {
		t.Errorf("the four mildest: got %q, want %q", got, want)
	}
}

// Each with its place and what it did; the rest and the sources by a pointer.
func TestPracticeWords(t *testing.T) {
	hard, mild := hardWinter(), easyWinter()
	got := practiceWords(hard, Options{System: SI, Findings: kindsOf(pipe.FindingSag, pipe.FindingUnpaintedPVC)})
	want := []string{
		"relief opening under snow: snow shut every opening once; 30 L (7.9 gal) came out of the top of the standpipe",
		"sag (yard run): ice stood in it for 3 days in all and shut it for 31 hours",
		"relief opening that can frost shut below 0 °F (-18 °C): it ran in that cold 3 times and let 90 L (24 gal) go",
		"with 1 more, why, and sources: report.html",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	if got, want := practiceWords(mild, Options{Findings: kindsOf(pipe.FindingSag)}), []string{"nothing that the trade would do otherwise made a difference in this winter (1 finding: report.html)"}; !slices.Equal(got, want) {
		t.Errorf("a mild winter: %q", got)
	}
	if got := practiceWords(mild, Options{}); got != nil {
		t.Errorf("a sound house: %q", got)
	}
}

// On the screen they stand beside their label, no wider than the rest.
func TestPracticeOnTheScreen(t *testing.T) {
	r := plain(sim.Spilled)
	var out strings.Builder
	if err := Screen(&out, r, Options{Findings: kindsOf(pipe.FindingSag, pipe.FindingNoWeep)}); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "\nPractice     sag (yard run): ice stood in it for ") {
		t.Errorf("not there in\n%s", out.String())
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if n := len([]rune(line)); n > screenWidth {
			t.Errorf("%d columns: %s", n, line)
		}
	}
}

// Every kind of finding that says what it did can be weighed, and by something that it did.
func TestEveryFindingIsWeighed(t *testing.T) {
	segments := []string{pipe.FindingSmallLine, pipe.FindingCorrugated, pipe.FindingSag, pipe.FindingClearedPaving, pipe.FindingFlatRun}
	for kind := range effects {
		if _, known := harms[kind]; known == slices.Contains(segments, kind) {
			t.Errorf("%s: weighed as a kind of its own: %v", kind, known)
		}
	}
	if got, want := len(effects), len(harms)+len(segments); got != want {
		t.Errorf("%d effects, %d weights", got, want)
	}
}
