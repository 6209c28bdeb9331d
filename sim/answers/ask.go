package answers

import (
	"context"
	"slices"

	"winterline/sim"
)

// pending is a run at a shift, in progress or done.
type pending struct {
	goal   Goal
	colder int // [0.1 K]
	stop   context.CancelFunc
	done   chan struct{} // closed when found or err is there
	found  *sim.Outcome
	err    error
}

// begin starts a run at a shift that stops when the goal fails.
func (s *shifts) begin(ctx context.Context, g Goal, colder int) *pending {
	ctx, stop := context.WithCancel(ctx)
	p := &pending{goal: g, colder: colder, stop: stop, done: make(chan struct{})}
	go func() {
		defer close(p.done)
		p.found, p.err = s.run(ctx, g, colder)
	}()
	return p
}

// ask runs the winter at a shift, or takes the run that was begun early, and gives workers that are free to others that
// may be asked for next.
func (s *shifts) ask(ctx context.Context, g Goal, colder int, next []int) (*sim.Outcome, error) {
	p := s.keep(g, colder)
	if p == nil {
		p = s.begin(ctx, g, colder)
	}
	for _, c := range next {
		if len(s.early)+1 < s.e.workers() && !slices.ContainsFunc(s.early, func(q *pending) bool { return q.colder == c }) {
			s.early = append(s.early, s.begin(ctx, g, c))
		}
	}
	<-p.done
	p.stop()
	s.runs++
	if s.e.Progress != nil && p.err == nil {
		s.e.Progress(s.runs, max(usualRuns, s.runs+1))
	}
	if p.err != nil {
		s.leave()
	}
	return p.found, p.err
}

// keep takes a run out of those begun early, and ends those that nobody will ask for any more.
func (s *shifts) keep(g Goal, colder int) (kept *pending) {
	for _, p := range s.early {
		if p.goal == g && p.colder == colder {
			kept = p
		}
	}
	s.early = slices.DeleteFunc(s.early, func(p *pending) bool { return p == kept })
	s.leave()
	return kept
}

// leave ends all runs begun early, and waits for them.
func (s *shifts) leave() {
	for _, p := range s.early {
		p.stop()
	}
	for _, p := range s.early {
		<-p.done
	}
	s.early = nil
}
