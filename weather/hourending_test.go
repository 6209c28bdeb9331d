package weather

import "testing"

// hourlyRecord has a row at each of the given hours, and one column.
func hourlyRecord(q *quantity, hours []int64, values ...float64) *record {
	r := &record{source: "w"}
	r.addColumn(q, q.word)
	for i, hour := range hours {
		r.addRow(hour*3600, i+1)
		r.set(0, values[i])
	}
	return r
}

// What fell in the hour that ends at a stamp stands at the row before it. Where rows are
// missing it falls in all of the time between; over more than 6 h it is left out and told.
// So is what fell before the first row, where no other file has that hour.
func TestStartAmounts(t *testing.T) {
	r := hourlyRecord(rainfall, []int64{0, 1, 2, 5, 12, 13}, 0.001, 0.002, none, 0.003, 0.004, 0.005)
	r.startAmounts(r.columns[0])
	wantColumn(t, "rain", r.columns[0].values, 0.002, none, 0.003, none, 0.005, none)
	wantNote(t, r, true, "w:5:", "4 mm left out", "missing rows")
	wantEarly(t, r, "w:1:", "1 mm left out")
}

// wantEarly looks for the note on what fell before the first row of the only file.
func wantEarly(t *testing.T, r *record, words ...string) {
	t.Helper()
	r.dateEarly()
	r.placeEarly()
	wantNote(t, r, true, append(words, "before the first row")...)
}

// Means of the hour before become values at the stamp between two means.
func TestCentreMeans(t *testing.T) {
	r := hourlyRecord(sunshine, []int64{0, 1, 2, 3, 6, 7, 8}, 0, 100, 300, 200, 60, none, 20)
	centreMeans(r.stamp, r.columns[0].values)
	// Before the gap from 3 to 6 h the mean stands alone, as the one before a missing one does.
	wantColumn(t, "sun", r.columns[0].values, 50, 200, 250, 200, 60, none, 20)
}

// A total is spread over its hours where none of them has an amount of its own. A row
// after missing ones has their share, too; what reaches back before the first row is kept.
func TestSpreadTotal(t *testing.T) {
	for _, c := range []struct {
		what   string
		hours  []int64
		before []float64
		want   []float64 // of 6 in 3 h
		early  float64
	}{
		{"three hours", []int64{0, 1, 2, 3}, []float64{0.5, none, none, none}, []float64{0.5, 2, 2, 2}, 0},
		{"an amount of its own", []int64{0, 1, 2, 3}, []float64{none, 0, none, none}, []float64{none, 0, none, none}, 0},
		{"before the first row", []int64{0, 1}, []float64{none, none}, []float64{none, 2}, 4},
		{"the first row alone", []int64{0}, []float64{none}, []float64{none}, 6},
		{"behind a gap", []int64{0, 1, 9, 10}, []float64{none, none, none, none}, []float64{none, none, 4, 2}, 0},
		{"every second hour", []int64{0, 2, 4}, []float64{none, none, none}, []float64{none, 2, 4}, 0},
	} {
		r := hourlyRecord(rainfall, c.hours, c.before...)
		r.spreadTotal(0, 3, 6)
		wantColumn(t, c.what, r.columns[0].values, c.want...)
		early := 0.0
		for _, e := range r.early {
			early += e.total
		}
		if early != c.early {
			t.Errorf("%s: %g kept for the hours before the first row, want %g", c.what, early, c.early)
		}
	}
}
