package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Parse reads a quantity of dimension d, such as "1-1/2 in", "9 degC" or "1.2 W/m/K", into SI
// (°C for temperatures, K for differences). US customary and SI units are equals. A number may
// be whole, decimal, a fraction (3/8) or a mixed number (1-1/2, 1 1/2, 1½); a length may also be
// feet and inches ("8 ft 6 in"). The sign is kept: bounds are the caller's.
//
// Errors are of type *Error. A bare number is one, except for Fraction; so are a unit of another
// dimension, which is named, and NaN, infinities and values beyond float64.
func Parse(d Dimension, text string) (float64, error) {
	s := strings.TrimSpace(text)
	number, unitText := split(s)
	switch {
	case s == "":
		return 0, &Error{"nothing", d.Expected()}
	case number == "":
		return 0, &Error{quote(s), d.Expected()}
	}
	v, ok := parseAmount(number)
	if !ok {
		expected := d.Expected()
		if strings.Contains(number, ",") {
			expected += "; a point before the decimals, and no commas"
		}
		return 0, &Error{quote(s), expected}
	}
	if unitText == "" {
		if d == Fraction {
			return v, nil
		}
		return 0, &Error{quote(s) + " (no unit)", d.Expected()}
	}
	if d == Length {
		if metres, ok := feetAndInches(v, unitText); ok {
			return metres, nil
		}
	}
	si, err := convert(d, v, s, unitText)
	if err == nil && (math.IsInf(si, 0) || math.IsNaN(si)) {
		err = &Error{quote(s), "a value below 1.8e308"}
	}
	return si, err
}

// convert applies the unit, or says of what kind it is when it does not measure d.
func convert(d Dimension, v float64, whole, unitText string) (float64, error) {
	name := normalise(unitText)
	for _, u := range unitsOf(d) {
		if u.matches(name) {
			return u.toSI(v), nil
		}
	}
	for other := Length; other <= HydraulicConductivity; other++ {
		for _, u := range unitsOf(other) {
			if u.matches(name) {
				return 0, &Error{quote(whole) + ", " + other.String(), d.Expected()}
			}
		}
	}
	found := quote(whole) + " with unknown unit " + quote(unitText)
	for _, u := range unitsOf(d) {
		for _, known := range strings.Fields(u.names) {
			if strings.EqualFold(known, name) {
				return 0, &Error{found + fmt.Sprintf(" (did you mean %q?)", known), d.Expected()}
			}
		}
	}
	return 0, &Error{found, d.Expected()}
}

// split parts a quantity into its number and its unit, at the first letter or sign that
// cannot belong to a number. An exponent (1e3) belongs to the number.
func split(s string) (number, unit string) {
	for i, r := range s {
		if strings.ContainsRune("0123456789.+-−/, ½¼¾⅛⅜⅝⅞", r) {
			continue
		}
		if (r == 'e' || r == 'E') && i > 0 && isExponent(s[i+1:]) && isDigit(s[i-1]) {
			continue
		}
		return strings.TrimSpace(s[:i]), strings.TrimSpace(s[i:])
	}
	return s, ""
}

func isExponent(rest string) bool {
	rest = strings.TrimLeft(rest, "+-")
	return rest != "" && isDigit(rest[0])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// plainSigns spells out what has a character of its own: fractions, and the minus sign of printed tables.
var plainSigns = strings.NewReplacer("−", "-", "½", " 1/2", "¼", " 1/4", "¾", " 3/4",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// parseAmount reads a whole, decimal, fractional or mixed number.
func parseAmount(text string) (float64, bool) {
	s := strings.TrimSpace(plainSigns.Replace(text))
	if !strings.Contains(s, "/") {
		v, err := ParseNumber(s)
		return v, err == nil
	}
	sign := 1.0
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		sign, s = -1, rest
	}
	whole := 0.0
	if i := strings.LastIndexAny(s, " -"); i >= 0 {
		w, ok := parseDigits(strings.TrimSpace(s[:i]))
		if !ok {
			return 0, false
		}
		whole, s = w, s[i+1:]
	}
	above, below, _ := strings.Cut(s, "/")
	num, ok1 := parseDigits(above)
	den, ok2 := parseDigits(below)
	if !ok1 || !ok2 || den == 0 || whole > 0 && num >= den {
		return 0, false
	}
	// whole·den + num is exact for any rule or drill size, so that 1-1/2 is the float64 nearest to 1.5.
	return sign * (whole*den + num) / den, true
}

// parseDigits reads an unsigned whole number of at most nine digits.
func parseDigits(s string) (float64, bool) {
	n, err := strconv.ParseUint(s, 10, 32)
	return float64(n), err == nil && len(s) <= 9
}

// feetAndInches reads the rest of a length such as "8 ft 6-1/2 in" after its first number.
func feetAndInches(feet float64, rest string) (float64, bool) {
	for _, foot := range []string{"feet", "foot", "ft", "'"} {
		after, ok := strings.CutPrefix(rest, foot)
		if !ok {
			continue
		}
		number, unit := split(strings.TrimSpace(after))
		inches, ok := parseAmount(number)
		if !ok || inches < 0 || inches >= 12 || feet < 0 || !inch.matches(normalise(unit)) {
			return 0, false
		}
		return inch.toSI(12*feet + inches), true
	}
	return 0, false
}

// spelling brings the ways in which people write units to one.
var spelling = strings.NewReplacer("²", "2", "³", "3", "^", "", "°", "deg", "·", "", "*", "",
	"(", "", ")", "", " ", "", "\u00a0", "", "µ", "u", "″", `"`, "′", "'", "”", `"`, "’", "'")

func normalise(unit string) string { return spelling.Replace(unit) }
