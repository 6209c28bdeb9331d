package answers

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// GuessTried is a guess of a case, with what became of the winter at both ends of its usual range.
type GuessTried struct {
	Guess     pipe.Guess
	Low, High *GuessEnd // nil: with the rest of the layout that end contradicts itself
	Changes   bool      // either end has another verdict
}

// Tried says whether either end could be run.
func (g *GuessTried) Tried() bool { return g.Low != nil || g.High != nil }

// Ends are the ends that could be run, the low one first.
func (g *GuessTried) Ends() (ends []*GuessEnd) {
	for _, end := range []*GuessEnd{g.Low, g.High} {
		if end != nil {
			ends = append(ends, end)
		}
	}
	return ends
}

// GuessEnd is the winter with one guess at an end of its range.
type GuessEnd struct {
	High  bool // the high end
	Other bool // another verdict than as it was, or a line that shut where it did not, or the reverse
	State sim.State
	Shut  *float64    // when the line first froze shut, seconds since the first weather row; nil: never
	Seen  []SeenMatch // what the owner saw beside this winter
}

// endOf reads off a result what is told of an end; base is the winter as it was.
func endOf(r, base *sim.Result, high bool) *GuessEnd {
	v, was := r.Verdict, base.Verdict
	return &GuessEnd{High: high, Other: v.State != was.State || (v.Closed == nil) != (was.Closed == nil), State: v.State, Shut: v.Closed, Seen: MatchSeen(r)}
}

// Sure re-runs a case with each of its guesses at the low and the high end of its range, the others as they are, and
// says which of them change the verdict. r is the result of the case as it is. The second simulation says nothing here.
func (e *Engine) Sure(ctx context.Context, s Source, r *sim.Result) ([]GuessTried, error) {
	e = e.forRemedies()
	guesses := r.Layout.Guesses
	ends := make([]*GuessEnd, 2*len(guesses))
	err := e.each(ctx, len(ends), func(ctx context.Context, i int) (err error) {
		ends[i], err = e.guessEnd(ctx, s, r, guesses[i/2], i%2 == 1)
		return err
	})
	if err != nil {
		return nil, err
	}
	var out []GuessTried
	for i, g := range guesses {
		tried := GuessTried{Guess: g, Low: ends[2*i], High: ends[2*i+1]}
		for _, end := range tried.Ends() {
			tried.Changes = tried.Changes || end.Other
		}
		out = append(out, tried)
	}
	return out, nil
}

// guessEnd runs the winter with a guess at an end of its range. Where that is the value in use, it is the winter as it
// was; nil where the layout does not allow it.
func (e *Engine) guessEnd(ctx context.Context, s Source, r *sim.Result, g pipe.Guess, high bool) (*GuessEnd, error) {
	edit, inUse := g.LowEdit(), g.LowText != "" && g.LowText == g.Text || g.Text == "" && g.Low == g.Value
	if high {
		edit, inUse = g.HighEdit(), g.HighText != "" && g.HighText == g.Text || g.Text == "" && g.High == g.Value
	}
	if inUse {
		return endOf(r, r, high), nil
	}
	k, err := s.Case(edit)
	var contradicted units.Problems
	if errors.As(err, &contradicted) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	changed, err := e.run(ctx, k)
	if err != nil {
		return nil, err
	}
	return endOf(changed, r, high), nil
}

// sureWork is how much work may go into re-running guesses where nobody asked for that [Newton iterations]: some five
// seconds on two cores. It is counted, not timed, so that the same inputs get the same answer everywhere.
const sureWork = 16_000_000

// SureCheap says whether re-running the guesses of a case is little work, by that of the winter as it was.
func SureCheap(r *sim.Result) bool { return 2*len(r.Layout.Guesses)*r.Stats.Newton <= sureWork }

// Nearer is a guess at an end of its range that brings the simulation nearer to something that the owner saw.
type Nearer struct {
	Guess pipe.Guess
	High  bool
	Match SeenMatch
}

// leastNearer is by how much a guess must bring the two nearer to be told of [s].
const leastNearer = 6 * 3600.0

// reconcile finds the guesses that bring something which lies far from the winter as it was nearer to what was seen, the
// nearest first, each at its better end. m is of the winter as it was, i its index in what MatchSeen gives.
func reconcile(tried []GuessTried, i int, m SeenMatch) []Nearer {
	var out []Nearer
	for _, g := range tried {
		var best *Nearer
		for _, end := range g.Ends() {
			if there := end.Seen[i]; there.off() < m.off()-leastNearer && (best == nil || there.off() < best.Match.off()) {
				best = &Nearer{g.Guess, end.High, there}
			}
		}
		if best != nil {
			out = append(out, *best)
		}
	}
	slices.SortStableFunc(out, func(a, b Nearer) int { return cmp.Compare(a.Match.off(), b.Match.off()) })
	return out
}
