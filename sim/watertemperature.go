package sim

import (
	"math"

	"winterline/pipe"
)

// fromGround says whether the water that arrives has the ground's temperature beside the
// basin's floor.
func fromGround(l *pipe.Layout) bool {
	return l.Basin != nil && waterTemperature(l) == nil && l.Site.Soil.HeatCapacityUnfrozen > 0
}

// waterTemperature is the written temperature of the water that arrives; nil: not known.
func waterTemperature(l *pipe.Layout) *float64 {
	if l.Basin != nil && l.Basin.WaterTemperature != nil {
		return l.Basin.WaterTemperature
	}
	return l.Water.Temperature
}

// arriving is the temperature of the water in the basin at time t [°C]: written, else the
// lower of the ground's annual mean and the ground beside the basin's floor.
func (w *winter) arriving(t float64) float64 {
	if v := waterTemperature(w.k.Layout); v != nil {
		return *v
	}
	if w.supply == nil {
		return math.Max(0, w.ground.own().mean)
	}
	return math.Max(0, math.Min(w.ground.own().mean, w.supply.temperature(t)))
}
