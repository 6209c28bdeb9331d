package weather

import (
	"fmt"
	"math"
	"slices"

	"winterline/pipe/units"
)

// spans takes a record that is in order apart where air temperature is missing for more
// than 6 h, and makes a series of each part. Parts of fewer than two rows are left out.
func (r *record) spans(strict bool) (spans []*Series, problems units.Problems) {
	if problems := r.checkAxis(); problems != nil || len(r.stamp) < 2 {
		return nil, problems
	}
	if !strict {
		r.leaveOut()
	}
	parts, lone := r.parts()
	if lone > 0 {
		r.warn("time", fmt.Sprintf("%d rows that stand alone between long gaps are left out", lone), "")
	}
	if len(parts) == 0 {
		return nil, units.Problems{{File: r.source, Line: r.headerLine, Found: "no two values of air temperature within 6 h", Expected: "an hourly record"}}
	}
	for _, p := range parts {
		part := r.part(p)
		s, ps := part.series(strict)
		if problems = append(problems, ps...); s != nil {
			spans = append(spans, s)
		}
	}
	return spans, problems
}

// rowRange is rows from..to-1.
type rowRange struct{ from, to int }

// parts finds the parts of the record between long gaps in its air temperature. Each begins
// and ends with a value. lone counts the values that stand between two such gaps by themselves.
func (r *record) parts() (parts []rowRange, lone int) {
	step := usualStep(r.stamp)
	var air []float64
	if c := r.column(airTemperature); c != nil {
		air = c.values
	}
	from, last := -1, -1
	end := func() {
		switch {
		case last > from:
			parts = append(parts, rowRange{from, last + 1})
		case from >= 0:
			lone++
		}
	}
	for i, v := range air {
		if math.IsNaN(v) {
			continue
		}
		if from < 0 || r.at(i)-r.at(last)-step > maxBridge {
			end()
			from = i
		}
		last = i
	}
	end()
	return parts, lone
}

// part returns rows of the record as a record of their own, with its share of the ledger.
// Columns without a value in these rows are not in it.
func (r *record) part(p rowRange) *record {
	part := *r
	part.columns, part.ledger = slices.Clone(r.columns), nil
	part.cut(p.from, p.to)
	part.dropColumns(func(c recordColumn) bool { return !c.any(isValue) })
	begin, end := wall(r.stamp[p.from]), wall(r.stamp[p.to-1])
	for _, e := range r.ledger {
		before := e.Time.Before(begin) && (p.from > 0)
		after := e.Time.After(end) && p.to < len(r.stamp)
		if !before && !after {
			part.ledger = append(part.ledger, e)
		}
	}
	if p.from > 0 {
		part.repaired(0, Repair{Kind: Split, Column: "time", Evidence: "no air temperature before, since " + showTime(wall(r.lastBefore(p.from)))})
	}
	return &part
}

// lastBefore returns the stamp of the last air temperature before a row.
func (r *record) lastBefore(row int) int64 {
	if air := r.column(airTemperature); air != nil {
		for i := row - 1; i >= 0; i-- {
			if isValue(air.values[i]) {
				return r.stamp[i]
			}
		}
	}
	return r.stamp[0]
}
