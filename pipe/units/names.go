package units

import (
	"slices"
	"strings"
)

// unit is one way of writing a quantity. A value v in it is
// (v − offset) · num / den in SI; num and den are kept apart so that, for example,
// 1.5 in · 254 / 10000 rounds once and gives the float64 nearest to 0.0381 m.
type unit struct {
	names    string // accepted spellings, separated by blanks; the first one is shown
	num, den float64
	offset   float64
}

func (u unit) toSI(v float64) float64 { return (v - u.offset) * u.num / u.den }

func (u unit) matches(name string) bool {
	return slices.Contains(strings.Fields(u.names), name)
}

var inch = unit{names: `in inch inches "`, num: 254, den: 10_000}

// kind describes a dimension to people: what it is, how to write it, its units.
type kind struct {
	what, example string
	units         []unit
}

// Exact factors. The inch is 25.4 mm, the US gallon 231 in³ = 3.785411784 L, the mile 5280 ft, the
// avoirdupois pound 0.45359237 kg, the International Table Btu 1055.05585262 J; a Fahrenheit degree is
// 5/9 K (NIST SP 811, 2008, appendix B.8 and B.9).
var kinds = [...]kind{
	Length: {"a length", `"9 ft", "1-1/2 in" or "48.3 mm"`, []unit{
		{names: "m metre metres meter meters", num: 1, den: 1}, {names: "cm", num: 1, den: 100},
		{names: "mm", num: 1, den: 1000}, {names: "km", num: 1000, den: 1}, inch,
		{names: "ft foot feet '", num: 3048, den: 10_000}, {names: "yd yard yards", num: 9144, den: 10_000}}},
	Area: {"an area", `"40 m2" or "430 ft2"`, []unit{
		{names: "m2 sqm", num: 1, den: 1}, {names: "cm2", num: 1, den: 10_000}, {names: "mm2", num: 1, den: 1e6},
		{names: "ft2 sqft", num: 9290304, den: 1e8}, {names: "in2 sqin", num: 64516, den: 1e8}}},
	Volume: {"a volume", `"25 L" or "6.6 gal"`, []unit{
		{names: "L l litre litres liter liters", num: 1, den: 1000}, {names: "m3", num: 1, den: 1}, {names: "mL ml", num: 1, den: 1e6},
		{names: "gal gallon gallons", num: 3785411784, den: 1e12}, {names: "ft3", num: 28316846592, den: 1e12}}},
	Duration: {"a duration", `"45 s", "6 h" or "3 days"`, []unit{
		{names: "s sec second seconds", num: 1, den: 1}, {names: "min minute minutes", num: 60, den: 1},
		{names: "h hr hour hours", num: 3600, den: 1}, {names: "d day days", num: 86400, den: 1},
		{names: "week weeks", num: 604800, den: 1}}},
	Speed: {"a speed", `"3 mph" or "1.3 m/s"`, []unit{
		{names: "m/s", num: 1, den: 1}, {names: "km/h kph", num: 1, den: 3.6}, {names: "mph", num: 44704, den: 100_000},
		{names: "ft/s", num: 3048, den: 10_000}, {names: "knot knots kn kt", num: 1852, den: 3600}}},
	Flow: {"a flow", `"55 gal/min", "2 gal/h" or "150 L/min"`, []unit{
		{names: "gal/min gpm", num: 3785411784, den: 60e12}, {names: "gal/h gph gal/hr", num: 3785411784, den: 3600e12},
		{names: "gal/d gal/day", num: 3785411784, den: 86400e12},
		{names: "L/s l/s", num: 1, den: 1000}, {names: "L/min l/min", num: 1, den: 60_000},
		{names: "L/h l/h", num: 1, den: 3.6e6}, {names: "L/d l/d L/day", num: 1, den: 86.4e6},
		{names: "m3/s", num: 1, den: 1}, {names: "m3/h", num: 1, den: 3600}, {names: "m3/d m3/day", num: 1, den: 86400}}},
	Temperature: {"a temperature", `"48 degF" or "9 degC"`, []unit{
		{names: "degC C celsius", num: 1, den: 1}, {names: "degF F fahrenheit", num: 5, den: 9, offset: 32}}},
	TemperatureDifference: {"a temperature difference", `"18 degF" or "10 K"`, []unit{
		{names: "K degC C kelvin", num: 1, den: 1}, {names: "degF F fahrenheit", num: 5, den: 9}}},
	Fraction: {"a share", `"24 %" or 0.24`, []unit{{names: "% percent", num: 1, den: 100}}},
	Slope: {"a slope", `"1/8 in/ft" or "2 %"`, []unit{
		{names: "in/ft", num: 1, den: 12}, {names: "% percent", num: 1, den: 100},
		{names: "m/m ft/ft in/in", num: 1, den: 1}, {names: "cm/m", num: 1, den: 100}, {names: "mm/m", num: 1, den: 1000}}},
	Conductivity: {"a thermal conductivity", `"0.19 W/m/K" or "0.25 Btu in/h/ft2/degF"`, []unit{
		{names: "W/m/K W/mK", num: 1, den: 1},
		{names: "Btuin/h/ft2/degF Btuin/hft2degF", num: 1055.05585262 * 0.0254, den: 3600 * 0.09290304 * 5 / 9.},
		{names: "Btu/h/ft/degF Btu/hftdegF", num: 1055.05585262, den: 3600 * 0.3048 * 5 / 9.}}},
	Density: {"a density", `"1400 kg/m3" or "90 lb/ft3"`, []unit{
		{names: "kg/m3", num: 1, den: 1}, {names: "g/cm3", num: 1000, den: 1},
		{names: "lb/ft3 pcf", num: 0.45359237, den: 0.028316846592}}},
	SpecificHeat: {"a specific heat capacity", `"900 J/kg/K"`, []unit{
		{names: "J/kg/K J/kgK", num: 1, den: 1}, {names: "kJ/kg/K kJ/kgK", num: 1000, den: 1},
		{names: "Btu/lb/degF Btu/lbdegF", num: 4186.8, den: 1}}},
	VolumetricHeat: {"a heat capacity by volume", `"2.6 MJ/m3/K"`, []unit{
		{names: "J/m3/K J/m3K", num: 1, den: 1}, {names: "kJ/m3/K kJ/m3K", num: 1000, den: 1},
		{names: "MJ/m3/K MJ/m3K", num: 1e6, den: 1},
		{names: "Btu/ft3/degF Btu/ft3degF", num: 1055.05585262 * 9, den: 0.028316846592 * 5}}},
	VolumetricLatent: {"a latent heat by volume", `"80 MJ/m3"`, []unit{
		{names: "J/m3", num: 1, den: 1}, {names: "kJ/m3", num: 1000, den: 1}, {names: "MJ/m3", num: 1e6, den: 1},
		{names: "Btu/ft3", num: 1055.05585262, den: 0.028316846592}}},
	FilmCoefficient: {"a film coefficient", `"15 W/m2/K"`, []unit{
		{names: "W/m2/K W/m2K", num: 1, den: 1},
		{names: "Btu/h/ft2/degF Btu/hft2degF", num: 1055.05585262, den: 3600 * 0.09290304 * 5 / 9.}}},
	ThermalResistance: {"a thermal resistance", `"0.10 m2K/W"`, []unit{
		{names: "m2K/W Km2/W", num: 1, den: 1},
		{names: "hft2degF/Btu", num: 3600 * 0.09290304 * 5 / 9., den: 1055.05585262}}},
	HydraulicConductivity: {"a hydraulic conductivity", `"13 mm/h" or "0.5 in/h"`, []unit{
		{names: "mm/h", num: 1, den: 3.6e6}, {names: "cm/h", num: 1, den: 360_000}, {names: "in/h in/hr", num: 254, den: 36e6},
		{names: "m/s", num: 1, den: 1}, {names: "cm/s", num: 1, den: 100}, {names: "cm/d cm/day", num: 1, den: 8.64e6},
		{names: "m/d m/day", num: 1, den: 86400}, {names: "ft/d ft/day", num: 3048, den: 864e6}}},
}

func unitsOf(d Dimension) []unit { return kinds[d].units }

// String names the dimension with its article, as messages do: "a length".
func (d Dimension) String() string { return kinds[d].what }

// Expected says what would do where a quantity of this dimension is asked for.
func (d Dimension) Expected() string {
	if d == Fraction {
		return kinds[d].what + ", such as " + kinds[d].example
	}
	return kinds[d].what + " with its unit, such as " + kinds[d].example
}
