// Package heat holds the relations of heat transfer that winterline computes with:
// properties of water, ice, air and snow, films, sky, shape factors, the annual wave
// and closed forms for cooling, freezing and frost heave. Every function is pure and
// takes plain numbers.
//
// Units are SI; temperatures are °C (absolute only inside radiation and gas laws),
// differences K. A flux counts as positive when it leaves the surface that the function is
// about; package sim turns it round. Nothing here panics: a formula that has no value at
// its arguments returns NaN or Inf.
//
//   - water.go, ice.go, air.go, snow.go: properties. The constants in water.go are those at
//     0 °C with which the cell solver computes; the functions beside them go by temperature.
//   - film.go (outside a pipe), inside.go and filmwater.go (inside one): convection.
//   - sky.go: long-wave radiation. evaporation.go: the air's exchange with the ground.
//   - shape.go, wave.go, freeze.go, heave.go: the ground, and the closed forms that tests
//     and the verification hold the solver against.
//
// Several functions return the same quantity by different authors. The program computes with
// Film, FilmInside, SkyEmissivity, SkySwinbank (no dew point) and SnowConductivityCalonne; the
// others are there for the verification to compare with.
package heat

// gravity is the standard acceleration of free fall [m/s²] (CGPM 1901).
const gravity = 9.80665

// Kelvin is 0 °C in K.
const Kelvin = 273.15

// Atmosphere is the standard atmosphere [Pa].
const Atmosphere = 101325.0
