package sim

import "math"

// bounds hold the levels at rest within limits: water stands beside cell i at the level held at the outlet, but no lower
// than floor[i] and no higher than ceiling[i].
type bounds struct {
	floor, ceiling []float64
	from           int // index of the first cell that the outlet's level can reach; those before it stand at the floor
}

// levelRoom is where a line works out its levels at rest, time and again.
type levelRoom struct {
	bounds
	level, mass []float64 // what levels and massAt last returned
	held        []float64 // by cell, for sillFor [kg]
	open        []openCell
}

func newLevelRoom(cells int) levelRoom {
	room := func() []float64 { return make([]float64, cells) }
	return levelRoom{bounds: bounds{floor: room(), ceiling: room()}, level: room(), mass: room(), held: room(), open: make([]openCell, 0, cells)}
}

// at is the level beside cell i when that at the outlet is sill.
func (b *bounds) at(i int, sill float64) float64 {
	if i < b.from {
		sill = math.Inf(-1)
	}
	return min(max(sill, b.floor[i]), b.ceiling[i])
}

// levels works out the water level beside every cell at rest: the highest barrier
// downstream rules; a frozen cell lets water stand up to the lip of the way out before it.
// What it returns is good until it is called again.
func (l *line) levels(r rest) []float64 {
	b, out := l.bound(r), l.level.level
	for i := range out {
		out[i] = b.at(i, r.sill)
	}
	return out
}

// bound works out the limits of the levels at rest.
func (l *line) bound(r rest) *bounds {
	b := &l.level.bounds
	b.from = l.house
	for i := range b.ceiling {
		b.ceiling[i] = math.Inf(1)
	}
	for i := l.elbow; i < len(l.cells); i++ {
		b.floor[i] = math.Inf(-1)
	}
	plug := r.plugs.run
	if l.house == 0 {
		plug = max(plug, r.plugs.house)
	}
	level := l.chain(b.floor, l.standTo, l.elbow, plug, r.lip)
	for i := l.standTo - 1; i >= l.standFrom; i-- {
		if i <= plug {
			level = max(level, r.lip)
		}
		b.floor[i] = level
	}
	if l.house > 0 {
		l.chain(b.floor, 0, l.house, r.plugs.house, r.lip)
	}
	l.backTo(b.ceiling, r)
	if !r.valve {
		for i := 0; i <= l.crestAt; i++ {
			b.ceiling[i] = math.Inf(-1)
		}
	}
	return b
}

// chain works upstream through the lying cells from index to−1 to from, and returns the level
// that the last of them holds before it.
func (l *line) chain(floor []float64, from, to int, plug int, lip float64) float64 {
	level := math.Inf(-1)
	for i := to - 1; i >= from; i-- {
		c := l.cells[i]
		if i <= plug {
			level = max(level, lip)
		}
		// A cell's own lower end is the sill for what stands in it.
		floor[i] = max(level, c.z1)
		level = max(floor[i], c.bedLevel())
	}
	return level
}

// backTo lets water behind the joint run back to it where it would stand above the lowest way out
// there: down to that, or to the highest bed on its way back.
func (l *line) backTo(ceiling []float64, r rest) {
	if l.jointAt == 0 || math.IsInf(r.lip, 1) {
		return
	}
	for i := l.standFrom; i < l.standTo; i++ {
		ceiling[i] = r.lip
	}
	back := r.lip
	for i := max(l.jointAt, l.standTo); i < len(l.cells); i++ {
		c := l.cells[i]
		back = max(back, c.z0)
		ceiling[i] = back
		if i == r.plugs.run {
			return // no water comes back through it
		}
		back = max(back, c.bedLevel())
	}
}
