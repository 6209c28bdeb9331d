package verify

import "math"

// Exact solutions of freezing and conduction, written apart from the program's own
// relations: they check those and the solvers.

// bisect returns the root of f between low and high, where f changes sign.
func bisect(f func(float64) float64, low, high float64) float64 {
	rising := f(low) < 0
	for range 200 {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			break
		}
		if f(middle) < 0 == rising {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Neumann is the freezing of a half space at Start [°C] whose surface is held at Surface
// [°C] below the melting temperature Melting [°C]; densities are equal.
//
// Source: Neumann, in Carslaw & Jaeger 1959, Conduction of Heat in Solids, sec. 11.2.
type Neumann struct {
	Surface, Start, Melting  float64 // [°C]
	Frozen, Unfrozen         float64 // conductivities [W/(m K)]
	FrozenCap, UnfrozenCap   float64 // heat capacities [J/(m³ K)]
	Latent                   float64 // [J/m³]
	lambda, ratio, diffusion float64
}

// Solve finds the front's constant and returns the solution.
func (n Neumann) Solve() Neumann {
	n.diffusion = n.Frozen / n.FrozenCap
	n.ratio = math.Sqrt(n.diffusion / (n.Unfrozen / n.UnfrozenCap))
	over, under := n.Start-n.Melting, n.Melting-n.Surface
	n.lambda = bisect(func(x float64) float64 {
		y := n.ratio * x
		right := x * n.Latent * math.SqrtPi / (n.FrozenCap * under)
		left := math.Exp(-x*x)/math.Erf(x) - n.Unfrozen/n.Frozen*n.ratio*over/under*expOverErfc(y)
		return right - left
	}, 1e-9, 6)
	return n
}

// expOverErfc returns exp(−y²)/erfc(y), by its asymptotic form where erfc underflows.
func expOverErfc(y float64) float64 {
	if y > 20 {
		return y * math.SqrtPi * (1 + 1/(2*y*y))
	}
	return math.Exp(-y*y) / math.Erfc(y)
}

// Lambda returns the front's constant: depth = 2 λ √(α t) with the frozen diffusivity.
func (n Neumann) Lambda() float64 { return n.lambda }

// Front returns the depth [m] of the front at time t [s].
func (n Neumann) Front(t float64) float64 { return 2 * n.lambda * math.Sqrt(n.diffusion*t) }

// Flux returns the heat flux [W/m²] out of the surface at time t [s].
func (n Neumann) Flux(t float64) float64 {
	return n.Frozen * (n.Melting - n.Surface) / (math.Erf(n.lambda) * math.Sqrt(math.Pi*n.diffusion*t))
}

// Temperature returns the temperature [°C] at depth z [m] and time t [s].
func (n Neumann) Temperature(z, t float64) float64 {
	x := z / (2 * math.Sqrt(n.diffusion*t))
	if x < n.lambda {
		return n.Surface + (n.Melting-n.Surface)*math.Erf(x)/math.Erf(n.lambda)
	}
	return n.Start - (n.Start-n.Melting)*math.Erfc(n.ratio*x)/math.Erfc(n.ratio*n.lambda)
}

// StefanLambda returns the front's constant of the one-phase problem with the Stefan
// number ste [-]: λ exp(λ²) erf(λ) = ste/√π.
func StefanLambda(ste float64) float64 {
	return bisect(func(x float64) float64 {
		return x*math.Exp(x*x)*math.Erf(x) - ste/math.SqrtPi
	}, 0, 5)
}

// LineSinkLambda returns the constant of the front around a line that takes sink [W/m]
// out of a liquid; radius = 2 λ √(α t) with the frozen diffusivity. The half space's
// fields give the properties; its Surface is not used.
//
// Source: Carslaw & Jaeger 1959, sec. 11.6.
func LineSinkLambda(n Neumann, sink float64) float64 {
	frozen, unfrozen := n.Frozen/n.FrozenCap, n.Unfrozen/n.UnfrozenCap
	return bisect(func(x float64) float64 {
		y := x * x * frozen / unfrozen
		gain := n.Unfrozen * (n.Start - n.Melting) * math.Exp(-y) / exponentialIntegral(y)
		return x*x*frozen*n.Latent + gain - sink/(4*math.Pi)*math.Exp(-x*x)
	}, 1e-6, 5)
}

// exponentialIntegral returns E1(x), x > 0: by its series up to 1, by Lentz's continued
// fraction above.
//
// Source: Abramowitz & Stegun 1964, eqs 5.1.11 and 5.1.22.
func exponentialIntegral(x float64) float64 {
	const euler = 0.57721566490153286
	if x <= 1 {
		sum, term := -euler-math.Log(x), -1.0
		for k := 1.0; k < 40; k++ {
			term *= -x / k
			sum += term / k
		}
		return sum
	}
	b := x + 1
	c, d := 1e300, 1/b
	h := d
	for k := 1.0; k < 500; k++ {
		a := -k * k
		b += 2
		d = 1 / (a*d + b)
		c = b + a/c
		h *= c * d
		if math.Abs(c*d-1) < 1e-16 {
			break
		}
	}
	return h * math.Exp(-x)
}

// StepTemperature returns the temperature [°C] at depth z [m] and time t [s] in a half
// space at start [°C] whose surface is held at surface [°C] from t = 0.
//
// Source: Carslaw & Jaeger 1959, sec. 2.4.
func StepTemperature(z, t, diffusivity, surface, start float64) float64 {
	return surface + (start-surface)*math.Erf(z/(2*math.Sqrt(diffusivity*t)))
}

// FilmStepTemperature returns the same where the surface meets air [°C] through a film
// [W/(m² K)].
//
// Source: Carslaw & Jaeger 1959, sec. 2.7.
func FilmStepTemperature(z, t, conductivity, capacity, film, air, start float64) float64 {
	diffusivity := conductivity / capacity
	root := math.Sqrt(diffusivity * t)
	x, h := z/(2*root), film/conductivity
	share := math.Erfc(x) - math.Exp(h*z+h*h*root*root)*math.Erfc(x+h*root)
	return start + (air-start)*share
}

// BuriedField returns the share [-] of the difference between an isothermal cylinder of
// radius r [m], axis at depth axis [m], and the ground's surface that is left at the
// horizontal distance x [m] from the axis and at depth z [m].
//
// Source: line source and its image, exact.
func BuriedField(x, z, r, axis float64) float64 {
	b := math.Sqrt(axis*axis - r*r)
	return math.Log((x*x+(z+b)*(z+b))/(x*x+(z-b)*(z-b))) / (2 * math.Acosh(axis/r))
}

// CylinderTransient returns the shares [-] of the first difference to the air that are left
// at the centre and in the mean of a long cylinder with Biot number bi = film·r/k after the
// Fourier number fo = α t/r².
//
// Source: Carslaw & Jaeger 1959, sec. 7.7; roots of z J1(z) = bi J0(z).
func CylinderTransient(bi, fo float64) (centre, mean float64) {
	for k := range 60 {
		root := cylinderRoot(bi, k)
		j0, j1 := math.J0(root), math.J1(root)
		term := 2 * j1 / (root * (j0*j0 + j1*j1)) * math.Exp(-root*root*fo)
		centre += term
		mean += term * 2 * j1 / root
	}
	return centre, mean
}

// cylinderRoot returns root k = 0, 1 … of z J1(z) = bi J0(z). It lies between the zeros
// k of J1 and k of J0, counted from J1's zero at 0; these in turn lie within 0.1 of
// (k + 1/4)π and (k + 3/4)π.
func cylinderRoot(bi float64, k int) float64 {
	low := 0.0
	if k > 0 {
		middle := (float64(k) + 0.25) * math.Pi
		low = bisect(math.J1, middle-0.5, middle+0.5)
	}
	middle := (float64(k) + 0.75) * math.Pi
	high := bisect(math.J0, middle-0.5, middle+0.5)
	return bisect(func(z float64) float64 { return z*math.J1(z) - bi*math.J0(z) }, low, high)
}
