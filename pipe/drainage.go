package pipe

import (
	"fmt"

	"winterline/pipe/units"
)

// drainageSpread is by how much the true conductivity of a soil to water may differ from that of its texture class, either
// way: a decade. Within classes its decimal logarithm has a standard deviation of 0.6 to 0.9: Schaap, Leij and van Genuchten,
// Journal of Hydrology 251 (2001), from memory.
const drainageSpread = 10

// DrainageGuess is what is not known of the soil around the rock pit: its conductivity to water [m/s], as its texture class
// has it, with the range around. False: there is no pocket that drains, or the layout writes the conductivity.
func (l *Layout) DrainageGuess() (Guess, bool) {
	if l.Pocket == nil || l.Outlet.Weep == nil {
		return Guess{}, false
	}
	site, depth := &l.Site, l.Pocket.Depth
	soil, at := site.SoilAt(depth), "site"
	for i, layer := range site.Layers {
		if depth <= layer.To {
			at = fmt.Sprintf("site.layer[%d]", i)
			break
		}
	}
	v := soil.SaturatedConductivity
	if soil.Drained || v <= 0 {
		return Guess{}, false
	}
	return Guess{
		Key: at + ".soil_override.saturated_conductivity", Dimension: units.HydraulicConductivity, Value: v, Low: v / drainageSpread, High: min(v*drainageSpread, 1),
		Source: "the texture class; range: a decade either way, as within classes (from memory)",
	}, true
}
