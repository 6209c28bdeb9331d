package answers

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// sameMargin is how near margins are the same [K]: they are found to 0.1 K each, and half a kelvin decides nothing.
const sameMargin = 0.5

// sameIce is how near two thicknesses of ice on the ground are the same [m].
const sameIce = 0.005

// needsMargin says whether a margin tells anything of a remedy: not of one that harms in the winter as it was, and not of
// one that leaves a line shut as before in front of a house that stays dry in any cold.
func (r *Remedy) needsMargin(base Remedy) bool {
	change := r.Toll.against(base.Toll)
	hopeless := !base.Toll.Open() && base.Margin.Dry.Beyond && base.Margin.Dry.K > 0
	return change < 0 || change == 0 && !hopeless
}

// rank judges remedies against the case as it is and sorts them: by effect (what does nothing behind what helps), then
// what they prevent, then the margins, then what they take (an owner's hands first); those
// that are equal keep their order.
func rank(all []Remedy, base Remedy) []Remedy {
	for i := range all {
		all[i].judge(base)
	}
	slices.SortStableFunc(all, func(a, b Remedy) int {
		return cmp.Or(cmp.Compare(max(a.Effect, Helps), max(b.Effect, Helps)), a.Toll.compare(b.Toll),
			cmp.Compare(b.margin(Open), a.margin(Open)), cmp.Compare(b.margin(Dry), a.margin(Dry)), cmp.Compare(a.takes(), b.takes()))
	})
	return all
}

// takes is what all the changes together take.
func (r *Remedy) takes() (all Takes) {
	for _, c := range r.Changes {
		all |= c.Takes
	}
	return all
}

// margin is that for a goal [K], −Inf where none was looked for.
func (r *Remedy) margin(g Goal) float64 {
	if r.Margin == nil {
		return math.Inf(-1)
	}
	return r.Margin.Of(g).K
}

// judge says what the changes do to the case as it is: by the winter itself, and where that is the same by the margins.
func (r *Remedy) judge(base Remedy) {
	change := r.Toll.against(base.Toll)
	if change == 0 && r.Margin != nil {
		change = margins(*r.Margin, *base.Margin)
	}
	switch spared := r.Toll.Dry() && !base.Toll.Dry(); {
	case r.Toll.Open() && r.Toll.Dry() && (spared || !base.Toll.Open()):
		r.Effect = Prevents
	case spared:
		r.Effect = KeepsDry
	case change < 0:
		r.Effect = Helps
	case change == 0:
		r.Effect = Nothing
	default:
		r.Effect = Harms
	}
	if r.Toll.Starts > base.Toll.Starts {
		r.MoreOf |= RiskStarts
	}
	was, is := base.Toll.Relief+base.Toll.Beside, r.Toll.Relief+r.Toll.Beside
	if is > was && !near(is, was, sameWater) || r.Toll.WallIce > base.Toll.WallIce+sameIce {
		r.MoreOf |= RiskWallWater
	}
}

// margins compares margins: −1 for one that is larger and none that is less, 0 for the same, else 1.
func margins(a, b Margin) int {
	open, dry := a.Open.K-b.Open.K, a.Dry.K-b.Dry.K
	switch {
	case math.Max(math.Abs(open), math.Abs(dry)) <= sameMargin:
		return 0
	case math.Min(open, dry) >= -sameMargin:
		return -1
	}
	return 1
}

// bestOf is how many single changes, each the best of its kind, are paired with each other.
const bestOf = 4

// pairsOf pairs the best single changes of different kinds that help, where they do not touch the same values.
func pairsOf(ranked []Remedy) (pairs [][]Change) {
	var best []Change
	kinds := map[Kind]bool{}
	for _, r := range ranked {
		if c := r.Changes[0]; r.Effect < Nothing && !kinds[c.Kind] && len(best) < bestOf {
			kinds[c.Kind] = true
			best = append(best, c)
		}
	}
	for i, a := range best {
		for _, b := range best[i+1:] {
			if !overlap(a, b) {
				pairs = append(pairs, []Change{a, b})
			}
		}
	}
	return pairs
}

// overlap says whether two changes edit the same value, or one a value in a table that the other replaces or takes away.
func overlap(a, b Change) bool {
	for _, x := range a.Edits {
		for _, y := range b.Edits {
			if holds(x.Path, y.Path) || holds(y.Path, x.Path) {
				return true
			}
		}
	}
	return false
}

// holds says whether an edit at one path reaches the value at another: the same one, or one within it.
func holds(path, at string) bool {
	rest, within := strings.CutPrefix(at, path)
	return within && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// possible leaves out the sets of changes that contradict each other, though each change alone is possible.
func possible(s Source, sets [][]Change) [][]Change {
	return slices.DeleteFunc(sets, func(set []Change) bool {
		var contradicted units.Problems
		_, err := s.With(set...)
		return errors.As(err, &contradicted)
	})
}
