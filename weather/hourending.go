package weather

import "math"

const secondsPerHour = 3600

// startAmounts moves amounts that are stamped with the end of the time in which they
// fell to its beginning: each to the row before its own. Where rows are missing between
// the two it falls in the whole of that time. What fell before the first row waits for
// the row of another file (see early.go); what fell after a gap of more than 6 h has no
// row to stand in, is left out and told. The last row, of which the file knows nothing
// yet, is without a value.
func (r *record) startAmounts(c recordColumn) {
	if len(c.values) > 0 && isValue(c.values[0]) {
		r.addEarly(c.quantity, c.values[0], r.firstStep(), r.line[0])
	}
	lost, line := 0.0, int32(0)
	for i := 1; i < len(c.values); i++ {
		v := c.values[i]
		if since := r.stamp[i] - r.stamp[i-1]; since > 0 && since <= maxBridge {
			c.values[i-1] = v
			continue
		}
		c.values[i-1] = math.NaN()
		if v > 0 {
			if lost += v; line == 0 {
				line = r.line[i]
			}
		}
	}
	if n := len(c.values); n > 0 {
		c.values[n-1] = math.NaN()
	}
	if lost > 0 {
		r.warn(c.quantity.word, showMillimetres(lost)+" left out", "it fell in the hour after missing rows")
		r.notes[len(r.notes)-1].Line = int(line)
	}
}

// firstStep is the time from the first row to the second, an hour at most [s].
func (r *record) firstStep() int64 {
	if len(r.stamp) > 1 && r.stamp[1] > r.stamp[0] {
		return min(secondsPerHour, r.stamp[1]-r.stamp[0])
	}
	return secondsPerHour
}

// centreMeans takes means of the time before each stamp to values at the stamps: the
// mean of the time before and the time after, which stands in the middle of both. Joined
// linearly they keep the sum and the time of day of the means. Where the next row is
// missing, or does not lie as far on, the mean before stands alone.
func centreMeans(stamp []int64, values []float64) {
	for i := 0; i+1 < len(values); i++ {
		after, step := values[i+1], stamp[i+1]-stamp[i]
		if i > 0 && step != stamp[i]-stamp[i-1] || step <= 0 || step > secondsPerHour || math.IsNaN(after) {
			continue
		}
		values[i] = (values[i] + after) / 2 // NaN stays so: half a value is none
	}
}

// spreadTotal takes a total of several hours that ends at the last row to these hours
// alike, where none of them has an amount of its own. A row after missing ones takes their
// share; what fell before the first row waits for the row of another file (see early.go).
func (r *record) spreadTotal(column, hours int, total float64) {
	values, last := r.columns[column].values, len(r.stamp)-1
	lasts := int64(hours) * secondsPerHour
	begin, from := r.stamp[last]-lasts, last+1
	for from > 0 && last-from < hours-1 && r.stamp[from-1] > begin {
		if from--; isValue(values[from]) {
			return
		}
	}
	for i := from; i <= last; i++ {
		since := max(0, r.stamp[i]-begin)
		share := total * float64(since) / float64(lasts)
		if begin = max(begin, r.stamp[i]); i > 0 {
			values[i] = share
		} else if since > 0 {
			r.addEarly(r.columns[column].quantity, share, since, r.line[last])
		}
	}
}

// spreadRain takes the last row's precipitation to the hours in which it fell, whose
// number a typical year has in a field of its own.
func (r *fieldReader) spreadRain(column int, hours []byte) {
	const most = 24 // beyond it stand codes for missing
	n, ok := parseDecimal(hours)
	values := r.record.columns[column].values
	last := len(values) - 1
	if total := values[last]; ok && n > 1 && n <= most && isValue(total) {
		values[last] = math.NaN()
		r.record.spreadTotal(column, int(n), total)
	}
}
