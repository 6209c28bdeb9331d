package weather

import (
	"fmt"

	"winterline/pipe/units"
)

// hotAir are values under the name air_temp_c that are too high for °C and usual in °F.
// A day of them and more is told as one fault.
type hotAir struct {
	rows  []hotRow // the first of them
	count int
	high  float64
}

type hotRow struct {
	value float64
	line  int
}

const (
	fewHot     = 24    // are told one by one
	hottestInF = 130.0 // that air gets [°F]
)

// add takes a value that is out of its limits; false where it does not look like °F.
func (h *hotAir) add(value float64, line int) bool {
	if value < airTemperature.high || value > hottestInF || isMissingCode(value) {
		return false
	}
	h.high = max(h.high, value)
	if h.count++; h.count <= fewHot {
		h.rows = append(h.rows, hotRow{value, line})
	}
	return true
}

func (h *hotAir) tell(p *plainReader) {
	if h.count > fewHot {
		p.add(units.Problem{File: p.name, Line: h.rows[0].line, Key: "air_temp_c",
			Found:    fmt.Sprintf("%d values from 60 to %g, which look like degF", h.count, h.high),
			Expected: "-90 to 60 degC, or the column to be named air_temp_f"})
		return
	}
	for _, row := range h.rows {
		p.refuse(units.Problem{File: p.name, Line: row.line, Key: "air_temp_c", Found: fmt.Sprint(row.value), Expected: "-90 to 60 degC"})
	}
}
