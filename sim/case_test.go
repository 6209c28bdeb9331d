package sim_test

import (
	"context"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// caseOf puts the text of a layout together with weather and water.
func caseOf(t testing.TB, text string, s *weather.Series, w sim.Supply) *sim.Case {
	t.Helper()
	l, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, text)
	}
	p, problems := l.MakeProfile("layout.toml")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	k, err := sim.NewCase("test", l, p, s, w)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// resultOf simulates a case that must be believed.
func resultOf(t *testing.T, k *sim.Case) *sim.Result {
	t.Helper()
	r, err := sim.Run(context.Background(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}
