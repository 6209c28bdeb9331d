package answers

import (
	"context"
	"fmt"

	"winterline/sim"
	"winterline/weather/chance"
)

// DrawnOutcome is what became of one layout in one winter with one draw: a unit of work. Times are seconds since the
// simulation's start; nil: never.
type DrawnOutcome struct {
	Winter  string   `json:"winter"`
	Layout  int      `json:"layout"`
	Draw    int      `json:"draw"`  // from 1
	State   string   `json:"state"` // the verdict's word
	Shut    *float64 `json:"shut_s"`
	Spill   *float64 `json:"spill_s"`
	Floor   *float64 `json:"floor_s"`
	Refused float64  `json:"refused_m3"` // as in WinterOutcome
}

// Wet is as in WinterOutcome.
func (o *DrawnOutcome) Wet() bool {
	return (&WinterOutcome{Spill: o.Spill, Floor: o.Floor, Refused: o.Refused}).Wet()
}

// drawnFor is what is drawn for a case.
func (p *wintersPlan) drawnFor(k *sim.Case) []Drawn {
	out := []Drawn{}
	if len(p.draws) == 0 {
		return out
	}
	for _, d := range drawnOf(k) {
		out = append(out, d.Drawn)
	}
	return out
}

// runDraws simulates units of work with draws, counted from the first of these, from one index up to another. Draws go
// side by side, each with cases and ground of its own, which are gone before its worker takes the next.
func (p *wintersPlan) runDraws(ctx context.Context, e *Engine, from, to int) ([]DrawnOutcome, error) {
	if from >= to {
		return nil, nil
	}
	first, last := from/p.usual(), (to-1)/p.usual()
	out := make([]DrawnOutcome, to-from)
	err := e.each(ctx, last-first+1, func(ctx context.Context, i int) error {
		start := (first + i) * p.usual()
		begin, end := max(from, start), min(to, start+p.usual())
		if err := p.runDraw(ctx, e.alone(), first+i, begin-start, out[begin-from:end-from]); err != nil {
			return fmt.Errorf("draw %d: %w", first+i+1, err)
		}
		return nil
	})
	return out, err
}

// runDraw simulates units of work with draw n, counted from the draw's first, from one of them until out is full.
func (p *wintersPlan) runDraw(ctx context.Context, e *Engine, n, from int, out []DrawnOutcome) error {
	layouts := len(p.question.Layouts)
	first := from / layouts
	cases, err := p.cases(ctx, e, first, (from+len(out)-1)/layouts, func(s spanPlan) ([]*sim.Case, error) { return p.drawnCases(s, n) })
	if err != nil {
		return err
	}
	settings := p.draws[n].settings(e.Settings)
	settings.Progress, settings.WithoutDendritic = nil, true
	for i := range out {
		winter, layout := (from+i)/layouts, (from+i)%layouts
		if layout == 0 || i == 0 {
			settings.Ground = sim.NewGroundStore() // shared by the layouts of a winter
		}
		k := cases[winter-first][layout]
		r, err := sim.Run(ctx, k, settings)
		if err != nil {
			return fmt.Errorf("winter %s: %w", p.winters[winter].Name(), err)
		}
		o := outcomeOf(p.winters[winter].Winter, layout, k, r)
		out[i] = DrawnOutcome{o.Winter, layout, n + 1, o.State, o.Shut, o.Spill, o.Floor, o.Refused}
	}
	return nil
}

// drawnCases are a span's cases with a draw's values.
func (p *wintersPlan) drawnCases(s spanPlan, n int) ([]*sim.Case, error) {
	var out []*sim.Case
	for i, usual := range s.cases {
		k, err := p.question.Layouts[i].Under(s.series).Case(p.draws[n].edits(drawnOf(usual))...)
		if err != nil {
			return nil, err
		}
		out = append(out, k)
	}
	return out, nil
}

// DrawnCount is in how many draws a winter of a layout failed.
type DrawnCount struct{ Shut, Wet, Flooded int }

// DrawnOf counts, winter by winter, the draws in which a layout failed; nil where nothing was drawn.
func (a *WintersAnswer) DrawnOf(layout int) []DrawnCount {
	if a.About.Draws == 0 {
		return nil
	}
	counts := make([]DrawnCount, len(a.About.Winters))
	perDraw := len(a.About.Winters) * len(a.About.Layouts)
	for i := range a.Drawn {
		o := &a.Drawn[i]
		if o.Layout != layout {
			continue
		}
		c := &counts[i%perDraw/len(a.About.Layouts)]
		for _, one := range []struct {
			n  *int
			is bool
		}{{&c.Shut, o.Shut != nil}, {&c.Wet, o.Wet()}, {&c.Flooded, o.Floor != nil}} {
			if one.is {
				*one.n++
			}
		}
	}
	return counts
}

// Likelihood is how likely a layout is to fail in a winter when what nobody knows well is drawn.
type Likelihood struct{ Shut, Wet, Floor chance.Share }

// likelihood is that of a layout; nil where nothing was drawn. A winter counts by the share of the draws in which it
// failed. Draws stand for what is not known of the house, and only winters tell how winters differ: so the interval is
// that of the number of winters, however many draws there are.
func (a *WintersAnswer) likelihood(layout int) *Likelihood {
	counts := a.DrawnOf(layout)
	if counts == nil {
		return nil
	}
	var sum DrawnCount
	for _, c := range counts {
		sum.Shut, sum.Wet, sum.Flooded = sum.Shut+c.Shut, sum.Wet+c.Wet, sum.Flooded+c.Flooded
	}
	share := func(k int) chance.Share { return chance.Counted(float64(k)/float64(a.About.Draws), len(counts)) }
	return &Likelihood{share(sum.Shut), share(sum.Wet), share(sum.Flooded)}
}
