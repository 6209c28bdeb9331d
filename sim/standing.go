package sim

import (
	"winterline/pipe"
	"winterline/sim/heat"
)

// frozenThrough is the ice share at which a pool counts as frozen through: it then raises
// the bed for what comes after it.
const frozenThrough = 0.99

// bedLevel is the level that a cell makes the water before it pass [m]: its higher
// invert, or the top of the ice when its pool is frozen through.
func (c *cell) bedLevel() float64 {
	bed := max(c.z0, c.z1)
	if c.vertical || !c.wet() || c.iceShare() < frozenThrough {
		return bed
	}
	return max(bed, c.mid()+c.bedDepth())
}

// rest says what decides how much water is left standing when nothing runs.
type rest struct {
	sill  float64 // level held at the outlet [m]
	lip   float64 // level up to which water stands before a plug in the line [m]
	plugs plugs
	valve bool // a check valve keeps the house pipe from running back
}

// massAt is the standing water of the cells [kg/m] at the given levels; no less than what
// the layout says stands there. What it returns is good until it is called again.
func (l *line) massAt(levels []float64) []float64 {
	for i, c := range l.cells {
		l.level.mass[i] = max(c.restMass(levels[i]), c.written)
	}
	return l.level.mass
}

// release forgets what the layout says stands in the line: once water has run, levels alone decide.
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

// fill is the share of the bore that standing water and ice take up, as liquid [-].
func (c *cell) fill() float64 { return c.mass / heat.WaterDensity / c.boreArea() }

// mid is the level that decides how full a cell stands at a given water level [m]: its
// mid invert.
func (c *cell) mid() float64 { return 0.5 * (c.z0 + c.z1) }

// massAtLevel is the standing water of a cell [kg/m] when the water level beside it is
// level [m].
func (c *cell) massAtLevel(level float64) float64 {
	if c.vertical {
		return c.fullAt(level) * c.boreArea() * heat.WaterDensity
	}
	return pipe.SegmentArea(c.bore, level-c.mid()) * heat.WaterDensity
}
