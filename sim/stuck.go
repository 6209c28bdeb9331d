package sim

import (
	"errors"
	"fmt"
	"math"
)

// StepError says that a run was given up, because a heat step could not be made short enough to converge: where, when
// and in which state.
type StepError struct {
	Segment  string
	Distance float64 // of the cell's near end from the wall [m]
	Time     float64 // since the first row [s]
	Step     float64 // the length at which it was given up [s]
	Water    float64 // lowest temperature of the cell's water or ice [°C]; NaN: it holds none
	Ice      float64 // share of that water that is ice [-]
	Surface  float64 // of pipe or insulation, or of the buried pipe's ring of soil [°C]
}

// Error gives place, time and state in words.
func (e *StepError) Error() string {
	holds := "no water in it"
	if !math.IsNaN(e.Water) {
		holds = fmt.Sprintf("water from %.2f °C up in it, %.0f %% of it ice", e.Water, 100*e.Ice)
	}
	return fmt.Sprintf("segment %q, %.2f m from the wall, hour %.4f: a heat step of %.2g s does not converge; %s, %.2f °C at its outside",
		e.Segment, e.Distance, e.Time/3600, e.Step, holds, e.Surface)
}

// GroundStepError is StepError for the undisturbed ground.
type GroundStepError struct {
	Depth       float64 // of the volume farthest from its solution, below the column's top [m]
	Time, Step  float64 // as in StepError; the time is negative in the years before the record
	Temperature float64 // there, before the step [°C]
	Surface     float64 // of the ground [°C]
}

// Error gives depth, time and state in words.
func (e *GroundStepError) Error() string {
	return fmt.Sprintf("ground %.3f m down, hour %.4f: a heat step of %.2g s does not converge; %.2f °C there, %.2f °C at the surface",
		e.Depth, e.Time/3600, e.Step, e.Temperature, e.Surface)
}

// stepError is what a cell knows of a step that it gave up: when, and how long it was [s].
type stepError struct{ time, step float64 }

func (e stepError) Error() string {
	return fmt.Sprintf("a heat step of %.2g s at hour %.4f does not converge", e.step, e.time/3600)
}

// blame names the cell in which a step failed, and its state.
func (w *winter) blame(c *cell, err error) error {
	var step stepError
	if !errors.As(err, &step) {
		return err
	}
	return &StepError{
		Segment: w.record.segments[c.part].result.Name, Distance: c.x0, Time: step.time, Step: step.step,
		Water: c.lowestWater(), Ice: c.iceShare(), Surface: c.surfaceTemperature(),
	}
}

// gaveUp names the volume that kept a step of the column from converging.
func (c *column) gaveUp(w *stepper, t, h float64) error {
	worst, residual := 0, 0.0
	for i := range c.mesh.n {
		if r := math.Abs(w.node[i].r); !(r <= residual) {
			worst, residual = i, r
		}
	}
	state := c.temperatures()
	return &GroundStepError{Depth: c.depth(worst), Time: t, Step: h, Temperature: state[worst], Surface: state[c.mesh.n-1]}
}
