package flow

import "math"

// RimWeir is the weir coefficient [m^0.5/s] of the rim of an upright pipe (3.1 in ft units; from memory).
const RimWeir = 1.71

// RimOrifice is the discharge coefficient [-] of an upright pipe's mouth under water, of
// county drainage manuals (from memory).
const RimOrifice = 0.6

// WeirFlow returns the flow [m³/s] over a crest of the given length [m] under a head [m],
// without end contractions. The coefficient [m^0.5/s] is RimWeir, or 1.84 for a sharp crest
// (Francis 1855, 3.33 in ft units).
func WeirFlow(coefficient, length, head float64) float64 {
	if head <= 0 {
		return 0
	}
	return coefficient * length * head * math.Sqrt(head)
}

// WeirFlowContracted returns the same with the nappe drawn in at both ends.
//
// Source: Francis 1855: the length loses a tenth of the head at each end.
func WeirFlowContracted(coefficient, length, head float64) float64 {
	return WeirFlow(coefficient, max(0, length-0.2*head), head)
}

// RimFlow returns the flow [m³/s] that leaves over the rim of an upright pipe of bore d [m]
// under a head [m] above the rim: the whole rim as a weir, or the mouth as an orifice
// where that is less, from about 0.4 d upwards.
func RimFlow(d, head float64) float64 {
	if head <= 0 {
		return 0
	}
	return min(WeirFlow(RimWeir, math.Pi*d, head), OrificeFlow(RimOrifice, math.Pi/4*d*d, head))
}
