package report

import "winterline/pipe"

// measureWords says, by table and key of the layout, what to measure in place of a guess, and how. All of it is common
// practice, no source. Keys of segments stand under "segment".
var measureWords = map[string]string{
	"water.cycles":            "pump timing: time three cycles in ordinary cold weather, minutes from start to start and seconds that it runs",
	"water.water_temperature": "water temperature: hold a kitchen thermometer in the pump's outflow for a minute, in winter",
	"basin.water_temperature": "water temperature: hold a kitchen thermometer in the pump's outflow for a minute, in winter",

	"site.soil":                      "soil: a damp handful from the depth of the pipe rolls to a pencil (clay), crumbles (loam) or falls apart (sand)",
	"site.soil_moisture":             "water in the soil: weigh a handful from the depth of the pipe, dry it in a warm oven, weigh it again; loss over dry weight",
	"site.topsoil":                   "topsoil: dig a spade deep beside the line: dark earth with roots, or none",
	"site.surface":                   "what covers the ground over the line: grass, bare, gravel or paved",
	"site.snow_on_line":              "snow over the line: walk it after a snowfall and compare its depth with that beside it; is it shovelled or trodden?",
	"site.wind_exposure":             "wind at the pipe: hold a hand-held wind meter at the pipe on a windy day and compare with the weather station at that hour",
	"site.wind_pressure_coefficient": "draught: hold a thin strip of paper at the open end on a windy day; at rest, the wind presses alike on both ends (0)",
	"site.ground_slope":              "slope of the ground: a level string from the wall, and how far the ground is below it ten feet out",
	"site.room_temperature":          "basement temperature: read a thermometer there in a cold spell",
	"site.sheltered_temperature":     "temperature in garage or crawlspace: read a thermometer there on a cold morning",
	"site.return_share":              "water that comes back: pour a known amount out at the relief opening in a dry spell, and watch whether the basin rises",
	"site.return_delay":              "how soon water comes back: pour water out at the relief opening in a dry spell, and time the basin",
	"site.ground_mean":               "ground temperature: weather of a whole year, in place of some weeks of it, says it",
	"site.ground_swing":              "swing of the ground's temperature: weather of a whole year, in place of some weeks of it, says it",

	"basin.floor_below_ground": "basement floor: tape from a window sill down to the floor inside, and down to the ground outside",
	"basin.bottom_below_floor": "depth of the basin: a dry stick to its bottom, with the pump's power off",
	"basin.diameter":           "width of the basin: a tape across its rim",
	"basin.float_on":           "level at which the pump starts: a mark on a dry stick that stands in the basin",
	"basin.float_off":          "level at which the pump stops: a mark on a dry stick that stands in the basin",
	"basin.check_valve":        "check valve: a clack as the pump stops, and water that does not run back into the basin",

	"pump.curve": "pump: read power or flow and height off its label, or time how long it takes from start level to stop level",
	"pump.start": "level at which the backup pump starts: lift its float by hand and mark the level",

	"segment.length":       "length: tape along the line",
	"segment.slope":        "fall: a level string over the line and the depth of the pipe at both ends, after utilities have been marked",
	"segment.sag":          "low spots: look for a dip in the lawn, or for water left in the pipe after a dry day",
	"segment.cover":        "soil on top of the pipe: probe at the wall and at the far end, after utilities have been marked",
	"segment.fittings":     "fittings: count the elbows and valves",
	"segment.pipe":         "pipe: read the size printed on it",
	"segment.surface":      "what covers the ground over that stretch: grass, bare, gravel or paved",
	"segment.snow_on_line": "snow over that stretch: compare its depth with that beside it after a snowfall",
	"insulation.thickness": "foam: its thickness at a cut end",

	"standpipe.pipe":           "standpipe: read the size printed on it",
	"standpipe.rim":            "top of the standpipe: tape from the ground",
	"standpipe.house_pipe_end": "end of the house pipe: tape from the ground to its lowest point",
	"standpipe.slip_travel":    "joint: how far the pipe can slide before it binds",
	"relief.height":            "relief opening: tape from the ground to its lower edge",
	"relief.width":             "relief opening: its width",
	"relief.opening_height":    "relief opening: its height from lower to upper edge",
	"relief.faces_house":       "relief opening: does it let go towards the house?",
	"relief.distance_to_house": "relief opening: tape to the wall",
	"relief.snow_factor":       "snow at the relief opening: compare its depth with that in the open after a snowfall",
	"relief.spread_area":       "where relief water spreads: pour a bucket out there and measure the wet patch",

	"outlet.level":            "far end: tape from the ground to the lid or to the pipe's lowest point",
	"outlet.lid_opening_head": "lid: how high water stands on it before it lifts",
	"outlet.weep":             "drain slot under the lid: its height and width",
	"outlet.spread_area":      "where the water spreads at the far end: measure the wet patch after a pump run",
	"pocket.length":           "rock pit: its length, from whoever built it or by probing after utilities have been marked",
	"pocket.width":            "rock pit: its width, from whoever built it or by probing after utilities have been marked",
	"pocket.depth":            "rock pit: its depth, from whoever built it or by probing after utilities have been marked",
	"pocket.void":             "rock in the pit: fill a bucket with such rock, and measure the water that it still takes",
	"extra_inflow.area":       "roof that drains into the line: length times width of the part over that downspout",
}

// howToMeasure says what to measure in place of a guess, and how; "" where nothing is known to do it.
func howToMeasure(g pipe.Guess) string {
	table, name, ok := tableAndKey(g.Key)
	if !ok {
		return ""
	}
	if words, known := measureWords[table+"."+name]; known {
		return words
	}
	return measureWords["segment."+name]
}
