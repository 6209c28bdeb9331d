package verify_test

import (
	"bytes"
	"context"
	"strings"
	"sync"
	"testing"

	"winterline/sim/verify"
)

// outcomes are those of all checks; running them takes seconds.
var outcomes = sync.OnceValue(func() []verify.Outcome { return verify.Run(context.Background(), nil) })

func TestChecks(t *testing.T) {
	outcomes := outcomes()
	if len(outcomes) < 1500 {
		t.Fatalf("%d checks; the tables hold more", len(outcomes))
	}
	for _, o := range outcomes {
		if !o.Pass {
			t.Errorf("%s %s: got %.8g, want %.8g %s within %.2g (%s, %s) %v",
				o.ID, o.Check, o.Computed, o.Expected, o.Unit, o.Limit, o.Source, o.Trust, o.Err)
		}
	}
}

func TestRowsAreNumberedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, o := range outcomes() {
		if seen[o.ID] {
			t.Errorf("%s stands twice", o.ID)
		}
		seen[o.ID] = true
		switch o.Trust {
		case "read", "computed", "from memory":
		default:
			t.Errorf("%s: trust %q", o.ID, o.Trust)
		}
		if o.Source == "" || o.Limit < 0 {
			t.Errorf("%s: source %q, limit %g", o.ID, o.Source, o.Limit)
		}
	}
}

func TestCancelledChecksFail(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, o := range verify.Run(ctx, nil) {
		if o.Pass {
			t.Fatalf("%s passed after the run was cancelled", o.ID)
		}
	}
}

func TestWriteTable(t *testing.T) {
	outcomes := []verify.Outcome{
		{ID: "X-1", Check: "alpha", Source: "book", Trust: "read", Expected: 2, Computed: 2.01, Error: 0.01, Limit: 0.02, Unit: "m", Pass: true, Beside: "rule of thumb 2.3 m"},
		{ID: "X-2", Check: "alpha", Source: "paper", Trust: "read", Expected: 2, Computed: 2.1, Error: 0.1, Limit: 0.02, Unit: "m"},
	}
	var short, long bytes.Buffer
	if err := verify.WriteTable(&short, outcomes, false); err != nil {
		t.Fatal(err)
	}
	if err := verify.WriteTable(&long, outcomes, true); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"alpha  2     1", "X-2", "paper (and 1 more)", "MISSED X-2 alpha", "2 checks, 1 missed"} {
		if !strings.Contains(short.String(), want) {
			t.Errorf("no %q in\n%s", want, short.String())
		}
	}
	if !strings.Contains(long.String(), "X-1") {
		t.Errorf("no row X-1 in\n%s", long.String())
	}
	for _, table := range []string{short.String(), long.String()} {
		if !strings.Contains(table, "alpha         X-1  2         2.01      m     rule of thumb 2.3 m") {
			t.Errorf("X-1 not set beside the rule of thumb in\n%s", table)
		}
	}
	if verify.Passed(outcomes) || !verify.Passed(outcomes[:1]) || verify.Passed(nil) {
		t.Error("Passed: want false with a miss, true without, false for no check at all")
	}
}

// Every outcome says which table it stands in, what was given and what it puts to the test; every name of a reference is
// that of a check.
func TestOutcomesTellWhatTheyAreOf(t *testing.T) {
	count := map[verify.Kind]int{}
	topics := map[string]bool{}
	for _, o := range outcomes() {
		count[o.Kind]++
		topics[o.Topic] = true
		if o.Given == "" && o.Topic != "default" && !strings.HasPrefix(o.Check, "solver-") && !bare[o.Check] {
			t.Errorf("%s %s: nothing is given", o.ID, o.Check)
		}
		if exact := strings.HasSuffix(o.ID, "/exact"); exact && o.Kind != verify.Reference {
			t.Errorf("%s is of kind %q", o.ID, o.Kind)
		}
	}
	for _, name := range verify.Topics() {
		if !topics[name] {
			t.Errorf("no outcome is of %s", name)
		}
	}
	for _, k := range []verify.Kind{verify.Relation, verify.Simulation, verify.Stored, verify.Reference} {
		if count[k] < 50 {
			t.Errorf("%d checks are of kind %q", count[k], k)
		}
	}
}

// bare are checks of single constants.
var bare = map[string]bool{"melting-slope": true, "sharp-orifice": true, "degree-day-factor": true, "melt-base": true, "rain-snow-limit": true}
