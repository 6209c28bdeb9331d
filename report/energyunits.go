package report

import "math"

// joulesPerBTU is the International Table British thermal unit [J] (NIST SP 811, appendix B.8, from memory).
const joulesPerBTU = 1055.056

// energy prints a heat [J] in BTU, or in watt-hours.
func (s System) energy(j float64) string {
	if s == US {
		return scaled(j, []scale{{10, joulesPerBTU, 1, "BTU"}, {math.Inf(1), joulesPerBTU, 0, "BTU"}})
	}
	return scaled(j, []scale{{10, 3600, 1, "Wh"}, {10e3, 3600, 0, "Wh"}, {math.Inf(1), 3.6e6, 0, "kWh"}})
}

// bothEnergies prints a heat [J] in the reader's unit with the other one in brackets, "126 BTU (37 Wh)".
func (s System) bothEnergies(j float64) string { return s.energy(j) + " (" + s.other().energy(j) + ")" }

// power prints a heat flow [W] in BTU an hour, or in watts.
func (s System) power(w float64) string {
	if s == US {
		return scaled(w*3600, []scale{{10, joulesPerBTU, 1, "BTU/h"}, {math.Inf(1), joulesPerBTU, 0, "BTU/h"}})
	}
	return scaled(w, []scale{{10, 1, 1, "W"}, {math.Inf(1), 1, 0, "W"}})
}

// bothPowers prints a heat flow [W] in the reader's unit with the other one in brackets, "58 BTU/h (17 W)".
func (s System) bothPowers(w float64) string { return s.power(w) + " (" + s.other().power(w) + ")" }

// bothVolumes prints a volume [m³] in the reader's unit with the other one in brackets, "2.1 gal (8 L)".
func (s System) bothVolumes(m3 float64) string {
	return s.volume(m3) + " (" + s.other().volume(m3) + ")"
}

// bothLengths prints a length [m] in the reader's unit with the other one in brackets, "13 ft (4 m)".
func (s System) bothLengths(m float64) string { return s.length(m) + " (" + s.other().length(m) + ")" }

// bothFlows prints a flow [m³/s] likewise.
func (s System) bothFlows(m3s float64) string { return s.flow(m3s) + " (" + s.other().flow(m3s) + ")" }

// bothAreas prints an area [m²] likewise.
func (s System) bothAreas(m2 float64) string { return s.area(m2) + " (" + s.other().area(m2) + ")" }

// bothSpeeds prints a wind [m/s] in the reader's unit with the other one in brackets, "7 mph (3 m/s)".
func (s System) bothSpeeds(ms float64) string { return s.speed(ms) + " (" + s.other().speed(ms) + ")" }
