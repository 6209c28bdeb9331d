package sim

import (
	"math"

	"winterline/pipe"
)

// standsIn is the most water [m³] that stands in a segment of an inside diameter [m] once the ground has risen by
// heave [m], unevenly. Against the point that rises least every other one rises by as much more as uneven heave
// allows; that point is looked for along the segment. What stands before and behind the segment is not counted.
func standsIn(p *pipe.Profile, segment int, bore, heave float64) float64 {
	most := 0.0
	for least := range fallPoints + 1 {
		x := p.X(segment, float64(least)/fallPoints)
		var level [fallPoints + 1]float64
		for i := range level {
			s := float64(i) / fallPoints
			level[i] = p.Invert(segment, s) + uneven(heave, math.Abs(p.X(segment, s)-x))
		}
		most = max(most, poolArea(level[:], bore)*(p.Segments[segment].X1-p.Segments[segment].X0)/fallPoints)
	}
	return most
}

// poolArea sums the cross-sections of the water that rests on inverts in flow order [m]: before each it stands as
// high as the highest behind. The two ends count half (trapezoidal rule).
func poolArea(inverts []float64, bore float64) float64 {
	last := len(inverts) - 1
	sum, barrier := 0.0, inverts[last]
	for i := last; i >= 0; i-- {
		barrier = max(barrier, inverts[i])
		area := pipe.SegmentArea(bore, barrier-inverts[i])
		if i == 0 {
			area /= 2
		}
		sum += area
	}
	return sum
}
