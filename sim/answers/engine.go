package answers

import (
	"context"
	"errors"
	"runtime"
	"sync"

	"golang.org/x/sync/errgroup"

	"winterline/sim"
)

// Engine re-runs cases side by side. What it answers does not depend on how many workers it has.
type Engine struct {
	Workers  int                // 0: as many as Go runs at once
	Settings sim.Settings       // of every run
	Progress func(done, of int) // if not nil, is told how much of the work is done, one call at a time
}

// alone is the engine for the work inside one of several pieces that stand side by side already: by one worker, and
// silent.
func (e *Engine) alone() *Engine { return &Engine{Workers: 1, Settings: e.Settings} }

// quiet is the engine without progress.
func (e *Engine) quiet() *Engine { return &Engine{Workers: e.Workers, Settings: e.Settings} }

// stages are pieces of work one after the other, whose weights add up to so much.
type stages struct {
	e  *Engine
	of int
}

// engine is the engine for a stage of some weight, with so much weight of other stages before it: it tells how far the
// whole has come.
func (s stages) engine(before, weight int) *Engine {
	out := *s.e
	if tell := s.e.Progress; tell != nil {
		out.Progress = func(done, of int) { tell(before+weight*done/of, s.of) }
	}
	return &out
}

// workers is how many pieces of work are done at once.
func (e *Engine) workers() int {
	if e.Workers > 0 {
		return e.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// each does n pieces of work side by side; do stores what it finds by the piece's index. The first that fails ends
// the others; of several failures that of the lowest index is told.
func (e *Engine) each(ctx context.Context, n int, do func(ctx context.Context, i int) error) error {
	group, inside := errgroup.WithContext(ctx)
	group.SetLimit(e.workers())
	failed := make([]error, n)
	var mu sync.Mutex
	done := 0
	for i := range n {
		group.Go(func() error {
			if failed[i] = inside.Err(); failed[i] == nil {
				failed[i] = do(inside, i)
			}
			if failed[i] == nil && e.Progress != nil {
				mu.Lock()
				defer mu.Unlock()
				done++
				e.Progress(done, n)
			}
			return failed[i]
		})
	}
	first := group.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, err := range failed {
		if err != nil && !errors.Is(err, context.Canceled) { // those that another one's failure ended
			return err
		}
	}
	return first
}
