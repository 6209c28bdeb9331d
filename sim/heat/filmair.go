package heat

import "math"

// filmAir holds what the films around a cylinder need to know of air at 1 atm. It depends on the
// film temperature alone.
type filmAir struct {
	conductivity  float64 // [W/(m K)]
	perViscosity  float64 // 1 over the kinematic viscosity [s/m²]
	forcedFactor  float64 // factor on (wind·d)^(1/2) in NusseltForced [(s/m²)^(1/2)]
	naturalFactor float64 // factor on (difference·d³)^(1/6) in the root of NusseltNatural [1/(K m³)^(1/6)]
}

// filmAirOf computes it at t [°C].
func filmAirOf(t float64) filmAir {
	mu := AirViscosity(t)
	k := airConductivity(t, mu)
	nu, pr := mu/AirDensity(t, Atmosphere), AirHeatCapacity*mu/k
	return filmAir{
		conductivity:  k,
		perViscosity:  1 / nu,
		forcedFactor:  forcedFactor(pr) / math.Sqrt(nu),
		naturalFactor: naturalFactor(pr) * sixthRoot(Rayleigh(1, 1, t, nu, pr)),
	}
}

// forced is the Nusselt number [-] of a cylinder of diameter d [m] in wind [m/s].
func (a *filmAir) forced(d, wind float64) float64 {
	if wind == 0 {
		return forcedLeast
	}
	flow := wind * d
	return forcedLeast + a.forcedFactor*math.Sqrt(flow)*forcedGrowth(flow*a.perViscosity)
}

// natural is that of a cylinder of diameter d [m] which differs from still air by dt [K].
func (a *filmAir) natural(d, dt float64) float64 {
	root := naturalLeast + a.naturalFactor*math.Sqrt(math.Cbrt(math.Abs(dt))*d)
	return root * root
}

// Between −100 and 100 °C filmAir is read from a table: a dry pipe in open air would spend most of its time on the
// powers and logarithms. The table is cut into pieces of filmOrder steps; each piece holds the polynomial through
// its points, in Newton's form with forward differences (Abramowitz & Stegun 1964, eq. 25.2.28). The relative
// error is below 1e-11.
const (
	filmTableFrom = -100.0 // [°C]
	filmTableTo   = 100.0  // [°C]
	filmStep      = 1.0    // [K]
	filmOrder     = 5
	filmPieces    = int((filmTableTo - filmTableFrom) / (filmStep * filmOrder))
)

// filmPiece holds the j-th forward differences over j factorial.
type filmPiece [filmOrder + 1]filmAir

var filmTable = newFilmTable()

func newFilmTable() (table [filmPieces]filmPiece) {
	for i := range table {
		p := &table[i]
		for j := range p {
			p[j] = filmAirOf(filmTableFrom + filmStep*float64(i*filmOrder+j))
		}
		forwardDifferences(p[:])
	}
	return table
}

// subtractable are types of which forward differences can be taken.
type subtractable[T any] interface {
	less(other T, n float64) T // (the value − other)/n
}

// forwardDifferences turns values at even steps into their j-th forward differences over j factorial.
func forwardDifferences[T subtractable[T]](p []T) {
	for j := 1; j < len(p); j++ {
		for l := len(p) - 1; l >= j; l-- {
			p[l] = p[l].less(p[l-1], float64(j))
		}
	}
}

// less is (a − b)/n.
func (a filmAir) less(b filmAir, n float64) filmAir {
	return filmAir{
		(a.conductivity - b.conductivity) / n,
		(a.perViscosity - b.perViscosity) / n,
		(a.forcedFactor - b.forcedFactor) / n,
		(a.naturalFactor - b.naturalFactor) / n,
	}
}

// filmAirAt is filmAirOf by the table where that reaches.
func filmAirAt(t float64) filmAir {
	if !(t >= filmTableFrom && t < filmTableTo) {
		return filmAirOf(t)
	}
	u := (t - filmTableFrom) / filmStep
	i := int(u / filmOrder)
	return filmTable[i].at(u - float64(i*filmOrder))
}

// at is the value u steps into the piece.
func (p *filmPiece) at(u float64) filmAir {
	a := p[filmOrder]
	for j := filmOrder - 1; j >= 0; j-- {
		x := u - float64(j)
		a.conductivity = p[j].conductivity + x*a.conductivity
		a.perViscosity = p[j].perViscosity + x*a.perViscosity
		a.forcedFactor = p[j].forcedFactor + x*a.forcedFactor
		a.naturalFactor = p[j].naturalFactor + x*a.naturalFactor
	}
	return a
}
