package sim

import (
	"fmt"
	"time"

	"winterline/weather"
)

// warnings are what the reader of the ground must know.
func (g *ground) warnings() []Warning {
	var out []Warning
	if !g.settled {
		out = append(out, Warning{"ground-not-settled", "The ground did not reach a steady yearly cycle before the record; deep temperatures may drift by more than 0.002 °C (0.004 °F) a year."})
	}
	if g.firstYear == 0 && g.past == nil {
		out = append(out, Warning{"short-record", fmt.Sprintf("The record is shorter than a year (%.0f days): the ground before it was worked out from its annual mean and swing alone, without snow. How deep the frost goes rests on those two numbers as well.", g.s.End()/86400)})
	}
	if first := g.s.Start.Month(); g.sky.pack.Kind == weather.SnowModelled && (first >= time.December || first <= time.March) {
		out = append(out, Warning{"snow-starts-bare", "The record starts in winter, and the snow that is worked out from snowfall starts at nothing there: the first winter freezes deeper than it did (safe side)."})
	}
	if step := g.s.End() / float64(len(g.s.Time)-1); step > 3.5*3600 {
		out = append(out, Warning{"coarse-rows", fmt.Sprintf("Rows of weather are about %.0f h apart: nights are cut short, and the frost comes out too shallow (unsafe side).", step/3600)})
	}
	if g.surface.drive == AirDrive && g.sky.pack.Kind == weather.SnowNone && g.surface.resistance == nil {
		out = append(out, Warning{"no-snow-record", "No snow depth in the weather: the ground is taken as bare, and freezes deeper than under snow (safe side)."})
	}
	return out
}
