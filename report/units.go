package report

import (
	"math"
	"strconv"
	"strings"

	"winterline/pipe/units"
)

// System is the set of units in which results are printed.
type System int

// Unit systems.
const (
	US System = iota // US customary: °F, in, ft, gal, gal/min, mph
	SI               // °C, mm, cm, m, L, L/min, m/s
)

// Exact definitions: the international inch is 0.0254 m, the US liquid gallon 231 in³,
// the international mile 5280 ft (NIST Handbook 44, appendix C).
const (
	metresPerInch   = 0.0254
	metresPerFoot   = 12 * metresPerInch
	metresPerMile   = 5280 * metresPerFoot
	litresPerM3     = 1000.0
	pascalsPerPsi   = 6894.757 // pound-force 4.448222 N on a square inch
	litresPerGallon = 231 * metresPerInch * metresPerInch * metresPerInch * litresPerM3
)

func fahrenheit(c float64) float64 { return c*9/5 + 32 }
func gallons(litres float64) float64 {
	return litres / litresPerGallon
}

// temperature prints a temperature [°C] in whole degrees, "27 °F" or "-3 °C".
func (s System) temperature(c float64) string {
	if s == US {
		return number(fahrenheit(c), 0) + " °F"
	}
	return number(c, 0) + " °C"
}

// difference prints a temperature difference [K] in whole degrees, "7 °F" or "4 °C".
func (s System) difference(k float64) string {
	if s == US {
		return number(k*9/5, 0) + " °F"
	}
	return number(k, 0) + " °C"
}

// tenths prints a temperature [°C] to a tenth of a degree, "31.6 °F" or "-0.2 °C".
func (s System) tenths(c float64) string {
	if s == US {
		return number(fahrenheit(c), 1) + " °F"
	}
	return number(c, 1) + " °C"
}

// degrees gives a temperature difference [K] in the reader's degrees, whose name is degreeName.
func (s System) degrees(k float64) float64 {
	if s == US {
		return k * 9 / 5
	}
	return k
}

func (s System) degreeName() string {
	if s == US {
		return "°F"
	}
	return "°C"
}

func (s System) other() System { return US + SI - s }

// length prints a length [m]: inches below two feet and feet above; millimetres,
// centimetres and metres. What is short keeps one more digit.
func (s System) length(m float64) string {
	if s == US {
		return scaled(m, []scale{
			{3, metresPerInch, 1, "in"},
			{24, metresPerInch, 0, "in"},
			{10, metresPerFoot, 1, "ft"},
			{math.Inf(1), metresPerFoot, 0, "ft"},
		})
	}
	return scaled(m, []scale{
		{30, 0.001, 0, "mm"},
		{100, 0.01, 0, "cm"},
		{100, 1, 1, "m"},
		{math.Inf(1), 1, 0, "m"},
	})
}

// depth prints a depth in the ground [m] as the trade speaks of frost, "31 in" or "0.79 m";
// what is shallow in tenths of an inch or whole centimetres.
func (s System) depth(m float64) string {
	if s == US {
		return scaled(m, []scale{{3, metresPerInch, 1, "in"}, {math.Inf(1), metresPerInch, 0, "in"}})
	}
	if math.Abs(m) < 0.095 {
		return number(m*100, 0) + " cm"
	}
	return number(m, 2) + " m"
}

// depthRange prints a range of depths, "14 to 20 in" or "0.36 to 0.51 m".
func (s System) depthRange(top, bottom float64) string {
	if s == US {
		return number(top/metresPerInch, 0) + " to " + number(bottom/metresPerInch, 0) + " in"
	}
	return number(top, 2) + " to " + number(bottom, 2) + " m"
}

// volume prints a volume [m³] in gallons or litres, with one decimal below ten.
func (s System) volume(m3 float64) string {
	unit := s.volumeUnit()
	return scaled(m3, []scale{
		{10, s.volumeSize(), 1, unit},
		{math.Inf(1), s.volumeSize(), 0, unit},
	})
}

func (s System) volumeUnit() string {
	if s == US {
		return "gal"
	}
	return "L"
}

// volumeSize is the size of the unit in which volumes are printed [m³].
func (s System) volumeSize() float64 {
	if s == US {
		return litresPerGallon / litresPerM3
	}
	return 1 / litresPerM3
}

// flow prints a flow [m³/s] in gallons or litres a minute.
func (s System) flow(m3s float64) string {
	unit := s.volumeUnit() + "/min"
	return scaled(m3s*60, []scale{
		{10, s.volumeSize(), 1, unit},
		{math.Inf(1), s.volumeSize(), 0, unit},
	})
}

// pressure prints a pressure [Pa] in pounds on the square inch or megapascals, to two digits.
func (s System) pressure(p float64) string {
	v, unit := p/1e6, " MPa"
	if s == US {
		v, unit = p/pascalsPerPsi, " psi"
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 2, 64), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return "unknown"
	}
	decimals := 0
	for w := math.Abs(rounded); w < 10 && w > 0 && decimals < 3; w *= 10 {
		decimals++
	}
	text := number(rounded, decimals)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text + unit
}

// speed prints a speed [m/s] in miles an hour or metres a second.
func (s System) speed(ms float64) string {
	if s == US {
		return number(ms*3600/metresPerMile, 0) + " mph"
	}
	return number(ms, 1) + " m/s"
}

// airSpeed prints the speed [m/s] of air in a pipe in feet or metres a second.
func (s System) airSpeed(ms float64) string {
	if s == US {
		return number(ms/metresPerFoot, 1) + " ft/s"
	}
	return number(ms, 1) + " m/s"
}

// siUnit names the SI unit in which a guess of that dimension is written in
// summary.json; "" for pure numbers.
func siUnit(d units.Dimension) string {
	return map[units.Dimension]string{
		units.Length: "m", units.Area: "m²", units.Volume: "m³", units.Duration: "s",
		units.Speed: "m/s", units.Flow: "m³/s", units.Temperature: "°C",
		units.TemperatureDifference: "K", units.Conductivity: "W/(m K)",
		units.Density: "kg/m³", units.SpecificHeat: "J/(kg K)",
		units.VolumetricHeat: "J/(m³ K)", units.VolumetricLatent: "J/m³",
		units.FilmCoefficient: "W/(m² K)", units.ThermalResistance: "m² K/W",
		units.HydraulicConductivity: "m/s",
	}[d]
}

// joulesPerBTU is the International Table British thermal unit [J] (NIST SP 811, appendix B.8, from memory).
const joulesPerBTU = 1055.056

// energy prints a heat [J] in BTU, or in watt-hours.
func (s System) energy(j float64) string {
	if s == US {
		return scaled(j, []scale{{10, joulesPerBTU, 1, "BTU"}, {math.Inf(1), joulesPerBTU, 0, "BTU"}})
	}
	return scaled(j, []scale{{10, 3600, 1, "Wh"}, {10e3, 3600, 0, "Wh"}, {math.Inf(1), 3.6e6, 0, "kWh"}})
}

// power prints a heat flow [W] in BTU an hour, or in watts.
func (s System) power(w float64) string {
	if s == US {
		return scaled(w*3600, []scale{{10, joulesPerBTU, 1, "BTU/h"}, {math.Inf(1), joulesPerBTU, 0, "BTU/h"}})
	}
	return scaled(w, []scale{{10, 1, 1, "W"}, {math.Inf(1), 1, 0, "W"}})
}

// area prints an area [m²], "22 ft²" or "2 m²".
func (s System) area(m2 float64) string {
	v, unit := m2, " m²"
	if s == US {
		v, unit = m2/(metresPerFoot*metresPerFoot), " ft²"
	}
	if v < 9.95 {
		return strings.TrimSuffix(number(v, 1), ".0") + unit
	}
	return number(v, 0) + unit
}

// pit prints the volume of a hole in the ground [m³], "24 ft³" or "0.68 m³".
func (s System) pit(m3 float64) string {
	if s == US {
		return number(m3/math.Pow(metresPerFoot, 3), 0) + " ft³"
	}
	return number(m3, 2) + " m³"
}

// slope prints a slope [-] as the trade does, in eighths where it is some, or in percent: "1/4 in/ft" or "2.1 %".
func (s System) slope(slope float64) string {
	if s == SI {
		return trimmed(slope*100) + " %"
	}
	for eighths, words := range []string{"", "1/8", "1/4", "3/8", "1/2"} {
		if eighths > 0 && math.Abs(slope*96-float64(eighths)) < 0.01 {
			return words + " in/ft"
		}
	}
	return number(slope*12, 2) + " in/ft"
}

// thin prints a small length [m], a thickness or a movement, in tenths of an inch or whole millimetres.
func (s System) thin(m float64) string {
	if s == US {
		return s.thinNumber(m) + " in"
	}
	return s.thinNumber(m) + " mm"
}

func (s System) thinNumber(m float64) string {
	if math.IsNaN(m) {
		return "unknown"
	}
	if s == US {
		return strings.TrimSuffix(number(m/metresPerInch, 1), ".0")
	}
	return number(m*1000, 0)
}

// rain prints a depth of water [m], "0.12 in" or "3.0 mm".
func (s System) rain(m float64) string {
	if s == US {
		return number(m/metresPerInch, 2) + " in"
	}
	return number(m*1000, 1) + " mm"
}

// degreeDays prints a sum of degrees over days [K d].
func (s System) degreeDays(kd float64) string {
	return number(s.degrees(kd), 0) + " " + s.degreeName() + " days"
}
