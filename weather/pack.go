package weather

import "math"

// layer is snow of one density.
type layer struct {
	water   float64 // [m]
	density float64 // [kg/m³]
}

func (l layer) depth() float64 { return SnowDepth(l.water, l.density) }

// pack is the snow on the ground, layer by layer from the ground up.
type pack []layer

const (
	// alike is the difference in density up to which layers are joined [kg/m³]. It bounds
	// their number; joined, they keep their water and their depth.
	alike = 20.0

	trace = 1e-9 // water that makes no layer [m]
)

// depth returns the height of the pack [m].
func (p pack) depth() float64 {
	var sum float64
	for _, l := range p {
		sum += l.depth()
	}
	return sum
}

// densityOr returns the density of the whole pack [kg/m³], or none where there is no snow.
func (p pack) densityOr(none float64) float64 {
	if len(p) == 0 {
		return none
	}
	var water float64
	for _, l := range p {
		water += l.water
	}
	return water * waterDensity / p.depth()
}

// settle ages every layer by t seconds at air temperature air [°C].
func (p *pack) settle(air, t float64) {
	layers := *p
	*p = layers[:0]
	for _, l := range layers {
		p.put(layer{l.water, AgedDensity(l.density, air, t)})
	}
}

// put lays a layer on top, joined to the one below where the two are alike.
func (p *pack) put(l layer) {
	if l.water < trace {
		return
	}
	if n := len(*p); n > 0 {
		if top := &(*p)[n-1]; math.Abs(top.density-l.density) < alike {
			water, depth := top.water+l.water, top.depth()+l.depth()
			*top = layer{water, water * waterDensity / depth}
			return
		}
	}
	*p = append(*p, l)
}

// take removes snow of the given depth [m] from the top.
func (p *pack) take(depth float64) { p.remove(depth, layer.depth) }

// melt removes snow that holds the given water [m] from the top.
func (p *pack) melt(water float64) {
	p.remove(water, func(l layer) float64 { return l.water })
}

// remove takes snow from the top until an amount of it is gone, as amountOf measures it.
func (p *pack) remove(amount float64, amountOf func(layer) float64) {
	for n := len(*p); n > 0 && amount > 0; n-- {
		top := &(*p)[n-1]
		there := amountOf(*top)
		if left := top.water * (1 - amount/there); left >= trace {
			top.water = left
			return
		}
		amount -= there
		*p = (*p)[:n-1]
	}
}
