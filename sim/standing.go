package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// frozenThrough is the ice share at which a pool counts as frozen through: it then raises
// the bed for what comes after it.
const frozenThrough = 0.99

// bedLevel is the level that a cell makes the water before it pass [m]: its higher
// invert, or the top of the ice when its pool is frozen through.
func (c *cell) bedLevel() float64 {
	bed := math.Max(c.z0, c.z1)
	if c.vertical || !c.wet() || c.iceShare() < frozenThrough {
		return bed
	}
	return math.Max(bed, c.mid()+pipe.SegmentDepth(c.bore, c.iceArea()))
}

// plugs says where ice has shut the line; −1 where it has not.
type plugs struct {
	house      int  // last cell before the joint
	first, run int  // first and last cell from the joint to the foot of the riser to the lid
	riser      bool // the riser to the lid
}

// none reports an open line.
func (p plugs) none() bool { return p.house < 0 && !p.behind() }

// behind reports ice that shuts the line behind the joint.
func (p plugs) behind() bool { return p.run >= 0 || p.riser }

// findPlugs sorts the cells that are shut.
func (l *line) findPlugs(shut []bool) plugs {
	p := plugs{house: -1, first: -1, run: -1}
	for i, s := range shut {
		switch {
		case !s:
		case i < l.jointAt:
			p.house = i
		case i >= l.elbow:
			p.riser = true
		default:
			if p.first < 0 {
				p.first = i
			}
			p.run = i
		}
	}
	l.shutEnd(&p)
	return p
}

// shutEnd adds what ice on the ground does at the line's end: it shuts the riser to the lid, or
// where there is none the last cell.
func (l *line) shutEnd(p *plugs) {
	switch {
	case !l.iced:
	case l.elbow < len(l.cells):
		p.riser = true
	default:
		p.run = len(l.cells) - 1
		if p.first < 0 {
			p.first = p.run
		}
	}
}

// rest says what decides how much water is left standing when nothing runs.
type rest struct {
	sill  float64 // level held at the outlet [m]
	lip   float64 // level up to which water stands before a plug in the line [m]
	plugs plugs
	valve bool // a check valve keeps the house pipe from running back
}

// levels works out the water level beside every cell at rest: the highest barrier
// downstream rules; a frozen cell lets water stand up to the lip of the way out before it.
func (l *line) levels(r rest) []float64 {
	out := make([]float64, len(l.cells))
	for i := l.elbow; i < len(l.cells); i++ {
		out[i] = r.sill
	}
	plug := r.plugs.run
	if l.house == 0 {
		plug = max(plug, r.plugs.house)
	}
	level := l.chain(out, l.standTo, l.elbow, r.sill, plug, r.lip)
	for i := l.standTo - 1; i >= l.standFrom; i-- {
		if i <= plug {
			level = math.Max(level, r.lip)
		}
		out[i] = level
	}
	if l.house > 0 {
		l.chain(out, 0, l.house, math.Inf(-1), r.plugs.house, r.lip)
	}
	l.backTo(out, r)
	if !r.valve {
		for i := 0; i <= l.crestAt; i++ {
			out[i] = math.Inf(-1)
		}
	}
	return out
}

// backTo lets water behind the joint run back to it where it would stand above the lowest way out
// there: down to that, or to the highest bed on its way back.
func (l *line) backTo(out []float64, r rest) {
	if l.jointAt == 0 || math.IsInf(r.lip, 1) {
		return
	}
	for i := l.standFrom; i < l.standTo; i++ {
		out[i] = math.Min(out[i], r.lip)
	}
	back := r.lip
	for i := max(l.jointAt, l.standTo); i < len(l.cells); i++ {
		c := l.cells[i]
		back = math.Max(back, c.z0)
		out[i] = math.Min(out[i], back)
		if i == r.plugs.run {
			return // no water comes back through it
		}
		back = math.Max(back, c.bedLevel())
	}
}

// chain works upstream through the lying cells from index to−1 to from, starting with
// the level held behind them, and returns the level before them.
func (l *line) chain(out []float64, from, to int, level float64, plug int, lip float64) float64 {
	for i := to - 1; i >= from; i-- {
		c := l.cells[i]
		if i <= plug {
			level = math.Max(level, lip)
		}
		// A cell's own lower end is the sill for what stands in it.
		out[i] = math.Max(level, c.z1)
		level = math.Max(out[i], c.bedLevel())
	}
	return level
}

// massAt is the standing water of the cells [kg/m] at the given levels; no less than what
// the layout says stands there.
func (l *line) massAt(levels []float64) []float64 {
	m := make([]float64, len(l.cells))
	for i, c := range l.cells {
		m[i] = math.Max(c.massAtLevel(levels[i]), c.written)
	}
	return m
}

// release leaves all standing water to the levels, once water has run.
func (l *line) release() {
	for _, c := range l.cells {
		c.written = 0
	}
}

// held is what stands in all cells, or is on its way through them [kg].
func (l *line) held() float64 { return l.standingFrom(0) + l.onWay().mass }

// standingFrom is what stands in the cells from index `from` on [kg].
func (l *line) standingFrom(from int) float64 {
	sum := 0.0
	for _, c := range l.cells[from:] {
		sum += c.mass * c.length
	}
	return sum
}

// capacity is what the cells from index `from` on hold at the given masses per metre,
// but never less than their ice [kg].
func (l *line) capacity(mass []float64, from int) float64 {
	sum := 0.0
	for i := from; i < len(l.cells); i++ {
		c := l.cells[i]
		sum += math.Max(mass[i], c.iceShare()*c.mass) * c.length
	}
	return sum
}

// sillFor finds the level at the outlet, between low and high [m], at which the line from
// index `from` on holds `mass` [kg]; high when it holds no more than that there.
func (l *line) sillFor(mass, low, high float64, from int, r rest) float64 {
	at := func(sill float64) float64 {
		r.sill = sill
		return l.capacity(l.massAt(l.levels(r)), from)
	}
	if at(high) <= mass {
		return high
	}
	for i := 0; i < levelTries && high-low > levelTolerance; i++ {
		mid := 0.5 * (low + high)
		if at(mid) <= mass {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// settled fill of the bore by water and ice as a share [-].
func (c *cell) fill() float64 { return c.mass / heat.WaterDensity / c.boreArea() }
