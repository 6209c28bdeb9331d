package main

import (
	"math"
	"strconv"
	"strings"

	"winterline/pipe/units"
	"winterline/sim"
	"winterline/weather"
)

// How the plain form of weather names a measured soil temperature.
const soilPrefix, soilSuffix, degrees = "soil_temp_", "cm", "_c"

// soilColumn is the name of a measured column.
func soilColumn(t *weather.SoilTrack) string {
	const digits = 6 // a depth in metres and back may pick up a rounding
	return soilPrefix + strconv.FormatFloat(t.Depth*100, 'g', digits, 64) + soilSuffix + degrees
}

// soilDepth is the depth in the name of a measured column, with or without its unit [m].
func soilDepth(column string) (depth float64, ok bool) {
	middle, begins := strings.CutPrefix(column, soilPrefix)
	middle, ends := strings.CutSuffix(strings.TrimSuffix(middle, degrees), soilSuffix)
	centimetres, err := units.ParseNumber(middle)
	return centimetres / 100, begins && ends && err == nil
}

// thermometer finds the measured column that --surface-from names; nil for none named.
func (in *inputs) thermometer(column string) (*weather.SoilTrack, error) {
	if column == "" {
		return nil, nil
	}
	const same = 1e-6 // [m]
	depth, ok := soilDepth(column)
	var names []string
	for i := range in.series.Soil {
		track := &in.series.Soil[i]
		if ok && math.Abs(track.Depth-depth) < same {
			return track, nil
		}
		names = append(names, soilColumn(track))
	}
	expected := "a measured column of " + in.weatherFile + ", which has none (such as soil_temp_5cm_c)"
	if len(names) > 0 {
		expected = "a measured column of " + in.weatherFile + ": " + strings.Join(names, ", ")
	}
	return nil, usage("--surface-from: found %q; expected %s", column, expected)
}

// silence is the fault of a thermometer that is to drive the ground and has a long gap.
func (in *inputs) silence(track *weather.SoilTrack, gap *sim.GapError) error {
	stamp := func(t float64) string { return in.series.Stamp(t).Format("2006-01-02 15:04") }
	found := "no value between " + stamp(gap.From) + " and " + stamp(gap.To)
	return &inputError{problems: units.Problems{{File: in.weatherFile, Key: soilColumn(track), Found: found,
		Expected: "gaps of at most 6 h in the column that drives the ground"}}}
}
