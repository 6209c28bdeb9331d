package weather

import (
	"strings"
)

// designRemark begins the comments by which the plain form says that it is a design cold
// snap, and how that was made.
const designRemark = "# design cold snap: "

// mostDesignLines is how many such comments are kept.
const mostDesignLines = 20

// addDesign takes a comment that says how a design cold snap was made; others are passed over.
func (r *record) addDesign(comment []byte) {
	line, ok := strings.CutPrefix(string(comment), designRemark)
	if line = oneLine(line); ok && line != "" && len(r.design) < mostDesignLines {
		r.design = append(r.design, line)
	}
}

// oneLine makes every run of blanks and line ends one blank: names of files may hold any.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// How a snap was made is read by people of either unit, in the file and on the screen: SI
// as the rest of the file, US customary in brackets. Factors are exact (NIST SP 811, 2008,
// appendix B.9).
const (
	metresPerInch         = 0.0254
	metresPerSecondPerMph = 0.44704
)

// bothDegrees gives a temperature [°C], "-28 degC (-18.4 degF)"; number words the first.
func bothDegrees(number func(float64) string, c float64) string {
	return number(c) + " degC (" + oneDecimal(inFahrenheit(c)) + " degF)"
}

// bothKelvin gives a difference [K], "8 K (14.4 degF)".
func bothKelvin(number func(float64) string, k float64) string {
	return number(k) + " K (" + oneDecimal(1.8*k) + " degF)"
}
