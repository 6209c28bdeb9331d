package sim_test

import (
	"math"

	"winterline/pipe"
)

// forward is ground solved in the plainest way: thin volumes to 0.8 m depth and growing ones below, short
// forward steps in enthalpy, the geometric mean of conductivities by each volume's ice share, and no front within a volume.
// It shares nothing with the program but the soils.
type forward struct {
	step    float64 // longest [s]
	soil    []pipe.Soil
	edge    []float64 // [m]
	h, t, k []float64 // enthalpy [J/m³], temperature [°C], conductivity [W/(m K)], surface first
	in      float64   // through the surface [J/m²]
}

// newForward starts at one temperature [°C] above freezing. Its steps, dz²/(4e-6 m²/s), are stable in ground
// of up to 2e-6 m²/s; frozen sand has 1.4e-6.
func newForward(soil func(depth float64) pipe.Soil, thin, start float64) *forward {
	f := &forward{edge: []float64{0}, step: thin * thin / 4e-6}
	dz := thin
	for z := 0.0; z < 10-1e-9; {
		if z > 0.8-1e-9 {
			dz *= 1.06
		}
		next := math.Min(z+dz, 10)
		s := soil((z + next) / 2)
		f.soil, f.edge = append(f.soil, s), append(f.edge, next)
		f.h, f.t, f.k = append(f.h, s.HeatCapacityUnfrozen*start), append(f.t, start), append(f.k, s.ConductivityUnfrozen)
		z = next
	}
	return f
}

// march takes it on to a time, the same number of equal steps each stretch.
func (f *forward) march(above func(t float64) (float64, float64), from, to float64) {
	n := int(math.Ceil((to - from) / f.step))
	dt := (to - from) / float64(n)
	for i := range n {
		resistance, air := above(from + (float64(i)+0.5)*dt)
		flow := (air - f.t[0]) / (resistance + f.edge[1]/2/f.k[0]) // downwards
		f.in += flow * dt
		for j := range f.h {
			next, dz := 0.0, f.edge[j+1]-f.edge[j]
			if j < len(f.h)-1 {
				next = (f.t[j] - f.t[j+1]) / (dz/2/f.k[j] + (f.edge[j+2]-f.edge[j+1])/2/f.k[j+1])
			}
			f.h[j] += dt * (flow - next) / dz
			flow = next
		}
		for j := range f.h {
			f.settle(j)
		}
	}
}

// settle finds temperature and conductivity of a volume from its enthalpy.
func (f *forward) settle(j int) {
	s, h := &f.soil[j], f.h[j]
	point := s.Freezing.Point
	if h >= s.HeatCapacityUnfrozen*point {
		f.t[j], f.k[j] = h/s.HeatCapacityUnfrozen, s.ConductivityUnfrozen
		return
	}
	ice := math.Min(-h/s.Latent, 1)
	if point < 0 {
		f.t[j], ice = alongCurve(s, h, math.Min(f.t[j], point))
	} else {
		f.t[j] = (h + ice*s.Latent) / s.HeatCapacityFrozen
	}
	f.k[j] = s.ConductivityUnfrozen * math.Pow(s.ConductivityFrozen/s.ConductivityUnfrozen, ice)
}

// alongCurve finds the temperature [°C] at which soil below its freezing point has an enthalpy [J/m³], by
// Newton's method from a guess, and the ice share there. It is curveEnthalpy with its slope, for speed.
func alongCurve(s *pipe.Soil, h, t float64) (temperature, ice float64) {
	point, e, more := s.Freezing.Point, s.Freezing.Exponent, s.HeatCapacityFrozen-s.HeatCapacityUnfrozen
	for range 30 {
		x := t / point
		liquid := math.Pow(x, -e)
		ice = 1 - liquid
		is := s.HeatCapacityUnfrozen*t + more*point*(x-1-(x*liquid-1)/(1-e)) - s.Latent*ice
		move := (h - is) / (s.HeatCapacityUnfrozen + ice*more - s.Latent*e*liquid/t)
		t = math.Min(t+move, point)
		if move*move < -1e-9*t { // what is left goes with the square
			break
		}
	}
	return t, ice
}

// temperatureAt joins the volumes' centres straight.
func (f *forward) temperatureAt(depth float64) float64 {
	centre := func(j int) float64 { return (f.edge[j] + f.edge[j+1]) / 2 }
	j := 0
	for centre(j+1) < depth {
		j++
	}
	share := (depth - centre(j)) / (centre(j+1) - centre(j))
	return f.t[j] + share*(f.t[j+1]-f.t[j])
}

// frozen are the highest and the lowest frozen point [m], NaN where there is none: with sharp freezing
// by the share of ice in the volumes at the ends, along a curve where the freezing point lies between centres.
func (f *forward) frozen() (top, bottom float64) {
	top, bottom = math.NaN(), math.NaN()
	for j := range f.h {
		s, dz := f.soil[j], f.edge[j+1]-f.edge[j]
		low, high := 0.0, 0.0 // shares of the volume above which, and below which, it is not frozen
		if point := s.Freezing.Point; point == 0 {
			part := math.Min(math.Max(-f.h[j]/s.Latent, 0), 1)
			low, high = 1-part, part
		} else if f.t[j] < point {
			low, high = f.crossing(j, -1, point), 1-f.crossing(j, 1, point)
		}
		if high > 0 {
			if math.IsNaN(top) {
				top = f.edge[j] + low*dz
			}
			bottom = f.edge[j] + high*dz
		}
	}
	return top, bottom
}

// crossing is how far from the near edge of volume j, as a share of it, a temperature lies on the way from its
// centre to the neighbour's; negative beyond the edge, 0 where the neighbour is as cold.
func (f *forward) crossing(j, side int, t float64) float64 {
	n := j + side
	if n < 0 || f.t[n] < t {
		return 0
	}
	dz := f.edge[j+1] - f.edge[j]
	apart := (dz + f.edge[n+1] - f.edge[n]) / 2
	return 0.5 - (t-f.t[j])/(f.t[n]-f.t[j])*apart/dz
}

// curveEnthalpy is the enthalpy of soil at a temperature [°C], from 0 °C on [J/m³].
func curveEnthalpy(s pipe.Soil, t float64) float64 {
	h := s.HeatCapacityUnfrozen * t
	point, e := s.Freezing.Point, s.Freezing.Exponent
	if t >= point {
		return h
	}
	x := t / point
	power := math.Log(x) // ∫ s^−e ds from 1 to x
	if e != 1 {
		power = (math.Pow(x, 1-e) - 1) / (1 - e)
	}
	return h + (s.HeatCapacityFrozen-s.HeatCapacityUnfrozen)*point*(x-1-power) - s.Latent*(1-math.Pow(x, -e))
}
