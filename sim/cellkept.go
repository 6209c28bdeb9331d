package sim

import (
	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// cellKept is what a cell has last worked out of its geometry, each with what it was asked for. It depends on that
// and on the pipe alone, so that it never goes stale: levels at rest, a pump's flow and the ice of a frozen pool stay
// what they are for days.
type cellKept struct {
	rest   keptMass
	iceBed keptBed
	wetted keptPerimeter
	normal [4]normalFlow // the last ones: a pump's and those of its tail
}

type (
	// keptMass is what stands in a lying cell [kg/m] at a level beside it [m].
	keptMass struct {
		level, mass float64
		known       bool
	}
	keptBed       struct{ area, depth float64 }     // how deep a cross-section of ice [m²] stands [m]
	keptPerimeter struct{ area, perimeter float64 } // what a cross-section of running water [m²] wets of the bed [m]
	normalFlow    struct{ rate, area float64 }      // in which cross-section [m²] a flow [m³/s] runs evenly
)

// restMass is massAtLevel.
func (c *cell) restMass(level float64) float64 {
	if c.vertical {
		return c.massAtLevel(level)
	}
	if k := &c.kept.rest; !k.known || k.level != level {
		*k = keptMass{level, c.massAtLevel(level), true}
	}
	return c.kept.rest.mass
}

// bedDepth is how deep the cell's ice would stand alone [m].
func (c *cell) bedDepth() float64 {
	if area := c.iceArea(); c.kept.iceBed.area != area {
		c.kept.iceBed = keptBed{area, pipe.SegmentDepth(c.bore, area)}
	}
	return c.kept.iceBed.depth
}

// bedPerimeter is what running water of a cross-section [m²] wets of the bore's bed [m].
func (c *cell) bedPerimeter(area float64) float64 {
	if c.kept.wetted.area != area {
		c.kept.wetted = keptPerimeter{area, pipe.WettedPerimeter(c.bore, pipe.SegmentDepth(c.bore, area))}
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

// normalArea is the cross-section in which a flow [m³/s] runs evenly through the cell [m²]; its bore's where it does not
// with a free surface.
func (c *cell) normalArea(rate float64) float64 {
	all := &c.kept.normal
	for _, k := range all {
		if k.rate == rate && k.area > 0 {
			return k.area
		}
	}
	fall := max(1e-3, (c.z0-c.z1)/c.length)
	area := c.boreArea()
	if depth, ok := flow.NormalDepth(rate, c.bore, fall, c.manning); ok {
		area = pipe.SegmentArea(c.bore, depth)
	}
	copy(all[1:], all[:])
	all[0] = normalFlow{rate, area}
	return area
}
