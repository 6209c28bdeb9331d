package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/heat"
)

// flowTo is the heat [W/m] that a surface at ts [°C] gives to its surroundings.
func flowTo(o *outside, air airState, ts float64) float64 {
	x := o.surroundings(air, ts)
	return (ts - x.temp(air)) / x.r
}

// A pipe in the open gives heat to the wind, and radiates half to the sky and half to surroundings as warm as the air: the
// one film that stands for all of it passes their sum, by Stefan and Boltzmann's law.
func TestOpenAirByHand(t *testing.T) {
	const radius, ts = 0.03, 2.0
	air := airState{temp: -10, wind: 3, sky: -35}
	fourth := func(t float64) float64 { return math.Pow(t+273.15, 4) }
	want := heat.Film(air.temp, ts, 2*radius, air.wind)*(ts-air.temp) +
		plasticEmission*5.670374419e-8*(fourth(ts)-0.5*fourth(air.sky)-0.5*fourth(air.temp))
	want *= 2 * math.Pi * radius
	o := &outside{setting: pipe.OpenAir, radius: radius, emission: plasticEmission}
	within(t, "heat given [W/m]", flowTo(o, air, ts), want, 1e-9*want)
}

// Indoors, in the wall and in a shelter half way between: a film of 8 W/(m² K), or what still air and radiation make.
func TestOutsideOfTheHouseByHand(t *testing.T) {
	const radius, ts, room = 0.03, 2.0, 20.0
	air := airState{temp: -10, wind: 3, sky: -35}
	around := 2 * math.Pi * radius
	within(t, "indoors [W/m]", flowTo(&outside{setting: pipe.Indoor, radius: radius, room: room}, air, ts), 8*around*(ts-room), 1e-9)
	within(t, "in the wall [W/m]", flowTo(&outside{setting: pipe.ThroughWall, radius: radius, room: room}, air, ts), 8*around*(ts-5), 1e-9)
	shelter := &outside{setting: pipe.Sheltered, radius: radius, room: room, halfway: true, emission: plasticEmission}
	h := heat.FilmNatural(5, ts, 2*radius) + heat.RadiationCoefficient(ts, 5, plasticEmission)
	within(t, "half way [W/m]", flowTo(shelter, air, ts), h*around*(ts-5), 1e-9)
}

// A draught mixes the air outdoors with what the walls before the cell added; without one the air is as warm as what
// surrounds the pipe, and outdoor air where the pipe is open at the top.
func TestInnerAirByHand(t *testing.T) {
	air := airState{temp: -10}
	c := &cell{}
	within(t, "still air", c.innerAir(air, 3), 3, 0)
	c.air = drawnAir{on: true, share: 0.3, rest: 2.5}
	within(t, "drawn air", c.innerAir(air, 3), -0.5, 1e-12)
	c.upright = true
	within(t, "open at the top", c.innerAir(air, 3), -10, 0)
}
