package verify

import (
	"math"
	"math/cmplx"
	"sort"
)

// Exact solutions of conduction in ground: a yearly wave in layers over a bottom that no
// heat passes, thawing from above, and freezing along a curve.

// Thaw is the thawing of a frozen half space whose surface is held above the melting
// temperature: Neumann's freezing with all signs reversed, and frozen and unfrozen changed
// about. Its fields are those of the ground that thaws.
type Thaw struct{ Neumann }

// Solve finds the front's constant and returns the solution.
func (w Thaw) Solve() Thaw {
	n := w.Neumann
	return Thaw{Neumann{
		Surface: -n.Surface, Start: -n.Start, Melting: -n.Melting,
		Frozen: n.Unfrozen, Unfrozen: n.Frozen, FrozenCap: n.UnfrozenCap, UnfrozenCap: n.FrozenCap, Latent: n.Latent,
	}.Solve()}
}

// Flux returns the heat flux [W/m²] out of the surface at time t [s], which is negative.
func (w Thaw) Flux(t float64) float64 { return -w.Neumann.Flux(t) }

// Temperature returns the temperature [°C] at depth z [m] and time t [s].
func (w Thaw) Temperature(z, t float64) float64 { return -w.Neumann.Temperature(z, t) }

// WaveLayer is a layer of ground without phase change.
type WaveLayer struct {
	Thickness    float64 // [m]
	Conductivity float64 // [W/(m K)]
	Capacity     float64 // [J/(m³ K)]
}

// LayeredWave is the yearly wave in layers of ground, uppermost first, below the last of which no
// heat passes; what drives it, coldest at time Coldest [s], acts through a resistance. Deep
// ground of one soil has the damped wave of Kusuda & Achenbach.
//
// Source: conduction with everything proportional to exp(iωt): temperature and flux at the top
// of a layer follow from those at its foot by cosh and sinh of (1+i)·thickness/damping depth
// (Carslaw & Jaeger 1959, sec. 3.7, from memory).
type LayeredWave struct {
	Layers     []WaveLayer
	Resistance float64 // of the surface [m² K/W]
	Mean       float64 // [°C]
	Swing      float64 // half the range of what drives it [K]
	Coldest    float64 // [s]
}

// Temperature returns the temperature [°C] at depth z [m] and time t [s].
func (w LayeredWave) Temperature(z, t float64) float64 {
	omega := 2 * math.Pi / (365 * day)
	foot := 0.0
	for _, l := range w.Layers {
		foot += l.Thickness
	}
	wave, flux := complex(1, 0), complex(0, 0) // at the foot of a layer, the flux downwards
	here := wave
	for i := len(w.Layers) - 1; i >= 0; i-- {
		l := w.Layers[i]
		if z <= foot {
			here, _ = l.up(min(foot-z, l.Thickness), omega, wave, flux)
		}
		wave, flux = l.up(l.Thickness, omega, wave, flux)
		foot -= l.Thickness
	}
	above := wave + complex(w.Resistance, 0)*flux
	return w.Mean - w.Swing*real(here/above*cmplx.Exp(complex(0, omega*(t-w.Coldest))))
}

// up is the wave of temperature [K] and of downward flux [W/m²] d metres above the foot of the layer.
func (l WaveLayer) up(d, omega float64, wave, flux complex128) (complex128, complex128) {
	q := cmplx.Sqrt(complex(0, omega*l.Capacity/l.Conductivity))
	kq, x := complex(l.Conductivity, 0)*q, q*complex(d, 0)
	return wave*cmplx.Cosh(x) + flux/kq*cmplx.Sinh(x), flux*cmplx.Cosh(x) + wave*kq*cmplx.Sinh(x)
}

// FreezingStep is the freezing of a half space at Start [°C] whose surface is held at Surface
// [°C] from time 0, where the ground's pore water freezes bit by bit below Point [°C]. It is
// the one that the column's law of conductivity and heat capacity is checked with: both go
// from unfrozen to frozen in proportion to the ice.
//
// Temperature goes with s = depth/√time alone, as in Neumann's solution: with F = k·dT/ds,
//
//	dF/ds = −s/2 · (C + latent·d(liquid share)/dT) · dT/ds
//
// Above Point that is the error function; below, it is integrated in temperature, from Point
// to the surface, and the place of Point sought for which that ends at s = 0 (derived here; with a
// straight freezing curve it is Lunardini's three zones, with a steep one Neumann's two).
type FreezingStep struct {
	Surface, Start, Point float64 // [°C]; Point below Start
	Frozen, Unfrozen      float64 // conductivities [W/(m K)]
	FrozenCap             float64 // heat capacity [J/(m³ K)]
	UnfrozenCap           float64 // [J/(m³ K)]
	Latent                float64 // of all pore water [J/m³]
	// Liquid gives the share of the pore water that is liquid at a temperature at or below
	// Point [-], and how it changes with temperature [1/K].
	Liquid func(t float64) (share, slope float64)
	// Conducts, if not nil, takes the place of that conductivity [W/(m K)].
	Conducts func(t float64) float64

	s, t, f []float64 // the solution from Point to the surface [m/√s], [°C], [W √s/m²]
}

// PowerLiquid is the liquid share (T/point)^−exponent with its slope [1/K].
func PowerLiquid(point, exponent float64) func(t float64) (share, slope float64) {
	return func(t float64) (float64, float64) {
		share := math.Pow(t/point, -exponent)
		return share, -exponent * share / t
	}
}

// freezingSteps are the steps of the integration, close together near Point.
const freezingSteps = 1000

// Solve integrates and returns the solution.
func (p FreezingStep) Solve() FreezingStep {
	deep := math.Sqrt(p.Unfrozen / p.UnfrozenCap)
	at := bisect(func(s float64) float64 { return p.shoot(s, false) }, 1e-9*deep, 12*deep)
	p.shoot(at, true)
	return p
}

// shoot integrates from Point at s to the surface's temperature and returns the s at which it
// arrives, negative where it runs past 0 [m/√s].
func (p *FreezingStep) shoot(s float64, keep bool) float64 {
	f := p.arrival(s)
	note := func(t float64) {
		if keep {
			p.s, p.t, p.f = append(p.s, s), append(p.t, t), append(p.f, f)
		}
	}
	note(p.Point)
	// T = Point − c·(e^y − 1), c the scale on which the curve changes: the point's own distance to 0.
	c := math.Max(-p.Point, 1e-3)
	last := math.Log(1 + (p.Point-p.Surface)/c)
	h := last / freezingSteps
	for i := range freezingSteps {
		y := float64(i) * h
		k1s, k1f := p.slopes(y, c, s, f)
		k2s, k2f := p.slopes(y+h/2, c, s+h/2*k1s, f+h/2*k1f)
		k3s, k3f := p.slopes(y+h/2, c, s+h/2*k2s, f+h/2*k2f)
		k4s, k4f := p.slopes(y+h, c, s+h*k3s, f+h*k3f)
		s += h / 6 * (k1s + 2*k2s + 2*k3s + k4s)
		f += h / 6 * (k1f + 2*k2f + 2*k3f + k4f)
		if s < 0 && !keep {
			return s
		}
		note(p.Point - c*math.Expm1(y+h))
	}
	return s
}

// slopes are ds/dy and dF/dy at a place of the integration.
func (p *FreezingStep) slopes(y, c, s, f float64) (float64, float64) {
	t := p.Point - c*math.Expm1(y)
	share, slope := p.Liquid(t)
	capacity := p.UnfrozenCap + (1-share)*(p.FrozenCap-p.UnfrozenCap) + p.Latent*slope
	var conducts float64
	if p.Conducts != nil {
		conducts = p.Conducts(t)
	} else {
		conducts = p.Unfrozen * math.Pow(p.Frozen/p.Unfrozen, 1-share)
	}
	cooling := -c * math.Exp(y) // dT/dy
	return conducts / f * cooling, -s / 2 * capacity * cooling
}

// arrival is F [W √s/m²] where the unfrozen ground meets Point at s.
func (p *FreezingStep) arrival(s float64) float64 {
	root := math.Sqrt(p.Unfrozen / p.UnfrozenCap)
	return p.Unfrozen * (p.Start - p.Point) / (math.SqrtPi * root) * expOverErfc(s/(2*root))
}

// Front returns the depth [m] of the freezing point at time t [s].
func (p FreezingStep) Front(t float64) float64 { return p.s[0] * math.Sqrt(t) }

// Flux returns the heat flux [W/m²] out of the surface at time t [s].
func (p FreezingStep) Flux(t float64) float64 { return p.f[len(p.f)-1] / math.Sqrt(t) }

// Temperature returns the temperature [°C] at depth z [m] and time t [s].
func (p FreezingStep) Temperature(z, t float64) float64 {
	s := z / math.Sqrt(t)
	if s >= p.s[0] {
		root := 2 * math.Sqrt(p.Unfrozen/p.UnfrozenCap)
		return p.Start - (p.Start-p.Point)*math.Erfc(s/root)/math.Erfc(p.s[0]/root)
	}
	i := sort.Search(len(p.s), func(i int) bool { return p.s[i] <= s }) // falls from Point to the surface
	if i == len(p.s) {
		return p.Surface
	}
	share := (s - p.s[i]) / (p.s[i-1] - p.s[i])
	return p.t[i] + share*(p.t[i-1]-p.t[i])
}

// ThreeZones is the freezing of a half space whose pore water freezes in proportion to the
// temperature between Freezing and Frozen [°C]; each of the zones, fully frozen (0), freezing (1)
// and unfrozen (2), has properties of its own.
//
// Source: Lunardini 1985, Freezing of Soil with Phase Change Occurring over a Finite Temperature
// Difference (from memory; the continuity of flux at both limits is solved here).
type ThreeZones struct {
	Surface, Start   float64    // [°C]
	Frozen, Freezing float64    // temperatures between which the water freezes [°C]
	Conductivity     [3]float64 // [W/(m K)]
	Capacity         [3]float64 // [J/(m³ K)]
	Latent           float64    // of the water that freezes [J/m³]
	lower, upper     float64    // places of the two limits [m/√s]
}

// diffusivity is that of a zone, the freezing water's latent heat in its capacity [m²/s].
func (z ThreeZones) diffusivity(zone int) float64 {
	capacity := z.Capacity[zone]
	if zone == 1 {
		capacity += z.Latent / (z.Freezing - z.Frozen)
	}
	return z.Conductivity[zone] / capacity
}

// x is half of s over the root of a zone's diffusivity [-].
func (z ThreeZones) x(s float64, zone int) float64 { return s / (2 * math.Sqrt(z.diffusivity(zone))) }

// reaches is k·dT/ds at s for a kelvin of difference over a unit of the error function [W √s/(m² K)].
func (z ThreeZones) reaches(s float64, zone int) float64 {
	x := z.x(s, zone)
	return z.Conductivity[zone] * math.Exp(-x*x) / math.Sqrt(math.Pi*z.diffusivity(zone))
}

// Solve finds both limits and returns the solution.
func (z ThreeZones) Solve() ThreeZones {
	width := z.Freezing - z.Frozen
	// span is how much of the error function the middle zone must span to take the flux that
	// arrives at its frozen limit.
	span := func(lower float64) float64 {
		frozen := (z.Frozen - z.Surface) * z.reaches(lower, 0) / math.Erf(z.x(lower, 0))
		return width * z.reaches(lower, 1) / frozen
	}
	upper := func(lower float64) float64 { // NaN or +Inf where the middle zone cannot carry so little
		return 2 * math.Sqrt(z.diffusivity(1)) * math.Erfinv(math.Erf(z.x(lower, 1))+span(lower))
	}
	z.lower = bisect(func(lower float64) float64 {
		at := upper(lower)
		if !(at < math.Inf(1)) {
			return -1
		}
		middle := width * z.reaches(at, 1) / span(lower)
		warm := (z.Start - z.Freezing) * z.Conductivity[2] / math.Sqrt(math.Pi*z.diffusivity(2)) * expOverErfc(z.x(at, 2))
		return middle - warm
	}, 1e-9, 20*math.Sqrt(z.diffusivity(0)))
	z.upper = upper(z.lower)
	return z
}

// Psi is the fully frozen limit's place over 2√(diffusivity of the frozen zone) [-].
func (z ThreeZones) Psi() float64 { return z.x(z.lower, 0) }

// Gamma is the freezing limit's place over 2√(diffusivity of the freezing zone) [-].
func (z ThreeZones) Gamma() float64 { return z.x(z.upper, 1) }
