package flow

import "math"

// Bounds of the change from laminar to turbulent flow in a pipe, as Reynolds numbers.
const (
	laminarReynolds   = 2300.0
	turbulentReynolds = 4000.0
)

// Reynolds returns the Reynolds number [-] of flow [m³/s] in a full pipe of bore d [m];
// viscosity is kinematic [m²/s].
func Reynolds(flow, d, viscosity float64) float64 {
	return 4 * math.Abs(flow) / (math.Pi * d * viscosity)
}

// frictionLaminar returns the Darcy friction factor [-] of laminar flow (Hagen–Poiseuille).
func frictionLaminar(re float64) float64 { return 64 / re }

// FrictionColebrook returns the Darcy friction factor [-] of turbulent flow at Reynolds
// number re and relative roughness rough [-].
//
// Source: Colebrook 1939, J. Inst. Civ. Eng. 11:133; 1/√f = −2 lg(rough/3.7 + 2.51/(Re√f)),
// solved to the last digits: Newton's method on 1/√f takes three passes from what the right-hand side
// gives for 1/√f = 7.
func FrictionColebrook(re, rough float64) float64 {
	const twice = 2 / math.Ln10 // 2 lg y = twice · ln y
	a, b := rough/3.7, 2.51/re
	x := -twice * math.Log(a+b*7)
	for range 3 {
		inner := a + b*x
		x -= (x + twice*math.Log(inner)) / (1 + twice*b/inner)
	}
	return 1 / (x * x)
}

// FrictionHaaland returns an explicit estimate of FrictionColebrook, within 2 % of it.
//
// Source: Haaland 1983, J. Fluids Eng. 105:89.
func FrictionHaaland(re, rough float64) float64 {
	x := -1.8 * math.Log10(6.9/re+math.Pow(rough/3.7, 1.11))
	return 1 / (x * x)
}

// FrictionSwameeJain returns an explicit estimate of FrictionColebrook.
//
// Source: Swamee & Jain 1976, J. Hydraul. Div. ASCE 102:657; 1e-6 < rough < 1e-2,
// 5e3 < Re < 1e8.
func FrictionSwameeJain(re, rough float64) float64 {
	x := math.Log10(rough/3.7 + 5.74/math.Pow(re, 0.9))
	return 0.25 / (x * x)
}

// FrictionFactor returns the Darcy friction factor [-] at any Reynolds number: laminar
// below 2300, Colebrook above 4000, straight in Re between, where no law holds and the
// line keeps head loss rising with flow.
func FrictionFactor(re, rough float64) float64 {
	switch {
	case re <= laminarReynolds:
		return frictionLaminar(re)
	case re >= turbulentReynolds:
		return FrictionColebrook(re, rough)
	}
	part := (re - laminarReynolds) / (turbulentReynolds - laminarReynolds)
	return (1-part)*frictionLaminar(laminarReynolds) + part*FrictionColebrook(turbulentReynolds, rough)
}

// HeadLoss returns the friction head [m] of flow [m³/s] in a full pipe of bore d, the given
// length and absolute roughness [m]; viscosity is kinematic [m²/s].
//
// Source: Darcy–Weisbach.
func HeadLoss(flow, d, length, roughness, viscosity float64) float64 {
	if flow == 0 {
		return 0
	}
	f := FrictionFactor(Reynolds(flow, d, viscosity), roughness/d)
	return math.Copysign(f*length/d*VelocityHead(flow, d), flow)
}

// VelocityHead returns V²/2g [m] of flow [m³/s] in a full pipe of bore d [m]; times a loss
// coefficient it is the head lost in a fitting.
func VelocityHead(flow, d float64) float64 {
	v := flow / (math.Pi / 4 * d * d)
	return v * v / (2 * Gravity)
}

// HeadLossHazenWilliams returns the friction head [m] of flow [m³/s] in a full pipe of bore
// d and the given length [m] with the roughness coefficient c, 150 for plastic.
//
// Source: Williams & Hazen 1905 in SI form; water near 15 °C, turbulent.
func HeadLossHazenWilliams(flow, d, length, c float64) float64 {
	return 10.67 * length * math.Pow(flow/c, 1.852) / math.Pow(d, 4.8704)
}

// FullPipeFlow returns the flow [m³/s] that a head [m] drives through a full pipe of bore d,
// the given length and absolute roughness [m] with the sum of loss coefficients loss [-];
// viscosity is kinematic [m²/s]. It inverts HeadLoss plus loss velocity heads to 1e-12.
func FullPipeFlow(head, d, length, roughness, viscosity, loss float64) float64 {
	if !(head > 0) {
		return 0
	}
	// Loss grows nearly as the square of the flow, so that scaling the flow by the root of
	// the ratio of heads cuts the error by 2 (laminar) to 10 (turbulent) a pass.
	q := math.Pi / 4 * d * d * math.Sqrt(2*Gravity*head/(1+loss+0.03*length/d))
	for range 100 {
		lost := HeadLoss(q, d, length, roughness, viscosity) + loss*VelocityHead(q, d)
		ratio := math.Sqrt(head / lost)
		q *= ratio
		if math.Abs(ratio-1) <= 1e-13 {
			break
		}
	}
	return q
}
