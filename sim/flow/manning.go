package flow

import "math"

// GreatestFill is the relative depth [-] at which a circular pipe at a given slope carries
// most, 1.076 times its full-bore flow, with a constant n. Above it the same flow has two
// depths.
//
// Source: Chow 1959, Open-Channel Hydraulics, sec. 6-5 (0.938).
const GreatestFill = 0.938

// Discharge returns the uniform flow [m³/s] at the given depth [m] in a circular pipe of
// bore d [m], slope [-] and Manning's n [s/m^(1/3)]; any depth from 0 to d.
//
// Source: Manning 1891, SI form.
func Discharge(d, slope, n, depth float64) float64 {
	angle := wettedAngle(depth / d)
	return segmentArea(angle) * d * d * manningVelocity(d*segmentRadius(angle), slope, n)
}

// Velocity returns the mean velocity [m/s] of that flow.
func Velocity(d, slope, n, depth float64) float64 {
	return manningVelocity(d*segmentRadius(wettedAngle(depth/d)), slope, n)
}

// FullDischarge returns the uniform flow [m³/s] of the full bore at atmospheric pressure.
func FullDischarge(d, slope, n float64) float64 {
	return math.Pi / 4 * d * d * manningVelocity(d/4, slope, n)
}

// GreatestDischarge returns the largest uniform flow [m³/s] with a free surface.
func GreatestDischarge(d, slope, n float64) float64 {
	return Discharge(d, slope, n, GreatestFill*d)
}

func manningVelocity(radius, slope, n float64) float64 {
	if !(slope > 0) {
		return 0
	}
	root := math.Cbrt(radius)
	return root * root * math.Sqrt(slope) / n
}

// NormalDepth returns the depth [m] at which the flow [m³/s] is uniform: the one solution
// up to GreatestFill. ok is false, and the depth d, where the pipe cannot carry the flow
// with a free surface at this slope.
func NormalDepth(flow, d, slope, n float64) (depth float64, ok bool) {
	if flow <= 0 {
		return 0, true
	}
	if flow > GreatestDischarge(d, slope, n) {
		return d, false
	}
	low, high := 0.0, GreatestFill*d
	for high-low > 1e-12*d {
		depth = (low + high) / 2
		if Discharge(d, slope, n, depth) < flow {
			low = depth
		} else {
			high = depth
		}
	}
	return (low + high) / 2, true
}

// CompositeManning returns the n of a channel whose bed and ice cover have equal
// perimeters.
//
// Source: Belokon 1938 and Sabaneev 1948 (from memory).
func CompositeManning(bed, ice float64) float64 {
	mean := (math.Pow(bed, 1.5) + math.Pow(ice, 1.5)) / 2
	return math.Pow(mean, 2.0/3)
}
