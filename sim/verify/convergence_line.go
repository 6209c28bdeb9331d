package verify

import "winterline/sim"

// LineCellsOf is LineCells with a multiple of the shells.
func LineCellsOf(air *sim.OpenAir, shells float64) []*LineCell {
	var line []*LineCell
	for _, c := range ReferenceLine() {
		line = append(line, &LineCell{OpenCell: air.Pipe(referencePipe(c), ReferenceStart, lineShells.Times(shells)), Want: c})
	}
	return line
}
