package sim_test

import (
	"errors"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// Where nothing says how often the pump runs, there is no case, but three are supposed: a 45 s run once a day, every
// eight and every two hours, each told as a guess with the others as its range. The layout that was read stays as it is.
func TestSupposedCycles(t *testing.T) {
	text := strings.Replace(oddHouse, "CURVE", `[["0 m", "150 L/min"], ["8 m", "0 L/min"]]`, 1)
	l, p := readLayout(t, text)
	l.Water.Every, l.Water.For = 0, 0
	s := airSeries(4, func(float64) float64 { return -3 })
	if _, err := sim.NewCase("house", l, p, s, sim.Supply{}); !errors.Is(err, sim.ErrNoSupply) {
		t.Fatalf("a case without water: %v", err)
	}
	guesses := len(l.Guesses)
	supposed, err := sim.SupposeCycles("house", l, p, s)
	if err != nil {
		t.Fatal(err)
	}
	if l.Water.Every != 0 || len(l.Guesses) != guesses {
		t.Errorf("the layout now runs every %g s, with %d guesses", l.Water.Every, len(l.Guesses))
	}
	for i, want := range []struct {
		name, plan string
		runs       int // in four days
	}{{"seldom", "every 24 h for 45 s", 4}, {"usual", "every 8 h for 45 s", 12}, {"often", "every 2 h for 45 s", 48}} {
		x := supposed[i]
		if x.Name != want.name || x.Plan != want.plan || i == sim.UsualSchedule != (want.name == "usual") {
			t.Errorf("case %d is %s, %q; want %s, %q", i, x.Name, x.Plan, want.name, want.plan)
		}
		if n := len(x.Case.Cycles); n < want.runs || n > want.runs+1 {
			t.Errorf("%s: %d runs in four days; want %d, or one more at its end", x.Name, n, want.runs)
		}
		var told []pipe.Guess
		for _, g := range x.Case.Layout.Guesses {
			if g.Key == "water.cycles" {
				told = append(told, g)
			}
		}
		if len(told) != 1 || told[0].Text != want.plan || told[0].LowText != supposed[0].Plan || told[0].HighText != supposed[2].Plan {
			t.Errorf("%s is told as %+v", x.Name, told)
		}
	}
}
