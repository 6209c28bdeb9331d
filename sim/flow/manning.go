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
	// With the angle of the wetted arc Manning's flow to the third power is
	// (θ − sin θ)⁵/θ² times what the pipe is: no roots of the unknown.
	q := flow * n / (d * d)
	square := d * d
	cube := 8192 * q * q * q / (square * slope * math.Sqrt(slope))
	if !(cube <= greatestCube*(1+1e-13)) {
		return d, false
	}
	half := math.Sin(normalAngle(cube) / 4)
	return d * half * half, true
}

var (
	greatestAngle = wettedAngle(GreatestFill)
	greatestCube  = math.Pow(greatestAngle-math.Sin(greatestAngle), 5) / (greatestAngle * greatestAngle)
)

// normalAngle returns the angle [rad] up to greatestAngle at which (θ − sin θ)⁵/θ² is cube.
//
// The logarithm of that rises ever more slowly. Each pass goes to where the parabola of its value, slope and
// bend (Cauchy's method) has the root: the error is cubed, also at the angle that carries most, where the slope
// vanishes. A pass that leaves what is known to hold the root is replaced by a halving.
func normalAngle(cube float64) float64 {
	// Small angles: θ − sin θ = θ³/6 (1 − θ²/20 …), so that the cube is p¹³/6⁵ with θ = p (1 + p²/52 …); what
	// follows is fitted, to 0.002 up to half full and 0.5 at the end.
	p := math.Pow(7776*cube, 1.0/13)
	z := p * p
	angle := p * (1 + z*(1.0/52+z*0.000953/(1-0.07*z)))
	if p < 0.05 { // all digits that matter
		return angle
	}
	low, high := 0.0, greatestAngle
	angle = min(angle, high)
	for range 60 {
		sin, cos := math.Sincos(angle)
		segment := angle - sin
		square := segment * segment
		miss := math.Log(square * square * segment / (angle * angle * cube))
		if miss < 0 {
			low = angle
		} else {
			high = angle
		}
		widens := (1 - cos) / segment
		slope := 5*widens - 2/angle
		bend := 5*(sin/segment-widens*widens) + 2/(angle*angle)
		next := angle - 2*miss/(slope+math.Sqrt(max(0, slope*slope-2*miss*bend)))
		near := 1e-5
		if !(next >= low && next <= high) {
			next, near = (low+high)/2, 1e-13
		}
		step := math.Abs(next - angle)
		if angle = next; step <= near {
			break
		}
	}
	return angle
}

// CompositeManning returns the n of a channel whose bed and ice cover have equal
// perimeters.
//
// Source: Belokon 1938 and Sabaneev 1948 (from memory).
func CompositeManning(bed, ice float64) float64 {
	mean := (math.Pow(bed, 1.5) + math.Pow(ice, 1.5)) / 2
	return math.Pow(mean, 2.0/3)
}
