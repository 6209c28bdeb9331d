package units

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// ParseNumber reads a plain decimal number such as 12, -0.5 or 1.2e3. Words, NaN, Inf,
// hexadecimal, digit separators and values beyond float64 are refused. Blanks around it are allowed.
func ParseNumber(text string) (float64, error) {
	s := strings.TrimSpace(text)
	if s == "" {
		return 0, &Error{Found: "nothing", Expected: "a number"}
	}
	if strings.Trim(s, "0123456789+-.eE") != "" || strings.ContainsAny(s, "xXpP_") {
		return 0, &Error{Found: quote(s), Expected: "a number"}
	}
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case errors.Is(err, strconv.ErrRange) || err == nil && math.IsInf(v, 0):
		return 0, &Error{Found: quote(s), Expected: "a number below 1.8e308"}
	case err != nil:
		return 0, &Error{Found: quote(s), Expected: "a number"}
	}
	return v, nil
}
