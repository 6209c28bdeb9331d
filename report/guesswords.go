package report

import (
	"fmt"
	"regexp"
	"strings"

	"winterline/pipe"
)

// This file holds the plain names of what may be left to a guess; measurewords.go says how each is measured.

// guessNames are plain names by table and key of the layout. Keys of segments stand under "segment", with a place for the segment's name.
var guessNames = map[string]string{
	"water.cycles":            "how often the pump runs",
	"water.water_temperature": "how warm the pumped water is",
	"basin.water_temperature": "how warm the pumped water is",

	"site.soil":                      "what soil it is",
	"site.soil_moisture":             "how wet the soil is",
	"site.topsoil":                   "dark topsoil under the grass",
	"site.surface":                   "what covers the ground",
	"site.snow_on_line":              "how much of the snow lies on the line",
	"site.wind_exposure":             "how much of the wind reaches the pipe",
	"site.wind_pressure_coefficient": "how hard the wind pushes air through the line",
	"site.ground_slope":              "how much the ground falls away from the house",
	"site.room_temperature":          "how warm the basement is",
	"site.sheltered_temperature":     "how cold garage or crawlspace gets",
	"site.return_share":              "how much of the water beside the house comes back",
	"site.return_delay":              "how soon water beside the house comes back",
	"site.ground_mean":               "the ground's yearly average temperature",
	"site.ground_swing":              "how much warmer the ground is in summer than in winter",

	"basin.floor_below_ground": "how deep the basement floor lies",
	"basin.bottom_below_floor": "how deep the basin is",
	"basin.diameter":           "how wide the basin is",
	"basin.float_on":           "water level at which the pump starts",
	"basin.float_off":          "water level at which the pump stops",
	"basin.check_valve":        "whether there is a check valve",

	"pump.curve": "how strong the pump is",
	"pump.start": "water level at which the backup pump starts",

	"segment.length":       "how long the %s is",
	"segment.slope":        "how much the %s falls",
	"segment.sag":          "low spots in the %s",
	"segment.cover":        "soil on top of the %s",
	"segment.fittings":     "elbows and valves in the %s",
	"segment.pipe":         "which pipe the %s is",
	"segment.surface":      "what covers the ground over the %s",
	"segment.snow_on_line": "how much of the snow lies over the %s",
	"insulation.thickness": "how thick the foam is",

	"standpipe.pipe":           "which pipe the standpipe is",
	"standpipe.rim":            "how high the standpipe's top stands",
	"standpipe.house_pipe_end": "where the house pipe ends in the standpipe",
	"standpipe.slip_travel":    "how far the loose joint can slide",
	"relief.height":            "how high the relief opening is above the ground",
	"relief.width":             "how wide the relief opening is",
	"relief.opening_height":    "how tall the relief opening is",
	"relief.faces_house":       "whether the relief opening faces the house",
	"relief.distance_to_house": "how far the relief opening is from the wall",
	"relief.snow_factor":       "how deep snow lies before the relief opening",
	"relief.spread_area":       "how far relief water spreads",

	"outlet.level":            "how high the far end lies",
	"outlet.lid_opening_head": "how much water it takes to lift the lid",
	"outlet.weep":             "how large the drain slot under the lid is",
	"outlet.spread_area":      "how far water spreads at the far end",
	"pocket.length":           "how long the rock pit is",
	"pocket.width":            "how wide the rock pit is",
	"pocket.depth":            "how deep the rock pit is",
	"pocket.void":             "how much room the rock leaves for water",
	"extra_inflow.area":       "how much roof drains into the line",
}

// guessName names a guess plainly, with its key behind: "how wet the soil is (site.soil_moisture)".
func guessName(g pipe.Guess) string {
	words := plainGuess(g.Key)
	if words == "" {
		return g.Key
	}
	return words + " (" + g.Key + ")"
}

// plainGuess is the plain name of what a key stands for; "" where there is none.
func plainGuess(key string) string {
	table, name, ok := tableAndKey(key)
	if !ok {
		return ""
	}
	if words, known := guessNames[table+"."+name]; known && table != "segment" {
		return words
	}
	words, known := guessNames["segment."+name]
	if !known {
		return ""
	}
	return fmt.Sprintf(words, key[:strings.LastIndex(key, ".")])
}

// tableAndKey takes the key of a guess apart: "relief[0].height" is "height" in the table "relief".
func tableAndKey(key string) (table, name string, ok bool) {
	place, name, ok := cutLast(keyIndex.ReplaceAllString(key, ""), ".")
	return place[strings.LastIndexByte(place, '.')+1:], name, ok
}

// keyIndex is the number, from 0, of one table of several in a key.
var keyIndex = regexp.MustCompile(`\[(\d+)\]`)

// cutLast is strings.Cut at the last separator.
func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}
