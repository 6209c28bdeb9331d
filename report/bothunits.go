package report

import (
	"strings"

	"winterline/pipe/units"
)

// pair prints a value in the reader's unit with the other one in brackets.
func (s System) pair(print func(System, float64) string, v float64) string {
	return print(s, v) + " (" + print(s.other(), v) + ")"
}

// bothEnergies prints a heat [J] in the reader's unit with the other one in brackets, "126 BTU (37 Wh)".
func (s System) bothEnergies(j float64) string { return s.pair(System.energy, j) }

// bothPowers prints a heat flow [W] in the reader's unit with the other one in brackets, "58 BTU/h (17 W)".
func (s System) bothPowers(w float64) string { return s.pair(System.power, w) }

// bothVolumes prints a volume [m³] in the reader's unit with the other one in brackets, "2.1 gal (8 L)".
func (s System) bothVolumes(m3 float64) string {
	return s.pair(System.volume, m3)
}

// bothLengths prints a length [m] in the reader's unit with the other one in brackets, "13 ft (4 m)".
func (s System) bothLengths(m float64) string { return s.pair(System.length, m) }

// bothFlows prints a flow [m³/s] likewise.
func (s System) bothFlows(m3s float64) string { return s.pair(System.flow, m3s) }

// bothAreas prints an area [m²] likewise.
func (s System) bothAreas(m2 float64) string { return s.pair(System.area, m2) }

// bothSpeeds prints a wind [m/s] in the reader's unit with the other one in brackets, "7 mph (3 m/s)".
func (s System) bothSpeeds(ms float64) string { return s.pair(System.speed, ms) }

// bothTemperatures prints a temperature [°C] in the reader's unit with the other
// one in brackets, "27 °F (-3 °C)".
func (s System) bothTemperatures(c float64) string {
	return s.pair(System.temperature, c)
}

// bothDifferences prints a temperature difference [K] in both units, "7 °F (4 °C)".
func (s System) bothDifferences(k float64) string {
	return s.pair(System.difference, k)
}

// bothDepths prints a depth in the ground [m] in the reader's unit with the other one in
// brackets, "31 in (0.79 m)".
func (s System) bothDepths(m float64) string { return s.pair(System.depth, m) }

// bothDepthRanges prints it in the reader's unit with the other one in brackets.
func (s System) bothDepthRanges(top, bottom float64) string {
	return s.depthRange(top, bottom) + " (" + s.other().depthRange(top, bottom) + ")"
}

// bothPressures prints a pressure [Pa] in the reader's unit with the other one in brackets, to two
// digits: "510 psi (3.5 MPa)".
func (s System) bothPressures(p float64) string {
	return s.pair(System.pressure, p)
}

// bothAirSpeeds prints it in the reader's unit with the other one in brackets.
func (s System) bothAirSpeeds(ms float64) string {
	return s.pair(System.airSpeed, ms)
}

// moves prints a range of movement [m] in both units, "0.4 to 1.6 in (10 to 41 mm)"; from nothing, or what is nothing in
// either unit, "up to 1.6 in (41 mm)".
func (s System) moves(low, high float64) string {
	nothing := func(s System) bool { return strings.Trim(s.thinNumber(low), "0.") == "" }
	switch {
	case s.thinNumber(low) == s.thinNumber(high):
		return s.bothThin(high)
	case low < smallestMove || nothing(US) || nothing(SI):
		return "up to " + s.bothThin(high)
	}
	between := func(s System) string { return s.thinNumber(low) + " to " + s.thin(high) }
	return between(s) + " (" + between(s.other()) + ")"
}

// bothThin prints a thickness or a movement [m] in the reader's unit with the other one in brackets.
func (s System) bothThin(m float64) string { return s.pair(System.thin, m) }

// bothPits prints the volume of a hole in the ground [m³], "24 ft³ (0.68 m³)".
func (s System) bothPits(m3 float64) string { return s.pair(System.pit, m3) }

// bothSlopes prints a slope [-] as the trade does and in percent, "1/4 in/ft (2.1 %)".
func (s System) bothSlopes(slope float64) string { return s.pair(System.slope, slope) }

// quantity prints an SI value of any dimension: in the reader's units, with the other ones in brackets, where these are
// common in the trade, else in SI.
func (s System) quantity(d units.Dimension, v float64) string {
	switch d {
	case units.Length:
		return s.bothLengths(v)
	case units.Temperature:
		return s.bothTemperatures(v)
	case units.TemperatureDifference:
		return s.bothDifferences(v)
	case units.Flow:
		return s.bothFlows(v)
	case units.Volume:
		return s.bothVolumes(v)
	case units.Speed:
		return s.bothSpeeds(v)
	case units.Area:
		return s.bothAreas(v)
	case units.Duration:
		return spokenDuration(v)
	case units.Slope:
		return shortest(v*100) + " %"
	}
	return strings.TrimSpace(shortest(v) + " " + siUnit(d))
}
