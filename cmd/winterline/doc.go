// Winterline simulates a winter for the line that carries a basement sump pump's water
// away from the house: what stands in it, what freezes, and which way the water goes
// when it does.
//
// This package is the command: it reads flags and files, has package sim or one below it
// compute, and package report write and print. It holds no physics and words no result.
//
// # Files
//
//   - From start to end: main.go (signals), root.go (commands, errors, exit codes), streams.go
//     (what is read and written, and how wide the window is), progress.go (bar and timings).
//   - Flags that several commands share: inputflags.go (input files, pump plans), flags.go
//     (results, units, --fail-on), charts.go, zone.go.
//   - A case: place.go (which folder is meant), case.go (what is read of it, in which order),
//     readers.go (layout, pump, inflow), weatherfiles.go, digests.go (SHA-256 of it all),
//     bounded.go (no more than is allowed), inputerror.go (all faults at once), cases.go (ready to
//     run).
//   - A command is a file: run.go (with again.go), why.go, compare.go (rivals.go, setflag.go),
//     size.go (sizeflags.go), winters.go (wintersparts.go), ground.go (depths.go, thermometer.go), check.go,
//     weather.go (weatherdraw.go, weatherwrite.go, snap.go, snapflags.go), new.go (interview.go, questions.go,
//     draft.go), verify.go (evidence.go), man.go, and complete.go for shells. Each has an options
//     struct, a function that wires its flags, and one that does the work.
//   - Results: produce.go (read, simulate, write, print), render.go (files side by side in memory),
//     writenew.go (a single new file).
package main
