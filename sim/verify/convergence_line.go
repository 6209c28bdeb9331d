package verify

import (
	"context"

	"winterline/sim"
)

// LineCellsOf is LineCells with a multiple of the shells.
func LineCellsOf(air *sim.OpenAir, shells float64) []*LineCell {
	var line []*LineCell
	for _, c := range ReferenceLine() {
		line = append(line, &LineCell{OpenCell: air.Pipe(referencePipe(c), ReferenceStart, sim.Shells{}.Times(shells)), Want: c})
	}
	return line
}

// lineMeasures are those of the reference line's cells.
func lineMeasures(ctx context.Context, f Fineness) ([]measure, error) {
	s := ReferenceWeather()
	var all []measure
	for _, c := range LineCellsOf(sim.NewSteppedAir(s, sim.Stepping{}.Times(f.Steps)), f.Nodes) {
		if err := c.winter(ctx, s.Time); err != nil {
			return nil, err
		}
		all = append(all,
			measure{"heat lost", c.Want.ID, c.HeatLost(), needHeat},
			measure{"largest ice", c.Want.ID, c.largest, needIce},
			measure{"time with ice", c.Want.ID, c.iceTime, needLength},
			measure{"first ice", c.Want.ID, c.first, needInstant},
		)
	}
	return all, nil
}
