package answers

import (
	"context"
	"slices"

	"winterline/sim"
)

// Remedies is what single changes, and where none suffices two together, would have made of a winter.
type Remedies struct {
	Base   Remedy  // as it is; no change
	Shifts []Shift // that were tried for its margin, warmest first
	// Froze is false where no ice formed: then nothing is tried, for whatever went wrong no change to the line mends.
	Froze   bool
	Singles []Remedy // the best first; those that do nothing, and then those that harm, last
	Barred  []Change // not possible here, in the order of the line
	Pairs   []Remedy // two at once, the best first; none where a single one keeps the line open
	Reverse *Remedy  // without the relief openings; nil: there are none
}

// Remedy is a winter simulated with changes.
type Remedy struct {
	Changes []Change // one, or two together
	Toll    Toll
	Margin  *Margin // nil: not looked for, as it would tell nothing (needsMargin), or other pairs do more
	Effect  Effect
	MoreOf  Risks // of the new risks those that the simulation bears out: more starts, more ice beside the house
}

// Effect is what changes do, the best first.
type Effect int

// Effects.
const (
	Prevents Effect = iota // the line stays open, the house dry
	KeepsDry               // the house, which got wet, stays dry though the line shuts
	Helps                  // less harm than before, or more margin; not enough by itself
	Nothing                // the same winter as before
	Harms                  // more harm than before, or less margin
)

// String gives the stable word for an effect.
func (e Effect) String() string {
	return [...]string{"prevents", "keeps-dry", "helps", "nothing", "harms"}[e]
}

// remedies tries each single change over the whole record, from the result of the case as it is, and ranks them by what they
// prevent and the margin that they buy. Its progress goes on from a share of the whole.
func (e *Engine) remedies(ctx context.Context, s Source, base *sim.Case, result *sim.Result, begun float64) (*Remedies, error) {
	out := &Remedies{Base: Remedy{Toll: tollOf(result), Effect: Nothing}, Froze: result.Verdict.FirstIce != nil || result.Verdict.Closed != nil}
	if !out.Froze {
		return out, nil
	}
	margin, shifts, err := e.quiet().MarginCurve(ctx, base, sim.OutcomeOf(result))
	if err != nil {
		return nil, err
	}
	out.Base.Margin, out.Shifts = &margin, shifts
	var tried [][]Change
	for _, c := range Changes(s, base, result) {
		if c.Barred != BarNone {
			out.Barred = append(out.Barred, c)
			continue
		}
		tried = append(tried, []Change{c})
	}
	reverse, some := reverseTest(base)
	if some {
		tried = append(tried, []Change{reverse})
	}
	all, err := e.simulate(ctx, s, tried, out.Base, len(tried), stretch{begun, ofRuns, ofMargins})
	if err != nil {
		return nil, err
	}
	if some {
		out.Reverse, all = &all[len(all)-1], all[:len(all)-1]
		out.Reverse.judge(out.Base)
	}
	out.Singles = rank(all, out.Base)
	if failed := !out.Base.Toll.Open() || !out.Base.Toll.Dry(); failed && len(out.Singles) > 0 && out.Singles[0].Effect != Prevents {
		pairs, err := e.simulate(ctx, s, possible(s, pairsOf(out.Singles)), out.Base, pairMargins, stretch{ofMargins, ofPairs, 1})
		if err != nil {
			return nil, err
		}
		out.Pairs = rank(pairs, out.Base)
	}
	return out, nil
}

// pairMargins is how many pairs' margins are looked for: those of the pairs that do most in the winter as it was.
const pairMargins = 3

// forRemedies is the engine with what all re-runs of one case share. The second simulation says nothing here.
func (e *Engine) forRemedies() *Engine {
	shared := *e
	shared.Settings.WithoutDendritic = true
	if shared.Settings.Ground == nil {
		shared.Settings.Ground = sim.NewGroundStore()
	}
	return &shared
}

// run simulates a case over its whole record.
func (e *Engine) run(ctx context.Context, k *sim.Case) (*sim.Result, error) {
	return sim.Run(ctx, k, e.Settings)
}

// stretch is a part of the whole for its progress: where it begins, and how far its runs and then its margins take it.
type stretch struct{ from, runs, margins float64 }

// simulate runs the case with each of several sets of changes, and finds the margins of those that may do good: of at most
// so many sets, first of those that do most in the winter as it was.
func (e *Engine) simulate(ctx context.Context, s Source, sets [][]Change, base Remedy, most int, at stretch) ([]Remedy, error) {
	runs, margins := *e, *e
	runs.Progress, margins.Progress = inPart(e.Progress, at.from, at.runs), inPart(e.Progress, at.runs, at.margins)
	out, outcomes := make([]Remedy, len(sets)), make([]*sim.Outcome, len(sets))
	err := runs.each(ctx, len(sets), func(ctx context.Context, i int) error {
		k, err := s.With(sets[i]...)
		if err != nil {
			return err
		}
		r, err := e.run(ctx, k)
		if err != nil {
			return err
		}
		out[i], outcomes[i] = Remedy{Changes: sets[i], Toll: tollOf(r)}, sim.OutcomeOf(r)
		return nil
	})
	if err != nil {
		return nil, err
	}
	var good []int
	for i := range out {
		if out[i].needsMargin(base) {
			good = append(good, i)
		}
	}
	slices.SortStableFunc(good, func(i, j int) int { return out[i].Toll.compare(out[j].Toll) })
	good = good[:min(most, len(good))]
	return out, margins.each(ctx, len(good), func(ctx context.Context, j int) error {
		i := good[j]
		k, err := s.With(sets[i]...)
		if err != nil {
			return err
		}
		margin, err := e.alone().Margin(ctx, k, outcomes[i])
		out[i].Margin = &margin
		return err
	})
}
