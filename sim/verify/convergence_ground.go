package verify

import (
	"context"
	"fmt"

	"winterline/pipe"
	"winterline/sim"
)

// convergedColumn is a ground column of the study: the climate and the instants of a ground reference
// with a soil.
type convergedColumn struct {
	name string
	GroundCase
	soil pipe.Soil
}

// convergedColumns are a reference with a yearly wave alone and one with a daily wave, both of which
// freeze sharply, and the first with a soil that freezes along its curve, as those of layouts do.
func convergedColumns() ([]convergedColumn, error) {
	moisture, _, _, _ := pipe.DefaultMoisture("silt loam")
	loam, err := pipe.MakeSoil("silt loam", moisture)
	if err != nil {
		return nil, err
	}
	var all []convergedColumn
	for _, c := range GroundCases() {
		switch c.ID {
		case "GC2":
			all = append(all, convergedColumn{c.ID, c, c.layout().Site.Soil}, convergedColumn{c.ID + " with silt loam", c, loam})
		case "GC5":
			all = append(all, convergedColumn{c.ID, c, c.layout().Site.Soil})
		}
	}
	return all, nil
}

// groundMeasures are those of ground columns at the instants of their references.
func groundMeasures(ctx context.Context, f Fineness) ([]measure, error) {
	columns, err := convergedColumns()
	if err != nil {
		return nil, err
	}
	var all []measure
	for _, c := range columns {
		states, err := marchColumn(ctx, c.GroundCase, f.column(c), f.Steps)
		if err != nil {
			return nil, err
		}
		for _, s := range states {
			at := fmt.Sprintf("%s, day %.0f", c.name, s.Time/day)
			all = append(all, measure{"frost depth", at, s.Frost, needFrost})
			for z, depth := range GroundDepths {
				all = append(all, measure{"ground temperature", fmt.Sprintf("%s, %.1f m", at, depth), s.Temperature[z], needGround})
			}
		}
	}
	return all, nil
}

// column builds one as finely as wanted; whole multiples of the default nodes alone.
func (f Fineness) column(c convergedColumn) *sim.SoilColumn {
	steps := sim.Stepping{Longest: day}.Times(f.Steps)
	return sim.NewCutColumn(c.soil, c.AirMean, steps, max(1, int(f.Nodes)))
}
