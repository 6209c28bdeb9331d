package sim_test

import (
	"fmt"
	"strings"
)

// winterLine is an invented line of twelve segments: riser and wall stub, then ten in the yard of
// 1.5 m, three cells each; the first few are of 2 m, four cells, so that the line has forty.
type winterLine struct {
	title, pipe string
	long        int // how many
	outlet      string
	piece       func(i int) string // setting and further keys of the yard's segments; a fall under 1:200 keeps puddles, which freeze
}

// winterLines: a solid pipe well covered; one insulated; one shallow that sags, under a lid; one that
// leaves the ground for a stretch.
var winterLines = []winterLine{
	{"solid 4 in", "4 in D3034", 1, "kind = \"open\"", func(i int) string {
		return fmt.Sprintf("setting = \"buried\"\ncover = \"%d cm\"\ndrop = \"11 mm\"", 40+3*i)
	}},
	{"insulated", "3 in sch 40 PVC", 3, "kind = \"open\"", func(i int) string {
		return fmt.Sprintf("setting = \"buried\"\ncover = \"%d cm\"\ndrop = \"7 mm\"\ninsulation = [{ thickness = \"25 mm\", material = \"closed-cell foam\" }]", 20+2*i)
	}},
	{"shallow with sags", "4 in D2729", 0, "kind = \"lid\"\nlevel = \"2 cm\"\nlid_opening_head = \"2 cm\"", func(i int) string {
		text := fmt.Sprintf("setting = \"buried\"\ncover = \"%d cm\"\ndrop = \"3.5 mm\"", 20+i)
		if i%3 == 1 {
			text += "\nsag = \"5 cm\""
		}
		return text
	}},
	{"3 in with an open-air stretch", "3 in sch 40 PVC", 2, "kind = \"open\"", func(i int) string {
		if i >= 4 && i < 8 {
			return "setting = \"open-air\"\ndrop = \"7 mm\""
		}
		return "setting = \"buried\"\ncover = \"30 cm\"\ndrop = \"7 mm\""
	}},
}

const winterHead = `title = %q
[site]
soil = "silt loam"
soil_moisture = "20 %%"
ground_mean = "7 degC"
ground_swing = "14 K"
surface = "grass"
snow_on_line = "30 %%"
wind_exposure = 0.4
room_temperature = "15 degC"
[basin]
floor_below_ground = "2 m"
bottom_below_floor = "60 cm"
diameter = "50 cm"
float_on = "30 cm"
float_off = "10 cm"
check_valve = true
[[pump]]
name = "main"
curve = [["0 m", "150 L/min"], ["3 m", "100 L/min"], ["6 m", "0 L/min"]]
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2.8 m"
rise = "2.8 m"
setting = "indoor"
[[segment]]
name = "wall stub"
pipe = "1-1/2 in sch 40 PVC"
length = "40 cm"
drop = "1 cm"
setting = "through-wall"
`

// text is the line as a layout whose pump runs by a plan.
func (l winterLine) text(cycles string) string {
	var t strings.Builder
	fmt.Fprintf(&t, winterHead, l.title)
	for i := range 10 {
		length := "1.5 m"
		if i < l.long {
			length = "2 m"
		}
		fmt.Fprintf(&t, "[[segment]]\nname = \"yard %d\"\npipe = %q\nlength = %q\n%s\n", i, l.pipe, length, l.piece(i))
	}
	fmt.Fprintf(&t, `[standpipe]
after = "wall stub"
pipe = "4 in D3034"
house_pipe_end = "35 cm"
rim = "40 cm"
[[relief]]
at = "standpipe"
height = "20 cm"
width = "75 mm"
opening_height = "50 mm"
faces_house = false
spread_area = "20 m2"
[outlet]
%s
[water]
cycles = %q
`, l.outlet, cycles)
	return t.String()
}
