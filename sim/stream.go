package sim

import (
	"math"
	"slices"

	"winterline/sim/heat"
)

// parcel is an amount of moving water with one enthalpy.
type parcel struct {
	mass float64 // [kg]
	u    float64 // [K]; below 0: carries slush
}

// stream is moving water, first in front.
type stream []parcel

// mass of the whole stream [kg].
func (s stream) mass() float64 {
	sum := 0.0
	for _, p := range s {
		sum += p.mass
	}
	return sum
}

// heat of the whole stream [J].
func (s stream) heat() float64 {
	sum := 0.0
	for _, p := range s {
		sum += p.mass * p.u
	}
	return sum * heat.LiquidHeat
}

// parcelLimit bounds how many parcels a stream keeps apart.
const parcelLimit = 6

// crumb is a mass under which a parcel is what rounding left of one [kg]: it goes along, but
// neither cools nor warms anything.
const crumb = 1e-9

// gather joins neighbouring parcels, smallest difference in temperature first, until no
// more than parcelLimit are left.
func (s stream) gather() stream {
	for len(s) > parcelLimit {
		best, least := 1, math.Inf(1)
		for i := 1; i < len(s); i++ {
			cost := math.Abs(s[i].u-s[i-1].u) * min(s[i].mass, s[i-1].mass)
			if cost < least {
				best, least = i, cost
			}
		}
		s[best-1] = blendParcels(s[best-1], s[best])
		s = append(s[:best], s[best+1:]...)
	}
	return s
}

// blendParcels mixes two parcels; heat and mass stay.
func blendParcels(a, b parcel) parcel {
	m := a.mass + b.mass
	if m == 0 {
		return a
	}
	return parcel{m, (a.mass*a.u + b.mass*b.u) / m}
}

// split takes the last `mass` kg off the stream. It returns what goes on, in the stream's own memory, and what stays, last
// first, in the given room.
func (s stream) split(mass float64, room stream) (on, stay stream) {
	stay = room[:0]
	for i := len(s) - 1; i >= 0; i-- {
		if mass <= 0 {
			return s[:i+1], stay
		}
		if s[i].mass > mass {
			stay = append(stay, parcel{mass, s[i].u})
			s[i].mass -= mass
			return s[:i+1], stay
		}
		stay = append(stay, s[i])
		mass -= s[i].mass
	}
	return s[:0], stay
}

// splitFront takes the first `mass` kg of a stream apart, in the stream's own memory, from the rest, which comes into the
// given room.
func splitFront(s stream, mass float64, room stream) (rest, front stream) {
	front, rest = s.split(s.mass()-mass, room)
	slices.Reverse(rest)
	return rest, front
}

// mean blends all of the stream into one parcel.
func (s stream) mean() parcel {
	var all parcel
	for _, p := range s {
		all = blendParcels(all, p)
	}
	return all
}

// fusion is the latent heat as enthalpy of liquid water [K].
const fusion = heat.Fusion / heat.LiquidHeat

// freezeOut takes the ice out of the stream and returns the liquid that goes on, in the stream's own memory, and the ice.
func (s stream) freezeOut() (liquid stream, ice parcel) {
	liquid = s[:0]
	for _, p := range s {
		switch {
		case p.u >= 0:
			liquid = append(liquid, p)
		case p.u <= -fusion:
			ice = blendParcels(ice, p)
		default:
			frozen := p.mass * -p.u / fusion
			ice = blendParcels(ice, parcel{frozen, -fusion})
			liquid = append(liquid, parcel{p.mass - frozen, 0})
		}
	}
	return liquid.positive(), ice
}

// positive drops parcels without mass from the stream.
func (s stream) positive() stream {
	out := s[:0]
	for _, p := range s {
		if p.mass > 0 {
			out = append(out, p)
		}
	}
	return out
}
