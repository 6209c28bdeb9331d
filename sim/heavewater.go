package sim

import (
	"math"

	"winterline/pipe"
)

// standsIn is the most water [m³] that can stand in a segment once the ground has risen unevenly by heave [m]; bore is its
// inside diameter [m]. One point rises least, and every other one by as much more as uneven heave allows; the point that
// leaves the most water is looked for along the segment. Water upstream and downstream of the segment is not counted.
func (b *bed) standsIn(bore, heave float64) float64 {
	if heave == 0 { // whichever point rises least
		return b.waterOf(poolArea(&b.invert, bore))
	}
	var bounds points
	for least := range bounds {
		level := b.heaved(least, heave)
		bounds[least] = poolBound(&level, bore)
	}
	most := 0.0
	for {
		least := 0
		for i, bound := range bounds {
			if bound > bounds[least] {
				least = i
			}
		}
		if !(b.waterOf(bounds[least]) > most) {
			return most
		}
		level := b.heaved(least, heave)
		most = max(most, b.waterOf(poolArea(&level, bore)))
		bounds[least] = 0
	}
}

// waterOf is the water [m³] of cross-sections that are summed up over the points [m²].
func (b *bed) waterOf(area float64) float64 { return area * b.length / fallPoints }

// heaved are the inverts [m] after an uneven heave [m] of which a point takes least.
func (b *bed) heaved(least int, heave float64) points {
	level := b.invert
	for i := range level {
		level[i] += uneven(heave, math.Abs(b.x[i]-b.x[least]))
	}
	return level
}

// poolArea sums, over the points, the cross-sections [m²] of the water that rests on inverts in flow order [m]: at each it
// stands as high as the highest invert downstream. The two ends count half (trapezoidal rule).
func poolArea(inverts *points, bore float64) float64 {
	sum, barrier := 0.0, inverts[fallPoints]
	for i := fallPoints; i >= 0; i-- {
		if !(barrier > inverts[i]) { // nothing stands
			barrier = inverts[i]
			continue
		}
		area := pipe.SegmentArea(bore, barrier-inverts[i])
		if i == 0 {
			area /= 2
		}
		sum += area
	}
	return sum
}

// poolBound is a little more than poolArea and takes a tenth of its time; most of the points that standsIn looks at
// need no better. Up to a depth y a bore d has the area ∫ 2 √(z (d − z)) dz = 4/3 y √(d y) (1 − 3/10 y/d − 3/56 (y/d)² − …),
// and all further terms are negative as well. What is added at the end outweighs the rounding of both.
func poolBound(inverts *points, bore float64) float64 {
	sum, barrier := 0.0, inverts[fallPoints]
	for i := fallPoints; i >= 0; i-- {
		if !(barrier > inverts[i]) {
			barrier = inverts[i]
			continue
		}
		y := min(1, (barrier-inverts[i])/bore)
		area := 4.0 / 3 * y * math.Sqrt(y) * (1 - y*(3.0/10+y*(3.0/56+y/48)))
		if i == 0 {
			area /= 2
		}
		sum += area
	}
	if sum == 0 {
		return 0
	}
	return bore * bore * (sum*(1+1e-6) + 1e-12)
}
