package units

import (
	"strconv"
	"strings"
)

// Write puts an SI value into text that Parse reads back to the same float64, such as "0.3556 m".
// It is for edits of a layout, not for people: reports choose their own units and digits.
func Write(d Dimension, v float64) string {
	number := strconv.FormatFloat(v, 'g', -1, 64)
	for _, u := range unitsOf(d) {
		if u.num == 1 && u.den == 1 && u.offset == 0 {
			return number + " " + strings.Fields(u.names)[0]
		}
	}
	return number // a share has no unit
}
