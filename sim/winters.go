package sim

import (
	"context"
	"errors"
	"slices"
	"sort"
	"time"

	"golang.org/x/sync/errgroup"

	"winterline/weather"
)

// EachWinter takes cases over one long record apart: for each of them a case for each of the winters, over the
// winter's season. The undisturbed ground of a winter begins as the long record left it: each column goes once
// through the whole record, from a spin-up before its first row, and is remembered at the first row of every
// season; cases whose sites agree share it. Snow on the ground, the lack of water in the root zone, the yearly wave of the
// air and the pump's cycles go on likewise. Line, basin and rock pit begin anew at every season, which starts early
// enough for them to forget it.
//
// Columns go side by side, by so many workers (at least one). The settings are those with which the winters will be run.
func EachWinter(ctx context.Context, cases []*Case, winters []weather.Winter, s Settings, workers int) ([][]*Case, error) {
	p, err := newPasts(cases, winters, s)
	if err != nil || len(cases) == 0 || len(winters) == 0 {
		return make([][]*Case, len(cases)), err
	}
	if err := p.march(ctx, s, workers); err != nil {
		return nil, err
	}
	var seasons []weather.Range
	for _, w := range winters {
		seasons = append(seasons, w.Season)
	}
	parts := cases[0].Weather.Parts(seasons) // shared by all cases, so that they find each other's ground in a store
	out := make([][]*Case, len(cases))
	for i, k := range cases {
		for j, part := range parts {
			out[i] = append(out[i], k.during(part, p.of(i, j)))
		}
	}
	return out, nil
}

// during is the case over a part of its weather.
func (k *Case) during(part *weather.Series, past []remembered) *Case {
	one := *k
	one.Weather, one.past = part, past
	first := func(t time.Time) int {
		return sort.Search(len(k.Cycles), func(i int) bool { return !k.Cycles[i].Start.Before(t) })
	}
	from, to := first(part.Start), first(part.Stamp(part.End()))
	one.Cycles = k.Cycles[from:to:to]
	return &one
}

// pasts are the columns that cases over one long record need, each once.
type pasts struct {
	rows    []int // first of every season
	columns []*ground
	needs   [][]int        // by case: indices of its columns
	kept    [][]remembered // by column and season
}

// errManyRecords says that cases do not share their weather.
var errManyRecords = errors.New("the cases are not over the same weather record")

// newPasts finds the columns.
func newPasts(cases []*Case, winters []weather.Winter, s Settings) (*pasts, error) {
	p := &pasts{needs: make([][]int, len(cases))}
	for _, w := range winters {
		p.rows = append(p.rows, w.Season.From)
	}
	var inputs []groundInputs
	for i, k := range cases {
		if k.Weather != cases[0].Weather {
			return nil, errManyRecords
		}
		all := groundAsked(k.Warmer(-k.Shift), s) // what lies before a season is as recorded
		if !all.asked() {
			continue
		}
		for n, one := range all.list {
			if n > 0 && len(one.order) == 0 {
				continue
			}
			in := inputsOf(one, s.Stepping)
			at := slices.IndexFunc(inputs, in.same)
			if at < 0 {
				at = len(inputs)
				inputs, p.columns = append(inputs, in), append(p.columns, one)
			}
			p.needs[i] = append(p.needs[i], at)
		}
	}
	p.kept = make([][]remembered, len(p.columns))
	return p, nil
}

// march takes all columns through the record.
func (p *pasts) march(ctx context.Context, s Settings, workers int) error {
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(max(1, workers))
	for i, g := range p.columns {
		group.Go(func() (err error) {
			progress := s.Progress
			if i > 0 {
				progress = nil // all take about as long as the first
			}
			p.kept[i], err = g.remember(ctx, newStepper(s.Stepping), p.rows, progress)
			return err
		})
	}
	return group.Wait()
}

// of is what a case has to know of the ground before a season; nil where none of its line is buried.
func (p *pasts) of(k, season int) (all []remembered) {
	for _, at := range p.needs[k] {
		all = append(all, p.kept[at][season])
	}
	return all
}
