package answers

import (
	"context"
	"math"
	"slices"
	"sync"

	"winterline/sim"
)

// shifts are a search among colder and warmer versions of one winter: what is known of those that were tried, coldest
// last, and what is being run.
type shifts struct {
	e     *Engine
	run   shiftedRun
	tried []triedShift
	runs  int        // asked for
	early []*pending // begun before they are asked for
}

// Shift is what became of a winter so much colder.
type Shift struct {
	Colder    float64 // [K]; negative: warmer
	Shut, Wet Fate
	Narrowest float64 // how far ice came on the way to shutting the line [-], as Outcome has it; NaN: not known
}

// Fate is what is known of a goal in a winter: a run that stopped at one may not tell of the other.
type Fate int

// Fates.
const (
	NotKnown Fate = iota
	Held
	Failed
)

// all are the shifts that were tried, warmest first.
func (s *shifts) all() []Shift {
	out := make([]Shift, len(s.tried))
	for i, t := range s.tried {
		out[i] = Shift{float64(t.colder) / tenths, t.fate(Open), t.fate(Dry), t.narrowest}
	}
	return out
}

// fate is what is known of a goal.
func (t *triedShift) fate(g Goal) Fate {
	switch {
	case !t.known[g]:
		return NotKnown
	case t.fails[g]:
		return Failed
	}
	return Held
}

// shiftedRun runs a winter that is so much colder [0.1 K] until the goal fails.
type shiftedRun func(ctx context.Context, g Goal, colder int) (*sim.Outcome, error)

// triedShift is one shift. A run that stopped for one goal may not tell of the other.
type triedShift struct {
	colder    int     // [0.1 K]
	known     [2]bool // by goal: it is known whether it fails
	fails     [2]bool // by goal
	narrowest float64 // of a run through the whole record that never shut [-]; NaN: not known
}

// shifted runs a case's winter. What the shifts share of the ground is kept, and so are winters left when the line shut.
func (e *Engine) shifted(k *sim.Case) shiftedRun {
	settings := e.Settings
	settings.Progress = nil
	if settings.Ground == nil {
		settings.Ground = sim.NewGroundStore()
	}
	left := &leftRuns{}
	return func(ctx context.Context, g Goal, colder int) (*sim.Outcome, error) {
		run := left.take(colder)
		if run == nil {
			var err error
			if run, err = sim.Follow(ctx, k.Warmer(-float64(colder)/tenths), settings); err != nil {
				return nil, err
			}
		}
		o, err := run.Until(ctx, sim.Until{Shut: g == Open, Wet: g == Dry})
		if err == nil && g == Open && !o.Whole && o.Wet == nil {
			left.put(colder, run)
		}
		return o, err
	}
}

// leftRuns are winters that were left when the line shut: a search for the other goal takes them further instead of
// beginning anew. Which of them are kept changes no answer, only how long it takes.
type leftRuns struct {
	mu  sync.Mutex
	all []leftRun // the one left last stands last
}

// leftRun is one of them.
type leftRun struct {
	colder int // [0.1 K]
	run    *sim.Followed
}

// mostLeft is how many are kept: each holds what was recorded of its winter, some megabytes.
const mostLeft = 2

// put keeps a winter. Of too many the coldest goes: it shut earliest, so that least is lost with it.
func (l *leftRuns) put(colder int, run *sim.Followed) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.all = append(l.all, leftRun{colder, run})
	slices.SortFunc(l.all, func(a, b leftRun) int { return a.colder - b.colder })
	l.all = l.all[:min(mostLeft, len(l.all))]
}

// take gives a winter back; nil where none is kept.
func (l *leftRuns) take(colder int) *sim.Followed {
	l.mu.Lock()
	defer l.mu.Unlock()
	i := slices.IndexFunc(l.all, func(r leftRun) bool { return r.colder == colder })
	if i < 0 {
		return nil
	}
	run := l.all[i].run
	l.all = slices.Delete(l.all, i, i+1)
	return run
}

// place is where a shift stands among those that were tried, or would.
func (s *shifts) place(colder int) (i int, found bool) {
	return slices.BinarySearchFunc(s.tried, colder, func(t triedShift, c int) int { return t.colder - c })
}

// learn keeps what a run at a shift found, beside what is known of that shift already.
func (s *shifts) learn(colder int, o *sim.Outcome) *triedShift {
	i, found := s.place(colder)
	if !found {
		s.tried = slices.Insert(s.tried, i, triedShift{colder: colder, narrowest: math.NaN()})
	}
	t := &s.tried[i]
	for g, at := range [2]*float64{Open: o.Shut, Dry: o.Wet} {
		if at != nil || o.Whole {
			t.known[g], t.fails[g] = true, at != nil
		}
	}
	if o.Shut == nil && o.Whole {
		t.narrowest = o.Narrowest
	}
	return t
}

// try says whether a goal fails at a shift, by a run where that is not known. While it runs, others that may be asked for
// next are begun by workers that are free. What they find counts only once it is asked for, so that the answer does not
// depend on how many workers there are.
func (s *shifts) try(ctx context.Context, g Goal, colder int, next ...int) (bool, error) {
	if i, found := s.place(colder); found && s.tried[i].known[g] {
		return s.tried[i].fails[g], nil
	}
	o, err := s.ask(ctx, g, colder, next)
	if err != nil {
		return false, err
	}
	return s.learn(colder, o).fails[g], nil
}

// around is the bracket of a goal: from the smallest failing shift known to the largest below it that holds.
func (s *shifts) around(g Goal) bracket {
	b := bracket{neverHolds, neverFails, true}
	for _, t := range s.tried {
		switch {
		case !t.known[g]:
		case t.fails[g]:
			b.hi = min(b.hi, t.colder)
		case b.hi != neverFails:
			b.monotone = false
		default:
			b.lo = t.colder
		}
	}
	return b
}

// guess is the shift to try next inside a bracket: where ice is expected to shut the line; the middle where that cannot be
// told, lies outside, or did not help last time. Where nothing held yet it goes out from what failed.
func (s *shifts) guess(g Goal, b bracket, stalled bool) int {
	if b.lo == neverHolds {
		return s.warmer(g, b.hi)
	}
	middle := b.lo + (b.hi-b.lo)/2
	if g != Open || stalled {
		return middle
	}
	if at := s.shuts(b.lo); at < float64(b.hi) {
		return max(b.lo+1, int(math.Floor(at)))
	}
	return middle
}

// warmer is the shift to try next where a goal fails at hi and nothing warmer is known to hold: twice as much warmer each
// time. Where the goal is a dry house, and the line is known to shut only a little colder than hi, the steps begin small:
// the two mostly lie close together.
func (s *shifts) warmer(g Goal, hi int) int {
	next := min(2*hi, -firstStep)
	if apart := s.around(Open).lo - hi; g == Dry && apart >= 0 && apart < firstStep {
		next = hi - 3*max(1, apart)
	}
	return max(-reachSteps, next)
}

const (
	// narrowedMuch is from where on ice has narrowed a line enough to tell when it shuts, or that it came near to it [-].
	narrowedMuch = 0.25
	// usualNarrowing is by how much a tenth of a kelvin more narrows such a line, for a first guess [-]. Invented winters
	// of a shallow line that sags took the fewest runs with it.
	usualNarrowing = 0.07
)

// shuts is the shift [0.1 K] at which the line comes to shut, told by how narrow ice made it at the two coldest shifts
// known up to one: where an exponential through both does. Ice that grows by a straight line would shut the line later:
// of two that are fitted to the same points the exponential always comes first. NaN: it cannot be told.
func (s *shifts) shuts(upTo int) float64 {
	var before, last *triedShift
	for i := range s.tried {
		if t := &s.tried[i]; t.colder <= upTo && t.narrowest > 0 {
			before, last = last, t
		}
	}
	switch {
	case last == nil || before == nil && last.narrowest < narrowedMuch:
		return math.NaN()
	case before == nil:
		return float64(last.colder) + (1-last.narrowest)/usualNarrowing
	case last.narrowest <= before.narrowest:
		return math.NaN()
	}
	apart := float64(last.colder - before.colder)
	return float64(last.colder) + apart*math.Log(1/last.narrowest)/math.Log(last.narrowest/before.narrowest)
}

// ahead are the shifts that may be tried after next inside a bracket: if it fails, and if it holds.
func (s *shifts) ahead(g Goal, b bracket, next int) []int {
	var out []int
	if next-b.lo > 1 {
		out = append(out, s.guess(g, bracket{lo: b.lo, hi: next}, 2*(next-b.lo) > b.hi-b.lo))
	}
	if b.hi-next > 1 {
		out = append(out, next+(b.hi-next)/2)
	}
	return out
}

// wideGap finds the first gap between known shifts that is too wide to tell whether order holds in it, and a shift inside
// it: the first of those that cut the gap into as few equal parts as are narrow enough.
func (s *shifts) wideGap(g Goal) (inside int, wide bool) {
	var before *triedShift
	for i := range s.tried {
		t := &s.tried[i]
		if !t.known[g] {
			continue
		}
		if before != nil {
			gap, widest := t.colder-before.colder, widestGap
			if before.clear(g) && t.clear(g) {
				widest = widestClear
			}
			if gap > widest {
				return before.colder + gap/((gap+widest-1)/widest), true
			}
		}
		before = t
	}
	return 0, false
}

// clear says that a goal holds and that ice came nowhere near to shutting the line, as far as is known.
func (t *triedShift) clear(g Goal) bool {
	return t.known[g] && !t.fails[g] && !t.fails[Open] && !(t.narrowest > narrowedMuch)
}
