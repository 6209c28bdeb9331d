package answers

import (
	"context"
	"fmt"

	"winterline/sim"
	"winterline/weather"
)

// run simulates units of work without draws from one index up to another. Winters go side by side; the layouts of a winter,
// which share its ground where their sites agree, go one after the other.
func (p *wintersPlan) run(ctx context.Context, e *Engine, from, to int) ([]WinterOutcome, error) {
	layouts := len(p.question.Layouts)
	if from >= to {
		return nil, nil
	}
	first, last := from/layouts, (to-1)/layouts
	cases, err := p.cases(ctx, e, first, last, asWritten)
	if err != nil {
		return nil, err
	}
	out := make([]WinterOutcome, to-from)
	err = e.each(ctx, last-first+1, func(ctx context.Context, i int) error {
		winter := first + i
		settings := e.Settings
		settings.Progress, settings.WithoutDendritic, settings.Ground = nil, true, sim.NewGroundStore()
		for layout, k := range cases[i] {
			unit := winter*layouts + layout
			if unit < from || unit >= to {
				continue
			}
			var err error
			if out[unit-from], err = p.unit(ctx, settings, winter, layout, k); err != nil {
				return fmt.Errorf("winter %s: %w", p.winters[winter].Name(), err)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// unit does one unit of work.
func (p *wintersPlan) unit(ctx context.Context, s sim.Settings, winter, layout int, k *sim.Case) (WinterOutcome, error) {
	r, err := sim.Run(ctx, k, s)
	if err != nil {
		return WinterOutcome{}, err
	}
	o := outcomeOf(p.winters[winter].Winter, layout, k, r)
	if !p.question.Margins {
		return o, nil
	}
	alone := &Engine{Workers: 1, Settings: s} // winters go side by side already
	m, err := alone.Margin(ctx, k, sim.OutcomeOf(r))
	o.Margin = &m
	return o, err
}

// cases are those of the winters from first to last, by winter and layout; of gives a span's.
func (p *wintersPlan) cases(ctx context.Context, e *Engine, first, last int, of func(spanPlan) ([]*sim.Case, error)) ([][]*sim.Case, error) {
	out := make([][]*sim.Case, last-first+1)
	for i, span := range p.spans {
		var winters []weather.Winter
		var at []int
		for w := first; w <= last; w++ {
			if p.winters[w].span == i {
				winters, at = append(winters, p.winters[w].Winter), append(at, w-first)
			}
		}
		if len(winters) == 0 {
			continue
		}
		cases, err := of(span)
		if err != nil {
			return nil, err
		}
		each, err := sim.EachWinter(ctx, cases, winters, e.Settings, e.workers())
		if err != nil {
			return nil, err
		}
		for j, w := range at {
			for layout := range cases {
				out[w] = append(out[w], each[layout][j])
			}
		}
	}
	return out, nil
}

// asWritten are a span's cases as their layouts stand.
func asWritten(s spanPlan) ([]*sim.Case, error) { return s.cases, nil }
