package report

import (
	"math"
	"testing"

	"winterline/sim"
	"winterline/sim/answers"
)

// The picture of a margin is readable wherever the margins lie, and left out where nothing was tried.
func TestMarginChart(t *testing.T) {
	none := math.NaN()
	far := answers.Bound{K: answers.MarginReach, Beyond: true, Monotone: true}
	never := answers.Bound{K: -answers.MarginReach, Beyond: true, Monotone: true}
	failed := []answers.Shift{{Colder: -25, Shut: answers.Failed, Wet: answers.Failed, Narrowest: none}, {Colder: 0, Shut: answers.Failed, Wet: answers.Failed, Narrowest: none}}
	for name, c := range map[string]struct {
		m      answers.Margin
		shifts []answers.Shift
	}{
		"never holds": {answers.Margin{Open: never, Dry: never}, failed},
		"always holds": {answers.Margin{Open: far, Dry: far}, []answers.Shift{
			{Colder: 0, Shut: answers.Held, Wet: answers.Held, Narrowest: none}, {Colder: 12.5, Shut: answers.Held, Wet: answers.Held, Narrowest: 0},
			{Colder: 25, Shut: answers.Held, Wet: answers.Held, Narrowest: 0.43}}},
		"in between": {answers.Margin{Open: answers.Bound{K: 3.1, Monotone: true}, Dry: answers.Bound{K: 8.4, Monotone: true}}, []answers.Shift{
			{Colder: 0, Shut: answers.Held, Wet: answers.Held, Narrowest: none}, {Colder: 3.1, Shut: answers.Held, Wet: answers.Held, Narrowest: 0.99},
			{Colder: 3.2, Shut: answers.Failed, Narrowest: none}, {Colder: 8.4, Shut: answers.Failed, Wet: answers.Held, Narrowest: none},
			{Colder: 8.5, Shut: answers.Failed, Wet: answers.Failed, Narrowest: none}}},
	} {
		r := plain(sim.Clear)
		made, ok := marginChart(r, c.m, c.shifts)
		if !ok {
			t.Errorf("%s: no chart", name)
			continue
		}
		for _, fault := range drawnChart(made).faults() {
			t.Errorf("%s: %s", name, fault)
		}
	}
	if _, ok := marginChart(plain(sim.Clear), answers.Margin{}, nil); ok {
		t.Error("a chart of no shifts")
	}
}
