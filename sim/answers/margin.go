package answers

import (
	"context"

	"winterline/sim"
)

// Margin is how many degrees colder a winter could have been.
type Margin struct {
	Open Bound `json:"open"` // until the line first shuts
	Dry  Bound `json:"dry"`  // until water is let go beside the house, or reaches the floor
}

// Of gives the bound for a goal.
func (m Margin) Of(g Goal) Bound {
	if g == Dry {
		return m.Dry
	}
	return m.Open
}

// Bound is a margin for one goal. In a winter colder by K, which is in whole tenths, the goal is kept, and in one colder by
// a tenth more it is not. K is negative where the winter as it was did not keep it: so many kelvin warmer would have.
type Bound struct {
	K      float64 `json:"k"`      // [K]
	Beyond bool    `json:"beyond"` // the end is not within MarginReach: K stands at the reach, and at −MarginReach even that much warmer would not do
	// Monotone says that no shift tried on the safe side failed and none on the other held. Where it is false K is
	// still the least: the smallest failing shift found stands just beyond it.
	Monotone bool `json:"monotone"`
}

// MarginReach is how far a margin is looked for, either way [K].
const MarginReach = 25.0

const (
	tenths      = 10                        // shifts are whole tenths of a kelvin
	reachSteps  = int(MarginReach * tenths) // [0.1 K]
	widestGap   = (reachSteps + 2) / 3      // that may lie between two shifts that were tried [0.1 K]
	widestClear = reachSteps / 2            // likewise between two at which ice left the line open by far
	firstStep   = reachSteps / 6            // warmer than a winter that failed [0.1 K]
	usualRuns   = 11                        // that a margin takes, for its progress
)

// Margin finds both margins of a case. base is what became of the winter as it was, where that is known; else nil.
//
// Both are bracketed by runs of the same winter, shifted (sim.Case.Warmer), that stop as soon as they fail. First comes
// the far end, where a failing run fails soon; then the bracket is narrowed to a tenth of a kelvin, by following how
// narrow ice made the line, and by halving where that does not help. That colder is always worse is checked, not
// assumed: no two neighbouring shifts that were tried lie more than a third of the reach apart, or half of it where ice
// left the line open by far. The far end is among them wherever the winter as it was held, and the nearer the margin the
// closer they lie.
func (e *Engine) Margin(ctx context.Context, k *sim.Case, base *sim.Outcome) (Margin, error) {
	m, _, err := e.MarginCurve(ctx, k, base)
	return m, err
}

// MarginCurve finds both margins and gives what was found at the shifts that were tried on the way, warmest first.
func (e *Engine) MarginCurve(ctx context.Context, k *sim.Case, base *sim.Outcome) (Margin, []Shift, error) {
	s := &shifts{e: e, run: e.shifted(k)}
	m, err := s.margins(ctx, base)
	return m, s.all(), err
}

// margins searches for both goals.
func (s *shifts) margins(ctx context.Context, base *sim.Outcome) (Margin, error) {
	defer s.leave()
	if base != nil {
		s.learn(0, base)
	}
	open, err := s.search(ctx, Open, nil)
	if err != nil {
		return Margin{}, err
	}
	dry, err := s.search(ctx, Dry, &open)
	return Margin{open.bound(), dry.bound()}, err
}

// bracket is where a search stands: it holds at lo and fails at hi, in steps colder. At its widest neither end needs to
// have been tried: beyond −reachSteps and reachSteps nothing is.
type bracket struct {
	lo, hi   int
	monotone bool
}

// The ends of a bracket that is open to one side.
const (
	neverHolds = -reachSteps - 1
	neverFails = reachSteps + 1
)

// bound is the margin that a closed bracket stands for.
func (b bracket) bound() Bound {
	out := Bound{K: float64(b.lo) / tenths, Monotone: b.monotone}
	if b.lo == neverHolds {
		out.K = -MarginReach
	}
	out.Beyond = b.lo == neverHolds || b.hi == neverFails
	return out
}

// search closes the bracket of a goal; open, where it is known already, is that of the line staying open, which water
// beside the house mostly follows.
func (s *shifts) search(ctx context.Context, g Goal, open *bracket) (bracket, error) {
	fails, err := s.try(ctx, g, 0)
	if err != nil {
		return bracket{}, err
	}
	if open != nil && open.hi != neverFails {
		if _, err := s.try(ctx, g, open.hi, reachSteps); err != nil {
			return bracket{}, err
		}
	}
	if !fails {
		if _, err := s.try(ctx, g, reachSteps, reachSteps/2); err != nil {
			return bracket{}, err
		}
	}
	for {
		if err := s.close(ctx, g); err != nil {
			return bracket{}, err
		}
		gap, wide := s.wideGap(g)
		if !wide {
			return s.around(g), nil
		}
		if _, err := s.try(ctx, g, gap); err != nil {
			return bracket{}, err
		}
	}
}

// close narrows the bracket around the smallest failing shift known to one step.
func (s *shifts) close(ctx context.Context, g Goal) error {
	stalled := false
	for b := s.around(g); b.hi-b.lo > 1; {
		next := s.guess(g, b, stalled)
		if _, err := s.try(ctx, g, next, s.ahead(g, b, next)...); err != nil {
			return err
		}
		after := s.around(g)
		stalled = 2*(after.hi-after.lo) > b.hi-b.lo
		b = after
	}
	return nil
}
