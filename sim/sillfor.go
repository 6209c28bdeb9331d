package sim

// openCell is a cell of which is not known yet how much it holds at the level that sillFor looks for.
type openCell struct {
	i         int
	low, high float64 // how full it stands at the bracket's ends, as fullAt says
	mid       float64 // at the level between them
}

// fullAt is how full a cell stands at a level beside it, of its height or its bore: what it holds
// depends on nothing else of the level, and it does not fall when the level rises.
func (c *cell) fullAt(level float64) float64 {
	if c.vertical {
		low, high := min(c.z0, c.z1), max(c.z0, c.z1)
		return min(1, max(0, (level-low)/(high-low)))
	}
	return min(max((level-c.mid())/c.bore, 0), 1)
}

// heldAt is what cell i holds at a level beside it, but never less than its ice [kg].
func (l *line) heldAt(i int, level float64) float64 {
	c := l.cells[i]
	return max(max(c.massAtLevel(level), c.written), c.iceShare()*c.mass) * c.length
}

// sillFor finds the level at the outlet, between low and high [m], at which the line from
// index `from` on holds `mass` [kg]; high when it holds no more than that there. As the bracket shrinks, fewer
// and fewer cells can still hold more or less than they do; only those are looked at.
func (l *line) sillFor(mass, low, high float64, from int, r rest) float64 {
	b, held, open := l.bound(r), l.level.held, l.level.open[:0]
	sum := 0.0
	for i := from; i < len(l.cells); i++ {
		level := b.at(i, high)
		held[i] = l.heldAt(i, level)
		sum += held[i]
		x := openCell{i: i, low: l.cells[i].fullAt(b.at(i, low)), high: l.cells[i].fullAt(level)}
		if x.low != x.high {
			open = append(open, x)
		}
	}
	if sum <= mass {
		return high
	}
	known, before := from, 0.0 // the cells before index known hold `before` [kg], whatever comes
	for i := 0; i < levelTries && high-low > levelTolerance; i++ {
		mid := 0.5 * (low + high)
		for k := range open {
			x := &open[k]
			level := b.at(x.i, mid)
			held[x.i], x.mid = l.heldAt(x.i, level), l.cells[x.i].fullAt(level)
		}
		for ; known < len(l.cells) && (len(open) == 0 || known < open[0].i); known++ {
			before += held[known]
		}
		sum := before
		for _, kg := range held[known:] {
			sum += kg
		}
		less := sum <= mass
		if less {
			low = mid
		} else {
			high = mid
		}
		open = narrow(open, less)
	}
	return low
}

// narrow lets the bracket of sillFor start, or else end, at the level between its ends, and drops the cells
// that hold the same at both ends now, which is what they hold there.
func narrow(open []openCell, start bool) []openCell {
	left := open[:0]
	for _, x := range open {
		if start {
			x.low = x.mid
		} else {
			x.high = x.mid
		}
		if x.low != x.high {
			left = append(left, x)
		}
	}
	return left
}
