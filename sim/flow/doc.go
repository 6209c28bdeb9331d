// Package flow holds the relations of hydraulics that winterline computes with: friction
// in full pipes, part-full gravity flow, orifices, weirs, tanks and water entering soil.
// Every function is pure, takes plain numbers and allocates nothing.
//
// Units are SI: heads, depths and levels m, flows m³/s, areas m². Heads and flows are
// positive along the flow; a slope is positive downhill [-]. Nothing here panics: a
// formula that has no value at its arguments returns NaN or Inf.
//
// A full pipe is [HeadLoss] and, the other way round, [FullPipeFlow]; a part-full one
// [Discharge] and [NormalDepth]. Relief openings and weep slots are [SlotFlow], a weir until it
// is covered, and the mouth of a standpipe is [RimFlow]. Water enters dry soil by [GreenAmpt].
// FrictionHaaland, FrictionSwameeJain, HeadLossHazenWilliams, SideHoleFlow and the times of
// tanks are there for the verification to compare with.
package flow

// Gravity is the standard acceleration of free fall [m/s²] (CGPM 1901).
const Gravity = 9.80665
