package sim_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"winterline/sim"
	"winterline/sim/verify"
	"winterline/weather"
)

// growth is a share of the reference line: every so manyth of its cells, which are three pipes in
// four thicknesses of foam, their shells half or twice as many, the first hours of the winter.
type growth struct {
	cells  int     // 3, 6 or 12
	shells float64 // times those of the reference line [-]
	hours  int
}

// wholeLine is the reference line as it stands.
var wholeLine = growth{12, 1, 3600}

// line builds the cells and their weather.
func (g growth) line() (*sim.OpenAir, []*verify.LineCell, *weather.Series) {
	s := verify.ReferenceWeather()
	s.Time, s.Air = s.Time[:g.hours+1], s.Air[:g.hours+1]
	air := sim.NewOpenAir(s)
	var line []*verify.LineCell
	for i, c := range verify.LineCellsOf(air, g.shells) {
		if step := 12 / g.cells; i%step == step/2 {
			line = append(line, c)
		}
	}
	return air, line, s
}

// BenchmarkLineGrowth times parts and refinements of the reference line: with cells, shells and
// hours its time should grow about as they do. steps/cell-h and newton/cell-h count the work,
// whatever else the machine does.
// "exponents" fits time and work to powers of all three sizes of each: 1 is linear.
func BenchmarkLineGrowth(b *testing.B) {
	for _, cells := range []int{3, 6, 12} {
		b.Run(fmt.Sprintf("cells=%d", cells), growth{cells, 1, 3600}.benchmark)
	}
	for _, shells := range []float64{0.5, 1, 2} {
		b.Run(fmt.Sprintf("shells=x%g", shells), growth{12, shells, 3600}.benchmark)
	}
	for _, hours := range []int{900, 1800, 3600} {
		b.Run(fmt.Sprintf("hours=%d", hours), growth{12, 1, hours}.benchmark)
	}
	b.Run("exponents", growthExponents)
}

func (g growth) benchmark(b *testing.B) {
	air, line, s := g.line()
	b.ReportAllocs()
	for b.Loop() {
		winter(b, line, s.Time)
	}
	steps, newton := air.Work()
	cellHours := float64(g.cells*g.hours) * float64(b.N)
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/cellHours, "ns/cell-h")
	b.ReportMetric(float64(steps)/cellHours, "steps/cell-h")
	b.ReportMetric(float64(newton)/cellHours, "newton/cell-h")
}

// growthExponents takes every size in turn and reports the slope of log time over log size, and that
// of the work, Newton iterations times shells, which a busy machine does not disturb.
func growthExponents(b *testing.B) {
	kinds := []struct {
		name  string
		size  []float64
		parts []growth
	}{
		{"cells", []float64{3, 6, 12}, []growth{{3, 1, 3600}, {6, 1, 3600}, wholeLine}},
		{"shells", []float64{0.5, 1, 2}, []growth{{12, 0.5, 3600}, wholeLine, {12, 2, 3600}}},
		{"hours", []float64{900, 1800, 3600}, []growth{{12, 1, 900}, {12, 1, 1800}, wholeLine}},
	}
	took, work := make([][3]float64, len(kinds)), make([][3]float64, len(kinds))
	for b.Loop() {
		for i, k := range kinds {
			for j, g := range k.parts {
				air, line, s := g.line()
				from := time.Now()
				winter(b, line, s.Time)
				took[i][j] += time.Since(from).Seconds()
				_, newton := air.Work()
				work[i][j] += float64(newton * line[0].Nodes())
			}
		}
	}
	for i, k := range kinds {
		b.ReportMetric(slope(k.size, took[i][:]), k.name+"^time")
		b.ReportMetric(slope(k.size, work[i][:]), k.name+"^work")
	}
}

// slope fits a straight line to the logarithms of y over those of x.
func slope(x, y []float64) float64 {
	var a, b, aa, ab float64
	n := float64(len(x))
	for i := range x {
		u, v := math.Log(x[i]), math.Log(y[i])
		a, b, aa, ab = a+u, b+v, aa+u*u, ab+u*v
	}
	return (n*ab - a*b) / (n*aa - a*a)
}

func TestSlope(t *testing.T) {
	if got := slope([]float64{3, 6, 12}, []float64{9, 36, 144}); math.Abs(got-2) > 1e-9 {
		t.Errorf("slope of a square: %g", got)
	}
}
