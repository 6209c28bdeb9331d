package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// outside is what lies beyond a cell's outermost shell. Exactly one of the kinds below
// applies, by setting; a film given by hand overrides the computed one.
type outside struct {
	setting  pipe.Setting
	radius   float64  // of the outermost surface [m]
	film     *float64 // given film coefficient, radiation included [W/(m² K)]
	ground   *track   // undisturbed ground at the cell's depth; for buried cells
	room     float64  // indoor temperature [°C]
	shelter  *float64 // sheltered temperature [°C]; nil: outdoor air, or half way to the room
	halfway  bool
	emission float64 // emissivity of the surface [-]
}

const (
	indoorFilm      = 8.0 // still air and radiation indoors [W/(m² K)] (model default; ISO 6946 gives 7.7 for walls)
	pipeAirFilm     = 5.0 // air in the pipe to pool surface and bare wall [W/(m² K)] (model default)
	plasticEmission = 0.9 // long-wave emissivity of plastic pipe (handbook range 0.85 to 0.95, from memory)
)

// surroundings are what the outermost surface exchanges heat with for a while: the resistance to what lies behind
// it [m K/W], and that temperature as shares of the air's and the sky's [-] and a rest [°C].
type surroundings struct{ r, air, sky, rest float64 }

// temp is the temperature behind the resistance [°C].
func (x *surroundings) temp(a airState) float64 { return x.air*a.temp + x.sky*a.sky + x.rest }

// surroundings are those of a surface at ts [°C] in the weather at one instant; not of a buried pipe.
func (o *outside) surroundings(air airState, ts float64) surroundings {
	around := 2 * math.Pi * o.radius
	switch {
	case o.setting == pipe.Indoor:
		return surroundings{r: 1 / (pick(o.film, indoorFilm) * around), rest: o.room}
	case o.setting == pipe.ThroughWall:
		return surroundings{r: 1 / (pick(o.film, indoorFilm) * around), air: 0.5, rest: 0.5 * o.room}
	case o.film != nil && o.setting == pipe.OpenAir:
		return surroundings{r: 1 / (*o.film * around), air: 1}
	case o.setting == pipe.Sheltered:
		return o.sheltered(air, ts)
	}
	return o.openAir(air, ts)
}

// atSurface gives the resistance [m K/W] from the outermost surface, at ts [°C], to what
// lies behind it and that temperature [°C] at time t [s].
func (o *outside) atSurface(s *sky, t, ts float64) (r, temp float64) {
	if o.setting == pipe.Buried {
		return 0, o.ground.temperature(t)
	}
	air := s.at(t)
	x := o.surroundings(air, ts)
	return x.r, x.temp(air)
}

// sheltered is a garage or crawlspace: still air, no sky.
func (o *outside) sheltered(air airState, ts float64) surroundings {
	x := surroundings{air: 1}
	switch {
	case o.shelter != nil:
		x = surroundings{rest: *o.shelter}
	case o.halfway:
		x = surroundings{air: 0.5, rest: 0.5 * o.room}
	}
	temp := x.temp(air)
	h := pick(o.film, heat.FilmNatural(temp, ts, 2*o.radius)+heat.RadiationCoefficient(ts, temp, o.emission))
	x.r = 1 / (h * 2 * math.Pi * o.radius)
	return x
}

// openAir is wind, natural convection and long-wave exchange with half sky, half surroundings at air
// temperature.
func (o *outside) openAir(air airState, ts float64) surroundings {
	film := heat.Film(air.temp, ts, 2*o.radius, air.wind)
	toSky := 0.5 * heat.RadiationCoefficient(ts, air.sky, o.emission)
	toSurroundings := 0.5 * heat.RadiationCoefficient(ts, air.temp, o.emission)
	h := film + toSky + toSurroundings
	return surroundings{r: 1 / (h * 2 * math.Pi * o.radius), air: (film + toSurroundings) / h, sky: toSky / h}
}

// pick is a written value, or else a default.
func pick[T any](p *T, def T) T {
	if p != nil {
		return *p
	}
	return def
}
