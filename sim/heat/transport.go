package heat

import "math"

// waterTransport returns WaterViscosity and WaterConductivityAt at t [°C], the same to the last bit in a third of the
// time: running water needs both at every step. All their powers have one base, so that its logarithm and its
// squares serve all of them; each power is then put together as math.Pow does it.
func waterTransport(t float64) (viscosity, conductivity float64) {
	x := (t + Kelvin) / 300
	log := math.Log(x)
	x2 := x * x
	x4 := x2 * x2
	x8 := x4 * x4
	x16 := x8 * x8
	x32 := x16 * x16
	part := func(power float64) float64 { return math.Exp((power - math.Round(power)) * log) }
	viscosity = 1e-6 * (280.68*(1/(part(1.9)*x2)) + 511.45*(1/(part(7.7)*x8)) +
		61.131*(1/(part(19.6)*x4*x16)) + 0.45903*(1/(x8*x32)))
	conductivity = 1.6630*(1/(part(1.15)*x)) - 1.7781*(1/(part(3.4)*x*x2)) +
		1.1567*(1/(x2*x4)) - 0.432115*(1/(part(7.6)*x8))
	return viscosity, conductivity
}
