// Package heat holds the relations of heat transfer that winterline computes with:
// properties of water, ice, air and snow, films, sky, shape factors, the annual wave
// and closed forms for cooling and freezing. Every function is pure and takes plain
// numbers.
//
// Units are SI; temperatures are °C (absolute only inside radiation and gas laws),
// differences K. Heat that leaves the pipe is positive. Angles are not used.
// Nothing here panics: a formula that has no value at its arguments returns NaN or Inf.
package heat

// Gravity is the standard acceleration of free fall [m/s²] (CGPM 1901).
const Gravity = 9.80665

// Kelvin is 0 °C in K.
const Kelvin = 273.15

// Atmosphere is the standard atmosphere [Pa].
const Atmosphere = 101325.0
