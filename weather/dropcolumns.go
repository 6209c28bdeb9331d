package weather

import (
	"math"
	"slices"
)

// any says whether a value of the column is as asked for.
func (c recordColumn) any(is func(float64) bool) bool { return slices.ContainsFunc(c.values, is) }

// count returns how many values the column has.
func (c recordColumn) count() int {
	n := 0
	for _, v := range c.values {
		if isValue(v) {
			n++
		}
	}
	return n
}

func isValue(v float64) bool { return !math.IsNaN(v) }

// dropColumns takes out the columns for which drop is true.
func (r *record) dropColumns(drop func(recordColumn) bool) {
	r.columns = slices.DeleteFunc(r.columns, drop)
}

// dropEmpty takes out lesser columns without any value. Air temperature stays, so that its
// absence is told.
func (r *record) dropEmpty() {
	r.dropColumns(func(c recordColumn) bool { return c.quantity != airTemperature && !c.any(isValue) })
}

// dropNils takes out columns of the quantities that hold nothing but zeros, which some
// typical years write for what was not observed, and says so.
func (r *record) dropNils(qs ...*quantity) {
	r.dropColumns(func(c recordColumn) bool {
		if !slices.Contains(qs, c.quantity) || c.any(func(v float64) bool { return v > 0 }) {
			return false
		}
		if c.any(isValue) {
			r.warn(c.quantity.word, "left out as not observed", c.name+" is 0 in every row")
		}
		return true
	})
}

// keepOpaque keeps one of two columns of cloud cover: the opaque one, which is what
// radiates, unless the total one has more than twice as many values.
func (r *record) keepOpaque(opaque string) {
	var of, total int
	for _, c := range r.columns {
		switch {
		case c.quantity != cloudCover:
		case c.name == opaque:
			of = c.count()
		default:
			total = c.count()
		}
	}
	r.dropColumns(func(c recordColumn) bool { return c.quantity == cloudCover && (c.name == opaque) != (2*of >= total) })
}
