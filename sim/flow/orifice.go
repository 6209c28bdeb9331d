package flow

import "math"

// SharpOrifice is the discharge coefficient [-] of a sharp-edged opening: 0.620 at 0.3 m to
// 0.603 at 6 m of head (measured; Encyclopaedia Britannica 1911, Hydraulics). Short tube
// 0.80, rounded 0.98, re-entrant 0.51.
const SharpOrifice = 0.61

// Torricelli returns the velocity [m/s] of a free jet under a head [m]; 0 under none.
func Torricelli(head float64) float64 { return math.Sqrt(2 * Gravity * max(0, head)) }

// OrificeFlow returns the flow [m³/s] through an opening of the given area [m²] small
// against the head [m] at its centre, with discharge coefficient cd [-].
func OrificeFlow(cd, area, head float64) float64 { return cd * area * Torricelli(head) }

// SlotFlow returns the flow [m³/s] through an upright rectangular opening of the given width
// and height [m] with the level [m] above its bottom edge: a weir until the level reaches
// its top, a large orifice above.
//
// Source: integral of cd·width·√(2g·depth) over the wetted height.
func SlotFlow(cd, width, height, level float64) float64 {
	if level <= 0 {
		return 0
	}
	above := max(0, level-height)
	return 2.0 / 3 * cd * width * math.Sqrt(2*Gravity) *
		(level*math.Sqrt(level) - above*math.Sqrt(above))
}

// holePoints is the number of points across a round opening; the error is below 1e-5 of
// the flow, largest with the level at the crown.
const holePoints = 48

// holeNodes are the points across the wetted height and their weights, for
// z = wet·(1 − cos φ)/2 and equal steps in φ.
var holeNodes = func() (nodes [holePoints]struct{ z, weight float64 }) {
	for i := range nodes {
		sin, cos := math.Sincos((float64(i) + 0.5) * math.Pi / holePoints)
		nodes[i].z = (1 - cos) / 2
		nodes[i].weight = sin / 2 * math.Pi / holePoints
	}
	return nodes
}()

// SideHoleFlow returns the flow [m³/s] through a round opening of diameter d [m] in an
// upright wall with the level [m] above its lowest point: a weir until the level reaches
// its crown, an orifice above.
//
// Source: integral of cd·width(z)·√(2g(level − z)) over the wetted part. The substitution
// of holeNodes makes the integrand smooth and zero at both ends, so that equal steps
// converge fast.
func SideHoleFlow(cd, d, level float64) float64 {
	if level <= 0 {
		return 0
	}
	wet := min(level, d)
	sum := 0.0
	for i := range holeNodes {
		z := wet * holeNodes[i].z
		sum += holeNodes[i].weight * math.Sqrt(max(0, z*(d-z)*(level-z)))
	}
	return cd * 2 * math.Sqrt(2*Gravity) * sum * wet
}
