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
// of SegmentArea. Areas outside 0…πd²/4 give 0 or d.
func SegmentDepth(d, area float64) float64 {
	share := 8 * area / (d * d) // theta − sin theta
	switch {
	case !(share > 0):
		return 0
	case share >= 2*math.Pi:
		return d
	case share > math.Pi: // the air above is such a segment too
		half := math.Sin(segmentAngle(2*math.Pi-share) / 4)
		return d * (1 - half*half)
	}
	half := math.Sin(segmentAngle(share) / 4)
	return d * half * half
}

// segmentAngle returns the theta of 0…pi [rad] at which theta − sin theta is share: Kepler's equation
// with an eccentricity of 1. Its series in the cube root of 6 share gives the first eleven digits or more of
// small angles and an error under 0.01 of large ones; each pass of Halley's cubes what is left.
func segmentAngle(share float64) float64 {
	s := math.Cbrt(6 * share)
	z := s * s
	theta := s * (1 + z*(1.0/60+z*(1.0/1400+z*(1.0/25200+z*(43.0/17248000+z*(1213.0/7207200000))))))
	if s < 0.3 {
		return theta
	}
	for range 4 {
		sin, cos := math.Sincos(theta)
		miss, slope := theta-sin-share, 1-cos
		step := miss * slope / (slope*slope - miss*sin/2)
		theta -= step
		if math.Abs(step) < 1e-5 {
			break
		}
	}
	return theta
}
