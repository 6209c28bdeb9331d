package verify

import "math"

// Front returns the depth [m] at which freezing begins at time t [s].
func (z ThreeZones) Front(t float64) float64 { return z.upper * math.Sqrt(t) }
