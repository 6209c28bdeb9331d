package report

import "math"

// joulesPerBTU is the International Table British thermal unit [J] (NIST SP 811, appendix B.8, from memory).
const joulesPerBTU = 1055.056

// Energy prints a heat [J] in BTU, or in watt-hours.
func (s System) Energy(j float64) string {
	if s == US {
		return scaled(j, []scale{{10, joulesPerBTU, 1, "BTU"}, {math.Inf(1), joulesPerBTU, 0, "BTU"}})
	}
	return scaled(j, []scale{{10, 3600, 1, "Wh"}, {10e3, 3600, 0, "Wh"}, {math.Inf(1), 3.6e6, 0, "kWh"}})
}

// BothEnergies prints a heat [J] in the reader's unit with the other one in brackets, "126 BTU (37 Wh)".
func (s System) BothEnergies(j float64) string { return s.Energy(j) + " (" + s.other().Energy(j) + ")" }

// Power prints a heat flow [W] in BTU an hour, or in watts.
func (s System) Power(w float64) string {
	if s == US {
		return scaled(w*3600, []scale{{10, joulesPerBTU, 1, "BTU/h"}, {math.Inf(1), joulesPerBTU, 0, "BTU/h"}})
	}
	return scaled(w, []scale{{10, 1, 1, "W"}, {math.Inf(1), 1, 0, "W"}})
}

// BothPowers prints a heat flow [W] in the reader's unit with the other one in brackets, "58 BTU/h (17 W)".
func (s System) BothPowers(w float64) string { return s.Power(w) + " (" + s.other().Power(w) + ")" }

// BothVolumes prints a volume [m³] in the reader's unit with the other one in brackets, "2.1 gal (8 L)".
func (s System) BothVolumes(m3 float64) string {
	return s.Volume(m3) + " (" + s.other().Volume(m3) + ")"
}

// BothLengths prints a length [m] in the reader's unit with the other one in brackets, "13 ft (4 m)".
func (s System) BothLengths(m float64) string { return s.Length(m) + " (" + s.other().Length(m) + ")" }

// bothFlows prints a flow [m³/s] likewise.
func (s System) bothFlows(m3s float64) string { return s.Flow(m3s) + " (" + s.other().Flow(m3s) + ")" }

// bothAreas prints an area [m²] likewise.
func (s System) bothAreas(m2 float64) string { return s.area(m2) + " (" + s.other().area(m2) + ")" }

// BothSpeeds prints a wind [m/s] in the reader's unit with the other one in brackets, "7 mph (3 m/s)".
func (s System) BothSpeeds(ms float64) string { return s.Speed(ms) + " (" + s.other().Speed(ms) + ")" }
