package sim

import (
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// cellKept holds the last answers about a cell's geometry, each with its question. Levels at rest, a pump's flow and the
// ice of a frozen pool stay the same for days. An answer depends on its question and on the pipe alone, so that it
// never goes stale.
type cellKept struct {
	rest   keptMass
	iceBed keptBed
	wetted keptPerimeter
}

type (
	// keptMass is what stands in a lying cell [kg/m] at a level beside it [m].
	keptMass struct {
		level, mass float64
		known       bool
	}
	keptBed       struct{ area, depth float64 }     // how deep a cross-section of ice [m²] stands [m]
	keptPerimeter struct{ area, perimeter float64 } // what a cross-section of running water [m²] wets of the bed [m]
)

// evenFlow is what cells of one bore, roughness and fall share: the cross-sections in which flows run evenly there. One
// cell after the other asks for the same flow, and what the first works out serves all of them.
type evenFlow struct {
	bore, manning float64
	fall          float64       // of the invert over the length [-]
	last          [4]normalFlow // a pump's and those of its tail
}

// normalFlow is the cross-section [m²] in which a flow [m³/s] runs evenly, and how much of the bore's perimeter it wets
// [m]; 0: not worked out yet.
type normalFlow struct{ rate, area, perimeter float64 }

// leastEven is the fall with which even flow is worked out where the pipe falls less, or rises [-] (common practice, no
// source).
const leastEven = 1e-3

// shareEvenFlow lets the cells of a line share an evenFlow where they agree in what it depends on. Along one segment the
// falls of cells differ in their last digits, which do not count.
func (l *line) shareEvenFlow() {
	var all []*evenFlow
	for _, c := range l.cells {
		if c.vertical {
			continue
		}
		fall := max(leastEven, (c.z0-c.z1)/c.length)
		i := slices.IndexFunc(all, func(e *evenFlow) bool {
			return e.bore == c.bore && e.manning == c.manning && math.Abs(e.fall-fall) < 1e-12
		})
		if i < 0 {
			i = len(all)
			all = append(all, &evenFlow{bore: c.bore, manning: c.manning, fall: fall})
		}
		c.even = all[i]
	}
}

// restMass is massAtLevel, kept.
func (c *cell) restMass(level float64) float64 {
	if c.vertical {
		return c.massAtLevel(level)
	}
	if k := &c.kept.rest; !k.known || k.level != level {
		*k = keptMass{level, c.massAtLevel(level), true}
	}
	return c.kept.rest.mass
}

// bedDepth is the depth that the cell's ice alone would fill from the invert up [m].
func (c *cell) bedDepth() float64 {
	if area := c.iceArea(); c.kept.iceBed.area != area {
		c.kept.iceBed = keptBed{area, pipe.SegmentDepth(c.bore, area)}
	}
	return c.kept.iceBed.depth
}

// bedPerimeter is the part of the bore's perimeter that running water of a cross-section [m²] wets [m].
func (c *cell) bedPerimeter(area float64) float64 {
	if c.kept.wetted.area != area {
		c.kept.wetted = keptPerimeter{area, c.even.wets(area)}
	}
	return c.kept.wetted.perimeter
}

// runningArea is the cross-section that a flow [m³/s] takes up in a cell behind the joint [m²].
func (c *cell) runningArea(rate float64) float64 {
	if c.vertical || c.fill() > 0.99 {
		return c.boreArea()
	}
	return max(c.normalArea(rate), c.mass/heat.WaterDensity)
}

// normalArea is the cross-section in which a flow [m³/s] runs evenly through the cell [m²]; the whole bore where it
// cannot run with a free surface.
func (c *cell) normalArea(rate float64) float64 {
	return c.even.area(rate)
}

// area is the cross-section in which a flow [m³/s] runs evenly [m²].
func (e *evenFlow) area(rate float64) float64 {
	if rate <= 0 {
		return 0
	}
	for i := range e.last {
		if k := &e.last[i]; k.rate == rate && k.area > 0 {
			return k.area
		}
	}
	k := normalFlow{rate: rate, area: math.Pi / 4 * e.bore * e.bore}
	if depth, ok := flow.NormalDepth(rate, e.bore, e.fall, e.manning); ok {
		k.area = pipe.SegmentArea(e.bore, depth)
	}
	copy(e.last[1:], e.last[:len(e.last)-1])
	e.last[0] = k
	return k.area
}

// wets is the part of the bore's perimeter that a cross-section of water [m²] wets [m].
func (e *evenFlow) wets(area float64) float64 {
	for i := range e.last {
		k := &e.last[i]
		if k.area == area && area > 0 {
			if k.perimeter == 0 {
				k.perimeter = pipe.WettedPerimeter(e.bore, pipe.SegmentDepth(e.bore, area))
			}
			return k.perimeter
		}
	}
	return pipe.WettedPerimeter(e.bore, pipe.SegmentDepth(e.bore, area))
}
