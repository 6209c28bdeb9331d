package answers

import (
	"context"

	"winterline/sim"
)

// Why is a winter with what tells why it went as it did, and what would have changed that.
type Why struct {
	Case     *sim.Case
	Result   *sim.Result // as it was
	Seen     []SeenSet   // what the owner saw, in time order
	Sure     []GuessTried
	Remedies *Remedies
}

// SeenSet is something that the owner saw beside the simulation, and where the two lie far apart the guesses that would
// bring them nearer, the nearest first.
type SeenSet struct {
	SeenMatch
	Nearer []Nearer
}

// Why simulates a case, its guesses at the ends of their ranges, and single changes to it.
func (e *Engine) Why(ctx context.Context, s Source) (*Why, error) {
	tell, alone := e.Progress, e.Settings.WithoutDendritic
	e = e.forRemedies()
	k, err := s.Case()
	if err != nil {
		return nil, err
	}
	w := &Why{Case: k}
	first := e.Settings
	first.WithoutDendritic = alone // of the winter as it was, both simulations are told
	if w.Result, err = sim.Run(ctx, k, first); err != nil {
		return nil, err
	}
	e.Progress = inPart(tell, 0, whyGuesses)
	if w.Sure, err = e.Sure(ctx, s, w.Result); err != nil {
		return nil, err
	}
	for i, m := range MatchSeen(w.Result) {
		set := SeenSet{SeenMatch: m}
		if m.Far() {
			set.Nearer = reconcile(w.Sure, i, m)
		}
		w.Seen = append(w.Seen, set)
	}
	e.Progress = tell
	w.Remedies, err = e.remedies(ctx, s, k, w.Result, whyGuesses)
	return w, err
}

// How far the work has come, as a share, for its progress alone: after the guesses, and then, of the changes, after the
// plain runs, the margins, and the plain runs of pairs.
const (
	whyGuesses = 0.10
	ofRuns     = 0.15
	ofMargins  = 0.75
	ofPairs    = 0.80
)

// progressSteps is how finely progress is told: in so many parts of a piece of work.
const progressSteps = 1000

// inPart tells the progress of one part of a piece of work, from one share of the whole to another.
func inPart(tell func(done, of int), from, to float64) func(done, of int) {
	if tell == nil {
		return nil
	}
	return func(done, of int) { tell(int(progressSteps*(from+(to-from)*float64(done)/float64(of))), progressSteps) }
}
