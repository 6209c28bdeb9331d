package verify

import (
	"context"
	"slices"
	"testing"
)

// Every name that gives a check its kind is that of a check, so that none outlives a check that is renamed.
func TestKindsAreOfChecks(t *testing.T) {
	checks := map[string]bool{}
	for _, topic := range topics {
		for check := range topic.checks {
			checks[check] = true
		}
	}
	for _, o := range waveOutcomes(context.Background()) {
		checks[o.Check] = true
	}
	for _, name := range slices.Concat(referenceChecks, storedChecks, relationChecks) {
		found := false
		for check := range checks {
			found = found || isOf(check, []string{name})
		}
		if !found {
			t.Errorf("no check is called %s", name)
		}
	}
	for check, want := range map[string]Kind{"snow-conductivity": Reference, "snow-conductivity-calonne": Relation, "exact-wave": Reference, "solver-fusion": Stored, "neumann-front": Reference} {
		if got := kindOf(check, Relation); got != want {
			t.Errorf("%s is of kind %q, want %q", check, got, want)
		}
	}
}
