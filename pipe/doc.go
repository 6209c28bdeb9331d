// Package pipe describes an installation as built: basin, pumps, segments in flow order, standpipe,
// relief openings, outlet and rock pit, the soil around them and the water that arrives.
//
// # Conventions
//
// All values are in SI, temperatures in °C, differences in K, shares from 0 to 1. Levels are metres
// with the ground at the house wall as 0 and up as positive; heights of a standpipe or a relief
// opening are above ground. Distances are metres from the wall. A drop along the flow
// is positive downhill. A pointer that is nil stands for what was not given and has no default.
//
// # From a file to a Layout
//
// ReadLayout reads a layout.toml and returns either a complete Layout or all faults of the file, each
// a units.Problem with file, line and key:
//
//   - toml.go walks the text into raw nodes that keep their lines; toml_recover.go goes on after a
//     line that is no TOML.
//   - edit.go applies Edits to the nodes, so that a layout tried out by a re-run is the one that the
//     same change in the file would give (ReadLayoutWith).
//   - bind.go and the read_*.go files, one for each table, turn nodes into the fields of Layout with
//     their units and
//     limits, and refuse what contradicts itself. defaults.go holds what is taken for a quantity that
//     is left out or "unknown"; each such value becomes a Guess in Layout.Guesses.
//
// ReadCycles and ReadInflow read the files pump.csv and inflow.csv; ParseCycles and ParseArrival read
// the plans of the layout's [water] table.
//
// # What follows from a Layout
//
//   - MakeProfile works out where each segment lies, and refuses falls, covers and ground that
//     disagree by over an inch.
//   - Practice lists what the trade would do otherwise (practice*.go).
//   - MakeSoil gives the properties of a texture class at its moisture: johansen.go has
//     its conductivity, freezing.go how it freezes, suction.go and drainage.go how it takes up water.
//     Drier is the layout in drier soil.
//   - section.go is the geometry of a part-full pipe. FindSize, FindMaterial and TypicalCurve look up
//     the tables of sizes.go, materials.go and curves.go, every row with its source.
//
// # What it does not do
//
// No temperature is computed and no water flows here: that is package sim. It opens no file: callers
// hand in text or readers.
package pipe
