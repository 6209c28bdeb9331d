package sim

import (
	"fmt"

	"winterline/pipe"
	"winterline/weather"
)

// Supposed is a case in which how often the pump runs is supposed.
type Supposed struct {
	Name string // seldom, usual or often
	Plan string // as [water] cycles takes it
	Case *Case
}

// supposed are the plans run where nothing says how often the pump runs: a dry winter, a
// common one and a wet basin. Common practice, no source.
var supposed = []struct {
	name      string
	every, on float64 // from start to start, and run [s]
}{
	{"seldom", 24 * 3600, 45},
	{"usual", 8 * 3600, 45},
	{"often", 2 * 3600, 45},
}

// UsualSchedule is the index of the usual one among supposed cases.
const UsualSchedule = 1

// SupposeCycles makes the cases seldom, usual and often, in this order, for an
// installation of which nobody said how often the pump runs (NewCase gives ErrNoSupply).
// Each lists its plan among the guesses, with the two ends as its range.
func SupposeCycles(name string, l *pipe.Layout, p *pipe.Profile, s *weather.Series) ([]Supposed, error) {
	plan := func(i int) string {
		return fmt.Sprintf("every %g h for %g s", supposed[i].every/3600, supposed[i].on)
	}
	var out []Supposed
	for i, u := range supposed {
		layout := *l
		layout.Water.Every, layout.Water.For = u.every, u.on
		k, err := NewCase(name, &layout, p, s, Supply{})
		if err != nil {
			return nil, err
		}
		k.Layout.Guesses = append(k.Layout.Guesses, pipe.Guess{Key: "water.cycles", Text: plan(i),
			LowText: plan(0), HighText: plan(len(supposed) - 1), Source: "how often the pump runs; common practice, no source"})
		out = append(out, Supposed{u.name, plan(i), k})
	}
	return out, nil
}
