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

// atSurface gives the resistance [m K/W] from the outermost surface, at ts [°C], to what
// lies behind it and that temperature [°C] at time t [s].
func (o *outside) atSurface(s *sky, t, ts float64) (r, temp float64) {
	around := 2 * math.Pi * o.radius
	switch {
	case o.setting == pipe.Buried:
		return 0, o.ground.temperature(t)
	case o.setting == pipe.Indoor:
		return 1 / (pick(o.film, indoorFilm) * around), o.room
	}
	air := s.at(t)
	switch {
	case o.setting == pipe.ThroughWall:
		return 1 / (pick(o.film, indoorFilm) * around), 0.5 * (air.temp + o.room)
	case o.film != nil && o.setting == pipe.OpenAir:
		return 1 / (*o.film * around), air.temp
	case o.setting == pipe.Sheltered:
		return o.sheltered(air, ts)
	}
	h, temp := o.openAir(air, ts)
	return 1 / (h * around), temp
}

// sheltered is a garage or crawlspace: still air, no sky.
func (o *outside) sheltered(air airState, ts float64) (r, temp float64) {
	temp = air.temp
	if o.halfway {
		temp = 0.5 * (air.temp + o.room)
	}
	temp = pick(o.shelter, temp)
	h := pick(o.film, heat.FilmNatural(temp, ts, 2*o.radius)+heat.RadiationCoefficient(ts, temp, o.emission))
	return 1 / (h * 2 * math.Pi * o.radius), temp
}

// openAir gives film coefficient [W/(m² K)] and effective temperature [°C] of wind,
// natural convection and long-wave exchange with half sky, half surroundings at air
// temperature.
func (o *outside) openAir(air airState, ts float64) (h, temp float64) {
	film := heat.Film(air.temp, ts, 2*o.radius, air.wind)
	toSky := 0.5 * heat.RadiationCoefficient(ts, air.sky, o.emission)
	toSurroundings := 0.5 * heat.RadiationCoefficient(ts, air.temp, o.emission)
	h = film + toSky + toSurroundings
	return h, ((film+toSurroundings)*air.temp + toSky*air.sky) / h
}

// pick is a written value, or else a default.
func pick[T any](p *T, def T) T {
	if p != nil {
		return *p
	}
	return def
}
