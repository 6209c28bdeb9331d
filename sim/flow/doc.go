// Package flow holds the relations of hydraulics that winterline computes with: friction
// in full pipes, part-full gravity flow, orifices, weirs, tanks and water entering soil.
// Every function is pure, takes plain numbers and allocates nothing.
//
// Units are SI: heads, depths and levels m, flows m³/s, areas m². Heads and flows are
// positive along the flow; a slope is positive downhill [-]. Nothing here panics: a
// formula that has no value at its arguments returns NaN or Inf.
package flow

// Gravity is the standard acceleration of free fall [m/s²] (CGPM 1901).
const Gravity = 9.80665
