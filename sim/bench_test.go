package sim_test

import (
	"cmp"
	"slices"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/verify"
)

// winter takes cells through the reference winter, hour by hour as a run does.
func winter(b *testing.B, line []*verify.LineCell, hours []float64) {
	for _, c := range line {
		c.Restart()
	}
	for i := range len(hours) - 1 {
		for _, c := range line {
			if err := c.Interval(i, hours[i], hours[i+1]); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkReferenceLine times twelve cells over a winter and fails where they miss the
// converged solution.
func BenchmarkReferenceLine(b *testing.B) {
	s := verify.ReferenceWeather()
	line := verify.LineCells(sim.NewOpenAir(s))
	b.ReportAllocs()
	for b.Loop() {
		winter(b, line, s.Time)
	}
	worst, within := verify.LineErrors(line)
	b.ReportMetric(100*worst.Heat, "%heat")
	b.ReportMetric(worst.Ice, "ice")
	b.ReportMetric(100*worst.Hours, "%icehours")
	b.ReportMetric(worst.First/3600, "h_first")
	if !within {
		b.Fatalf("beyond the limits: %+v", worst)
	}
}

// BenchmarkCellWinter times one cell over the same winter.
func BenchmarkCellWinter(b *testing.B) {
	s := verify.ReferenceWeather()
	line := verify.LineCells(sim.NewOpenAir(s))[:1]
	b.ReportAllocs()
	for b.Loop() {
		winter(b, line, s.Time)
	}
}

// BenchmarkColumnDecade times ten years of a ground column that freezes, from its periodic state,
// with a daily wave and hourly steps: soil that freezes sharply, as in the reference columns, and
// soil that freezes along its curve.
func BenchmarkColumnDecade(b *testing.B) {
	g := groundCase(b, "GC5")
	moisture, _, _, _ := pipe.DefaultMoisture("silt loam")
	loam, err := pipe.MakeSoil("silt loam", moisture)
	if err != nil {
		b.Fatal(err)
	}
	for name, soil := range map[string]pipe.Soil{"sharp": soilOf(g), "curve": loam} {
		b.Run(name, func(b *testing.B) {
			c := sim.NewSoilColumn(soil, g.AirMean, sim.Stepping{})
			if _, err := c.SpinUp(g.annual, columnStart, 20); err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				if err := c.March(g.air, columnStart, columnStart+10*year, hour); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The reference line stays within its limits without a benchmark's being asked for: the two cells
// that ice most and the one that never does.
func TestReferenceLine(t *testing.T) {
	s := verify.ReferenceWeather()
	all := verify.LineCells(sim.NewOpenAir(s))
	line := all
	if !long() {
		slices.SortFunc(all, func(a, b *verify.LineCell) int { return -cmp.Compare(a.Want.LargestIce, b.Want.LargestIce) })
		line = append(all[:2:2], all[len(all)-1])
	}
	for _, c := range line {
		c.Restart()
		for i := range len(s.Time) - 1 {
			if err := c.Interval(i, s.Time[i], s.Time[i+1]); err != nil {
				t.Fatal(err)
			}
		}
	}
	if worst, within := verify.LineErrors(line); !within {
		t.Errorf("worst errors %+v", worst)
	}
}
