package sim_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/verify"
	"winterline/weather"
)

// Limits of the reference line, against a solution converged in space and time.
const (
	lineHeat  = 0.003        // of the heat lost [-]
	lineIce   = 0.005        // of the largest ice share [-]
	lineHours = 0.01         // of the time with ice [-]
	lineTime  = 3600.0       // of the same, where that is the larger [s]
	lineFirst = 0.1 * 3600.0 // of the first ice [s]
)

// lineShells resolve 13 to 50 mm of foam and ice to the core well within these limits.
var lineShells = sim.Shells{Water: 20, Wall: 3, Layer: 7}

// referenceWeather is the reference winter by the hour.
func referenceWeather() *weather.Series {
	s := &weather.Series{Source: "reference winter"}
	for t := 0.0; t <= verify.ReferenceEnd; t += 3600 {
		s.Time = append(s.Time, t)
		s.Air = append(s.Air, verify.ReferenceAir(t))
	}
	return s
}

// referencePipe is the segment of a reference cell.
func referencePipe(c verify.ReferenceCell) pipe.Segment {
	film := verify.ReferenceFilm
	wall := pipe.Material{Name: "PVC", Conductivity: verify.WallConductivity, Density: verify.WallDensity, HeatCapacity: verify.WallHeatCapacity}
	foam := pipe.Material{Name: "foam", Conductivity: verify.FoamConductivity, Density: verify.FoamDensity, HeatCapacity: verify.FoamHeatCapacity}
	return pipe.Segment{
		Size:       pipe.Size{OutsideDiameter: c.OutsideDiameter, Wall: c.Wall, Material: wall},
		Insulation: []pipe.Insulation{{Thickness: c.Foam, Material: foam}}, Liquid: pipe.Still, FilmCoefficient: &film,
	}
}

// lineCell is a reference cell in progress with what is asked of it.
type lineCell struct {
	*sim.OpenCell
	want                    verify.ReferenceCell
	largest, iceTime, first float64 // [-], [s], [s]; first NaN: never
	lastTime, lastIce       float64
}

// referenceCells builds the line.
func referenceCells(air *sim.OpenAir) []*lineCell {
	var line []*lineCell
	for _, c := range verify.ReferenceLine() {
		line = append(line, &lineCell{OpenCell: air.Pipe(referencePipe(c), verify.ReferenceStart, lineShells), want: c})
	}
	return line
}

// begin brings a cell back to the start of the winter.
func (c *lineCell) begin() {
	c.Begin(1, verify.ReferenceStart)
	c.largest, c.iceTime, c.first, c.lastTime, c.lastIce = 0, 0, math.NaN(), 0, 0
}

// note takes in one step of the last march: ice goes straight from step to step; a refill,
// which the track shows as two values at one time, jumps.
func (c *lineCell) note(t, ice float64) {
	const level = verify.ReferenceIce
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

// interval takes a cell through one hour, refill included.
func (c *lineCell) interval(row int, t, end float64) error {
	done := t - verify.ReferenceFirstRefill
	refill := verify.ReferenceFirstRefill + verify.ReferenceRefillEvery*math.Max(0, math.Ceil(done/verify.ReferenceRefillEvery))
	if refill < end {
		if err := c.March(row, t, refill); err != nil {
			return err
		}
		c.Followed(c.note)
		c.Refill(verify.ReferenceRefill)
		t = refill
	}
	if err := c.March(row, t, end); err != nil {
		return err
	}
	c.Followed(c.note)
	return nil
}

// lineErrors are the worst errors of the line.
type lineErrors struct {
	heat, ice, hours float64 // shares [-]; hours of the time with ice
	first            float64 // [s]
}

// worstErrors compares the line with what is expected and reports whether all is within limits.
func worstErrors(line []*lineCell) (w lineErrors, within bool) {
	within = true
	for _, c := range line {
		if math.IsNaN(c.want.FirstIce) != math.IsNaN(c.first) {
			return w, false
		}
		if !math.IsNaN(c.first) {
			w.first = math.Max(w.first, math.Abs(c.first-c.want.FirstIce))
		}
		off := math.Abs(c.iceTime - c.want.IceTime)
		within = within && off <= math.Max(lineTime, lineHours*c.want.IceTime)
		if c.want.IceTime > 0 {
			w.hours = math.Max(w.hours, off/c.want.IceTime)
		}
		w.heat = math.Max(w.heat, math.Abs(c.HeatLost()/c.want.HeatLost-1))
		w.ice = math.Max(w.ice, math.Abs(c.largest-c.want.LargestIce))
	}
	return w, within && w.heat <= lineHeat && w.ice <= lineIce && w.first <= lineFirst
}

// winter takes cells through the reference winter, hour by hour as a run does.
func winter(b *testing.B, line []*lineCell, hours []float64) {
	for _, c := range line {
		c.begin()
	}
	for i := range len(hours) - 1 {
		for _, c := range line {
			if err := c.interval(i, hours[i], hours[i+1]); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkReferenceLine times twelve cells over a winter and fails where they miss the
// converged solution.
func BenchmarkReferenceLine(b *testing.B) {
	s := referenceWeather()
	line := referenceCells(sim.NewOpenAir(s))
	b.ReportAllocs()
	for b.Loop() {
		winter(b, line, s.Time)
	}
	worst, within := worstErrors(line)
	b.ReportMetric(100*worst.heat, "%heat")
	b.ReportMetric(worst.ice, "ice")
	b.ReportMetric(100*worst.hours, "%icehours")
	b.ReportMetric(worst.first/3600, "h_first")
	if !within {
		b.Fatalf("beyond the limits: %+v", worst)
	}
}

// BenchmarkCellWinter times one cell over the same winter.
func BenchmarkCellWinter(b *testing.B) {
	s := referenceWeather()
	line := referenceCells(sim.NewOpenAir(s))[:1]
	b.ReportAllocs()
	for b.Loop() {
		winter(b, line, s.Time)
	}
}

// BenchmarkColumnYear times a year of a ground column that freezes, from its periodic state, with
// a daily wave and hourly steps.
func BenchmarkColumnYear(b *testing.B) {
	g := groundCase(b, "GC5")
	c := sim.NewSoilColumn(soilOf(g), g.AirMean, sim.Stepping{})
	if _, err := c.SpinUp(g.annual, columnStart, 20); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if err := c.March(g.air, columnStart, columnStart+year, hour); err != nil {
			b.Fatal(err)
		}
	}
}

// The reference line stays within its limits without a benchmark's being asked for: the two cells
// that ice most and the one that never does.
func TestReferenceLine(t *testing.T) {
	s := referenceWeather()
	all := referenceCells(sim.NewOpenAir(s))
	line := all
	if !long() {
		slices.SortFunc(all, func(a, b *lineCell) int { return -cmp.Compare(a.want.LargestIce, b.want.LargestIce) })
		line = append(all[:2:2], all[len(all)-1])
	}
	for _, c := range line {
		c.begin()
		for i := range len(s.Time) - 1 {
			if err := c.interval(i, s.Time[i], s.Time[i+1]); err != nil {
				t.Fatal(err)
			}
		}
	}
	if worst, within := worstErrors(line); !within {
		t.Errorf("worst errors %+v", worst)
	}
}
