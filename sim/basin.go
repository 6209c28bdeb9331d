package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// basin is the sump. Pump cycles bring water that reached it; what the line refuses
// stays, and what the basin cannot hold wets the floor.
type basin struct {
	area, depth float64 // plan area [m²]; bottom to floor [m]
	band        float64 // water between float off and float on [kg]
	idle        float64 // level half way between float off and float on, above the bottom [m]
	bottom      float64 // level of its bottom [m]
	backlog     float64 // refused water that waits in it [kg]
	floor       float64 // water on the floor [kg]
}

// newBasin reads the basin; nil when the layout has none.
func newBasin(b *pipe.Basin) *basin {
	if b == nil {
		return nil
	}
	return &basin{
		area: b.Area, depth: b.BottomBelowFloor, band: b.Area * (b.FloatOn - b.FloatOff) * heat.WaterDensity, idle: 0.5 * (b.FloatOn + b.FloatOff),
		bottom: -(b.FloorBelowGround + b.BottomBelowFloor),
	}
}

// level is the water's height above the basin's bottom between cycles [m].
func (b *basin) level() float64 { return b.levelWith(0) }

// levelWith is the same with more water [kg] in it.
func (b *basin) levelWith(more float64) float64 {
	return b.idle + (more+b.backlog)/heat.WaterDensity/b.area
}

// keep takes refused water [kg] and reports whether the floor got wet.
func (b *basin) keep(mass float64) bool {
	room := math.Max(0, (b.depth-b.idle)*b.area*heat.WaterDensity-b.backlog)
	held := math.Min(room, mass)
	b.backlog += held
	b.floor += mass - held
	return mass > held
}
