package main

import (
	"fmt"
	"strconv"
)

// sectionKeys are keys of one section of the layout.
type sectionKeys struct {
	section string
	keys    []string
}

// invented lists the starter's numbers by section.
func invented() []sectionKeys {
	return []sectionKeys{
		{"site", []string{"soil", "soil_moisture", "ground_mean", "ground_swing", "ground_slope", "surface",
			"snow_on_line", "wind_exposure", "room_temperature", "return_share", "return_delay"}},
		{"basin", []string{"floor_below_ground", "bottom_below_floor", "diameter", "float_on", "float_off", "water_temperature", "check_valve"}},
		{"pump", []string{"curve"}},
		{"riser", []string{"pipe"}},
		{"wall stub", []string{"pipe"}},
		{"yard run", []string{"pipe", "length", "slope", "sag", "cover"}},
		{"standpipe", []string{"pipe", "house_pipe_end", "rim", "slip_travel", "painted"}},
		{"relief", []string{"height", "width", "opening_height", "faces_house", "distance_to_house", "snow_factor", "spread_area"}},
		{"outlet", []string{"distance_to_house", "spread_area"}},
	}
}

// ours stands above a value that the layout has to have and nobody gave.
const ours = "Not measured: a usual value. Put yours in."

// forget makes every invented number of the starter unknown; where the layout takes no
// unknown, the starter's usual value stays, with a remark.
func (v *interviewer) forget() {
	v.must(func(d *draft) {
		for _, s := range invented() {
			for _, k := range s.keys {
				d.set(s.section, k, `"unknown"`)
			}
		}
		d.remark("wall stub", "length", ours)
	})
}

func (v *interviewer) start() {
	v.text("A name for your house", key{"", "title"})
	v.si = v.choose("You measure in", option{"inches and feet", "us"}, option{"centimetres and metres", "si"}) == "si"
	v.unknown = 0 // a name and units are nothing to measure
}

func (v *interviewer) house() {
	v.measure("Basement floor below the ground outside (with a tape from a window sill)", "ft", "m", key{"basin", "floor_below_ground"})
	v.measure("Width of the basin", "in", "cm", key{"basin", "diameter"})
	v.measure("Water above the basin's bottom when the pump starts", "in", "cm", key{"basin", "float_on"})
	v.measure("and when it stops", "in", "cm", key{"basin", "float_off"})
	v.put("basin", "check_valve", v.yes("Is there a check valve (a clack when the pump stops)"))
}

func (v *interviewer) pumping() {
	v.measure("Power on the pump's label, such as 1/3", "hp", "hp", key{"pump", "curve"})
	every := v.reply("In ordinary cold weather, time from one start of the pump to the next [min]")
	if every == "" {
		v.unknown++
	} else if !v.ask("and how long it runs (time three) [s]", func(d *draft, run string) {
		d.add("# How often the pump runs where there is no pump.csv.", "[water]",
			fmt.Sprintf("cycles = %q", "every "+withUnit(every, "min")+" for "+withUnit(run, "s")))
	}) {
		fmt.Fprintln(v.stdout, "  Without both, the winter is run with the pump seldom, usual and often.")
	}
	v.text("Size printed on the pipe in the house, such as 1-1/2 in sch 40 PVC", key{"riser", "pipe"}, key{"wall stub", "pipe"})
	if !v.measure("How far it climbs from the pump to where it turns out through the wall", "ft", "m", key{"riser", "length"}, key{"riser", "rise"}) {
		v.must(func(d *draft) { d.remark("riser", "length", ours) })
	}
}

// joint asks how the house pipe meets the buried line.
func (v *interviewer) joint() {
	if v.choose("Outside the wall the pipe is", option{"loose in a wider upright pipe", "loose"}, option{"glued straight on", "glued"}) == "glued" {
		v.must(func(d *draft) {
			d.leaveOut("standpipe")
			d.set("relief", "at", `"yard run"`)
		})
	} else {
		v.measure("Top of the wider pipe above ground", "in", "cm", key{"standpipe", "rim"})
		v.measure("Lowest point of the house pipe's open end above ground", "in", "cm", key{"standpipe", "house_pipe_end"})
	}
	if v.yes("Is there an opening that lets water out if the line freezes shut") == "false" {
		v.must(func(d *draft) { d.leaveOut("relief") })
		return
	}
	v.measure("Bottom of the opening above ground", "in", "cm", key{"relief", "height"})
	v.measure("Its distance from the wall", "in", "cm", key{"relief", "distance_to_house"})
	v.put("relief", "faces_house", v.yes("Does it let go towards the house"))
}

func (v *interviewer) yardRun() {
	v.text("Size printed on the buried pipe, such as 4 in D3034 or 4 in corrugated", key{"yard run", "pipe"})
	v.measure("Length of the buried run", "ft", "m", key{"yard run", "length"})
	v.cover()
	v.measure("Depth of a low spot in it (a dip in the lawn, water left after a run; 0 for none)", "in", "cm", key{"yard run", "sag"})
}

// cover asks for the soil on top of the pipe at both ends; one end alone holds for both.
func (v *interviewer) cover() {
	k := key{"yard run", "cover"}
	unit := map[bool]string{false: "in", true: "cm"}[v.si]
	near := ""
	if !v.ask("Soil on top of the pipe at the wall (probe only after utility marking) ["+unit+"]", func(d *draft, answer string) {
		near = strconv.Quote(withUnit(answer, unit))
		d.set(k.section, k.name, near)
	}) {
		return
	}
	v.ask("and at the far end ["+unit+"]", func(d *draft, answer string) {
		d.set(k.section, k.name, "["+near+", "+strconv.Quote(withUnit(answer, unit))+"]")
	})
}

func (v *interviewer) farEnd() {
	kind := v.choose("The far end", option{"opens to daylight", "open"}, option{"has a lid that lifts", "lid"})
	if kind == "" {
		v.must(func(d *draft) { d.remark("outlet", "kind", ours) })
	}
	v.measure("Its distance from the house", "ft", "m", key{"outlet", "distance_to_house"})
	if kind != "lid" {
		return
	}
	v.must(func(d *draft) { d.set("outlet", "kind", `"lid"`) })
	if v.yes("Is there a slot in the elbow under the lid") == "true" {
		v.must(func(d *draft) { d.set("outlet", "weep", `"unknown"`) })
	}
	if v.yes("Are there crushed stones beneath it") == "true" {
		v.must(func(d *draft) {
			d.add("# The crushed stones under the lid.", "[pocket]",
				`length = "unknown"`, `width = "unknown"`, `depth = "unknown"`, `void = "unknown"`)
		})
	}
}

func (v *interviewer) surroundings() {
	v.put("site", "soil", v.choose("A damp handful of soil", option{"rolls to a pencil (clay)", `"silty clay"`},
		option{"crumbles (loam)", `"loam"`}, option{"falls apart (sand)", `"sand"`}))
	v.put("site", "surface", v.choose("Over the line lies", option{"grass", `"grass"`}, option{"bare soil", `"bare"`},
		option{"gravel", `"gravel"`}, option{"paving", `"paved"`}))
	if cleared := v.yes("Is snow cleared off there"); cleared != "" {
		v.put("site", "snow_on_line", map[string]string{"true": `"cleared"`, "false": `"natural"`}[cleared])
	}
	v.put("site", "wind_exposure", v.choose("The line lies", option{"behind a fence or hedge", "0.2"},
		option{"in a common yard", "0.4"}, option{"in the open", "0.7"}))
}
