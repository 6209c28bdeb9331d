package heat

import "math"

// BuriedShapeFactor returns the shape factor [-] per unit length between an isothermal
// cylinder of diameter d [m] and the plane surface of the ground, its axis at depth z [m]:
// heat = factor · conductivity · difference · length. The logarithm of 4z/d that is often
// printed in its place is 5 % low at z = d.
//
// Source: exact, bipolar coordinates; Carslaw & Jaeger 1959, sec. 16.2 (section from
// memory). z > d/2.
func BuriedShapeFactor(d, z float64) float64 { return 2 * math.Pi / math.Acosh(2*z/d) }

// EquivalentRadius returns the outer radius [m] of the ring of soil around a buried
// cylinder of radius r [m], axis at depth z [m], that has the exact shape factor to the
// ground's surface.
func EquivalentRadius(r, z float64) float64 { return r * math.Exp(math.Acosh(z/r)) }

// LayerResistance returns the resistance [m K/W] of unit length of a cylindrical layer
// from radius inner to outer [m] and conductivity k [W/(m K)].
func LayerResistance(inner, outer, k float64) float64 {
	return math.Log(outer/inner) / (2 * math.Pi * k)
}

// FilmResistance returns the resistance [m K/W] of a film h [W/(m² K)] on unit length of
// a cylinder of diameter d [m].
func FilmResistance(d, h float64) float64 { return 1 / (math.Pi * d * h) }

// CriticalRadius returns the outer radius [m] of an insulation of conductivity
// k [W/(m K)] under a film h [W/(m² K)] below which more of it loses more heat.
func CriticalRadius(k, h float64) float64 { return k / h }
