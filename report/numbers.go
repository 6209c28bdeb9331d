package report

import (
	"math"
	"strconv"
	"strings"
)

// scale is one step of a unit ladder: used while the printed number stays below limit.
type scale struct {
	limit    float64
	size     float64 // SI per unit
	decimals int
	unit     string
}

// scaled prints v by the first step whose rounded number stays below its limit, so
// that no step prints its own limit ("100 cm"); a trailing ".0" is dropped.
func scaled(v float64, ladder []scale) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "unknown"
	}
	step := ladder[len(ladder)-1]
	for _, s := range ladder {
		if roundTo(math.Abs(v)/s.size, s.decimals) < s.limit {
			step = s
			break
		}
	}
	return strings.TrimSuffix(number(v/step.size, step.decimals), ".0") + " " + step.unit
}

func roundTo(v float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	return math.Round(v*p) / p
}

// number prints v with fixed decimals and a comma between thousands; never "-0".
func number(v float64, decimals int) string {
	text := fixed(v, decimals)
	sign := ""
	if strings.HasPrefix(text, "-") {
		sign, text = "-", text[1:]
	}
	whole, fraction, _ := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if fraction != "" {
		fraction = "." + fraction
	}
	return sign + whole + fraction
}

// fixed prints v with fixed decimals; a result of zero carries no sign, and what is
// not a number prints as nothing.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// shortest prints v with at most three significant digits.
func shortest(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(rounded+0, 'f', -1, 64)
}

// trimmed prints two decimals at most.
func trimmed(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(number(v, 2), "0"), ".")
}

// twoDigits prints a number to two significant digits, and whole from 10 on.
func twoDigits(v float64) string {
	if v == 0 || v >= 9.95 {
		return number(v, 0)
	}
	text := number(v, int(1-math.Floor(math.Log10(v))))
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// threeDigits prints a small number to three significant digits.
func threeDigits(v float64) string { return strconv.FormatFloat(v+0, 'g', 3, 64) }

// signed prints a number with its sign; what rounds to zero has none.
func signed(v float64, decimals int) string {
	text := number(v, decimals)
	if roundTo(v, decimals) > 0 {
		return "+" + text
	}
	return text
}

// percent prints a share in whole percent; what is neither nothing nor all never
// prints as 0 or 100.
func percent(share float64) string {
	p := math.Round(share * 100)
	switch {
	case share > 0 && p == 0:
		return "under 1 %"
	case share < 1 && p == 100:
		return "over 99 %"
	}
	return number(p, 0) + " %"
}
