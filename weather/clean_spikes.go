package weather

import (
	"fmt"
	"math"
)

const (
	spikeRows = 2                  // longest spike [rows]
	spikeTime = 4 * secondsPerHour // from the row before it to the row after it [s]
)

// spikeSize is how far a value has to jump away and back, from both sides, to be taken
// for a fault of the instrument [SI]; 0: the quantity may jump. Air can fall or rise by more
// than 20 K in an hour when a front passes, but does not come back in the next. (Common
// practice, no source.)
func spikeSize(q *quantity) float64 {
	switch q {
	case airTemperature, dewPoint, soilTemperature:
		return 12
	case windSpeed:
		return 30
	case snowOnGround:
		return 0.5
	}
	return 0
}

// takeOutSpikes empties values that jump away and back. The record is in order.
func (r *record) takeOutSpikes() {
	for i := range r.columns {
		c := &r.columns[i]
		r.eachSpike(c, func(from, to int) {
			r.repaired(from, Repair{Kind: Spike, Column: c.name, Count: to - from, Evidence: spikeWords(c, from, to)})
			for row := from; row < to; row++ {
				c.values[row] = math.NaN()
			}
		})
	}
}

// tellSpikes notes them, one note a column, without changing them.
func (r *record) tellSpikes() {
	for i := range r.columns {
		c := &r.columns[i]
		count := 0
		var first Note
		r.eachSpike(c, func(from, to int) {
			if count++; count == 1 {
				first = Note{File: r.fileOf(from), Line: int(r.line[from]), About: c.name, Evidence: spikeWords(c, from, to), Warning: true}
			}
		})
		switch {
		case count == 1:
			first.Text = "a value jumps away and back; left as it is"
		case count > 1:
			first.Text = fmt.Sprintf("values jump away and back, here and %d more times; left as they are", count-1)
		default:
			continue
		}
		r.notes = append(r.notes, first)
	}
}

func spikeWords(c *recordColumn, from, to int) string {
	return fmt.Sprintf("%.4g between %.4g and %.4g in SI; a jump of %g both ways is the limit",
		c.values[from], c.values[from-1], c.values[to], spikeSize(c.quantity))
}

// eachSpike finds the spikes of a column: rows from..to-1 that all lie beyond the rows on
// either side by more than the limit, in the same direction.
func (r *record) eachSpike(c *recordColumn, found func(from, to int)) {
	limit := spikeSize(c.quantity)
	if limit == 0 {
		return
	}
	v := c.values
	for i := 1; i+1 < len(v); i++ {
		if !(math.Abs(v[i]-v[i-1]) > limit) { // nor where one is missing
			continue
		}
		for to := i + 1; to <= i+spikeRows && to < len(v); to++ {
			if jumps(v[i-1], v[i:to], v[to], limit) && r.stamp[to]-r.stamp[i-1] <= spikeTime {
				found(i, to)
				i = to
				break
			}
		}
	}
}

// jumps says whether all values lie above both neighbours, or below both, by more than the limit.
func jumps(before float64, values []float64, behind, limit float64) bool {
	above, below := true, true
	for _, v := range values {
		above = above && v-before > limit && v-behind > limit
		below = below && before-v > limit && behind-v > limit
	}
	return above || below
}
