package flow

import "math"

// EmptyingTime returns the time [s] in which an upright tank of the given plan area [m²]
// falls from head h1 to h2 [m] above an opening of area hole [m²] with discharge
// coefficient cd [-].
//
// Source: Torricelli, integrated.
func EmptyingTime(area, cd, hole, h1, h2 float64) float64 {
	return 2 * area * (math.Sqrt(h1) - math.Sqrt(h2)) / (cd * hole * math.Sqrt(2*Gravity))
}

// FillingTime returns the time [s] in which the same tank, empty at first and fed with
// inflow [m³/s], rises to a head [m]; +Inf if the opening carries the inflow below it.
//
// Source: area dh/dt = inflow − cd·hole·√(2gh), integrated.
func FillingTime(area, cd, hole, inflow, head float64) float64 {
	drain := cd * hole * math.Sqrt(2*Gravity)
	x := drain * math.Sqrt(head) / inflow // drained share of the inflow at the end
	if !(x < 1) {
		return math.Inf(1)
	}
	if x < 1e-4 { // −(x + ln(1 − x)) by its series: the difference would be mostly rounding
		return area * head / inflow * (1 + x*(2.0/3+x/2))
	}
	return -2 * area * inflow / (drain * drain) * (x + math.Log1p(-x))
}
