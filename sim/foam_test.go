package sim_test

import (
	"fmt"
	"testing"

	"winterline/sim"
)

// A metre of pipe that stands full under 30 cm of soil through a hard week ten degrees colder.
const foamCell = `
[site]
soil = "sandy loam"
soil_moisture = "12 %%"
ground_mean = "8 degC"
ground_swing = "6 K"
surface = "bare"
snow_on_line = "cleared"
wind_exposure = 0.4
[[segment]]
name = "cell"
pipe = "2 in sch 40 PVC"
length = "1 m"
drop = "0 m"
setting = "buried"
cover = "30 cm"
standing = "full"
insulation = [{ thickness = "%g mm", material = "closed-cell foam" }]
[outlet]
kind = "open"
`

// Around a pipe in freezing ground more foam means less ice, and no water gets colder than it does without
// any: foam holds next to no heat, and what the ground loses around it is not taken out of it.
func TestMoreFoamInFreezingGroundMeansLessIce(t *testing.T) {
	s := scenarioWeather(t, "hard-week.csv")
	lastIce, lastCold := 2.0, -100.0
	for _, mm := range []float64{0, 5, 20, 40, 60, 100, 150} {
		k := caseOf(t, fmt.Sprintf(foamCell, mm), s, sim.Supply{Given: true})
		r, err := sim.Unforked(k.Warmer(-10), sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		cell, after := r.Segments[0], 140
		ice := r.Hourly.Segments[0].Ice[after]
		if ice > lastIce+1e-9 || cell.LowestWater < lastCold-0.05 {
			t.Errorf("%g mm: %.3f ice after %d h, coldest %.2f °C; with less foam %.3f and %.2f", mm, ice, after, cell.LowestWater, lastIce, lastCold)
		}
		lastIce, lastCold = ice, cell.LowestWater
	}
}
