package pipe

import "math"

// The relations below hold for a circle of diameter d [m] filled to depth y [m] above its invert,
// with the wetted angle theta = 2 acos(1 − 2 y/d): area d²(theta − sin theta)/8, wetted perimeter
// d·theta/2, top width d·sin(theta/2) (for example Chow 1959, table 2-1). Depths outside 0…d count
// as empty or full.

// wettedAngle returns theta [rad].
func wettedAngle(d, y float64) float64 {
	return 2 * math.Acos(1-2*min(max(y/d, 0), 1))
}

// SegmentArea returns the water's cross-section [m²].
func SegmentArea(d, y float64) float64 {
	theta := wettedAngle(d, y)
	if theta < 0.02 { // theta − sin theta = theta³/6 − theta⁵/120 …, without the cancellation
		return d * d / 8 * theta * theta * theta / 6 * (1 - theta*theta/20)
	}
	return d * d / 8 * (theta - math.Sin(theta))
}

// WettedPerimeter returns the length of wall under water [m].
func WettedPerimeter(d, y float64) float64 { return d / 2 * wettedAngle(d, y) }

// TopWidth returns the width of the free surface [m].
func TopWidth(d, y float64) float64 { return d * max(0, math.Sin(wettedAngle(d, y)/2)) }

// HydraulicRadius returns area over wetted perimeter [m]; 0 for an empty pipe.
func HydraulicRadius(d, y float64) float64 {
	p := WettedPerimeter(d, y)
	if p == 0 {
		return 0
	}
	return SegmentArea(d, y) / p
}

// SegmentDepth returns the depth [m] at which the water's cross-section is area [m²]: the inverse
// of SegmentArea, by Newton steps kept inside a shrinking bracket. Areas outside 0…πd²/4 give 0 or d.
func SegmentDepth(d, area float64) float64 {
	full := math.Pi / 4 * d * d
	if area <= 0 {
		return 0
	}
	if area >= full {
		return d
	}
	low, high := 0.0, d
	y := d * area / full
	for range 200 {
		miss := SegmentArea(d, y) - area
		if miss > 0 {
			high = y
		} else {
			low = y
		}
		next := y - miss/TopWidth(d, y) // dA/dy is the top width
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-y) <= 1e-15*d {
			return next
		}
		y = next
	}
	return y
}
