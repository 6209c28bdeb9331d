package verify

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// Tolerances of the solver checks, against solutions converged in space and time.
const (
	cellRelative  = 0.01        // of times and heats [-]
	cellTime      = 0.02 * 3600 // of times, where that is the larger [s]
	stillFirst    = 0.05 * 3600 // of the first ice of still liquid, likewise [s]
	cellShare     = 0.01        // of the ice share at the end [-]
	frostRelative = 0.01        // of frost depths [-]
	frostAbsolute = 0.003       // where that is the larger [m]
)

// Where the expected figures come from.
const (
	radialSource = "independent enthalpy solver, 200 water shells, time error extrapolated away; a front-tracking solver agrees"
	inwardSource = "independent front-fixing solver in the logarithm of the radius; an enthalpy solver agrees in three cases"
	columnSource = "independent enthalpy column, 1 cm cells, sub-cell front, sixtieth year; a second solver agrees within 1 mm"
)

// radialOutcomes runs the simulation on every radial freezing case.
func radialOutcomes(ctx context.Context) []Outcome {
	var all []Outcome
	for _, c := range RadialCases() {
		run, err := RunCell(ctx, c)
		all = append(all, c.compare(run, err)...)
	}
	return all
}

// compare sets what a run gave beside what the case expects; what it does not expect is
// left out.
func (c RadialCase) compare(run CellRun, err error) []Outcome {
	var out []Outcome
	add := func(what, unit string, expected, computed, absolute, scale float64) {
		if math.IsNaN(expected) {
			return
		}
		o := Outcome{
			ID: c.ID + "/" + what, Check: "cell-" + what, Source: radialSource, Trust: c.Trust,
			Expected: expected / scale, Computed: computed / scale, Unit: unit, Err: err,
		}
		relative := cellRelative
		if what == "ice-at-end" {
			relative = 0
		}
		o.judge(absolute/scale, relative)
		out = append(out, o)
	}
	first := cellTime
	if c.Still {
		first = stillFirst
	}
	add("first-ice", "h", c.FirstIce, run.FirstIce, first, 3600)
	add("first-ice-heat", "J/m", c.HeatFirstIce, run.HeatFirstIce, c.firstHeat(), 1)
	for k, level := range RadialLevels {
		name := fmt.Sprintf("ice-%g", 100*level)
		add(name, "h", c.Ice[k], run.Ice[k], cellTime, 3600)
		add(name+"-heat", "J/m", c.Heat[k], run.Heat[k], 0, 1)
	}
	add("ice-at-end", "-", c.IceAtEnd, run.IceAtEnd, cellShare, 1)
	return out
}

// firstHeat is what the tolerance of first ice in time is worth in heat [J/m], at the mean
// rate up to it.
func (c RadialCase) firstHeat() float64 {
	limit := cellTime
	if c.Still {
		limit = stillFirst
	}
	return c.HeatFirstIce / c.FirstIce * limit
}

// inwardOutcomes runs the simulation on every inward freezing case.
func inwardOutcomes(ctx context.Context) []Outcome {
	var all []Outcome
	for _, c := range InwardCases() {
		o := Outcome{ID: c.ID, Check: "cell-inward-freezing", Source: inwardSource, Trust: c.Trust, Expected: c.Time, Unit: "-"}
		o.Computed, o.Err = RunInward(ctx, c)
		o.judge(0, c.Limit)
		all = append(all, o)
	}
	return all
}

// columnTemperature is the tolerance of ground temperatures [K].
const columnTemperature = 0.05

// groundColumnOutcomes marches every ground column to its periodic state and reads frost and
// temperatures; those without a daily wave are also run as a user would have them.
func groundColumnOutcomes(ctx context.Context) []Outcome {
	var all []Outcome
	for _, c := range GroundCases() {
		states, err := MarchGround(ctx, c)
		for k, want := range c.States {
			got := GroundState{Frost: math.NaN()}
			if err == nil {
				got = states[k]
			}
			at := fmt.Sprintf("%s/day %.0f", c.ID, want.Time/86400)
			add := func(id, check, unit string, expected, computed, absolute, relative float64) {
				o := Outcome{ID: id, Check: check, Source: columnSource, Trust: c.Trust, Expected: expected, Computed: computed, Unit: unit, Err: err}
				o.judge(absolute, relative)
				all = append(all, o)
			}
			add(at, "ground-frost", "m", want.Frost, got.Frost, frostAbsolute, frostRelative)
			for z, depth := range GroundDepths {
				add(fmt.Sprintf("%s/%.1f m", at, depth), "ground-temperature", "°C", want.Temperature[z], got.Temperature[z], columnTemperature, 0)
			}
		}
	}
	return append(all, groundRunOutcomes(ctx)...)
}

// groundRuns are the ground cases that `sim.Run` is put through as well, soil, surface and annual wave
// written as a layout would.
var groundRuns = []string{"GC2", "GC4"}

func groundRunOutcomes(ctx context.Context) []Outcome {
	var all []Outcome
	for _, c := range GroundCases() {
		if !slices.Contains(groundRuns, c.ID) {
			continue
		}
		frost, err := RunGround(ctx, c)
		for k, state := range c.States {
			o := Outcome{
				ID: fmt.Sprintf("%s/day %.0f/run", c.ID, state.Time/86400), Check: "ground-frost-run", Source: columnSource, Trust: c.Trust,
				Expected: state.Frost, Unit: "m", Err: err,
			}
			if err == nil {
				o.Computed = frost[k]
			}
			o.judge(frostAbsolute, frostRelative)
			all = append(all, o)
		}
	}
	return all
}
