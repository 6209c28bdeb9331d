package sim

import "context"

// dendriticEvery is how many weather rows lie between forks of a winter whose water is still liquid. A fork costs a
// hundredth of the march through a row, and only the last one is of use.
const dendriticEvery = 6

// follow is shown a winter at each row. It keeps a copy from one of the last rows before any water that could supercool
// came near 0 °C: up to there the winters with and without supercooling are the same. Once the winter has ice, the
// copy goes its own way.
func (f *fork) follow(ctx context.Context, w *winter, row int, t float64) {
	switch {
	case f.going != nil:
	case !w.chilled():
		if row%dendriticEvery == 0 {
			f.take(w, row, t)
		}
	case w.record.verdict.FirstIce != nil:
		f.goOn(ctx)
	}
}

// dendritic is when the line would first shut if its water supercooled [s]; nil: it would not, or ice on the ground
// would shut it first.
type dendritic struct {
	closed *float64
	err    error
}

// goOn lets the fork go its own way, beside the winter.
func (f *fork) goOn(ctx context.Context) {
	f.going = make(chan dendritic, 1)
	f.w.part()
	go func() {
		closed, err := f.closedDendritic(ctx)
		f.going <- dendritic{closed, err}
	}()
}

// answer waits for what becomes of the fork, if it has gone its own way.
func (f *fork) answer() (d dendritic) {
	if f.going != nil {
		d = <-f.going
	}
	return d
}

// part lets a copied winter march at the same time as the one that it was copied from: it gets a row of the sky of its
// own, and answers of its cells that nobody else writes to.
func (w *winter) part() {
	w.line.shareEvenFlow()
	sky := *w.sky
	w.sky = &sky
	own := map[*track]*track{}
	move := func(at **track) {
		if *at == nil {
			return
		}
		if own[*at] == nil {
			copied := **at
			copied.sky = &sky
			own[*at] = &copied
		}
		*at = own[*at]
	}
	move(&w.supply)
	move(&w.mounds.skin)
	for _, c := range w.line.cells {
		move(&c.outside.ground)
	}
	if w.pocket != nil && w.pocket.warmth != nil {
		move(&w.pocket.warmth.ground)
	}
}

// chilled reports whether any water that could supercool has come so near to ice that its law matters, if only in a step
// that was tried and given up. Once true it stays true.
func (w *winter) chilled() bool {
	for _, c := range w.line.cells {
		if c.mesh.chilled && w.supercools(c) {
			return true
		}
	}
	return false
}

// supercools reports that the run's own nucleation temperature holds in a cell: water open to the air is seeded by frost
// and does not supercool, and the layout may set a temperature of its own.
func (w *winter) supercools(c *cell) bool {
	return !c.free && w.k.Layout.Segments[c.segment].Nucleation == nil
}

// supercool lets water supercool from now on, to a temperature [°C].
func (w *winter) supercool(nucleus float64) {
	w.s.Nucleation = nucleus
	for _, c := range w.line.cells {
		if w.supercools(c) {
			c.nucleus = nucleus
			c.superheat()
		}
	}
}

// closedDendritic goes on from the fork with water that supercools and returns when the line first shuts [s]; nil
// where it does not, or where ice on the ground shuts it first.
func (f *fork) closedDendritic(ctx context.Context) (*float64, error) {
	w, t := f.w, f.t
	w.supercool(dendriticNucleation)
	verdict := &w.record.verdict
	for i := f.row; i+1 < len(w.sky.time) && verdict.Closed == nil; i++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		var err error
		if t, err = w.advance(i, t); err != nil {
			return nil, err
		}
	}
	if err := w.balance(); err != nil {
		return nil, err
	}
	if verdict.ClosedByMound { // no slush shut it first
		return nil, nil
	}
	return verdict.Closed, nil
}

// balance ends a winter at a weather row and closes its books.
func (w *winter) balance() error {
	var res Result
	w.water.undrawn.add(w.run.left)
	w.closeWater(&res)
	w.closeHeat(&res)
	return w.believe(&res)
}
