package weather

import (
	"fmt"
	"math"
	"slices"

	"winterline/pipe/units"
)

// takeToHours takes a record that has rows between the hours to the hour. A state is that
// of the row nearest to the hour, within half an hour of it; a report of 04:51 so counts
// for 05:00. Where there is none, the hour is a gap, bridged like any other. Amounts are
// summed over the hour that holds the middle of the time in which they fell.
//
// A record with all its rows on the hour, or with longer steps than an hour, stays as it is.
// The record is in order, each stamp once. A sum beyond belief is a problem.
func (r *record) takeToHours() (problems units.Problems) {
	step := int64(usualStep(r.stamp))
	between := func(stamp int64) bool { return stamp%secondsPerHour != 0 }
	off := slices.IndexFunc(r.stamp, between)
	if step > secondsPerHour || off < 0 {
		return nil
	}
	count := 0
	for _, stamp := range r.stamp {
		if between(stamp) {
			count++
		}
	}
	r.repaired(off, Repair{Kind: Hourly, Column: "time", Count: count, Evidence: fmt.Sprintf(
		"%d of %d rows stand between the hours, usually %s apart: states from the row nearest to the hour, amounts summed", count, len(r.stamp), showMinutes(step))})
	h := r.hours()
	for i := range r.columns {
		c := &r.columns[i]
		if c.quantity.amount {
			c.values = h.sums(c.values, step)
		} else {
			c.values = h.nearest(c.values)
		}
	}
	r.stamp, r.line, r.file = h.stamp, h.line, h.file
	for _, c := range r.columns {
		for i, v := range c.values {
			if c.quantity.amount && v > c.quantity.high {
				problems = append(problems, r.problem(i, c.name, fmt.Sprintf("%.4g m in the hour from %s, summed over its rows", v, showTime(wall(r.stamp[i]))),
					fmt.Sprintf("at most %g m", c.quantity.high)))
			}
		}
	}
	return problems
}

// hourGrid is the hours of a record, of those that have a row within half an hour or an
// amount that fell in them.
type hourGrid struct {
	*record
	stamp []int64
	line  []int32  // of the row nearest to the hour
	file  []uint16 // likewise; nil where the record has none
}

// hours finds the hours of a record. Amounts open no hour of their own: their rows do.
func (r *record) hours() *hourGrid {
	h := &hourGrid{record: r}
	best := int64(0)
	for i, stamp := range r.stamp {
		at := nearestHour(stamp)
		n := len(h.stamp)
		away := max(at-stamp, stamp-at)
		if n == 0 || h.stamp[n-1] != at {
			h.stamp, h.line = append(h.stamp, at), append(h.line, r.line[i])
			if r.file != nil {
				h.file = append(h.file, r.file[i])
			}
			best = away
			continue
		}
		if away < best {
			best, h.line[n-1] = away, r.line[i]
			if r.file != nil {
				h.file[n-1] = r.file[i]
			}
		}
	}
	return h
}

// nearestHour returns the hour nearest to a stamp; of two equally near the later.
func nearestHour(stamp int64) int64 { return floorHour(stamp + secondsPerHour/2) }

// floorHour returns the hour in which a stamp lies.
func floorHour(stamp int64) int64 { return floorDiv(stamp, secondsPerHour) * secondsPerHour }

// nearest returns a state column at the hours.
func (h *hourGrid) nearest(values []float64) []float64 {
	out := noValues(len(h.stamp))
	k, best := 0, int64(0)
	for i, v := range values {
		if math.IsNaN(v) {
			continue
		}
		stamp := h.record.stamp[i]
		at := nearestHour(stamp)
		for h.stamp[k] < at {
			k++
		}
		if away := max(at-stamp, stamp-at); math.IsNaN(out[k]) || away < best {
			out[k], best = v, away
		}
	}
	return out
}

// sums returns an amount column summed over the hours. Each amount fell in the time up to
// the next row, an hour at most; the last one in the usual step.
func (h *hourGrid) sums(values []float64, step int64) []float64 {
	out := noValues(len(h.stamp))
	for i, v := range values {
		if math.IsNaN(v) {
			continue
		}
		lasts := step
		if i+1 < len(values) {
			lasts = min(secondsPerHour, h.record.stamp[i+1]-h.record.stamp[i])
		}
		at := floorHour(h.record.stamp[i] + lasts/2)
		k, there := slices.BinarySearch(h.stamp, at)
		if !there {
			k = min(max(k-1, 0), len(h.stamp)-1) // water is not lost for want of a row: the hour before has it
		}
		if math.IsNaN(out[k]) {
			out[k] = 0
		}
		out[k] += v
	}
	return out
}
