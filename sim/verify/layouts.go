package verify

import (
	"fmt"

	"winterline/pipe"
)

// Layouts that checks read as a run reads its own.

// readLayout reads a layout that must stand.
func readLayout(text string) (*pipe.Layout, error) {
	l, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if len(problems) > 0 {
		return nil, problems[0]
	}
	return l, nil
}

// sumpText is a house with nothing but a basin, of a diameter and a float switch [m], and a riser.
const sumpText = `title = "sump"
[basin]
floor_below_ground = "2 m"
bottom_below_floor = "0.6 m"
diameter = %q
float_on = "%.17g m"
float_off = "0.05 m"
water_temperature = "8 degC"
[[segment]]
name = "riser"
pipe = "2 in sch 40 PVC"
length = "2.7 m"
rise = "2.7 m"
setting = "indoor"
[outlet]
kind = "open"
`

// sumpLayout reads such a house; band is the height between float off and on [m].
func sumpLayout(diameter string, band float64) (*pipe.Layout, error) {
	return readLayout(fmt.Sprintf(sumpText, diameter, 0.05+band))
}

// unknownText is a line of the usual kind of which nothing is known.
const unknownText = `title = "unknown"
[site]
soil = "unknown"
[basin]
diameter = "unknown"
[[pump]]
name = "main"
curve = "unknown"
[[segment]]
name = "riser"
pipe = "unknown"
length = "3 m"
rise = "3 m"
setting = "indoor"
[[segment]]
name = "run"
length = "unknown"
slope = "unknown"
cover = "unknown"
setting = "buried"
[standpipe]
after = "riser"
[[relief]]
at = "standpipe"
[outlet]
kind = "lid"
weep = "unknown"
[pocket]
length = "unknown"
`

// soilText is a buried pipe in soil of a moisture by weight [%] and a dry density [kg/m³].
const soilText = `title = "soil"
[site]
soil = "loam"
soil_moisture = "%g %%"
ground_mean = "8 degC"
[site.soil_override]
dry_density = "%g kg/m3"
[[segment]]
name = "run"
pipe = "4 in D3034"
length = "5 m"
drop = "0.1 m"
cover = "0.2 m"
setting = "buried"
[outlet]
kind = "open"
`
