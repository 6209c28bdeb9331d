package sim

import (
	"context"
	"fmt"
	"slices"
)

// remembered is a column of undisturbed ground at an instant of a long record: what a case over a part of that
// record which begins at this instant needs to know of the time before.
type remembered struct {
	key     groundKey
	u       []float64 // state of its volumes [K]
	dt      float64   // step to try next [s]
	lack    float64   // of water in the root zone [m]; 0 where the record does not tell
	years   int       // that the spin-up before the long record took
	settled bool
}

// same says whether two columns would go on alike.
func (a *remembered) same(b *remembered) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.key == b.key && a.dt == b.dt && a.lack == b.lack && a.years == b.years && a.settled == b.settled && slices.Equal(a.u, b.u)
}

// recall finds the state at the first row among those remembered, by the kind of surface, for the column and for the one
// under the weather as recorded. Where nothing is remembered it does nothing.
func (g *ground) recall(all []remembered) error {
	if all == nil {
		return nil
	}
	i := slices.IndexFunc(all, func(r remembered) bool { return r.key == g.key })
	if i < 0 {
		return fmt.Errorf("nothing is known of the ground under %s before the first row", g.key.cover)
	}
	g.past, g.surface.lack = &all[i], &all[i].lack
	if g.usual != nil {
		g.usual.past, g.usual.surface.lack = g.past, g.surface.lack
	}
	return nil
}

// startsLater says whether the column under the weather as recorded has to be run first: because this one goes on from its
// start, or because it is asked for temperatures itself.
func (g *ground) startsLater() bool {
	return g.usual != nil && g.usual.start == nil && (g.past == nil || len(g.usual.order) > 0)
}

// remember takes the column through the record and keeps it at the given rows, which rise. progress, if not
// nil, is told how far it is.
func (g *ground) remember(ctx context.Context, w *stepper, rows []int, progress func(float64)) ([]remembered, error) {
	c, err := g.begin(ctx, w)
	if err != nil {
		return nil, err
	}
	var now stretch
	drive := now.at
	var kept []remembered
	last := rows[len(rows)-1]
	for i := 0; ; i++ {
		if i == rows[len(kept)] {
			kept = append(kept, g.remembered(c, i))
		}
		if i == last {
			return kept, nil
		}
		if i%256 == 0 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if progress != nil {
				progress(float64(i) / float64(last))
			}
		}
		now.set(g, c, i)
		if err := c.march(w, drive, g.s.Time[i], g.s.Time[i+1]); err != nil {
			return nil, err
		}
	}
}

// remembered is the column as it stands at a row.
func (g *ground) remembered(c *column, row int) remembered {
	r := remembered{key: g.key, u: slices.Clone(c.u), dt: c.dt, years: g.years, settled: g.settled}
	if e := g.surface.energy; e != nil && e.water != nil {
		r.lack = e.water.lack[row]
	}
	return r
}
