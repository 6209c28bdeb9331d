// Package sim marches a winter: it takes an installation (package pipe), a weather
// record (package weather) and pump cycles, and computes the heat of the water standing
// in every cell of the line, the ice, and where the water goes. It reads no file, prints
// nothing and looks at no clock; the sentences of warnings and events are data of the result.
//
// # Conventions
//
// SI, °C, differences in K, times in seconds since the first weather row. Levels count from
// the ground at the wall, up is positive. Heat into a cell and water into the line are
// positive. Enthalpy is held in kelvin, over the heat capacity with all water liquid, and
// is zero for liquid water at 0 °C (enthalpy.go). NaN stands for what is not known or not there.
//
// # What is called
//
// [NewCase] puts a checked [Case] together and [Run] simulates it; [SupposeCycles] is for
// installations of which nobody knows how often the pump runs. [RunUntil] and [Follow] stop or
// continue winters for package answers, [EachWinter] cuts a long record into winters.
// [SimulateGround] is the undisturbed ground alone, and a [GroundStore] shares it between cases.
// What begins with New and a part's name ([NewJoint], [NewRockPocket], [NewSoilColumn],
// [NewOpenAir], [NewPumpLine]) hands that part to package verify.
//
// Cases, weather and grounds are not changed once they are made, so that runs may share them side
// by side, and a result does not depend on how many run. An error means that the run cannot be
// believed: a heat step that does not converge ([StepError], [GroundStepError]), a book that
// does not close ([BookError]), or that it was cancelled. A line that froze is a result.
//
// # How a winter goes
//
// The ground goes first, through the whole record (ground*.go, column.go, surface.go, energy.go,
// drought.go). Then, from one weather row or pump run to the next (run.go, due.go): every
// cell marches through still water and given surroundings (march.go, cellmarch.go, implicit.go);
// the pump lifts water, which parts at the joint, washes through the cells and leaves
// some behind (cycle.go, pass.go, wash.go, standing.go, levels.go, tail.go, settle.go); air is drawn through
// what is drained (draught.go); and the recorder looks at all of it (record.go, hourly.go, cause*.go, moments.go).
// At the end the books of water and heat are closed (finish.go, books.go) and heave is worked out
// from the frost (heave*.go). DEVELOPERS.md goes through it file by file.
package sim
