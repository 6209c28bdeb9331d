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
// missing it falls in all of the time between; over more than 6 h, and before the first
// row, it is left out and told.
func TestStartAmounts(t *testing.T) {
	r := hourlyRecord(rainfall, []int64{0, 1, 2, 5, 12, 13}, 0.001, 0.002, none, 0.003, 0.004, 0.005)
	r.startAmounts(r.columns[0])
	wantColumn(t, "rain", r.columns[0].values, 0.002, none, 0.003, none, 0.005, none)
	wantNote(t, r, true, "w:1:", "5 mm left out") // 1 mm before the first row, 4 mm behind the gap
}

// Means of the hour before become values at the stamp between two means.
func TestCentreMeans(t *testing.T) {
	r := hourlyRecord(sunshine, []int64{0, 1, 2, 3, 6, 7, 8}, 0, 100, 300, 200, 60, none, 20)
	centreMeans(r.stamp, r.columns[0].values)
	// Before the gap from 3 to 6 h the mean stands alone, as the one before a missing one does.
	wantColumn(t, "sun", r.columns[0].values, 50, 200, 250, 200, 60, none, 20)
}

// A total is spread over its hours where none of them has an amount of its own. One that
// reaches back before the first row loses that share.
func TestSpreadTotal(t *testing.T) {
	for _, c := range []struct {
		before []float64
		hours  int
		want   []float64
	}{
		{[]float64{0.5, none, none, none}, 3, []float64{0.5, 2, 2, 2}},
		{[]float64{none, 0, none, none}, 3, []float64{none, 0, none, none}},
		{[]float64{none, none}, 3, []float64{2, 2}},
	} {
		hours := []int64{0, 1, 2, 3}[:len(c.before)]
		r := hourlyRecord(rainfall, hours, c.before...)
		r.spreadTotal(0, c.hours, 6)
		wantColumn(t, "spread", r.columns[0].values, c.want...)
	}
	r := hourlyRecord(rainfall, []int64{0, 1, 9, 10}, none, none, none, none)
	r.spreadTotal(0, 3, 6) // of the hours 8, 9, 10 there are rows for two only
	wantColumn(t, "spread beside a gap", r.columns[0].values, none, none, 2, 2)
}
