package verify

import (
	"context"
	"math"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// Limits of the reference line, against a solution converged in space and time.
const (
	lineHeat  = 0.001         // of the heat lost [-]
	lineIce   = 0.002         // of the largest ice share [-]
	lineHours = 0.003         // of the time with ice [-]
	lineTime  = 0.5 * 3600.0  // of the same, where that is the larger [s]
	lineFirst = 0.05 * 3600.0 // of the first ice [s]
)

// ReferenceWeather is the reference winter by the hour.
func ReferenceWeather() *weather.Series {
	s := &weather.Series{Source: "reference winter"}
	for t := 0.0; t <= ReferenceEnd; t += 3600 {
		s.Time = append(s.Time, t)
		s.Air = append(s.Air, ReferenceAir(t))
	}
	return s
}

// referencePipe is the segment of a reference cell.
func referencePipe(c ReferenceCell) pipe.Segment {
	film := ReferenceFilm
	wall := pipe.Material{Name: "PVC", Conductivity: WallConductivity, Density: WallDensity, HeatCapacity: WallHeatCapacity}
	foam := pipe.Material{Name: "foam", Conductivity: FoamConductivity, Density: FoamDensity, HeatCapacity: FoamHeatCapacity}
	return pipe.Segment{
		Size:       pipe.Size{OutsideDiameter: c.OutsideDiameter, Wall: c.Wall, Material: wall},
		Insulation: []pipe.Insulation{{Thickness: c.Foam, Material: foam}}, Liquid: pipe.Still, FilmCoefficient: &film,
	}
}

// LineCell is a reference cell in progress with what is asked of it.
type LineCell struct {
	*sim.OpenCell
	Want                    ReferenceCell
	largest, iceTime, first float64 // [-], [s], [s]; first NaN: never
	lastTime, lastIce       float64
}

// LineCells builds the line in a weather of its own.
func LineCells(air *sim.OpenAir) []*LineCell { return LineCellsOf(air, 1) }

// Restart brings a cell back to the start of the winter.
func (c *LineCell) Restart() {
	c.Begin(1, ReferenceStart)
	c.largest, c.iceTime, c.first, c.lastTime, c.lastIce = 0, 0, math.NaN(), 0, 0
}

// note takes in one step of the last march: ice goes straight from step to step; a refill,
// which the track shows as two values at one time, jumps.
func (c *LineCell) note(t, ice float64) {
	const level = ReferenceIce
	c.largest = math.Max(c.largest, ice)
	if dt := t - c.lastTime; dt > 0 {
		over, was := ice > level, c.lastIce > level
		part := 1.0
		if over != was {
			part = (level - c.lastIce) / (ice - c.lastIce)
		}
		switch {
		case over && was:
			c.iceTime += dt
		case over:
			c.iceTime += dt * (1 - part)
			if math.IsNaN(c.first) {
				c.first = c.lastTime + dt*part
			}
		case was:
			c.iceTime += dt * part
		}
	}
	c.lastTime, c.lastIce = t, ice
}

// Interval takes a cell through one hour, refill included.
func (c *LineCell) Interval(row int, t, end float64) error {
	done := t - ReferenceFirstRefill
	refill := ReferenceFirstRefill + ReferenceRefillEvery*math.Max(0, math.Ceil(done/ReferenceRefillEvery))
	if refill < end {
		if err := c.March(row, t, refill); err != nil {
			return err
		}
		c.Followed(c.note)
		c.Refill(ReferenceRefill)
		t = refill
	}
	if err := c.March(row, t, end); err != nil {
		return err
	}
	c.Followed(c.note)
	return nil
}

// Worst are the worst errors of the line.
type Worst struct {
	Heat, Ice, Hours float64 // shares [-]; hours of the time with ice
	First            float64 // [s]
}

// LineErrors compares the line with what is expected and reports whether all is within limits.
func LineErrors(line []*LineCell) (w Worst, within bool) {
	within = true
	for _, c := range line {
		if math.IsNaN(c.Want.FirstIce) != math.IsNaN(c.first) {
			return w, false
		}
		if !math.IsNaN(c.first) {
			w.First = math.Max(w.First, math.Abs(c.first-c.Want.FirstIce))
		}
		off := math.Abs(c.iceTime - c.Want.IceTime)
		within = within && off <= math.Max(lineTime, lineHours*c.Want.IceTime)
		if c.Want.IceTime > 0 {
			w.Hours = math.Max(w.Hours, off/c.Want.IceTime)
		}
		w.Heat = math.Max(w.Heat, math.Abs(c.HeatLost()/c.Want.HeatLost-1))
		w.Ice = math.Max(w.Ice, math.Abs(c.largest-c.Want.LargestIce))
	}
	return w, within && w.Heat <= lineHeat && w.Ice <= lineIce && w.First <= lineFirst
}

// lineOutcomes runs the reference line: twelve cells through one winter.
func lineOutcomes(ctx context.Context) []Outcome {
	s := ReferenceWeather()
	var all []Outcome
	for _, c := range LineCells(sim.NewOpenAir(s)) {
		all = append(all, c.outcomes(c.winter(ctx, s.Time))...)
	}
	return all
}

// winter takes the cell through the whole winter.
func (c *LineCell) winter(ctx context.Context, hours []float64) error {
	c.Restart()
	for i := range len(hours) - 1 {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := c.Interval(i, hours[i], hours[i+1]); err != nil {
			return err
		}
	}
	return nil
}

// outcomes sets what the cell went through beside what is expected. What is expected never to
// happen is left out where it did not.
func (c *LineCell) outcomes(err error) []Outcome {
	var out []Outcome
	add := func(what, unit string, expected, computed, scale, absolute, relative float64) {
		if math.IsNaN(expected) && math.IsNaN(computed) {
			return
		}
		o := Outcome{
			ID: c.Want.ID + "/" + what, Check: "line-" + what, Source: lineSource, Trust: c.Want.Trust,
			Expected: expected / scale, Computed: computed / scale, Unit: unit, Err: err,
		}
		o.judge(absolute/scale, relative)
		out = append(out, o)
	}
	add("heat", "J/m", c.Want.HeatLost, c.HeatLost(), 1, 0, lineHeat)
	add("largest-ice", "-", c.Want.LargestIce, c.largest, 1, lineIce, 0)
	add("ice-hours", "h", c.Want.IceTime, c.iceTime, 3600, lineTime, lineHours)
	add("first-ice", "h", c.Want.FirstIce, c.first, 3600, lineFirst, 0)
	return out
}

const lineSource = "independent enthalpy solver, 120 shells, sub-cell front, 30 s steps"
