package report

import (
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// How close it was is told in whole degrees of both units, and what is too close is called so.
func TestHowClose(t *testing.T) {
	bare, relieved := &sim.Result{Layout: &pipe.Layout{}}, &sim.Result{Layout: &pipe.Layout{Reliefs: []pipe.Relief{{}}}}
	b := func(k float64) answers.Bound { return answers.Bound{K: k, Monotone: true} }
	far := func(k float64) answers.Bound { return answers.Bound{K: k, Beyond: true, Monotone: true} }
	for _, c := range []struct {
		r         *sim.Result
		open, dry answers.Bound
		line      string
		basement  string
	}{
		{bare, b(3.9), b(5.2), "stays open until the whole winter is about 7 °F (4 °C) colder", "no water on the floor or beside the house until about 9 °F (5 °C) colder"},
		{relieved, b(-3.9), b(5.2), "would have stayed open if the whole winter were about 7 °F (4 °C) warmer", "no water on the floor or beside the house until about 9 °F (5 °C) colder, IF someone keeps the relief clear"},
		{relieved, b(5.2), b(5.2), "stays open until the whole winter is about 9 °F (5 °C) colder", "no water on the floor or beside the house until about 9 °F (5 °C) colder"},
		{bare, far(25), far(25), "would have stayed open even if the whole winter were more than 45 °F (25 °C) colder", "no water on the floor or beside the house at more than 45 °F (25 °C) colder"},
		{bare, far(-25), far(-25), "would have frozen shut even if the whole winter were more than 45 °F (25 °C) warmer", "water on the floor or beside the house even at more than 45 °F (25 °C) warmer"},
		{bare, b(1.9), b(0), "it stayed open, but too close to call", "no water came out, but too close to call"},
		{bare, b(-0.1), b(-1.9), "it froze shut, but too close to call", "water came out, but too close to call"},
		{bare, b(2), b(-2), "stays open until the whole winter is about 4 °F (2 °C) colder", "no water on the floor or beside the house if the whole winter were about 4 °F (2 °C) warmer"},
	} {
		got := howCloseWords(c.r, &answers.Margin{Open: c.open, Dry: c.dry}, US)
		if want := []string{"line: " + c.line, "basement: " + c.basement}; strings.Join(got, "\n") != strings.Join(want, "\n") {
			t.Errorf("%g and %g K:\n%s\nwant\n%s", c.open.K, c.dry.K, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
	if got := howCloseWords(bare, nil, US); got != nil {
		t.Errorf("not worked out, and told: %v", got)
	}
	if got := howCloseWords(bare, &answers.Margin{Open: b(3.9), Dry: b(5.2)}, SI)[0]; !strings.Contains(got, "about 4 °C (7 °F) colder") {
		t.Errorf("in SI: %s", got)
	}
}

// A margin that is not in order is told of.
func TestMarginWarnings(t *testing.T) {
	in, out := answers.Bound{K: 3, Monotone: true}, answers.Bound{K: 3}
	for n, m := range map[int]answers.Margin{0: {Open: in, Dry: in}, 1: {Open: in, Dry: out}, 2: {Open: out, Dry: out}} {
		if got := MarginWarnings(m); len(got) != n {
			t.Errorf("%d warnings, want %d: %v", len(got), n, got)
		}
	}
}

// The summary keeps margins to the tenth, and null where none was worked out.
func TestSummaryMargin(t *testing.T) {
	m := summaryMargin(&answers.Margin{Open: answers.Bound{K: -13.9}, Dry: answers.Bound{K: 25, Beyond: true}})
	if m.OpenK == nil || *m.OpenK != -13.9 || m.DryK == nil || *m.DryK != 25 {
		t.Errorf("%+v", m)
	}
	if m := summaryMargin(nil); m.OpenK != nil || m.DryK != nil {
		t.Errorf("%+v", m)
	}
}
